"""A spool in elevation: its parts by number, inlet, vents and joint, and where air is known to stay."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import hypot

from trainer.core.spool_case import Point
from trainer.domain.set_up import BranchPart, InletFitting, Joint, SetUp, Vent
from trainer.domain.spool_path import all_parts, core_parts_of, path_of, point_of, vents_of
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.free_places import FreePlaces, Place
from trainer.drawing.reader import ENGLISH_METRIC, Reader
from trainer.drawing.signs import signs_drawing, strip_of
from trainer.drawing.spool_elevation import At, Seen, part_of, place_of, seen_from_the_side
from trainer.drawing.spool_levels import levels_drawing, levels_of
from trainer.drawing.spool_words import list_words, told_of_spool
from trainer.drawing.svg import drawn, group, label, line, path, picture
from trainer.drawing.text_width import rows_of
from trainer.drawing.wording_of_drawing import told_around

WIDTH, DRAWN_HEIGHT = 800.0, 400.0
MARGIN, ASIDE = 64.0, 160.0
DIGIT = 24.0
HALF_DIGIT = 8.0
EDGE = 4.0
LIST_X = 24.0
LINE = 30.0
LEAST_BORE_UNITS = 9.0
ARROW = 30.0
_SIDEWAYS = 0.5


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """From metres, right and up, to units on the sheet."""

    scale: float
    left: float
    bottom: float
    free: FreePlaces

    def at(self, place: At) -> At:
        """A place on the sheet."""
        return self.left + place[0] * self.scale, self.bottom - place[1] * self.scale

    def half(self, seen: Seen) -> float:
        """Half of a drawn bore, never so narrow that it cannot be seen."""
        return max(seen.half_m * self.scale, LEAST_BORE_UNITS / 2.0)


def spool_drawing(
    set_up: SetUp,
    *,
    dead_legs: Collection[str] = (),
    crossed: Collection[str] = (),
    asked: Asked = NOTHING_ASKED,
    reader: Reader = ENGLISH_METRIC,
) -> str:
    """The SVG of a set-up with a path.

    `dead_legs` are the parts where air is known to stay, `crossed` those where it lingers under way.
    """
    parts = all_parts(path_of(set_up))
    core_parts = core_parts_of(set_up)
    seen = seen_from_the_side(core_parts) if core_parts else []
    height = DRAWN_HEIGHT if seen else LINE
    told = [
        *list_words(set_up, dead_legs=dead_legs, crossed=crossed, reader=reader),
        *(each for each in told_around(set_up, asked=asked, reader=reader) if each),
    ]
    rows = [row for words in told for row in rows_of(words, width=WIDTH - LIST_X - EDGE)]
    strip, foot = strip_of(asked.objects), height + LINE * len(rows)
    lift = foot - strip.top if strip else 0.0
    scene = group(
        _spool(set_up, parts, seen, {*dead_legs, *crossed}, reader) if seen else "",
        *(label(words, LIST_X, height + LINE * number, anchor="start") for number, words in enumerate(rows)),
        transform=f"translate(0 {-lift:g})" if strip else None,
    )
    return picture(
        scene,
        signs_drawing(asked, reader=reader),
        size=(WIDTH, foot + (strip.bottom - strip.top if strip else 0.0)),
        top=-lift,
        name=reader.words("The spool, drawn in elevation"),
        told=told_of_spool(set_up, dead_legs=dead_legs, crossed=crossed, asked=asked, reader=reader),
        prefix=reader.prefix,
    )


def _spool(
    set_up: SetUp,
    parts: Sequence[BranchPart],
    seen: Sequence[Seen],
    with_air: Collection[str],
    reader: Reader,
) -> str:
    sheet = _sheet(seen)
    levels = levels_of(seen)
    named = [part.name or "" for part in parts]
    joint_on = set_up.joint.at if set_up.joint else None
    return group(
        levels_drawing(
            levels, on_sheet=[sheet.at(place) for _, place in levels], free=sheet.free, reader=reader
        ),
        *(_part(part_of(seen, name), name in with_air, sheet) for name in _back_to_front(set_up, seen)),
        _joint(set_up.joint, seen, sheet, reader),
        _inlet(set_up.inlet, seen, sheet, reader),
        *(_vent(vent, seen, sheet, reader) for vent in vents_of(set_up)),
        *(
            _number(part_of(seen, name), number, sheet, keeps_middle_free=name == joint_on)
            for number, name in enumerate(named, start=1)
        ),
        data_part="spool",
    )


def _back_to_front(set_up: SetUp, seen: Sequence[Seen]) -> list[str]:
    """Names of all parts: a run covers what stands on it, and an outlet seen on end covers the run."""
    on_path = [part.name or "" for part in path_of(set_up)]
    names = list(dict.fromkeys(each.piece.part for each in seen))
    on_branches = [name for name in names if name not in on_path]
    in_front = [name for name in on_branches if _is_on_end(part_of(seen, name))]
    return [*(name for name in on_branches if name not in in_front), *on_path, *in_front]


def _is_on_end(pieces: Sequence[Seen]) -> bool:
    return all(each.is_on_end for each in pieces)


def _sheet(seen: Sequence[Seen]) -> Sheet:
    places = [(place, each.half_m) for each in seen for place in (each.begins, each.ends)]
    lefts, rights = [at[0] - half for at, half in places], [at[0] + half for at, half in places]
    lows, highs = [at[1] - half for at, half in places], [at[1] + half for at, half in places]
    wide_m, high_m = max(rights) - min(lefts), max(highs) - min(lows)
    scale = min((WIDTH - 2 * ASIDE) / wide_m, (DRAWN_HEIGHT - 2 * MARGIN) / high_m)
    return Sheet(
        scale=scale,
        free=FreePlaces((EDGE, 0.0, WIDTH - EDGE, DRAWN_HEIGHT - LINE)),
        left=(WIDTH + ASIDE / 4 - scale * wide_m) / 2.0 - scale * min(lefts),
        bottom=(DRAWN_HEIGHT + scale * high_m) / 2.0 + scale * min(lows),
    )


def _part(pieces: Sequence[Seen], is_dead: bool, sheet: Sheet) -> str:
    """The outline of one part; one that comes towards the reader is seen as a ring."""
    pen, name = ("steel", "part with air") if is_dead else ("shape", "part")
    if _is_on_end(pieces):
        x, y = sheet.at(pieces[-1].ends)
        return drawn("circle", pen, cx=x, cy=y, r=sheet.half(pieces[0]), data_part=name)
    there = [_edge(each, place, 1.0, sheet) for each in pieces for place in (each.begins, each.ends)]
    back = [
        _edge(each, place, -1.0, sheet) for each in reversed(pieces) for place in (each.ends, each.begins)
    ]
    steps: list[str | float] = ["M", *there[0]]
    for at in [*there[1:], *back]:
        steps += ["L", *at]
    return path(pen, *steps, "Z", data_part=name)


def _edge(seen: Seen, place: At, side: float, sheet: Sheet) -> At:
    (x, y), (right, rise) = sheet.at(place), seen.along
    off = side * sheet.half(seen)
    return x - rise * off, y - right * off


def _number(pieces: Sequence[Seen], number: int, sheet: Sheet, *, keeps_middle_free: bool) -> str:
    """In the middle of its part, beside a joint there; where that is taken, near by at the end of a line."""
    x, y = sheet.at(pieces[len(pieces) // (4 if keeps_middle_free else 2)].at(0.5))
    below = [Place(x, y + sheet.half(pieces[0]) + DIGIT)] if _is_on_end(pieces) else []
    place = sheet.free.place(str(number), [*below, Place(x, y + HALF_DIGIT)])
    away_x, away_y = place.x - x, place.y - HALF_DIGIT - y
    way = hypot(away_x, away_y)
    leads = way > sheet.half(pieces[0]) + DIGIT
    share = (way - DIGIT / 2) / way if leads else 0.0
    leader = line("thin", x, y, x + away_x * share, y + away_y * share) if leads else ""
    return group(leader, label(str(number), place.x, place.y), data_part=f"part number {number}")


def _joint(joint: Joint | None, seen: Sequence[Seen], sheet: Sheet, reader: Reader) -> str:
    point = point_of(joint)
    if point is None:
        return ""
    on, along = place_of(seen, point)
    (x, y), (right, rise) = sheet.at(on.at(along)), on.along
    half = sheet.half(on) + 10.0
    words = reader.words("joint")
    beside = [
        Place(x - side * rise * (half + 26), y - side * right * (half + 10) + 4) for side in (1.0, -1.0)
    ]
    return group(
        line("wall", x - rise * half, y - right * half, x + rise * half, y + right * half),
        _written(words, sheet.free.place(words, beside)),
        data_part="joint",
    )


def _written(words: str, place: Place) -> str:
    return label(words, place.x, place.y, anchor=place.anchor)


def _inlet(inlet: InletFitting | None, seen: Sequence[Seen], sheet: Sheet, reader: Reader) -> str:
    point = point_of(inlet)
    if point is None:
        return ""
    return _arrow(point, seen, sheet, words=reader.words("inlet"), inwards=True)


def _vent(vent: Vent, seen: Sequence[Seen], sheet: Sheet, reader: Reader) -> str:
    point = point_of(vent)
    if point is None:
        return ""
    size = "" if vent.diameter_m is None else f" {reader.length(vent.diameter_m)}"
    blocked = reader.words("blocked") if vent.blocked else ""
    words = f"{reader.words('vent')}{size} {blocked}".strip()
    return _arrow(point, seen, sheet, words=words, inwards=False)


def _arrow(point: Point, seen: Sequence[Seen], sheet: Sheet, *, words: str, inwards: bool) -> str:
    """A hole with an arrow through it, the way the gas goes."""
    on, along = place_of(seen, point)
    x, y = sheet.at(on.at(along, point.across_frac))
    right, rise = _outwards(point, on, seen)
    tip, tail = (x, y), (x + right * ARROW, y - rise * ARROW)
    if not inwards:
        tip, tail = tail, tip
    back_x, back_y = (tail[0] - tip[0]) / ARROW, (tail[1] - tip[1]) / ARROW
    wings = [
        value
        for side in (-1.0, 1.0)
        for value in ("M", *tip, "l", 8 * back_x + side * 5 * back_y, 8 * back_y - side * 5 * back_x)
    ]
    return group(
        drawn("circle", "solid", cx=x, cy=y, r=3.5),
        line("line", *tail, *tip),
        path("line", *wings),
        _written(words, sheet.free.place(words, _beside_arrow((x, y), (right, rise)))),
        data_part="inlet" if inwards else "vent",
    )


def _beside_arrow(at: At, out: At) -> list[Place]:
    """Where words at an arrow's end may stand, the best first: beyond it, then over and under."""
    (x, y), (right, rise) = at, out
    far_x, far_y = x + right * (ARROW + 6), y - rise * (ARROW + 10) + 8
    anchor = "middle" if abs(right) < _SIDEWAYS else ("start" if right > 0 else "end")
    shifted = [Place(far_x, far_y + rows * LINE, anchor) for rows in (0, -1, 1, -2, 2)]
    return [
        *shifted,
        Place(EDGE, y - ARROW, "start") if x < WIDTH / 2 else Place(WIDTH - EDGE, y - ARROW, "end"),
    ]


def _outwards(point: Point, on: Seen, seen: Sequence[Seen]) -> At:
    right, rise = on.along
    joined = any(each.piece.before == seen.index(on) for each in seen)
    if point.along_frac >= 1.0 and not joined:
        return right, rise
    if point.along_frac <= 0.0 and on is seen[0]:
        return -right, -rise
    side = 1.0 if point.across_frac >= 0.5 else -1.0
    return side * on.up[0], side * on.up[1]
