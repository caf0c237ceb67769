"""Oxygen that people breathe against time: the air if it mixes, each face, and the levels that count."""

from collections.abc import Sequence

from trainer.domain.air_over_time import AirOverTime
from trainer.drawing.oxygen_scale import written_oxygen
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, path, picture
from trainer.drawing.trace_scales import Scales, time_unit, written_time

SIZE = (800.0, 440.0)
FIELD = (100.0, 34.0, 664.0, 380.0)  # left, top, right, bottom
HIGHEST_FRAC = 0.22
LEAST_FRAC = 0.195  # 29 CFR 1910.146(b): below it the air is oxygen-deficient
LEVELS_FRAC = (0.0, 0.05, 0.1, 0.15, 0.2)
PENS = ("line", "mean", "vent", "dashed")
APART = 24.0  # between the words at the lines' ends


def air_plot(air: AirOverTime, *, reader: Reader) -> str:
    """A line for the mixed air and one a face, with the lowest level that may be breathed."""
    scale = _Scale(air)
    lines = _lines(air, reader)
    left, top, right, bottom = FIELD
    x = scale.x(air.after_s)
    return picture(
        _axes(scale, reader),
        line("target", left, scale.y(LEAST_FRAC), right, scale.y(LEAST_FRAC)),
        *(path(pen, *_points(scale, row), data_line=name) for name, pen, row in lines),
        *_names(scale, lines, reader),
        group(line("thin", x, top, x, bottom), label(reader.words("asked for"), x, top - 10, pen="small")),
        size=SIZE,
        name=reader.words("Oxygen to breathe against time"),
        told=_told(lines, reader),
        prefix=reader.prefix,
    )


def air_rows(air: AirOverTime, *, count: int = 9) -> list[tuple[str, ...]]:
    """Rows for a table: minutes, the mixed air, then each face."""
    step = max(1, (len(air.moments) - 1) // (count - 1))
    return [
        (f"{each.time_s / 60:.3g}", *(_written(level) for level in (each.mixed_frac, *each.faces_frac)))
        for each in air.moments[::step]
    ]


class _Scale:
    """Time to the right, oxygen upwards from none."""

    def __init__(self, air: AirOverTime) -> None:
        self.until_s = air.moments[-1].time_s

    def x(self, time_s: float) -> float:
        left, _, right, _ = FIELD
        return left + (right - left) * time_s / self.until_s

    def y(self, oxygen_frac: float) -> float:
        _, top, _, bottom = FIELD
        return bottom - (bottom - top) * oxygen_frac / HIGHEST_FRAC


_Row = list[tuple[float, float]]


def _lines(air: AirOverTime, reader: Reader) -> list[tuple[str, str, _Row]]:
    """Name, pen and points of each line that has any."""
    columns = [(reader.words("if it mixes"), [(m.time_s, m.mixed_frac) for m in air.moments])]
    for place in range(len(air.moments[0].faces_frac)):
        name = reader.words("person {number}").format(number=place + 1)
        columns.append((name, [(m.time_s, m.faces_frac[place]) for m in air.moments]))
    found = []
    for number, (name, points) in enumerate(columns):
        row = [(time_s, level) for time_s, level in points if level is not None]
        if row:
            found.append((name, PENS[number % len(PENS)], row))
    return found


def _points(scale: _Scale, row: _Row) -> Sequence[str | float]:
    commands: list[str | float] = []
    for time_s, oxygen_frac in row:
        commands += ["L" if commands else "M", scale.x(time_s), scale.y(oxygen_frac)]
    return commands


def _names(scale: _Scale, lines: list[tuple[str, str, _Row]], reader: Reader) -> list[str]:
    """Each line's name at its end, and the level's, moved apart where they would meet."""
    wanted = [(scale.y(row[-1][1]), name) for name, _, row in lines]
    wanted.append((scale.y(LEAST_FRAC), reader.words("least {oxygen}").format(oxygen=_written(LEAST_FRAC))))
    labels, lowest = [], -APART
    for y, name in sorted(wanted):
        lowest = max(y, lowest + APART)
        labels.append(label(name, FIELD[2] + 8, lowest + 7, anchor="start", pen="small"))
    return labels


def _axes(scale: _Scale, reader: Reader) -> str:
    left, top, right, bottom = FIELD
    levels = [
        group(
            drawn("line", "grid", x1=left, y1=scale.y(each), x2=right, y2=scale.y(each)),
            label(f"{each * 100:.0f} %", left - 8, scale.y(each) + 8, anchor="end", pen="small"),
        )
        for each in LEVELS_FRAC
    ]
    ticks = Scales(until_s=scale.until_s, low_decade=-1).times()
    times = [
        group(
            line("thin", scale.x(each), bottom, scale.x(each), bottom + 6),
            label(written_time(each, scale.until_s), scale.x(each), bottom + 30, pen="small"),
        )
        for each in ticks
    ]
    unit = label(reader.words(time_unit(scale.until_s)), right + 24, bottom + 30, anchor="start", pen="small")
    return group(*levels, *times, unit, path("thin", "M", left, top, "L", left, bottom, "L", right, bottom))


def _told(lines: list[tuple[str, str, _Row]], reader: Reader) -> str:
    said = reader.words("{name}: from {first} to {last}.")
    return " ".join(
        said.format(name=name, first=_written(row[0][1]), last=_written(row[-1][1])) for name, _, row in lines
    )


def _written(level_frac: float | None) -> str:
    return "–" if level_frac is None else written_oxygen(level_frac)
