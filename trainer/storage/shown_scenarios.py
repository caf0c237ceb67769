"""What may be shown of drawn scenarios, wherever they stand: in an attempt or on a sheet of paper."""

from typing import Any

from sqlalchemy import ColumnElement, select

from trainer.domain.errors import Missing
from trainer.storage.database import Work
from trainer.storage.tables.drawn import DrawnColumns


def list_shown_of(
    work: Work, table: type[DrawnColumns], owned: ColumnElement[bool]
) -> tuple[tuple[int, dict[str, Any]], ...]:
    """What may be shown of each scenario of one owner, by number."""
    rows = work.session.execute(
        select(table.scenario_no, table.shown).where(owned).order_by(table.scenario_no)
    )
    return tuple((number, shown) for number, shown in rows)


def get_shown_of(
    work: Work, table: type[DrawnColumns], owned: ColumnElement[bool], *, scenario_no: int
) -> dict[str, Any]:
    """What may be shown of one of them; raises Missing for a number that the owner does not have."""
    shown: dict[str, Any] | None = work.session.execute(
        select(table.shown).where(owned, table.scenario_no == scenario_no)
    ).scalar_one_or_none()
    if shown is None:
        raise Missing("scenario", scenario_no)
    return shown
