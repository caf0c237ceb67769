"""Attempts, what was drawn for them, and the responses kept: queries and writers."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, bindparam, func, select

from trainer.domain.attempts import Attempt, AttemptKind, AttemptState, advanced
from trainer.domain.errors import Missing
from trainer.storage.database import Work
from trainer.storage.shown_scenarios import get_shown_of, list_shown_of
from trainer.storage.tables.attempts import AttemptRow, AttemptScenarioRow, ResponseRow
from trainer.storage.tables.people import PersonRow


@dataclass(frozen=True, kw_only=True)
class NewAttempt:
    """An attempt about to start; the blueprint is a document."""

    person_id: UUID
    organisation_id: UUID
    kind: AttemptKind
    title: str
    blueprint: dict[str, Any]
    started_at: datetime
    expires_at: datetime | None = None
    module_id: UUID | None = None
    assignment_id: UUID | None = None


@dataclass(frozen=True, kw_only=True)
class DrawnScenario:
    """A scenario drawn for an attempt: `shown` without answers and seed, `drawn` with everything."""

    family: str
    seed: int
    difficulty_percent: int
    fingerprint: str
    content_version: str
    core_version: str
    policy_version: str
    shown: dict[str, Any]
    drawn: dict[str, Any]


@dataclass(frozen=True, kw_only=True)
class NewResponse:
    """A response about to be kept, as it was typed."""

    scenario_no: int
    item_id: str
    raw: Any


@dataclass(frozen=True, kw_only=True)
class KeptResponse:
    """The latest version of a response, as it was typed."""

    scenario_no: int
    item_id: str
    version: int
    raw: Any
    kept_at: datetime


def lock_person(work: Work, *, person_id: UUID) -> None:
    """Lets nobody else start an attempt for this person until the transaction ends."""
    work.session.execute(
        select(PersonRow.person_id).where(PersonRow.person_id == person_id).with_for_update()
    )


def add_attempt(work: Work, new: NewAttempt, *, scenarios: tuple[DrawnScenario, ...]) -> UUID:
    """An open attempt with its scenarios, numbered from 1."""
    row = AttemptRow(**vars(new), state=AttemptState.OPEN)
    work.session.add(row)
    work.session.flush()
    work.session.add_all(
        AttemptScenarioRow(
            attempt_id=row.attempt_id, scenario_no=number, person_id=new.person_id, **vars(each)
        )
        for number, each in enumerate(scenarios, start=1)
    )
    work.session.flush()
    return row.attempt_id


def get_own_attempt(work: Work, *, attempt_id: UUID, person_id: UUID) -> Attempt:
    """The person's own attempt; raises Missing for anybody else's."""
    return _attempt(_row(work, AttemptRow.attempt_id == attempt_id, AttemptRow.person_id == person_id))


def get_attempt(work: Work, *, attempt_id: UUID) -> Attempt:
    """An attempt whoever it belongs to; whether it may be shown has been settled before."""
    return _attempt(_row(work, AttemptRow.attempt_id == attempt_id))


def get_own_attempt_to_change(work: Work, *, attempt_id: UUID, person_id: UUID) -> Attempt:
    """The person's own attempt, held against everybody else's changes until the transaction ends."""
    own = (AttemptRow.attempt_id == attempt_id, AttemptRow.person_id == person_id)
    return _attempt(_row(work, *own, to_change=True))


def get_attempt_to_change(work: Work, *, attempt_id: UUID) -> Attempt:
    """An attempt, held against everybody else's changes until the transaction ends."""
    return _attempt(_row(work, AttemptRow.attempt_id == attempt_id, to_change=True))


def _row(work: Work, *conditions: ColumnElement[bool], to_change: bool = False) -> AttemptRow:
    query = select(AttemptRow).where(*conditions)
    if to_change:
        # read anew even where this session has seen the row: somebody may have changed it before the lock
        query = query.with_for_update().execution_options(populate_existing=True)
    row = work.session.scalar(query)
    if row is None:
        raise Missing("attempt")
    return row


def _attempt(row: AttemptRow) -> Attempt:
    return Attempt(
        attempt_id=row.attempt_id,
        person_id=row.person_id,
        organisation_id=row.organisation_id,
        kind=row.kind,
        state=row.state,
        title=row.title,
        started_at=row.started_at,
        expires_at=row.expires_at,
        hand_in_token=row.hand_in_token,
        module_id=row.module_id,
        assignment_id=row.assignment_id,
        ended_at=row.ended_at,
    )


def advance_attempt(
    work: Work, *, attempt_id: UUID, to: AttemptState, ended_at: datetime | None = None
) -> None:
    """The next state of an attempt; raises WrongState where it cannot go there."""
    row = work.session.get_one(AttemptRow, attempt_id)
    row.state = advanced(row.state, to=to)
    row.ended_at = row.ended_at or ended_at
    work.session.flush()


def get_blueprint(work: Work, *, attempt_id: UUID) -> dict[str, Any]:
    """The blueprint that an attempt was drawn from, as a document."""
    blueprint: dict[str, Any] = work.session.execute(
        select(AttemptRow.blueprint).where(AttemptRow.attempt_id == attempt_id)
    ).scalar_one()
    return blueprint


def list_shown(work: Work, *, attempt_id: UUID) -> tuple[tuple[int, dict[str, Any]], ...]:
    """What may be shown of each scenario before the attempt is marked, by number."""
    return list_shown_of(work, AttemptScenarioRow, AttemptScenarioRow.attempt_id == attempt_id)


def get_shown(work: Work, *, attempt_id: UUID, scenario_no: int) -> dict[str, Any]:
    """What may be shown of one scenario; raises Missing for a number that the attempt does not have."""
    owned = AttemptScenarioRow.attempt_id == attempt_id
    return get_shown_of(work, AttemptScenarioRow, owned, scenario_no=scenario_no)


def list_drawn(work: Work, *, attempt_id: UUID) -> tuple[tuple[int, dict[str, Any]], ...]:
    """Each scenario with its answers, by number; for marking and for pages of marked attempts alone."""
    rows = work.session.execute(
        select(AttemptScenarioRow.scenario_no, AttemptScenarioRow.drawn)
        .where(AttemptScenarioRow.attempt_id == attempt_id)
        .order_by(AttemptScenarioRow.scenario_no)
    )
    return tuple((number, drawn) for number, drawn in rows)


def record_response(work: Work, new: NewResponse, *, attempt_id: UUID, now: datetime) -> KeptResponse:
    """One more version of a response; the attempt is held for the change.

    The same again is what stands: a browser that did not hear the acknowledgement sends its answer twice.
    """
    latest = work.session.execute(
        select(ResponseRow)
        .where(
            ResponseRow.attempt_id == attempt_id,
            ResponseRow.scenario_no == new.scenario_no,
            ResponseRow.item_id == new.item_id,
        )
        .order_by(ResponseRow.version.desc())
        .limit(1)
    ).scalar_one_or_none()
    if latest is None or latest.raw != new.raw:
        version = 1 if latest is None else latest.version + 1
        latest = ResponseRow(**vars(new), attempt_id=attempt_id, version=version, kept_at=now)
        work.session.add(latest)
        work.session.flush()
    return KeptResponse(
        scenario_no=latest.scenario_no,
        item_id=latest.item_id,
        version=latest.version,
        raw=latest.raw,
        kept_at=latest.kept_at,
    )


# Put together once: every page of an open attempt runs it, and building it takes longer than running it.
_NEWEST = func.row_number().over(
    partition_by=(ResponseRow.scenario_no, ResponseRow.item_id), order_by=ResponseRow.version.desc()
)
_OF_ATTEMPT = ResponseRow.attempt_id == bindparam("attempt_id", type_=ResponseRow.attempt_id.type)
_AGED = select(ResponseRow, _NEWEST.label("age")).where(_OF_ATTEMPT).subquery().c
_LATEST_RESPONSES = (
    select(_AGED.scenario_no, _AGED.item_id, _AGED.version, _AGED.raw, _AGED.kept_at)
    .where(_AGED.age == 1)
    .order_by(_AGED.scenario_no, _AGED.item_id)
)


def list_latest_responses(work: Work, *, attempt_id: UUID) -> tuple[KeptResponse, ...]:
    """The latest version of every response, by scenario and item."""
    rows = work.session.execute(_LATEST_RESPONSES, {"attempt_id": attempt_id})
    return tuple(KeptResponse(**each._asdict()) for each in rows)


def is_seed_drawn(work: Work, *, person_id: UUID, seed: int) -> bool:
    """Whether this person has met the seed before, in whichever attempt."""
    query = select(AttemptScenarioRow.seed).where(
        AttemptScenarioRow.person_id == person_id, AttemptScenarioRow.seed == seed
    )
    return work.session.execute(query).first() is not None


def list_fingerprints(work: Work, *, person_id: UUID, family: str) -> frozenset[str]:
    """What this person has met of a family, by fingerprint."""
    query = select(AttemptScenarioRow.fingerprint).where(
        AttemptScenarioRow.person_id == person_id, AttemptScenarioRow.family == family
    )
    return frozenset(work.session.scalars(query))
