"""Attempts that are open, or over and not yet dealt with: which there are, by person and organisation."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import ColumnElement, and_, func, or_, select

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.storage.database import Work
from trainer.storage.tables.attempts import AttemptRow, AttemptScenarioRow, ResponseRow


def find_open_attempt(work: Work, *, person_id: UUID, assignment_id: UUID) -> UUID | None:
    """The person's open attempt at an assignment; there is never more than one."""
    return work.session.scalar(
        select(AttemptRow.attempt_id).where(
            AttemptRow.person_id == person_id,
            AttemptRow.assignment_id == assignment_id,
            AttemptRow.state == AttemptState.OPEN,
        )
    )


def count_attempts(work: Work, *, person_id: UUID, assignment_id: UUID) -> int:
    """How many attempts a person has started at an assignment."""
    return work.session.execute(
        select(func.count()).where(
            AttemptRow.person_id == person_id, AttemptRow.assignment_id == assignment_id
        )
    ).scalar_one()


def find_untouched_practice(
    work: Work, *, person_id: UUID, organisation_id: UUID, family: str, difficulty_percent: int
) -> UUID | None:
    """An open practice attempt at the same to which nothing has been answered yet."""
    answered = select(ResponseRow.attempt_id).where(ResponseRow.attempt_id == AttemptRow.attempt_id).exists()
    return work.session.scalar(
        select(AttemptRow.attempt_id)
        .join(AttemptScenarioRow, AttemptScenarioRow.attempt_id == AttemptRow.attempt_id)
        .where(
            AttemptRow.person_id == person_id,
            AttemptRow.organisation_id == organisation_id,
            AttemptRow.kind == AttemptKind.PRACTICE,
            AttemptRow.state == AttemptState.OPEN,
            AttemptScenarioRow.family == family,
            AttemptScenarioRow.difficulty_percent == difficulty_percent,
            ~answered,
        )
        .order_by(AttemptRow.started_at, AttemptRow.attempt_id)
        .limit(1)
    )


def list_to_settle_of_person(work: Work, *, person_id: UUID, now: datetime) -> tuple[UUID, ...]:
    """The person's attempts whose time is up or that ended without marks."""
    return _to_settle(work, AttemptRow.person_id == person_id, now=now)


def list_to_settle_of_organisation(work: Work, *, organisation_id: UUID, now: datetime) -> tuple[UUID, ...]:
    """The organisation's attempts whose time is up or that ended without marks."""
    return _to_settle(work, AttemptRow.organisation_id == organisation_id, now=now)


def _to_settle(work: Work, whose: ColumnElement[bool], *, now: datetime) -> tuple[UUID, ...]:
    time_is_up = and_(AttemptRow.state == AttemptState.OPEN, AttemptRow.expires_at <= now)
    unmarked = AttemptRow.state.in_((AttemptState.SUBMITTED, AttemptState.EXPIRED))
    query = (
        select(AttemptRow.attempt_id)
        .where(whose, or_(time_is_up, unmarked))
        .order_by(AttemptRow.started_at, AttemptRow.attempt_id)
    )
    return tuple(work.session.scalars(query))
