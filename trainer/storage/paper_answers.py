"""What is keyed in from sheets of paper, until it is handed in: queries and writers."""

from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from sqlalchemy import select

from trainer.storage.attempts import NewResponse
from trainer.storage.database import Work
from trainer.storage.tables.paper import PaperAnswerRow, PaperSheetRow


@dataclass(frozen=True, kw_only=True)
class HandedInFor:
    """What came of a sheet."""

    attempt_id: UUID
    person_id: UUID
    sat_on: date
    keyed_by: UUID
    keyed_at: datetime


def keep_answer(work: Work, answer: NewResponse, *, sheet_id: UUID, kept_by: UUID, kept_at: datetime) -> None:
    """Keeps what was keyed in for an item, in place of what was keyed in before."""
    at = (sheet_id, answer.scenario_no, answer.item_id)
    row = work.session.get(PaperAnswerRow, at)
    if row is None:
        row = PaperAnswerRow(sheet_id=sheet_id, scenario_no=answer.scenario_no, item_id=answer.item_id)
        work.session.add(row)
    row.raw, row.kept_by, row.kept_at = answer.raw, kept_by, kept_at
    work.session.flush()


def forget_answer(work: Work, *, sheet_id: UUID, scenario_no: int, item_id: str) -> None:
    """Takes back what was keyed in for an item that is blank on the paper."""
    row = work.session.get(PaperAnswerRow, (sheet_id, scenario_no, item_id))
    if row is not None:
        work.session.delete(row)
        work.session.flush()


def list_answers(work: Work, *, sheet_id: UUID) -> tuple[NewResponse, ...]:
    """What has been keyed in of a sheet, by scenario and item."""
    rows = work.session.scalars(
        select(PaperAnswerRow)
        .where(PaperAnswerRow.sheet_id == sheet_id)
        .order_by(PaperAnswerRow.scenario_no, PaperAnswerRow.item_id)
    )
    return tuple(
        NewResponse(scenario_no=each.scenario_no, item_id=each.item_id, raw=each.raw) for each in rows
    )


def hand_in_sheet(work: Work, done: HandedInFor, *, sheet_id: UUID) -> None:
    """Says on the sheet what came of it."""
    row = work.session.get_one(PaperSheetRow, sheet_id)
    for name, value in vars(done).items():
        setattr(row, name, value)
    work.session.flush()
