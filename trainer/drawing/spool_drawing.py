"""A spool in elevation: its parts by number, inlet, vents and joint, and where air is known to stay."""

from collections.abc import Collection, Sequence
from math import hypot

from trainer.domain.known_parts import size_of
from trainer.domain.set_up import Joint, PathPartKind, SetUp
from trainer.domain.spool_path import all_parts, core_parts_of, path_of, point_of
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.free_places import Place
from trainer.drawing.pipe_parts import hatch_patterns
from trainer.drawing.reader import ENGLISH_METRIC, Reader
from trainer.drawing.signs import signs_drawing, strip_of
from trainer.drawing.spool_elevation import Seen, part_of, place_of, seen_from_the_side
from trainer.drawing.spool_hoses import spool_hoses
from trainer.drawing.spool_levels import levels_drawing, levels_of
from trainer.drawing.spool_metal import is_on_end, spool_metal
from trainer.drawing.spool_openings import opening_drawing, openings_of
from trainer.drawing.spool_sheet import DRAWN_HEIGHT, EDGE, LINE, WIDTH, Sheet, sheet_for
from trainer.drawing.spool_words import list_words, told_of_spool
from trainer.drawing.spool_yard import Yard, yard_drawing, yard_of
from trainer.drawing.svg import group, label, line, picture
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
        hatch_patterns(reader.prefix),
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
    size = size_of(set_up.pipe)
    sheet = sheet_for(seen, wall_m=size.wall_m if size else None)
    openings = openings_of(set_up, seen, sheet, reader)
    hoses = spool_hoses(openings, yard=yard, seen=seen, sheet=sheet)
    levels = levels_of(seen)
    parts = list(all_parts(path_of(set_up)))
    joint_on = set_up.joint.at if set_up.joint else None
    return group(
        hoses,
        levels_drawing(
            levels, on_sheet=[sheet.at(place) for _, place in levels], free=sheet.free, reader=reader
        ),
        spool_metal(
            seen,
            list(dict.fromkeys(each.piece.part for each in seen)),
            with_air=with_air,
            capped=[part.name or "" for part in parts if part.part is PathPartKind.CAP],
            sheet=sheet,
            prefix=reader.prefix,
        ),
        _joint(set_up.joint, seen, sheet, reader),
        *(opening_drawing(each, sheet) for each in openings),
        *(
            _number(part_of(seen, part.name or ""), number, sheet, keeps_middle_free=part.name == joint_on)
            for number, part in enumerate(parts, start=1)
        ),
        data_part="spool",
    )


def _number(pieces: Sequence[Seen], number: int, sheet: Sheet, *, keeps_middle_free: bool) -> str:
    """In the middle of its part, beside a joint there; where that is taken, near by at the end of a line."""
    x, y = sheet.at(pieces[len(pieces) // (4 if keeps_middle_free else 2)].at(0.5))
    below = [Place(x, y + sheet.outer(pieces[0]) + DIGIT)] if is_on_end(pieces) else []
    place = sheet.free.place(str(number), [*below, Place(x, y + HALF_DIGIT)])
    away_x, away_y = place.x - x, place.y - HALF_DIGIT - y
    way = hypot(away_x, away_y)
    leads = way > sheet.outer(pieces[0]) + DIGIT
    share = (way - DIGIT / 2) / way if leads else 0.0
    leader = line("thin", x, y, x + away_x * share, y + away_y * share) if leads else ""
    return group(leader, label(str(number), place.x, place.y), data_part=f"part number {number}")


def _joint(joint: Joint | None, seen: Sequence[Seen], sheet: Sheet, reader: Reader) -> str:
    point = point_of(joint)
    if point is None:
        return ""
    on, along = place_of(seen, point)
    (x, y), (right, rise) = sheet.at(on.at(along)), on.along
    half = sheet.outer(on) + 10.0
    words = reader.words("joint")
    beside = [
        Place(x - side * rise * (half + 26), y - side * right * (half + 10) + 4) for side in (1.0, -1.0)
    ]
    return group(
        line("wall", x - rise * half, y - right * half, x + rise * half, y + right * half),
        sheet.free.write(words, *beside),
        data_part="joint",
    )
