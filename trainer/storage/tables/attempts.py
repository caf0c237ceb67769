"""Attempts: what was drawn, every version of every response, and every marking; the last two only grow."""

from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import (
    CheckConstraint,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    String,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.orm import Mapped, mapped_column

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.storage.tables.base import Base, Document, UtcDateTime, enum_type
from trainer.storage.tables.drawn import DrawnColumns, drawn_checks


class AttemptRow(Base):
    """One attempt with the blueprint that it was drawn from and is judged by."""

    __tablename__ = "attempt"

    attempt_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    kind: Mapped[AttemptKind] = mapped_column(enum_type(AttemptKind, name="kind"))
    state: Mapped[AttemptState] = mapped_column(enum_type(AttemptState, name="state"))
    title: Mapped[str] = mapped_column(String(200))
    module_id: Mapped[UUID | None] = mapped_column(ForeignKey("module.module_id"), index=True)
    assignment_id: Mapped[UUID | None] = mapped_column(ForeignKey("assignment.assignment_id"), index=True)
    blueprint: Mapped[dict[str, Any]] = mapped_column(Document)
    started_at: Mapped[datetime] = mapped_column(UtcDateTime)
    expires_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    ended_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    # the form's own, so that a form sent twice is told from a second wish
    hand_in_token: Mapped[UUID] = mapped_column(default=uuid4)

    __table_args__ = (
        CheckConstraint("(state = 'open') = (ended_at IS NULL)", name="ended_unless_open"),
        CheckConstraint("expires_at IS NULL OR expires_at > started_at", name="expires_after_start"),
        CheckConstraint("(kind = 'assessed') = (assignment_id IS NOT NULL)", name="assessed_by_assignment"),
        CheckConstraint("(module_id IS NULL) = (assignment_id IS NULL)", name="module_of_assignment"),
        Index(None, "person_id", "kind", "started_at"),
        Index(None, "organisation_id", "kind", "started_at"),
        Index(
            "uq_attempt_one_open",
            "assignment_id",
            "person_id",
            unique=True,
            sqlite_where=text("state = 'open'"),
            postgresql_where=text("state = 'open'"),
        ),
    )


class AttemptScenarioRow(DrawnColumns, Base):
    """One drawn scenario: `shown` goes to the browser, `drawn` also holds keys, bands and solutions."""

    __tablename__ = "attempt_scenario"

    attempt_id: Mapped[UUID] = mapped_column(ForeignKey("attempt.attempt_id"), primary_key=True)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))

    __table_args__ = (
        *drawn_checks(),
        UniqueConstraint("person_id", "seed"),
        Index(None, "person_id", "family"),
    )


class ResponseRow(Base):
    """One version of one response: as it was typed, what it was read as, and the server's time."""

    __tablename__ = "response"

    attempt_id: Mapped[UUID] = mapped_column(primary_key=True)
    scenario_no: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    item_id: Mapped[str] = mapped_column(String(100), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    raw: Mapped[Any] = mapped_column(Document)
    kept_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (
        ForeignKeyConstraint(
            ["attempt_id", "scenario_no"], ["attempt_scenario.attempt_id", "attempt_scenario.scenario_no"]
        ),
        CheckConstraint("version >= 1", name="version_from_one"),
    )


class MarkingRow(Base):
    """One marking of an attempt. The latest version stands; a later one says who made it and why."""

    __tablename__ = "marking"

    marking_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    attempt_id: Mapped[UUID] = mapped_column(ForeignKey("attempt.attempt_id"))
    version: Mapped[int]
    supersedes: Mapped[UUID | None] = mapped_column(ForeignKey("marking.marking_id"), unique=True)
    marked_at: Mapped[datetime] = mapped_column(UtcDateTime)
    marked_by: Mapped[UUID | None] = mapped_column(ForeignKey("person.person_id"))
    reason: Mapped[str] = mapped_column(Text)
    passed: Mapped[bool | None]  # None: only grades stand between it and a pass
    total_frac: Mapped[float | None]  # None: an explanation waits for its grade
    critical_failures: Mapped[list[str]] = mapped_column(Document)
    policy_version: Mapped[str] = mapped_column(String(100))
    core_version: Mapped[str] = mapped_column(String(100))
    ledger_seq: Mapped[int | None]

    __table_args__ = (
        UniqueConstraint("attempt_id", "version"),
        CheckConstraint("(version = 1) = (supersedes IS NULL)", name="later_supersedes"),
        CheckConstraint("(version = 1) = (marked_by IS NULL)", name="later_by_somebody"),
        CheckConstraint("version = 1 OR reason <> ''", name="later_with_reason"),
        CheckConstraint("total_frac BETWEEN 0 AND 1", name="total_0_to_1"),
        CheckConstraint("total_frac IS NOT NULL OR passed IS NULL OR NOT passed", name="pass_with_total"),
    )


class MarkedScenarioRow(Base):
    """One scenario within a marking: what it shows of the person, and the replay of their own set-up."""

    __tablename__ = "marked_scenario"

    marking_id: Mapped[UUID] = mapped_column(ForeignKey("marking.marking_id"), primary_key=True)
    scenario_no: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    passed: Mapped[bool | None]
    done: Mapped[dict[str, Any]] = mapped_column(Document)
    marked: Mapped[dict[str, Any]] = mapped_column(Document, deferred=True)


class OutcomeRow(Base):
    """What one item scored within a marking; no score while an explanation waits for its grade."""

    __tablename__ = "outcome"

    marking_id: Mapped[UUID] = mapped_column(ForeignKey("marking.marking_id"), primary_key=True)
    scenario_no: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    item_id: Mapped[str] = mapped_column(String(100), primary_key=True)
    item_no: Mapped[int]
    family: Mapped[str] = mapped_column(String(100))
    skill: Mapped[int]
    weight: Mapped[float]
    score: Mapped[float | None]
    correct: Mapped[bool]
    answered: Mapped[bool]
    critical_missed: Mapped[bool]
    overridden: Mapped[bool]
    why: Mapped[list[str]] = mapped_column(Document)
    misconceptions: Mapped[list[str]] = mapped_column(Document)

    __table_args__ = (
        CheckConstraint("skill BETWEEN 1 AND 12", name="skill_1_to_12"),
        CheckConstraint("score BETWEEN 0 AND 1", name="score_0_to_1"),
        CheckConstraint("weight > 0", name="weight_positive"),
        CheckConstraint(
            "score IS NOT NULL OR (answered AND NOT correct AND NOT critical_missed)",
            name="open_is_undecided",
        ),
    )


class GradeRow(Base):
    """The levels that a person gave one explanation; the marking that came of it says who, when and why."""

    __tablename__ = "grade"

    marking_id: Mapped[UUID] = mapped_column(primary_key=True)
    scenario_no: Mapped[int]
    item_id: Mapped[str] = mapped_column(String(100))
    levels: Mapped[dict[str, int]] = mapped_column(Document)
    comment: Mapped[str] = mapped_column(Text)

    __table_args__ = (
        ForeignKeyConstraint(
            ["marking_id", "scenario_no", "item_id"],
            ["outcome.marking_id", "outcome.scenario_no", "outcome.item_id"],
        ),
    )
