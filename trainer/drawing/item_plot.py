"""Items by difficulty and discrimination; what asks for a look lies in a ruled field and has its number."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from trainer.domain.item_statistics import TOO_EASY_ABOVE, TOO_HARD_BELOW, WEAK_BELOW
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, path, picture

SIZE = (800.0, 520.0)
FIELD = (90.0, 40.0, 770.0, 430.0)  # left, top, right, bottom
LOWEST = -0.5  # correlations below stand on the edge
ENDS = (0.02, 0.98)  # mean scores beyond stand on the edges
_ACROSS = (0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.98)
_UP = (-0.5, 0.0, 0.5, 1.0)
_RULED_EVERY = 14.0


@dataclass(frozen=True, kw_only=True)
class ItemMark:
    """One item: its number in the table below, its figures, and whether it asks for a look."""

    number: int
    difficulty_frac: float
    discrimination: float
    asks: bool


def item_plot(items: Sequence[ItemMark], *, reader: Reader) -> str:
    """A hollow mark with its number for each item that asks for a look, a small filled one for all others."""
    calm = [each for each in items if not each.asks]
    asking = [each for each in items if each.asks]
    return picture(
        _ruled(FIELD[0], _y(1.0), _x(TOO_HARD_BELOW), FIELD[3]),
        _ruled(_x(TOO_HARD_BELOW), _y(WEAK_BELOW), _x(TOO_EASY_ABOVE), FIELD[3]),
        _ruled(_x(TOO_EASY_ABOVE), _y(0.0), FIELD[2], FIELD[3]),
        _axes(reader),
        *(drawn("circle", "solid", cx=_x(e.difficulty_frac), cy=_y(e.discrimination), r=6) for e in calm),
        *(_asking(each) for each in asking),
        size=SIZE,
        name=reader.words("Items by difficulty and discrimination"),
        told=reader.words(
            "{count} items with enough answers, {asking} of them in the ruled field, where an item asks for"
            " a look. The table below holds the same figures."
        ).format(count=len(items), asking=len(asking)),
        prefix=reader.prefix,
    )


def _x(difficulty_frac: float) -> float:
    """By the logarithm of the odds, which gives the ends, where most items lie, the room of the middle."""
    left, _, right, _ = FIELD
    low, high = map(_log_odds, ENDS)
    place = _log_odds(min(max(difficulty_frac, ENDS[0]), ENDS[1]))
    return left + (right - left) * (place - low) / (high - low)


def _log_odds(share: float) -> float:
    return log(share / (1.0 - share))


def _y(discrimination: float) -> float:
    _, top, _, bottom = FIELD
    return bottom - (bottom - top) * (max(discrimination, LOWEST) - LOWEST) / (1.0 - LOWEST)


def _asking(item: ItemMark) -> str:
    x, y = _x(item.difficulty_frac), _y(item.discrimination)
    return group(
        drawn("circle", "number", cx=x, cy=y, r=15),
        label(str(item.number), x, y + 7, pen="small"),
        data_item=item.number,
    )


def _ruled(left: float, top: float, right: float, bottom: float) -> str:
    """Upright lines at even distances, which print and show without colour."""
    places = (left + _RULED_EVERY * each for each in range(1, int((right - left) / _RULED_EVERY) + 1))
    return group(*(line("dim", x, top, x, bottom) for x in places), data_part="asks for a look")


def _axes(reader: Reader) -> str:
    left, top, right, bottom = FIELD
    across = [label(f"{each * 100:.0f} %", _x(each), bottom + 30, pen="small") for each in _ACROSS]
    up = [
        group(
            drawn("line", "grid", x1=left, y1=_y(each), x2=right, y2=_y(each)),
            label(reader.number(each), left - 10, _y(each) + 8, anchor="end", pen="small"),
        )
        for each in _UP
    ]
    return group(
        *up,
        *across,
        path("thin", "M", left, top, "L", left, bottom, "L", right, bottom),
        label(
            reader.words("mean score: hard on the left, easy on the right"), (left + right) / 2, bottom + 68
        ),
        label(reader.words("tells people apart"), left, top - 14, anchor="start", pen="small"),
    )
