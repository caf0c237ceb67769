"""A spool cut open: the metal of its walls as one body, its bore as another laid over it.

Every shape is drawn with its line first and all are filled after that, so that where parts meet only the
outline of them together is left, and the mouth of an outlet is open; a thin line across the pipe stays for
each weld.
"""

from collections.abc import Collection, Iterator, Sequence
from itertools import accumulate, pairwise
from math import dist

from trainer.domain.spool_path import OUTLET
from trainer.drawing.spool_elevation import At, Seen, part_of
from trainer.drawing.spool_sheet import Sheet
from trainer.drawing.svg import drawn, group, line, number, path

HATCHED_FROM = 7.0  # a wall that is drawn thinner is filled, as thin sections are on every sheet


def spool_metal(  # noqa: PLR0913 - parts, what is known of them, on a sheet
    seen: Sequence[Seen],
    names: Sequence[str],
    *,
    with_air: Collection[str],
    capped: Collection[str],
    sheet: Sheet,
    prefix: str,
) -> str:
    """All parts by name, those that are seen on end last; `capped` are those that metal closes."""
    along = [name for name in names if not is_on_end(part_of(seen, name))]
    towards = [name for name in names if name not in along]
    bodies = [_outline(part_of(seen, name), sheet, sheet.wall, closes=name in capped) for name in along]
    bores = [(_outline(part_of(seen, name), sheet, 0.0, closes=False), name in with_air) for name in along]
    return group(
        *(path("wall", *each) for each in bodies),
        *(_metal("path", sheet, prefix, d=_steps(each)) for each in bodies),
        *(path("wall", *each) for each, _ in bores),
        *(_bore(each, has_air=has_air) for each, has_air in bores),
        *_welds(seen, along, sheet),
        *(_on_end(part_of(seen, name), name in with_air, sheet, prefix) for name in towards),
    )


def is_on_end(pieces: Sequence[Seen]) -> bool:
    """Whether a part comes towards the reader."""
    return all(each.is_on_end for each in pieces)


def _metal(shape: str, sheet: Sheet, prefix: str, **place: float | str) -> str:
    if sheet.wall < HATCHED_FROM:
        return drawn(shape, "solid", **place, data_part="metal")
    return drawn(shape, "metal", **place, fill=f"url(#{prefix}-metal)", data_part="metal")


def _steps(outline: Sequence[str | float]) -> str:
    return " ".join(each if isinstance(each, str) else number(each) for each in outline)


def _bore(outline: Sequence[str | float], *, has_air: bool) -> str:
    """The inside of one part, over the lines of those that it opens into."""
    pen, name = ("air", "part with air") if has_air else ("plain", "part")
    return path(pen, *outline, data_part=name)


def _on_end(pieces: Sequence[Seen], has_air: bool, sheet: Sheet, prefix: str) -> str:
    """A part that comes towards the reader: a ring."""
    x, y = sheet.at(pieces[-1].ends)
    half = sheet.half(pieces[0])
    pen, name = ("steel", "part with air") if has_air else ("shape", "part")
    return group(
        drawn("circle", "wall", cx=x, cy=y, r=half + sheet.wall),
        _metal("circle", sheet, prefix, cx=x, cy=y, r=half + sheet.wall),
        drawn("circle", pen, cx=x, cy=y, r=half, data_part=name),
    )


def _outline(pieces: Sequence[Seen], sheet: Sheet, wall: float, *, closes: bool) -> list[str | float]:
    """Round one part, so far outside its bore; what is closed by metal is larger by that much all round."""
    if closes:
        return _dome(pieces, sheet, wall)
    there = [_edge(each, place, 1.0, sheet, wall) for each in pieces for place in (each.begins, each.ends)]
    back = [
        _edge(each, place, -1.0, sheet, wall)
        for each in reversed(pieces)
        for place in (each.ends, each.begins)
    ]
    return _closed([*there, *back])


def _dome(pieces: Sequence[Seen], sheet: Sheet, wall: float) -> list[str | float]:
    """Round a cap: as much wider and as much deeper than its bore as the metal is thick."""
    (x, y), (right, rise) = sheet.at(pieces[0].begins), pieces[0].along
    depths = [0.0, *accumulate(dist(sheet.at(each.begins), sheet.at(each.ends)) for each in pieces)]
    widest = sheet.half(pieces[0])
    deeper, wider = (depths[-1] + wall) / depths[-1], (widest + wall) / widest
    side = [
        (depth * deeper, sheet.half(each) * wider)
        for each, ends in zip(pieces, pairwise(depths), strict=True)
        for depth in ends
    ]
    outline = [*side, *((depth, -half) for depth, half in reversed(side))]
    return _closed([(x + right * s - rise * h, y - rise * s - right * h) for s, h in outline])


def _closed(places: Sequence[At]) -> list[str | float]:
    steps: list[str | float] = ["M", *places[0]]
    for at in places[1:]:
        steps += ["L", *at]
    return [*steps, "Z"]


def _edge(seen: Seen, place: At, side: float, sheet: Sheet, wall: float) -> At:
    (x, y), (right, rise) = sheet.at(place), seen.along
    off = side * (sheet.half(seen) + wall)
    return x - rise * off, y - right * off


def _welds(seen: Sequence[Seen], names: Sequence[str], sheet: Sheet) -> Iterator[str]:
    """A line across the pipe wherever one part is welded to the part before it."""
    for name in names:
        first = part_of(seen, name)[0]
        before = seen[first.piece.before] if first.piece.before >= 0 else None
        if before is None or name == before.piece.part + OUTLET:
            continue
        # a run tells the direction there; the first piece of a bend has already left it
        straight = max(before, first, key=lambda each: each.piece.length_m)
        ends = (_edge(straight, first.begins, side, sheet, sheet.wall) for side in (1.0, -1.0))
        yield line("dim", *next(ends), *next(ends))
