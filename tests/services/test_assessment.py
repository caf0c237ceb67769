"""Assessed attempts: one at a time, time is the server's, every act in the ledger, seeds of their own space."""

import json
from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.attempts import AttemptState
from trainer.domain.errors import Missing, NotAllowed, WrongState
from trainer.services import assessment, own_work, results, teaching
from trainer.services.records import verify_ledgers
from trainer.services.site import Site
from trainer.storage import attempts, ledger


def entry_types(site: Site, place: School) -> list[str]:
    """The ledger of the school from the attempt on, oldest first."""
    with site.database.reading() as work:
        entries = ledger.list_latest(
            work, organisation_id=place.apprentice.organisation_id, before=None, limit=100
        )
    return [each["type"] for each in reversed(entries) if not each["type"].startswith("role-")]


def test_assessed_attempt_is_drawn_from_its_module(teaching_site: Site, place: School) -> None:
    rows = (steps.row(3, "long-run", how_many=2, difficulty=0.5), steps.row(4, "end-plates"))
    assignment_id = steps.assigned(teaching_site, place, rows=rows, time_limit_s=1200)
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert [each.scenario.family for each in page.scenarios] == ["long-run", "long-run", "end-plates"]
    assert [each.scenario.difficulty for each in page.scenarios] == [0.5, 0.5, 0.0]
    assert page.seconds_left == 1200
    assert page.expires_at == page.started_at + timedelta(minutes=20)


def test_seeds_of_assessment_are_odd(teaching_site: Site, place: School) -> None:
    attempt_id = _started(teaching_site, place, rows=(steps.row(3, "long-run", how_many=4),))
    seeds = [each.seed for each in steps.drawn(teaching_site, attempt_id).values()]
    assert all(seed % 2 == 1 for seed in seeds)
    assert len(set(seeds)) == 4


def test_stored_scenario_names_core_content_and_policy_versions(teaching_site: Site, place: School) -> None:
    attempt_id = _started(teaching_site, place)
    scenario = steps.drawn(teaching_site, attempt_id)[1]
    assert scenario.core_version
    assert scenario.content_version == teaching_site.content.families["long-run"].content_version
    assert scenario.policy_version == teaching_site.content.policy.version
    assert all(answer.key is not None for answer in scenario.answers.values())


def test_answers_do_not_reach_the_page_before_marking(teaching_site: Site, place: School) -> None:
    attempt_id = _started(teaching_site, place)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    written = json.dumps([each.document for each in page.scenarios])
    for word in ("seed", '"key"', "band", "solution", "misconceptions", "critical"):
        assert word not in written
    assert all(each.scenario.answers == {} for each in page.scenarios)


def test_starting_again_goes_on_with_the_open_attempt(teaching_site: Site, place: School) -> None:
    assignment_id = steps.assigned(teaching_site, place)
    first = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    again = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    assert again == first
    assert entry_types(teaching_site, place) == ["attempt-started"]


def test_no_further_attempt_beyond_those_allowed(teaching_site: Site, place: School) -> None:
    assignment_id = steps.assigned(teaching_site, place, attempts_allowed=2)
    for _ in range(2):
        attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
        steps.handed_in(teaching_site, place.apprentice, attempt_id)
    with pytest.raises(WrongState, match="2 of 2"):
        assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)


def test_start_hand_in_and_marking_are_in_a_ledger_that_proves_itself(
    teaching_site: Site, place: School
) -> None:
    steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    assert entry_types(teaching_site, place) == ["attempt-started", "attempt-handed-in", "attempt-marked"]
    assert all(each.proof.holds for each in verify_ledgers(teaching_site.database))


def test_response_after_the_limit_is_refused_and_those_before_count(
    teaching_site: Site, place: School, clock
) -> None:
    attempt_id = _started(teaching_site, place, time_limit_s=600)
    steps.answer_right(teaching_site, place.apprentice, attempt_id, but=["supply"])
    expires_at = clock.at + timedelta(seconds=600)
    clock.go_on(seconds=599.999)
    kept = _keep_supply(teaching_site, place, attempt_id)
    clock.at = expires_at
    with pytest.raises(WrongState, match="time was up at 2026-03-02 09:10:00 UTC"):
        _keep_supply(teaching_site, place, attempt_id)
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert kept.version == 1
    assert page.marking.passed
    assert page.attempt.ran_out_of_time
    assert page.attempt.ended_at == expires_at


def test_expired_attempt_is_settled_by_the_next_read_and_what_was_kept_is_scored(
    teaching_site: Site, place: School, clock
) -> None:
    attempt_id = _started(teaching_site, place, time_limit_s=600)
    steps.answer_right(teaching_site, place.apprentice, attempt_id, but=["supply"])
    clock.go_on(hours=5)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    result = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    scores = {each.item_id: each.score for each in result.scenarios[0].marks}
    assert page.state is AttemptState.MARKED
    assert not result.marking.passed
    assert scores.pop("supply") == 0.0
    assert set(scores.values()) == {1.0}
    assert entry_types(teaching_site, place) == ["attempt-started", "attempt-expired", "attempt-marked"]


def test_hand_in_cut_short_before_its_marking_is_marked_by_the_next_read(
    teaching_site: Site, place: School, clock
) -> None:
    """As a server killed between the two transactions leaves it."""
    attempt_id = _started(teaching_site, place)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    with teaching_site.database.work() as work:
        attempts.advance_attempt(work, attempt_id=attempt_id, to=AttemptState.SUBMITTED, ended_at=clock.at)
    clock.go_on(days=3)
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.marking.passed
    assert not page.attempt.ran_out_of_time


def test_what_the_core_made_of_the_own_set_up_is_stored_with_the_marks(
    teaching_site: Site, place: School
) -> None:
    attempt_id = steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    (scenario,) = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id).scenarios
    assert scenario.run is not None
    assert scenario.run.root is not None
    assert scenario.document["run"]["root"]["grade"] == scenario.run.root.grade
    assert scenario.document["run"]["section"]["length_mm"] == scenario.run.section.length_m * 1e3


def test_handing_in_late_ends_the_attempt_at_its_limit(teaching_site: Site, place: School, clock) -> None:
    attempt_id = _started(teaching_site, place, time_limit_s=600)
    token = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id).hand_in_token
    clock.go_on(minutes=11)
    done = assessment.hand_in(teaching_site, place.apprentice, attempt_id=attempt_id, token=token)
    assert done.ran_out_of_time
    assert not done.passed


def test_own_attempts_are_read_wherever_they_were_made(teaching_site: Site, place: School) -> None:
    """The same person learns at two providers; a colleague's attempts are not among them."""
    attempt_id = _started(teaching_site, place)
    other = steps.school(teaching_site)
    _started(teaching_site, other)
    elsewhere = replace(place.apprentice, organisation_id=other.founder.organisation_id)
    assert [each.attempt_id for each in own_work.own_attempts(teaching_site, elsewhere)] == [attempt_id]


def test_attempt_without_time_limit_never_expires(teaching_site: Site, place: School, clock) -> None:
    attempt_id = _started(teaching_site, place, time_limit_s=None)
    clock.go_on(days=400)
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.state is AttemptState.OPEN
    assert page.seconds_left is None


def test_module_is_judged_as_it_was_drawn_even_after_it_is_retired(
    teaching_site: Site, place: School
) -> None:
    attempt_id = _started(teaching_site, place)
    module_id = teaching.modules_here(teaching_site, place.instructor)[0].module_id
    teaching.retire_module(teaching_site, place.instructor, module_id=module_id)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    assert steps.handed_in(teaching_site, place.apprentice, attempt_id).passed


def test_module_critical_item_fails_the_attempt_when_it_is_wrong(teaching_site: Site, place: School) -> None:
    blueprint = teaching.Blueprint(
        rows=(steps.row(3, "long-run"),), pass_mark_frac=0.1, critical_items=("long-run/supply",)
    )
    module_id = teaching.make_module(teaching_site, place.instructor, title="Critical", blueprint=blueprint)
    giving = teaching.Giving(module_id=module_id, due_on=teaching_site.today())
    assignment_id = teaching.assign_to_person(
        teaching_site, place.instructor, giving=giving, person_id=place.apprentice.person_id
    )
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(teaching_site, place.apprentice, attempt_id, but=["supply"])
    item_id, wrong = steps.wrong_answer(steps.drawn(teaching_site, attempt_id)[1])
    assessment.keep_response(
        teaching_site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=wrong
    )
    done = steps.handed_in(teaching_site, place.apprentice, attempt_id)
    assert done.verdict.critical_failures == ("1/supply",)
    assert not done.passed


def test_somebody_who_was_not_given_the_assignment_does_not_find_it(
    teaching_site: Site, place: School
) -> None:
    assignment_id = steps.assigned(teaching_site, place)
    other = steps.school(teaching_site)
    founder = factories.acting_as(
        teaching_site,
        person_id=place.instructor.person_id,
        organisation_id=place.instructor.organisation_id,
    )
    for stranger in (other.apprentice, other.instructor, founder):
        with pytest.raises((Missing, NotAllowed)):
            assessment.start_assignment(teaching_site, stranger, assignment_id=assignment_id)
    with pytest.raises(Missing):
        assessment.start_assignment(teaching_site, place.apprentice, assignment_id=uuid4())


def test_another_apprentice_of_the_same_class_cannot_touch_the_attempt(
    teaching_site: Site, place: School
) -> None:
    """Nor can somebody of another organisation; neither learns that there is such an attempt."""
    attempt_id = _started(teaching_site, place)
    token = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id).hand_in_token
    stranger = steps.school(teaching_site).apprentice
    with pytest.raises(Missing):
        assessment.attempt_page(teaching_site, stranger, attempt_id=attempt_id)
    with pytest.raises(Missing):
        _keep_supply(teaching_site, replace(place, apprentice=stranger), attempt_id)
    with pytest.raises(Missing):
        assessment.hand_in(teaching_site, stranger, attempt_id=attempt_id, token=token)
    with pytest.raises(Missing):
        results.result_page(teaching_site, stranger, attempt_id=attempt_id)


def _started(site: Site, place: School, **module: object):
    assignment_id = steps.assigned(site, place, **module)
    return assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)


def _keep_supply(site: Site, place: School, attempt_id) -> assessment.Kept:
    raw = steps.keys(steps.drawn(site, attempt_id)[1])["supply"]
    return assessment.keep_response(
        site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id="supply", raw=raw
    )
