"""A spool in elevation: its parts by number, inlet, vents and joint, and where air is known to stay."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from math import hypot, inf

from trainer.domain.known_parts import size_of
from trainer.domain.set_up import Joint, PathPartKind, SetUp
from trainer.domain.spool_path import all_parts, core_parts_of, path_of, point_of
from trainer.drawing.asked import NOTHING_ASKED, Asked
from trainer.drawing.free_places import Place
from trainer.drawing.pipe_parts import hatch_patterns
from trainer.drawing.reader import ENGLISH_METRIC, Reader
from trainer.drawing.signs import signs_drawing, strip_of
from trainer.drawing.spool_elevation import At, Seen, part_of, place_of, seen_from_the_side
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
# Where along its part a number may stand, the best first.
ON_A_PART = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
BESIDE_A_JOINT = (0.25, 0.75, 0.15, 0.85)
UPRIGHT = 0.7  # of a part's way, how much of it rises
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
    for each in seen:
        sheet.free.lay_metal(sheet.at(each.begins), sheet.at(each.ends), half=sheet.outer(each))
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
        *_numbers(
            {number: part_of(seen, part.name or "") for number, part in enumerate(parts, start=1)},
            sheet,
            joint_on=next(
                (number for number, part in enumerate(parts, start=1) if part.name == joint_on), None
            ),
        ),
        data_part="spool",
    )


def _numbers(parts: Mapping[int, Sequence[Seen]], sheet: Sheet, *, joint_on: int | None) -> Iterator[str]:
    """Each in its part, in the middle or beside a joint; where there is no room, near by, those last."""
    stand = {
        number: sheet.free.place_on_metal(str(number), _on_its_part(pieces, sheet, number == joint_on))
        for number, pieces in parts.items()
    }
    for number, pieces in parts.items():
        on_it = stand[number]
        place = on_it or sheet.free.place(str(number), _near_its_part(pieces, sheet))
        reach = inf if on_it else sheet.outer(pieces[0]) + DIGIT
        yield _number(number, place, sheet.at(_along(pieces, 0.5)), reach=reach)


def _on_its_part(pieces: Sequence[Seen], sheet: Sheet, holds_joint: bool) -> list[Place]:
    if is_on_end(pieces):
        return []
    shares = BESIDE_A_JOINT if holds_joint else ON_A_PART
    points = (sheet.at(_along(pieces, share)) for share in shares)
    return [Place(x, y + HALF_DIGIT) for x, y in points]


def _near_its_part(pieces: Sequence[Seen], sheet: Sheet) -> list[Place]:
    """Beside a part that stands, under or over one that lies."""
    off = sheet.outer(pieces[0]) + DIGIT
    points = [sheet.at(_along(pieces, share)) for share in ON_A_PART]
    if abs(pieces[len(pieces) // 2].along[1]) > UPRIGHT:
        return [Place(x + side * off, y + HALF_DIGIT) for x, y in points for side in (1.0, -1.0)]
    return [Place(x, y + down) for x, y in points for down in (off, DIGIT - off)]


def _number(number: int, place: Place, part: At, *, reach: float) -> str:
    """A number, with a line to its part where it stands further from it than it reaches."""
    (x, y), away_x, away_y = part, place.x - part[0], place.y - HALF_DIGIT - part[1]
    way = hypot(away_x, away_y)
    leads = way > reach
    share = (way - DIGIT / 2) / way if leads else 0.0
    leader = line("thin", x, y, x + away_x * share, y + away_y * share) if leads else ""
    return group(leader, label(str(number), place.x, place.y), data_part=f"part number {number}")


def _along(pieces: Sequence[Seen], share: float) -> At:
    """A point on the axis of a part, as far along it as the share of its pieces."""
    whole = int(min(share * len(pieces), len(pieces) - 1))
    return pieces[whole].at(share * len(pieces) - whole)


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
