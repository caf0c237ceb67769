"""What plots against time share: levels across, times below with their unit, the two axes, a line."""

from collections.abc import Callable, Iterable, Sequence

from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, path
from trainer.drawing.trace_scales import Scales, time_unit, written_time

Field = tuple[float, float, float, float]  # left, top, right, bottom


def time_frame(
    field: Field,
    *,
    levels: Sequence[tuple[float, str]],
    scales: Scales,
    x: Callable[[float], float],
    reader: Reader,
) -> str:
    """A line and words for each level (its height first), the times where `x` puts them, both axes."""
    left, top, right, bottom = field
    across = [
        group(
            drawn("line", "grid", x1=left, y1=y, x2=right, y2=y),
            label(words, left - 8, y + 8, anchor="end", pen="small"),
        )
        for y, words in levels
    ]
    return group(
        *across,
        *(_time((x(each), bottom), each, scales, reader) for each in scales.times()),
        label(reader.words(time_unit(scales.until_s)), right + 24, bottom + 30, anchor="start", pen="small"),
        path("thin", "M", left, top, "L", left, bottom, "L", right, bottom),
    )


def _time(foot: tuple[float, float], time_s: float, scales: Scales, reader: Reader) -> str:
    x, bottom = foot
    return group(
        line("thin", x, bottom, x, bottom + 6),
        label(written_time(time_s, scales.until_s, reader=reader), x, bottom + 30, pen="small"),
    )


def polyline(pen: str, points: Iterable[tuple[float, float]], *, name: str) -> str:
    """A line through places of the drawing, named for scripts and tests; nothing where there are none."""
    commands: list[str | float] = []
    for x, y in points:
        commands += ["L" if commands else "M", x, y]
    return path(pen, *commands, data_line=name) if commands else ""
