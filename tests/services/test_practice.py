"""Practice: a new scenario each time, nothing given away before it is marked, nothing in the ledger."""

import json

import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.domain.errors import Conflict, Missing, NotAllowed, WrongState
from trainer.scenario_files import ResponseFault
from trainer.services import assessment, practice, results
from trainer.services.site import Site
from trainer.storage import ledger


def test_practice_goes_from_a_drawn_scenario_to_a_marked_result(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    done = steps.handed_in(teaching_site, place.apprentice, attempt_id)
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert done.passed
    assert page.attempt.state is AttemptState.MARKED
    assert [each.score for each in page.scenarios[0].marks] == [1.0] * len(page.scenarios[0].marks)
    assert page.scenarios[0].run is not None
    assert page.scenarios[0].scenario.answers


def test_page_of_an_open_attempt_holds_no_answer_and_no_seed(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.5)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    shown = page.scenarios[0]
    assert shown.scenario.answers == {}
    assert shown.scenario.seed is None
    written = json.dumps(shown.document)
    for word in ("seed", '"key"', "band", "solution", "misconceptions", "critical", "tests"):
        assert word not in written


def test_seeds_are_even_in_practice_and_never_come_twice(teaching_site: Site, place: School) -> None:
    """The site's seeds run 1, 2, 3, …, so two raw draws fall on each even seed."""
    found = []
    for _ in range(4):
        attempt_id = practice.start_practice(
            teaching_site, place.apprentice, family="long-run", difficulty=0.0
        )
        steps.answer_right(teaching_site, place.apprentice, attempt_id)
        found.append(steps.drawn(teaching_site, attempt_id)[1])
    seeds = [each.seed for each in found]
    assert all(seed % 2 == 0 for seed in seeds)
    assert len(set(seeds)) == 4
    assert len({str(each.set_up) + str(each.facts) for each in found}) == 4


def test_form_sent_twice_starts_one_practice_attempt(teaching_site: Site, place: School) -> None:
    first = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    again = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    other = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.5)
    assert again == first
    assert other != first


def test_practice_enters_nothing_into_the_ledger(teaching_site: Site, place: School) -> None:
    before = _entries(teaching_site, place)
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    steps.handed_in(teaching_site, place.apprentice, attempt_id)
    assert _entries(teaching_site, place) == before


def test_families_are_listed_with_ones_own_count(teaching_site: Site, place: School) -> None:
    practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    counts = {
        each.family: each.attempts_count
        for each in practice.practice_families(teaching_site, place.apprentice)
    }
    assert counts["long-run"] == 1
    assert sum(counts.values()) == 1


def test_unknown_family_is_missing(teaching_site: Site, place: School) -> None:
    with pytest.raises(Missing):
        practice.start_practice(teaching_site, place.apprentice, family="none such", difficulty=0.0)


def test_instructor_does_not_practise(teaching_site: Site, place: School) -> None:
    with pytest.raises(NotAllowed):
        practice.start_practice(teaching_site, place.instructor, family="long-run", difficulty=0.0)


def test_every_version_of_a_response_is_kept_with_its_time(teaching_site: Site, place: School, clock) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    first = _keep(teaching_site, place, attempt_id, "wait", "4 min")
    clock.go_on(seconds=30)
    second = _keep(teaching_site, place, attempt_id, "wait", "5 min 30 s")
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    latest = page.responses[(1, "wait")]
    assert (first.version, second.version) == (1, 2)
    assert (second.at - first.at).total_seconds() == 30
    assert (latest.version, latest.raw, latest.kept_at) == (2, "5 min 30 s", second.at)


@pytest.mark.parametrize("raw", ["", "5", "5 bar", "-3 min", "nan min", "1e999 min", None, ["x"], {"a": 1}])
def test_what_cannot_be_read_is_not_kept(teaching_site: Site, place: School, raw: object) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    with pytest.raises(ResponseFault):
        _keep(teaching_site, place, attempt_id, "wait", raw)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.responses == {}


@pytest.mark.parametrize(("scenario_no", "item_id"), [(2, "wait"), (0, "wait"), (1, "none such")])
def test_item_that_is_not_asked_is_missing(
    teaching_site: Site, place: School, scenario_no: int, item_id: str
) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    with pytest.raises(Missing):
        assessment.keep_response(
            teaching_site,
            place.apprentice,
            attempt_id=attempt_id,
            scenario_no=scenario_no,
            item_id=item_id,
            raw="4 min",
        )


def test_handing_in_twice_changes_nothing_and_tells_the_same(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    steps.answer_right(teaching_site, place.apprentice, attempt_id, but=["supply"])
    first = steps.handed_in(teaching_site, place.apprentice, attempt_id)
    again = steps.handed_in(teaching_site, place.apprentice, attempt_id)
    assert again == first
    assert not first.passed
    assert first.verdict.unanswered == ("1/supply",)


def test_hand_in_with_another_token_changes_nothing(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    with pytest.raises(Conflict):
        assessment.hand_in(teaching_site, place.apprentice, attempt_id=attempt_id, token=attempt_id)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.state is AttemptState.OPEN
    assert page.kind is AttemptKind.PRACTICE


def test_nothing_is_kept_after_handing_in(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    steps.handed_in(teaching_site, place.apprentice, attempt_id)
    with pytest.raises(WrongState, match="handed in"):
        _keep(teaching_site, place, attempt_id, "wait", "4 min")


def test_result_is_not_shown_while_the_attempt_is_open(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    with pytest.raises(WrongState):
        results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)


def _keep(site: Site, place: School, attempt_id, item_id: str, raw: object) -> assessment.Kept:
    return assessment.keep_response(
        site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=raw
    )


def _entries(site: Site, place: School) -> int:
    with site.database.reading() as work:
        return len(
            ledger.list_latest(work, organisation_id=place.apprentice.organisation_id, before=None, limit=100)
        )
