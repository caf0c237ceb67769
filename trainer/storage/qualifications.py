"""Qualifications and the acts on them: added, never changed; the state follows from terms and events."""

import secrets
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, func, select
from sqlalchemy.orm import aliased

from trainer.domain.errors import Missing
from trainer.domain.qualifications import QualificationAct, QualificationEvent, Terms
from trainer.domain.verification_code import NUMBER_BITS, code_for
from trainer.storage.database import Work
from trainer.storage.tables.people import OrganisationRow, PersonRow
from trainer.storage.tables.qualifications import (
    QualificationEventRow,
    QualificationMarkingRow,
    QualificationObservationRow,
    QualificationRow,
)


@dataclass(frozen=True, kw_only=True)
class NewQualification:
    """A qualification about to be awarded; the scope is a document, the token the award form's own."""

    person_id: UUID
    organisation_id: UUID
    award_token: UUID
    awarded_by: UUID
    awarded_at: datetime
    terms: Terms
    scope: dict[str, Any]
    one_person_taught_and_decided: bool
    policy_version: str


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """What a qualification rests on: markings by their attempt, and observations."""

    markings: dict[UUID, UUID]
    observations: tuple[UUID, ...]


@dataclass(frozen=True, kw_only=True)
class RecordedEvent:
    """One act with the name of whoever did it and its place in the issuer's ledger."""

    event: QualificationEvent
    by_name: str
    organisation_id: UUID
    ledger_seq: int


@dataclass(frozen=True, kw_only=True)
class Qualification:
    """A qualification as it is read back, with everything done to it, the award first."""

    qualification_id: UUID
    person_id: UUID
    person_name: str
    organisation_id: UUID
    organisation_name: str
    code: str
    awarded_by: UUID
    awarded_by_name: str
    awarded_at: datetime
    terms: Terms
    scope: dict[str, Any]
    one_person_taught_and_decided: bool
    policy_version: str
    history: tuple[RecordedEvent, ...] = field(default=())

    @property
    def events(self) -> tuple[QualificationEvent, ...]:
        """The acts as the rules of states take them."""
        return tuple(each.event for each in self.history)


def add_qualification(work: Work, new: NewQualification, *, evidence: Evidence) -> UUID:
    """A qualification with a code of its own and the evidence that it rests on."""
    terms = new.terms
    row = QualificationRow(
        person_id=new.person_id,
        organisation_id=new.organisation_id,
        code=code_for(secrets.randbits(NUMBER_BITS)),
        award_token=new.award_token,
        awarded_by=new.awarded_by,
        awarded_at=new.awarded_at,
        scope=new.scope,
        one_person_taught_and_decided=new.one_person_taught_and_decided,
        policy_version=new.policy_version,
        starts=terms.starts,
        valid_until=terms.valid_until,
        confirmation_months=terms.confirmation_months,
        due_days=terms.due_days,
    )
    work.session.add(row)
    work.session.flush()
    qualification_id = row.qualification_id
    work.session.add_all(
        QualificationMarkingRow(
            qualification_id=qualification_id, attempt_id=attempt_id, marking_id=marking_id
        )
        for attempt_id, marking_id in evidence.markings.items()
    )
    work.session.add_all(
        QualificationObservationRow(qualification_id=qualification_id, observation_id=each)
        for each in evidence.observations
    )
    work.session.flush()
    return qualification_id


def record_event(
    work: Work, event: QualificationEvent, *, qualification_id: UUID, organisation_id: UUID, ledger_seq: int
) -> None:
    """One more act on a qualification, by somebody acting in an organisation."""
    latest = work.session.execute(
        select(func.max(QualificationEventRow.event_no)).where(
            QualificationEventRow.qualification_id == qualification_id
        )
    ).scalar_one()
    work.session.add(
        QualificationEventRow(
            qualification_id=qualification_id,
            event_no=(latest or 0) + 1,
            organisation_id=organisation_id,
            ledger_seq=ledger_seq,
            **vars(event),
        )
    )
    work.session.flush()


def get_qualification(work: Work, *, qualification_id: UUID) -> Qualification:
    """The qualification of that id; whether it may be shown is for the caller to ask."""
    return _one(work, QualificationRow.qualification_id == qualification_id)


def get_qualification_to_change(work: Work, *, qualification_id: UUID) -> Qualification:
    """The same, held against everybody else's acts until the transaction ends."""
    work.session.execute(
        select(QualificationRow.qualification_id)
        .where(QualificationRow.qualification_id == qualification_id)
        .with_for_update()
    )
    return get_qualification(work, qualification_id=qualification_id)


def find_by_code(work: Work, *, code: str) -> Qualification | None:
    """The qualification with that code, in its one written form."""
    return next(iter(_listed(work, QualificationRow.code == code)), None)


def find_by_award_token(work: Work, *, award_token: UUID) -> UUID | None:
    """What an award form sent before has led to."""
    return work.session.scalar(
        select(QualificationRow.qualification_id).where(QualificationRow.award_token == award_token)
    )


def list_of_people(
    work: Work, *, people: Sequence[UUID], organisation_id: UUID | None = None
) -> tuple[Qualification, ...]:
    """The qualifications of these people by name and start, of one issuer where asked."""
    conditions: list[ColumnElement[bool]] = [QualificationRow.person_id.in_(people)]
    if organisation_id is not None:
        conditions.append(QualificationRow.organisation_id == organisation_id)
    return _listed(work, *conditions)


def list_of_organisation(work: Work, *, organisation_id: UUID) -> tuple[Qualification, ...]:
    """The qualifications that an organisation has issued, by name and start."""
    return _listed(work, QualificationRow.organisation_id == organisation_id)


def list_resting_on(work: Work, *, attempt_id: UUID) -> tuple[UUID, ...]:
    """The qualifications that an attempt stands behind."""
    return tuple(
        work.session.scalars(
            select(QualificationMarkingRow.qualification_id)
            .where(QualificationMarkingRow.attempt_id == attempt_id)
            .order_by(QualificationMarkingRow.qualification_id)
        )
    )


def get_evidence(work: Work, *, qualification_id: UUID) -> Evidence:
    """What a qualification rests on, as it stood at the award."""
    markings = work.session.execute(
        select(QualificationMarkingRow.attempt_id, QualificationMarkingRow.marking_id)
        .where(QualificationMarkingRow.qualification_id == qualification_id)
        .order_by(QualificationMarkingRow.attempt_id)
    )
    observations = work.session.scalars(
        select(QualificationObservationRow.observation_id)
        .where(QualificationObservationRow.qualification_id == qualification_id)
        .order_by(QualificationObservationRow.observation_id)
    )
    return Evidence(markings={each[0]: each[1] for each in markings}, observations=tuple(observations))


def _one(work: Work, *conditions: ColumnElement[bool]) -> Qualification:
    found = next(iter(_listed(work, *conditions)), None)
    if found is None:
        raise Missing("qualification")
    return found


def _listed(work: Work, *conditions: ColumnElement[bool]) -> tuple[Qualification, ...]:
    rows = work.session.execute(_qualifications().where(*conditions)).all()
    ids = [each[0].qualification_id for each in rows]
    history: dict[UUID, list[RecordedEvent]] = {each: [] for each in ids}
    events = work.session.execute(
        select(QualificationEventRow, PersonRow.name)
        .join(PersonRow, PersonRow.person_id == QualificationEventRow.by)
        .where(QualificationEventRow.qualification_id.in_(ids))
        .order_by(QualificationEventRow.qualification_id, QualificationEventRow.event_no)
    )
    for row, name in events:
        history[row.qualification_id].append(_recorded(row, name))
    return tuple(_qualification(*each, history[each[0].qualification_id]) for each in rows)


def _qualifications() -> Select[QualificationRow, str, str, str]:
    signer = aliased(PersonRow)
    return (
        select(QualificationRow, PersonRow.name, OrganisationRow.name, signer.name)
        .join(PersonRow, PersonRow.person_id == QualificationRow.person_id)
        .join(OrganisationRow, OrganisationRow.organisation_id == QualificationRow.organisation_id)
        .join(signer, signer.person_id == QualificationRow.awarded_by)
        .order_by(PersonRow.name, QualificationRow.starts, QualificationRow.qualification_id)
    )


def _qualification(
    row: QualificationRow,
    person_name: str,
    organisation_name: str,
    signer_name: str,
    history: list[RecordedEvent],
) -> Qualification:
    return Qualification(
        qualification_id=row.qualification_id,
        person_id=row.person_id,
        person_name=person_name,
        organisation_id=row.organisation_id,
        organisation_name=organisation_name,
        code=row.code,
        awarded_by=row.awarded_by,
        awarded_by_name=signer_name,
        awarded_at=row.awarded_at,
        terms=Terms(
            starts=row.starts,
            valid_until=row.valid_until,
            confirmation_months=row.confirmation_months,
            due_days=row.due_days,
        ),
        scope=row.scope,
        one_person_taught_and_decided=row.one_person_taught_and_decided,
        policy_version=row.policy_version,
        history=tuple(history),
    )


def _recorded(row: QualificationEventRow, name: str) -> RecordedEvent:
    event = QualificationEvent(
        act=QualificationAct(row.act), day=row.day, at=row.at, by=row.by, reason=row.reason
    )
    return RecordedEvent(
        event=event, by_name=name, organisation_id=row.organisation_id, ledger_seq=row.ledger_seq
    )
