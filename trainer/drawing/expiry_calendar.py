"""Qualifications by the month of their last day: a square each, hollow where it is due."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, picture

WIDTH = 600.0
COLUMN = 50.0
SQUARE, STEP = 18.0, 24.0
MOST_SQUARES = 8  # more than these are told by the figure alone
TOP, LABELS = 40.0, 64.0


@dataclass(frozen=True, kw_only=True)
class MonthOfLastDays:
    """One month: its short name, the year where it begins one, how many end in it: not due yet, and due."""

    name: str
    year: str
    in_force_count: int
    due_count: int

    @property
    def count(self) -> int:
        """How many end in it."""
        return self.in_force_count + self.due_count


def expiry_calendar(months: Sequence[MonthOfLastDays], *, reader: Reader) -> str:
    """A column a month, the first that of today; the figure above each says how many."""
    high = max(1, min(MOST_SQUARES, max((each.count for each in months), default=0)))
    ground = TOP + STEP * high
    return picture(
        line("thin", 0, ground, COLUMN * len(months), ground),
        *(_column(place, each, ground) for place, each in enumerate(months)),
        size=(max(WIDTH, COLUMN * len(months)), ground + LABELS),
        name=reader.words("Last days by month"),
        told=_told(months, reader),
        prefix=reader.prefix,
    )


def _column(place: int, month: MonthOfLastDays, ground: float) -> str:
    middle = COLUMN * (place + 0.5)
    pens = ["number"] * month.due_count + ["solid"] * month.in_force_count
    squares = [
        drawn("rect", pen, x=middle - SQUARE / 2, y=ground - STEP * (row + 1), width=SQUARE, height=SQUARE)
        for row, pen in enumerate(pens[:MOST_SQUARES])
    ]
    above = ground - STEP * min(month.count, MOST_SQUARES) - 8
    return group(
        *squares,
        label(str(month.count), middle, above, pen="small") if month.count else "",
        label(month.name, middle, ground + 26, pen="small"),
        label(month.year, middle, ground + 52, pen="small") if month.year else "",
        data_month=place,
    )


def _told(months: Sequence[MonthOfLastDays], reader: Reader) -> str:
    said = reader.words("{month}: {count}")
    each = [said.format(month=" ".join((m.name, m.year)).strip(), count=m.count) for m in months if m.count]
    if not each:
        return reader.words("No qualification ends in these months.")
    return reader.words("How many qualifications end in each month. {months}.").format(months=", ".join(each))
