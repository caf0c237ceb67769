"""Where gas goes into a spool and comes out: a hole with an arrow through it, the way the gas goes."""

from collections.abc import Sequence
from dataclasses import dataclass

from trainer.core.spool_case import Point
from trainer.domain.set_up import InletFitting, SetUp, Vent
from trainer.domain.spool_path import point_of, vents_of
from trainer.drawing.free_places import Place
from trainer.drawing.reader import Reader
from trainer.drawing.spool_elevation import At, Seen, place_of
from trainer.drawing.spool_sheet import EDGE, LINE, WIDTH, Sheet
from trainer.drawing.svg import PAPER, drawn, group, line, path

ARROW = 30.0
SIDEWAYS = 0.5
HOLE_UNITS = 7.0
_BESIDE = 6.0  # words from the arrow's end
_CLEAR_OF_METAL = 16.0  # a wall and what hangs below a line of words
_LETTER = 16.0  # height of a line of words above its baseline
_BREATH = 26.0  # and from where gas is drawn that leaves


@dataclass(frozen=True, kw_only=True)
class Opening:
    """A hole on the sheet, the way out of the pipe there (right, up), and the words at it."""

    at: At
    out: At
    words: str
    is_inlet: bool
    is_blocked: bool

    @property
    def end(self) -> At:
        """The arrow's end away from the pipe, where a hose begins."""
        (x, y), (right, rise) = self.at, self.out
        return x + right * ARROW, y - rise * ARROW


def openings_of(set_up: SetUp, seen: Sequence[Seen], sheet: Sheet, reader: Reader) -> list[Opening]:
    """The inlet and the vents whose places are known; words keep off their arrows."""
    fittings: list[InletFitting | Vent] = [set_up.inlet] if set_up.inlet else []
    found = []
    for each in [*fittings, *vents_of(set_up)]:
        point = point_of(each)
        if point is None:
            continue
        on, along = place_of(seen, point)
        is_inlet = isinstance(each, InletFitting)
        found.append(
            Opening(
                at=sheet.at(on.at(along, point.across_frac)),
                out=_outwards(point, on, seen),
                words=reader.words("inlet") if isinstance(each, InletFitting) else _vent_words(each, reader),
                is_inlet=is_inlet,
                is_blocked=isinstance(each, Vent) and bool(each.blocked),
            )
        )
    for one in found:
        sheet.free.block(*_arrow_box(one))
    return found


def _arrow_box(opening: Opening) -> tuple[float, float, float, float]:
    (x1, y1), (x2, y2) = opening.at, opening.end
    half = 5.0
    return min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half


def _vent_words(vent: Vent, reader: Reader) -> str:
    size = "" if vent.diameter_m is None else f" {reader.length(vent.diameter_m)}"
    blocked = reader.words("blocked") if vent.blocked else ""
    return f"{reader.words('vent')}{size} {blocked}".strip()


def opening_drawing(opening: Opening, sheet: Sheet) -> str:
    """The hole, the arrow and its words."""
    tip, tail = (opening.at, opening.end) if opening.is_inlet else (opening.end, opening.at)
    back_x, back_y = (tail[0] - tip[0]) / ARROW, (tail[1] - tip[1]) / ARROW
    wings = [
        value
        for side in (-1.0, 1.0)
        for value in ("M", *tip, "l", 8 * back_x + side * 5 * back_y, 8 * back_y - side * 5 * back_x)
    ]
    (x, y), (right, rise), through = opening.at, opening.out, sheet.wall + 1.0
    outside = x + right * through, y - rise * through
    hole = path(
        "line", "M", x, y, "L", *outside, stroke=PAPER, stroke_width=HOLE_UNITS, stroke_linecap="butt",
        vector_effect="none", class_="d-hose-inside",
    )  # fmt: skip
    return group(
        hole,
        drawn("circle", "solid", cx=opening.at[0], cy=opening.at[1], r=3.5),
        line("line", *tail, *tip),
        path("line", *wings),
        sheet.free.write(opening.words, *_beside_arrow(opening)),
        data_part="inlet" if opening.is_inlet else "vent",
    )


def _beside_arrow(opening: Opening) -> list[Place]:
    """Where words at an arrow's end may stand, the best first: beyond it, over, under and beside it."""
    (x, y), (right, rise) = opening.at, opening.out
    beyond = ARROW + (_BESIDE if opening.is_inlet or opening.is_blocked else _BREATH)
    far_x, far_y = x + right * beyond, y - rise * (beyond + 4) + 8
    is_sideways = abs(right) >= SIDEWAYS
    anchor = ("start" if right > 0 else "end") if is_sideways else "middle"
    shifted = [Place(far_x, far_y + rows * LINE, anchor) for rows in (0, -1, 1, -2, 2)]
    # beside the arrow clear of the metal, or beside its tip
    heights = [y - _CLEAR_OF_METAL if rise > 0 else y + _CLEAR_OF_METAL + _LETTER, far_y]
    sides = [
        Place(x + side * 20, height, at)
        for height in heights
        for side, at in ((1.0, "start"), (-1.0, "end"))
        if not is_sideways
    ]
    edge = Place(EDGE, y - ARROW, "start") if x < WIDTH / 2 else Place(WIDTH - EDGE, y - ARROW, "end")
    return [shifted[0], *sides, *shifted[1:], edge]


def _outwards(point: Point, on: Seen, seen: Sequence[Seen]) -> At:
    right, rise = on.along
    joined = any(each.piece.before == seen.index(on) for each in seen)
    if point.along_frac >= 1.0 and not joined:
        return right, rise
    if point.along_frac <= 0.0 and on is seen[0]:
        return -right, -rise
    side = 1.0 if point.across_frac >= 0.5 else -1.0
    return side * on.up[0], side * on.up[1]
