"""What the tables of attempts refuse by themselves, the same on both databases."""

from datetime import UTC, datetime, timedelta
from uuid import UUID, uuid4

import factories
import pytest

from trainer.domain.attempts import AttemptKind, AttemptState, ItemMark
from trainer.domain.errors import Conflict, Duplicate, Missing, WrongState
from trainer.services.site import Site
from trainer.storage import attempts, markings
from trainer.storage.attempts import DrawnScenario, NewAttempt, NewResponse
from trainer.storage.markings import NewMarking

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


@pytest.fixture
def person(site: Site):
    return factories.member(site, factories.provider(site))


def new_attempt(person, **changes: object) -> NewAttempt:
    values = {
        "person_id": person.person_id,
        "organisation_id": person.organisation_id,
        "kind": AttemptKind.PRACTICE,
        "title": "Long run",
        "blueprint": {"rows": [], "pass_mark_frac": 0.8},
        "started_at": NOW,
    }
    return NewAttempt(**{**values, **changes})


def drawn(seed: int) -> DrawnScenario:
    return DrawnScenario(
        family="long-run",
        seed=seed,
        difficulty_percent=50,
        fingerprint=f"{seed:064x}",
        content_version="1",
        core_version="1",
        policy_version="1",
        shown={"title": "Long run", "order": {"b": 1, "a": 0.1}},
        drawn={"key": 1},
    )


def added(site: Site, person, *, seed: int = 2, **changes: object) -> UUID:
    with site.database.work() as work:
        return attempts.add_attempt(work, new_attempt(person, **changes), scenarios=(drawn(seed),))


def new_marking(attempt_id: UUID, **changes: object) -> NewMarking:
    values = {
        "attempt_id": attempt_id,
        "version": 1,
        "marked_at": NOW,
        "passed": True,
        "total_frac": 1.0,
        "critical_failures": [],
        "policy_version": "1",
        "core_version": "1",
        "ledger_seq": None,
    }
    return NewMarking(**{**values, **changes})


def test_documents_come_back_as_they_went_in(site: Site, person) -> None:
    attempt_id = added(site, person, seed=2**53 - 2)
    with site.database.reading() as work:
        ((number, shown),) = attempts.list_shown(work, attempt_id=attempt_id)
    assert number == 1
    assert shown == drawn(0).shown
    assert list(shown["order"]) == ["b", "a"]


def test_seed_is_drawn_once_for_a_person_and_may_be_anothers_too(site: Site, person) -> None:
    added(site, person, seed=2)
    with pytest.raises(Duplicate) as refused:
        added(site, person, seed=2)
    other = factories.member(site, factories.provider(site))
    assert refused.value.constraint == "uq_attempt_scenario_person_id_seed"
    assert added(site, other, seed=2)


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": AttemptKind.ASSESSED},
        {"expires_at": NOW},
        {"expires_at": NOW - timedelta(seconds=1)},
    ],
    ids=["assessed without assignment", "expires at its start", "expires before its start"],
)
def test_attempt_that_cannot_be_is_refused(site: Site, person, changes: dict) -> None:
    with pytest.raises(Conflict):
        added(site, person, **changes)


def test_attempt_of_nobody_is_refused(site: Site, person) -> None:
    with pytest.raises(Missing):
        added(site, person, person_id=uuid4())


def test_state_only_goes_forward(site: Site, person) -> None:
    attempt_id = added(site, person)
    with site.database.work() as work:
        attempts.advance_attempt(work, attempt_id=attempt_id, to=AttemptState.SUBMITTED, ended_at=NOW)
    with pytest.raises(WrongState), site.database.work() as work:
        attempts.advance_attempt(work, attempt_id=attempt_id, to=AttemptState.EXPIRED)


def test_versions_of_a_response_count_by_item(site: Site, person) -> None:
    attempt_id = added(site, person)
    with site.database.work() as work:
        versions = [
            attempts.record_response(
                work,
                NewResponse(scenario_no=1, item_id=item_id, raw=raw),
                attempt_id=attempt_id,
                now=NOW,
            ).version
            for item_id, raw in (("wait", "4 min"), ("wait", "5 min"), ("look", ["a", {"x": 1.5, "y": 2}]))
        ]
    with site.database.reading() as work:
        latest = attempts.list_latest_responses(work, attempt_id=attempt_id)
    assert versions == [1, 2, 1]
    assert [(each.item_id, each.version, each.raw) for each in latest] == [
        ("look", 1, ["a", {"x": 1.5, "y": 2}]),
        ("wait", 2, "5 min"),
    ]
    assert latest[0].kept_at == NOW


def test_an_answer_sent_again_is_the_answer_that_stands(site: Site, person) -> None:
    attempt_id, later = added(site, person), NOW + timedelta(minutes=5)
    again = NewResponse(scenario_no=1, item_id="look", raw=["a", {"x": 1.5}])
    with site.database.work() as work:
        first = attempts.record_response(work, again, attempt_id=attempt_id, now=NOW)
        second = attempts.record_response(work, again, attempt_id=attempt_id, now=later)
        other = NewResponse(scenario_no=1, item_id="look", raw=["a"])
        changed = attempts.record_response(work, other, attempt_id=attempt_id, now=later)
        back = attempts.record_response(work, again, attempt_id=attempt_id, now=later)
    assert second == first
    assert (changed.version, back.version) == (2, 3)  # gone back to is a change too


def test_response_to_a_scenario_that_is_not_there_is_refused(site: Site, person) -> None:
    attempt_id = added(site, person)
    with pytest.raises(Missing), site.database.work() as work:
        attempts.record_response(
            work,
            NewResponse(scenario_no=2, item_id="wait", raw="4 min"),
            attempt_id=attempt_id,
            now=NOW,
        )


def test_attempt_is_marked_in_one_version_once(site: Site, person) -> None:
    attempt_id = added(site, person)
    with site.database.work() as work:
        first = markings.add_marking(work, new_marking(attempt_id), scenarios=(), marks=())
    with pytest.raises(Duplicate), site.database.work() as work:
        markings.add_marking(work, new_marking(attempt_id), scenarios=(), marks=())
    with site.database.work() as work:
        later = new_marking(
            attempt_id, version=2, supersedes=first, marked_by=person.person_id, reason="Unit unclear"
        )
        markings.add_marking(work, later, scenarios=(), marks=())
    with site.database.reading() as work:
        assert markings.get_standing_marking(work, attempt_id=attempt_id).version == 2
        assert len(markings.list_markings(work, attempt_id=attempt_id)) == 2


@pytest.mark.parametrize(
    "changes",
    [
        {"version": 2},
        {"reason": "", "version": 2, "marked_by": "person", "supersedes": "first"},
        {"total_frac": 1.01},
        {"marked_by": "person"},
        {"total_frac": None},
    ],
    ids=["later over nothing", "later without reason", "over one", "first by somebody", "pass without total"],
)
def test_marking_that_cannot_be_is_refused(site: Site, person, changes: dict) -> None:
    attempt_id = added(site, person)
    values = {"person": person.person_id, "first": uuid4()}
    filled = {name: values.get(value, value) for name, value in changes.items()}
    with pytest.raises((Conflict, Missing)), site.database.work() as work:
        markings.add_marking(work, new_marking(attempt_id, **filled), scenarios=(), marks=())


@pytest.mark.parametrize(
    "changes",
    [
        {"score": 1.2},
        {"skill": 13},
        {"weight": 0.0},
        {"score": None},  # right without a score
        {"score": None, "correct": False, "answered": False},
        {"score": None, "correct": False, "critical_missed": True},
    ],
    ids=str,
)
def test_outcome_that_cannot_be_is_refused(site: Site, person, changes: dict) -> None:
    attempt_id = added(site, person)
    mark = {
        "scenario_no": 1,
        "family": "long-run",
        "item_id": "wait",
        "skill": 6,
        "weight": 1.0,
        "score": 1.0,
        "correct": True,
        "answered": True,
        "critical_missed": False,
    }
    with pytest.raises(Conflict), site.database.work() as work:
        markings.add_marking(
            work,
            new_marking(attempt_id),
            scenarios=(),
            marks=(ItemMark(**{**mark, **changes}),),
        )
