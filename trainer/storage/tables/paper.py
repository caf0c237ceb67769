"""Sheets printed for answering by hand: what was drawn for each, what is keyed in, and what came of it."""

from datetime import date, datetime
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import CheckConstraint, ForeignKey, ForeignKeyConstraint, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from trainer.domain.people import Language, UnitSystem
from trainer.storage.tables.base import Base, Document, UtcDateTime, enum_type
from trainer.storage.tables.drawn import DrawnColumns, drawn_checks


class PaperSetRow(Base):
    """Sheets printed at one time for one assignment; `left_out` are the skills not asked on paper."""

    __tablename__ = "paper_set"

    paper_set_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"), index=True)
    assignment_id: Mapped[UUID] = mapped_column(ForeignKey("assignment.assignment_id"), index=True)
    title: Mapped[str] = mapped_column(String(200))
    language: Mapped[Language] = mapped_column(enum_type(Language, name="language"))
    blueprint: Mapped[dict[str, Any]] = mapped_column(Document)
    left_out: Mapped[list[int]] = mapped_column(Document)
    made_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    made_at: Mapped[datetime] = mapped_column(UtcDateTime)


class PaperSheetRow(Base):
    """One person's sheet, or a blank one; once handed in it names the attempt, the day and who keyed it."""

    __tablename__ = "paper_sheet"

    sheet_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    paper_set_id: Mapped[UUID] = mapped_column(ForeignKey("paper_set.paper_set_id"))
    sheet_no: Mapped[int]
    code: Mapped[str] = mapped_column(String(20), unique=True)
    person_id: Mapped[UUID | None] = mapped_column(ForeignKey("person.person_id"), index=True)
    units: Mapped[UnitSystem] = mapped_column(enum_type(UnitSystem, name="units"))
    attempt_id: Mapped[UUID | None] = mapped_column(ForeignKey("attempt.attempt_id"), unique=True)
    sat_on: Mapped[date | None]
    keyed_by: Mapped[UUID | None] = mapped_column(ForeignKey("person.person_id"))
    keyed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (
        UniqueConstraint("paper_set_id", "sheet_no"),
        CheckConstraint("sheet_no >= 1", name="number_from_one"),
        CheckConstraint(
            "(attempt_id IS NULL) = (sat_on IS NULL) AND (attempt_id IS NULL) = (keyed_by IS NULL)"
            " AND (attempt_id IS NULL) = (keyed_at IS NULL)",
            name="handed_in_as_a_whole",
        ),
        CheckConstraint("attempt_id IS NULL OR person_id IS NOT NULL", name="handed_in_for_somebody"),
        CheckConstraint("keyed_by <> person_id", name="keyed_by_another"),
    )


class PaperScenarioRow(DrawnColumns, Base):
    """One drawn scenario of a sheet, as an attempt keeps it: `drawn` also holds keys, bands and solutions."""

    __tablename__ = "paper_scenario"

    sheet_id: Mapped[UUID] = mapped_column(ForeignKey("paper_sheet.sheet_id"), primary_key=True)

    __table_args__ = drawn_checks()


class PaperAnswerRow(Base):
    """What has been keyed in for one item so far; it becomes a response when the sheet is handed in."""

    __tablename__ = "paper_answer"

    sheet_id: Mapped[UUID] = mapped_column(primary_key=True)
    scenario_no: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    item_id: Mapped[str] = mapped_column(String(100), primary_key=True)
    raw: Mapped[Any] = mapped_column(Document)
    kept_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    kept_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (
        ForeignKeyConstraint(
            ["sheet_id", "scenario_no"], ["paper_scenario.sheet_id", "paper_scenario.scenario_no"]
        ),
    )
