"""Levels beside a spool: how high its level stretches lie over the lowest of them, on lines to the margin."""

from collections.abc import Sequence

from trainer.drawing.free_places import FreePlaces, Place
from trainer.drawing.reader import Reader
from trainer.drawing.spool_elevation import At, Seen
from trainer.drawing.svg import group, line, path

LEVEL_X, LEAST_APART = 14.0, 30.0
NEARLY_LEVEL_DEG = 5.0
LEAST_M = 0.01


def levels_of(seen: Sequence[Seen]) -> list[tuple[float, At]]:
    """Heights over the lowest axis with the leftmost place that lies so high, lowest first."""
    places = [
        (end[1], end)
        for each in seen
        for end in (each.begins, each.ends)
        if abs(each.piece.slope_deg) < NEARLY_LEVEL_DEG or each is seen[0] or each is seen[-1]
    ]
    lowest_m = min(end[1] for each in seen for end in (each.begins, each.ends))
    found: list[tuple[float, At]] = []
    for height_m, place in sorted(places, key=lambda each: (round(each[0] / LEAST_M), each[1][0])):
        if not found or height_m - lowest_m - found[-1][0] > LEAST_M:
            found.append((height_m - lowest_m, place))
    return found


def levels_drawing(
    levels: Sequence[tuple[float, At]], *, on_sheet: Sequence[At], free: FreePlaces, reader: Reader
) -> str:
    """A line from each level to the left margin with its height; of two too near to each other, the lower."""
    if len(levels) < 2:  # noqa: PLR2004 - one level alone is no height
        return ""
    marks: list[str] = []
    last_y: float | None = None
    for (height_m, _), (x, y) in zip(levels, on_sheet, strict=True):
        if last_y is not None and last_y - y < LEAST_APART:
            continue
        last_y = y
        words = f"+{reader.length(height_m)}" if height_m >= LEAST_M else reader.length(0.0)
        marks.append(_mark(x, y, free.write(words, Place(LEVEL_X + 16.0, y - 4.0, "start")), height_m))
    return group(*marks, data_part="levels")


def _mark(x: float, y: float, words: str, height_m: float) -> str:
    """The triangle of a level on its line."""
    return group(
        line("dim", LEVEL_X, y, x, y),
        path("dim", "M", LEVEL_X - 6, y - 10, "L", LEVEL_X, y, "L", LEVEL_X + 6, y - 10, "Z"),
        words,
        data_part="level",
        data_height_m=f"{height_m:.6g}",
    )
