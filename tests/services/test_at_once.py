"""Several requests at once, each through a connection pool of its own as separate processes have."""

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from threading import Barrier
from typing import Any
from uuid import UUID

import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.errors import Conflict, DomainError, WrongState
from trainer.domain.overrides import Override
from trainer.services import assessment, grading, practice, qualification_pages, qualifying, results
from trainer.services.records import verify_ledgers
from trainer.services.settling import settle
from trainer.services.site import Site
from trainer.storage import ledger, markings
from trainer.storage.database import Database

AT_ONCE = 4


@pytest.fixture
def sites(teaching_site: Site) -> Iterator[list[Site]]:
    """The same site as several processes have it: one database, one connection pool each."""
    url = teaching_site.database._url.render_as_string(hide_password=False)
    databases = [Database(url) for _ in range(AT_ONCE)]
    yield [replace(teaching_site, database=each) for each in databases]
    for each in databases:
        each.dispose()


def at_once(sites: list[Site], act: Callable[[Site], Any]) -> list[Any]:
    """What each of them gets, or the error that it meets, all starting together."""
    barrier = Barrier(len(sites))

    def run(site: Site) -> Any:
        barrier.wait()
        try:
            return act(site)
        except DomainError as error:
            return error

    with ThreadPoolExecutor(len(sites)) as pool:
        return list(pool.map(run, sites))


def test_one_answer_sent_several_times_at_once_is_kept_once(
    teaching_site: Site, place: School, sites: list[Site]
) -> None:
    attempt_id = _practising(teaching_site, place)
    kept = at_once(
        sites,
        lambda site: assessment.keep_response(
            site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id="wait", raw="6 min"
        ),
    )
    assert [each.version for each in kept] == [1, 1, 1, 1]


def test_handing_in_at_once_marks_once_and_tells_everybody_the_same(
    teaching_site: Site, place: School, sites: list[Site]
) -> None:
    attempt_id = _assessed(teaching_site, place)
    token = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id).hand_in_token
    done = at_once(
        sites,
        lambda site: assessment.hand_in(site, place.apprentice, attempt_id=attempt_id, token=token),
    )
    assert all(each == done[0] for each in done)
    assert done[0].passed
    assert _markings(teaching_site, attempt_id) == 1
    assert _types(teaching_site, place) == ["attempt-started", "attempt-handed-in", "attempt-marked"]


def test_expiry_settled_at_once_marks_once(
    teaching_site: Site, place: School, sites: list[Site], clock
) -> None:
    attempt_id = _assessed(teaching_site, place)
    clock.go_on(hours=1)
    at_once(sites, lambda site: settle(site, attempt_id=attempt_id))
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.marking.passed
    assert _markings(teaching_site, attempt_id) == 1
    assert _types(teaching_site, place) == ["attempt-started", "attempt-expired", "attempt-marked"]


def test_response_and_hand_in_at_once_leave_nothing_acknowledged_unmarked(
    teaching_site: Site, place: School, sites: list[Site]
) -> None:
    """Either the response came first and counts, or it is refused; it is never acknowledged and lost."""
    attempt_id = _assessed(teaching_site, place, but=["supply"])
    page = assessment.attempt_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    raw = steps.keys(steps.drawn(teaching_site, attempt_id)[1])["supply"]

    def act(site: Site) -> Any:
        if site is sites[0]:
            return assessment.hand_in(site, place.apprentice, attempt_id=attempt_id, token=page.hand_in_token)
        return assessment.keep_response(
            site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id="supply", raw=raw
        )

    done, *kept = at_once(sites, act)
    acknowledged = [each for each in kept if isinstance(each, assessment.Kept)]
    assert all(isinstance(each, assessment.Kept | WrongState) for each in kept)
    assert done.passed is bool(acknowledged)
    assert done.verdict.unanswered == (() if acknowledged else ("1/supply",))


def test_starting_at_once_starts_one_attempt(teaching_site: Site, place: School, sites: list[Site]) -> None:
    assignment_id = steps.assigned(teaching_site, place)
    started = at_once(
        sites,
        lambda site: assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id),
    )
    assert len(set(started)) == 1
    assert _types(teaching_site, place) == ["attempt-started"]


def test_practice_started_at_once_never_shares_a_seed(
    teaching_site: Site, place: School, sites: list[Site]
) -> None:
    """All draw the same raw seeds, as processes with the same luck would."""
    same_luck = [replace(each, new_seed=iter(range(100, 200)).__next__) for each in sites]
    difficulties = dict(zip(map(id, same_luck), (0.0, 0.1, 0.2, 0.3), strict=True))
    started = at_once(
        same_luck,
        lambda site: practice.start_practice(
            site, place.apprentice, family="long-run", difficulty=difficulties[id(site)]
        ),
    )
    ids = [each for each in started if isinstance(each, UUID)]
    seeds = [steps.drawn(teaching_site, each)[1].seed for each in ids]
    assert len(ids) == AT_ONCE
    assert len(set(seeds)) == AT_ONCE


def test_award_sent_several_times_at_once_awards_once(
    teaching_site: Site, place: School, sites: list[Site]
) -> None:
    attempt_id = steps.passed_attempt(teaching_site, place)
    seen = steps.observation(teaching_site, place.second, of=place.apprentice)
    recorded = at_once(sites, lambda site: grading.record_observation(site, place.second, observation=seen))
    award = steps.award_of(
        place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen.observation_id,)
    )
    awarded = at_once(sites, lambda site: qualifying.award(site, place.second, award=award))
    assert set(recorded) == {seen.observation_id}
    assert len(set(awarded)) == 1
    assert len(qualification_pages.own_qualifications(teaching_site, place.apprentice)) == 1


def test_overrides_at_once_make_a_single_chain(teaching_site: Site, place: School, sites: list[Site]) -> None:
    """Each saw the first marking; one is laid over it, and the others are told to look again."""
    attempt_id = steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    scores = dict(zip(map(id, sites), (0.1, 0.2, 0.3, 0.4), strict=True))
    done = at_once(
        sites,
        lambda site: grading.override_score(
            site,
            place.second,
            attempt_id=attempt_id,
            override=Override(
                scenario_no=1,
                item_id="supply",
                score_frac=scores[id(site)],
                critical_missed=False,
                reason="Looked at again",
                of_version=1,
            ),
        ),
    )
    assert sorted(map(str, (each for each in done if each == 2))) == ["2"]
    assert sum(isinstance(each, Conflict) for each in done) == AT_ONCE - 1
    assert _markings(teaching_site, attempt_id) == 2


def test_ledger_holds_after_everybody_has_written_at_once(
    teaching_site: Site, place: School, sites: list[Site]
) -> None:
    attempt_ids = [_assessed(teaching_site, place) for _ in sites]
    pages = [
        assessment.attempt_page(teaching_site, place.apprentice, attempt_id=each) for each in attempt_ids
    ]
    mine = dict(zip(map(id, sites), pages, strict=True))
    at_once(
        sites,
        lambda site: assessment.hand_in(
            site,
            place.apprentice,
            attempt_id=mine[id(site)].attempt_id,
            token=mine[id(site)].hand_in_token,
        ),
    )
    assert all(each.proof.holds for each in verify_ledgers(teaching_site.database))
    assert _types(teaching_site, place).count("attempt-marked") == AT_ONCE


def _practising(site: Site, place: School) -> UUID:
    return practice.start_practice(site, place.apprentice, family="long-run", difficulty=0.0)


def _assessed(site: Site, place: School, *, but: tuple[str, ...] | list[str] = ()) -> UUID:
    assignment_id = steps.assigned(site, place, time_limit_s=600)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(site, place.apprentice, attempt_id, but=but)
    return attempt_id


def _markings(site: Site, attempt_id: UUID) -> int:
    with site.database.reading() as work:
        return len(markings.list_markings(work, attempt_id=attempt_id))


def _types(site: Site, place: School) -> list[str]:
    with site.database.reading() as work:
        entries = ledger.list_latest(
            work, organisation_id=place.apprentice.organisation_id, before=None, limit=100
        )
    return [each["type"] for each in reversed(entries) if each["type"].startswith("attempt-")]
