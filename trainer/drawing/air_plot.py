"""Oxygen that people breathe against time: the air if it mixes, each face, and the levels that count."""

from trainer.domain.air_over_time import AirOverTime
from trainer.domain.run_people_air import LEAST_TO_BREATHE_FRAC
from trainer.drawing.plot_frame import polyline, time_frame
from trainer.drawing.reader import Reader
from trainer.drawing.svg import group, label, line, picture
from trainer.drawing.trace_scales import Scales

SIZE = (800.0, 440.0)
FIELD = (100.0, 34.0, 664.0, 380.0)  # left, top, right, bottom
HIGHEST_FRAC = 0.22
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
        line("target", left, scale.y(LEAST_TO_BREATHE_FRAC), right, scale.y(LEAST_TO_BREATHE_FRAC)),
        *(_line(scale, name, pen, row) for name, pen, row in lines),
        *_names(scale, lines, reader),
        group(line("thin", x, top, x, bottom), label(reader.words("asked for"), x, top - 10, pen="small")),
        size=SIZE,
        name=reader.words("Oxygen to breathe against time"),
        told=_told(lines, reader),
        prefix=reader.prefix,
    )


def air_rows(air: AirOverTime, *, reader: Reader, count: int = 9) -> list[tuple[str, ...]]:
    """Rows for a table: minutes, the mixed air, then each face."""
    step = max(1, (len(air.moments) - 1) // (count - 1))
    return [
        (
            reader.number(each.time_s / 60, ".3g"),
            *(_written(level, reader) for level in (each.mixed_frac, *each.faces_frac)),
        )
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


def _line(scale: _Scale, name: str, pen: str, row: _Row) -> str:
    return polyline(pen, ((scale.x(time_s), scale.y(level)) for time_s, level in row), name=name)


def _names(scale: _Scale, lines: list[tuple[str, str, _Row]], reader: Reader) -> list[str]:
    """Each line's name at its end, and the level's, moved apart where they would meet."""
    wanted = [(scale.y(row[-1][1]), name) for name, _, row in lines]
    wanted.append(
        (
            scale.y(LEAST_TO_BREATHE_FRAC),
            reader.words("least {oxygen}").format(oxygen=_written(LEAST_TO_BREATHE_FRAC, reader)),
        )
    )
    labels, lowest = [], -APART
    for y, name in sorted(wanted):
        lowest = max(y, lowest + APART)
        labels.append(label(name, FIELD[2] + 8, lowest + 7, anchor="start", pen="small"))
    return labels


def _axes(scale: _Scale, reader: Reader) -> str:
    levels = [(scale.y(each), f"{each * 100:.0f} %") for each in LEVELS_FRAC]
    times = Scales(until_s=scale.until_s, low_decade=-1)
    return time_frame(FIELD, levels=levels, scales=times, x=scale.x, reader=reader)


def _told(lines: list[tuple[str, str, _Row]], reader: Reader) -> str:
    said = reader.words("{name}: from {first} to {last}.")
    return " ".join(
        said.format(name=name, first=_written(row[0][1], reader), last=_written(row[-1][1], reader))
        for name, _, row in lines
    )


def _written(level_frac: float | None, reader: Reader) -> str:
    return "–" if level_frac is None else reader.air(level_frac)
