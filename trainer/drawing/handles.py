"""Movable parts: a grip that a script lets people drag or step, described for those who hear it.

A part that moves is drawn inside ``<g data-rides="handle id">``; the script shifts that group along
the grip's line. Values go through the same knots as in the drawing, so a place read back
is the value that was meant.
"""

from dataclasses import dataclass

from trainer.domain.scenario import Handle
from trainer.drawing.asked import Asked
from trainer.drawing.grip_words import said_of, step_of, stops_of
from trainer.drawing.knots import Knots
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, path
from trainer.drawing.text_width import text_width

REACH = 56.0  # a phone 360 px wide draws the sheet at 0.4: a finger's 44 px are then this far to every side
RING = 19.0


def rides(handle: Handle | None, *children: str) -> str:
    """What moves with a handle; without one it simply stands there."""
    return group(*children, data_rides=handle.id if handle else None)


def grip(  # noqa: PLR0913 - each is one thing that the grip says of itself
    handle: Handle,
    *,
    at: tuple[float, float],
    knots: Knots,
    asked: Asked,
    reader: Reader,
    bore_m: float | None = None,
) -> str:
    """The grip at its present place: two arrowheads along its line inside a ring."""
    u, v = at
    along_pipe = handle.along != "height"
    unit = reader.handle_unit(handle.dimension)
    value = asked.start(handle)
    placed = handle.id in asked.placed
    said = said_of(handle, value, bore_m=bore_m, reader=reader)
    told = said if placed else reader.words("not placed yet")
    arrows = _arrows(u, v, turned=not along_pipe)
    return group(
        drawn("circle", "hit", cx=u, cy=v, r=REACH),
        drawn("circle", "handle", cx=u, cy=v, r=RING),
        arrows,
        class_="d-grip",
        role="slider",
        tabindex=0,
        aria_label=reader.words(handle.label),
        aria_orientation="horizontal" if along_pipe else "vertical",
        aria_valuemin=_shown(handle.low * unit.per_si),
        aria_valuemax=_shown(handle.high * unit.per_si),
        aria_valuenow=_shown(value * unit.per_si),
        aria_valuetext=told,
        data_handle=handle.id,
        data_axis="u" if along_pipe else "v",
        data_knots=knots.text(),
        data_min=_shown(handle.low),
        data_max=_shown(handle.high),
        data_step=_shown(step_of(handle, reader)),
        data_value=_shown(value),
        data_placed="yes" if placed else None,
        data_per_si=_shown(unit.per_si),
        data_unit=unit.sign,
        data_decimals=str(unit.decimals),
        data_decimal_sign=reader.decimal_sign,
        data_says=reader.words("{distance} from the joint") if along_pipe else None,
        data_stops=stops_of(handle, bore_m=bore_m, reader=reader),
    )


@dataclass(frozen=True, kw_only=True)
class Readout:
    """Where a moved part stands, in words that the script keeps up to date; a question until it is placed."""

    handle: Handle
    asked: Asked
    reader: Reader

    @property
    def longest(self) -> str:
        """The longest that it may come to show."""
        unit = self.reader.handle_unit(self.handle.dimension)
        values = (self.handle.low, self.handle.high, self.asked.start(self.handle))
        wide = [self.reader.measure(each, unit) for each in values]
        return max(
            [*wide, self.reader.number(0.0, ".2f") if self.handle.dimension is None else ""], key=text_width
        )

    def drawn(self, *, anchor: str) -> str:
        """The words, at the origin."""
        value = self.asked.placed.get(self.handle.id)
        unit = self.reader.handle_unit(self.handle.dimension)
        words = "?" if value is None else self.reader.measure(value, unit)
        return group(label(words, 0, 0, anchor=anchor), data_shows=self.handle.id)


def _arrows(u: float, v: float, *, turned: bool) -> str:
    turn = f"rotate(90 {u:.1f} {v:.1f})" if turned else None
    return path(
        "handle-line",
        "M", u - 4, v - 8, "L", u - 12, v, "L", u - 4, v + 8, "M", u + 4, v - 8, "L", u + 12, v, "L", u + 4,
            v + 8,
        transform=turn,
    )  # fmt: skip


def _shown(value: float) -> str:
    return f"{value:.6g}"
