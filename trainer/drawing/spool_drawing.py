"""A spool in elevation: its parts by number, inlet, vents and joint, and where air is known to stay."""

from collections.abc import Collection, Sequence
from math import hypot

from trainer.domain.set_up import Joint, SetUp
from trainer.domain.spool_path import all_parts, core_parts_of, path_of, point_of
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.free_places import Place
from trainer.drawing.reader import ENGLISH_METRIC, Reader
from trainer.drawing.signs import signs_drawing, strip_of
from trainer.drawing.spool_elevation import At, Seen, part_of, place_of, seen_from_the_side
from trainer.drawing.spool_hoses import spool_hoses
from trainer.drawing.spool_levels import levels_drawing, levels_of
from trainer.drawing.spool_openings import opening_drawing, openings_of
from trainer.drawing.spool_sheet import DRAWN_HEIGHT, EDGE, LINE, WIDTH, Sheet, sheet_for
from trainer.drawing.spool_words import list_words, told_of_spool
from trainer.drawing.spool_yard import Yard, yard_drawing, yard_of
from trainer.drawing.svg import drawn, group, label, line, path, picture
from trainer.drawing.text_width import rows_of
from trainer.drawing.wording_of_drawing import told_around

DIGIT = 24.0
HALF_DIGIT = 8.0
LIST_X = 24.0


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
    core_parts = core_parts_of(set_up)
    seen = seen_from_the_side(core_parts) if core_parts else []
    yard = yard_of(set_up) if seen else None
    height = (yard.foot + LINE if yard else DRAWN_HEIGHT) if seen else LINE
    told = [
        *list_words(set_up, dead_legs=dead_legs, crossed=crossed, reader=reader),
        *(each for each in told_around(set_up, asked=asked, reader=reader) if each),
    ]
    rows = [row for words in told for row in rows_of(words, width=WIDTH - LIST_X - EDGE)]
    strip, foot = strip_of(asked.objects), height + LINE * len(rows)
    lift = foot - strip.top if strip else 0.0
    scene = group(
        _spool(set_up, seen, {*dead_legs, *crossed}, reader, yard) if seen else "",
        yard_drawing(yard, reader) if yard else "",
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
    seen: Sequence[Seen],
    with_air: Collection[str],
    reader: Reader,
    yard: Yard | None,
) -> str:
    sheet = sheet_for(seen)
    openings = openings_of(set_up, seen, sheet, reader)
    hoses = spool_hoses(openings, yard=yard, seen=seen, sheet=sheet)
    levels = levels_of(seen)
    named = [part.name or "" for part in all_parts(path_of(set_up))]
    joint_on = set_up.joint.at if set_up.joint else None
    return group(
        hoses,
        levels_drawing(
            levels, on_sheet=[sheet.at(place) for _, place in levels], free=sheet.free, reader=reader
        ),
        *(_part(part_of(seen, name), name in with_air, sheet) for name in _back_to_front(set_up, seen)),
        _joint(set_up.joint, seen, sheet, reader),
        *(opening_drawing(each, sheet) for each in openings),
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
        sheet.free.write(words, *beside),
        data_part="joint",
    )
