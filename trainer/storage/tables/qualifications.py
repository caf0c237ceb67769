"""Observations, qualifications and what was done to them; every row here is written once."""

from datetime import date, datetime
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.qualifications import QualificationAct
from trainer.storage.tables.base import Base, Document, UtcDateTime, enum_type


class ObservationRow(Base):
    """A purge seen in the booth."""

    __tablename__ = "observation"

    observation_id: Mapped[UUID] = mapped_column(primary_key=True)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    observed_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    observed_on: Mapped[date]
    recorded_at: Mapped[datetime] = mapped_column(UtcDateTime)
    material: Mapped[MaterialGroup] = mapped_column(enum_type(MaterialGroup, name="material"))
    gas: Mapped[str] = mapped_column(String(20))
    outside_diameter_m: Mapped[float]
    oxygen_at_strike_frac: Mapped[float]
    root_grade: Mapped[RootGrade] = mapped_column(enum_type(RootGrade, name="root_grade"))
    confined_space: Mapped[bool]
    accepted: Mapped[bool]
    analyser_serial: Mapped[str] = mapped_column(String(100))
    analyser_calibrated_until: Mapped[date | None]
    notes: Mapped[str] = mapped_column(Text)
    ledger_seq: Mapped[int]

    __table_args__ = (
        CheckConstraint("observed_by <> person_id", name="not_by_oneself"),
        CheckConstraint("outside_diameter_m > 0", name="outside_diameter_positive"),
        CheckConstraint("oxygen_at_strike_frac BETWEEN 0 AND 1", name="oxygen_0_to_1"),
        Index(None, "person_id", "observed_on"),
        Index(None, "organisation_id", "observed_on"),
    )


class QualificationRow(Base):
    """A qualification as it was awarded; what became of it stands in its events."""

    __tablename__ = "qualification"

    qualification_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    code: Mapped[str] = mapped_column(String(20), unique=True)
    award_token: Mapped[UUID] = mapped_column(unique=True)
    awarded_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    awarded_at: Mapped[datetime] = mapped_column(UtcDateTime)
    starts: Mapped[date]
    valid_until: Mapped[date]
    confirmation_months: Mapped[int]
    due_days: Mapped[int]
    scope: Mapped[dict[str, Any]] = mapped_column(Document)
    one_person_taught_and_decided: Mapped[bool]
    policy_version: Mapped[str] = mapped_column(String(100))

    __table_args__ = (
        CheckConstraint("awarded_by <> person_id", name="not_to_oneself"),
        CheckConstraint("valid_until > starts", name="valid_after_start"),
        CheckConstraint("confirmation_months >= 1", name="confirmation_months_positive"),
        CheckConstraint("due_days >= 0", name="due_days_not_negative"),
        Index(None, "person_id", "starts"),
        Index(None, "organisation_id", "starts"),
    )


class QualificationMarkingRow(Base):
    """A marking of an attempt that a qualification rests on."""

    __tablename__ = "qualification_marking"

    qualification_id: Mapped[UUID] = mapped_column(
        ForeignKey("qualification.qualification_id"), primary_key=True
    )
    attempt_id: Mapped[UUID] = mapped_column(ForeignKey("attempt.attempt_id"), primary_key=True, index=True)
    marking_id: Mapped[UUID] = mapped_column(ForeignKey("marking.marking_id"))


class QualificationObservationRow(Base):
    """An observation that a qualification rests on."""

    __tablename__ = "qualification_observation"

    qualification_id: Mapped[UUID] = mapped_column(
        ForeignKey("qualification.qualification_id"), primary_key=True
    )
    observation_id: Mapped[UUID] = mapped_column(
        ForeignKey("observation.observation_id"), primary_key=True, index=True
    )


class QualificationEventRow(Base):
    """One act on a qualification, with its reason and its place in the ledger."""

    __tablename__ = "qualification_event"

    qualification_id: Mapped[UUID] = mapped_column(
        ForeignKey("qualification.qualification_id"), primary_key=True
    )
    event_no: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    act: Mapped[QualificationAct] = mapped_column(enum_type(QualificationAct, name="act"))
    day: Mapped[date]
    at: Mapped[datetime] = mapped_column(UtcDateTime)
    by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    reason: Mapped[str] = mapped_column(Text)
    ledger_seq: Mapped[int]

    __table_args__ = (
        CheckConstraint("event_no >= 1", name="number_from_one"),
        CheckConstraint("act = 'awarded' OR reason <> ''", name="reason_given"),
    )
