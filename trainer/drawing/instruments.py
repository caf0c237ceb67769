"""Instruments to be read: gauge, flow tube, analyser, oxygen trace, and the root itself.

The picture's words name the instrument and its scale and never what it shows: whoever cannot see it is told
the reading's neighbourhood by the scale marks on either side.
"""

from collections.abc import Callable, Mapping
from math import cos, floor, pi, sin

from trainer.core.terms import RootGrade
from trainer.domain.scenario import Instrument, InstrumentKind
from trainer.drawing.reader import Reader
from trainer.drawing.root_drawing import root_drawing
from trainer.drawing.svg import drawn, group, label, line, path, picture
from trainer.drawing.trace_scales import PLOT, Scales, scales_for, time_unit, written_time

_DIAL_SIZE, _DIAL_MIDDLE, _DIAL_RADIUS = (360.0, 330.0), (180.0, 176.0), 132.0
_SWEEP_FROM, _SWEEP = 0.75 * pi, 1.5 * pi  # from lower left over the top to lower right
_TUBE_SIZE, _TUBE_TOP, _TUBE_BOTTOM, _TUBE_X = (260.0, 420.0), 40.0, 380.0, 96.0
_DISPLAY_SIZE = (320.0, 150.0)
_NUMBERED_EVERY = 5
_SLACK = 1e-9


def instrument_drawing(instrument: Instrument, *, reader: Reader) -> str:
    """The instrument with what it shows."""
    return _DRAWN[instrument.kind](instrument, reader)


def _dial(shown: Instrument, reader: Reader) -> str:
    middle_x, middle_y = _DIAL_MIDDLE
    ticks = []
    for number, value in enumerate(_marks(shown)):
        angle = _SWEEP_FROM + _SWEEP * (value - shown.low) / (shown.high - shown.low)
        is_long = number % _NUMBERED_EVERY == 0
        inner = _DIAL_RADIUS - (20.0 if is_long else 11.0)
        ticks.append(line("line" if is_long else "thin", *_at(angle, inner), *_at(angle, _DIAL_RADIUS)))
        if is_long:
            x, y = _at(angle, _DIAL_RADIUS - 42.0)
            ticks.append(label(_figure(shown, value, reader), x, y + 8.0, pen="small"))
    pointing = _SWEEP_FROM + _SWEEP * (shown.points_to - shown.low) / (shown.high - shown.low)
    return picture(
        drawn("circle", "shape", cx=middle_x, cy=middle_y, r=_DIAL_RADIUS + 14.0),
        *ticks,
        label(shown.unit, middle_x, middle_y + 76.0),
        line("wall", *_at(pointing + pi, 26.0), *_at(pointing, _DIAL_RADIUS - 14.0)),
        drawn("circle", "solid", cx=middle_x, cy=middle_y, r=9.0),
        size=_DIAL_SIZE,
        name=reader.words("Pressure gauge"),
        told=_told(shown, reader),
        prefix=reader.prefix,
    )


def _at(angle: float, radius: float) -> tuple[float, float]:
    middle_x, middle_y = _DIAL_MIDDLE
    return middle_x + radius * cos(angle), middle_y + radius * sin(angle)


def _flow_tube(shown: Instrument, reader: Reader) -> str:
    """A tapering tube with a float; it is read at the float's upper edge, as the words beside it say."""

    def height(value: float) -> float:
        return _TUBE_BOTTOM - (_TUBE_BOTTOM - _TUBE_TOP) * (value - shown.low) / (shown.high - shown.low)

    ticks = []
    for number, value in enumerate(_marks(shown)):
        is_long = number % _NUMBERED_EVERY == 0
        right = _TUBE_X + 58.0 + (22.0 if is_long else 12.0)
        ticks.append(line("line" if is_long else "thin", _TUBE_X + 58.0, height(value), right, height(value)))
        if is_long:
            ticks.append(
                label(
                    _figure(shown, value, reader),
                    right + 8.0,
                    height(value) + 8.0,
                    anchor="start",
                    pen="small",
                )
            )
    edge = height(shown.points_to)
    left, right = _TUBE_X - 40.0, _TUBE_X + 40.0
    corners = ((_TUBE_X - 22.0, edge), (_TUBE_X + 22.0, edge), (_TUBE_X, edge + 34.0))
    return picture(
        path("shape", "M", left + 12, _TUBE_BOTTOM + 14, "L", left, _TUBE_TOP - 20, "L", right,
             _TUBE_TOP - 20, "L", right - 12, _TUBE_BOTTOM + 14, "Z"),
        drawn("polygon", "solid", points=" ".join(f"{x:.1f},{y:.1f}" for x, y in corners)),
        *ticks,
        label(shown.unit, _TUBE_X + 86.0, 24.0, anchor="start"),
        size=_TUBE_SIZE,
        name=reader.words("Flow tube, read at the float's upper edge"),
        told=_told(shown, reader),
        prefix=reader.prefix,
    )  # fmt: skip


def _display(shown: Instrument, reader: Reader) -> str:
    """An analyser's figures; what it shows is text, and so it is told as text."""
    figure = _figure(shown, shown.points_to, reader)
    width, height = _DISPLAY_SIZE
    return picture(
        drawn("rect", "steel", x=10, y=10, width=width - 20, height=height - 20),
        drawn("rect", "shape", x=34, y=34, width=width - 68, height=height - 68),
        label(f"{figure} {shown.unit}", width / 2, height / 2 + 10.0),
        size=_DISPLAY_SIZE,
        name=reader.words("Oxygen analyser"),
        told=reader.words("The display shows {figure} {unit}.").format(figure=figure, unit=shown.unit),
        prefix=reader.prefix,
    )


def _trace(shown: Instrument, reader: Reader) -> str:
    """Oxygen at the root against time, without a mark: where it crosses a level is what is asked."""
    rows = [(time_s, oxygen, oxygen, oxygen) for time_s, oxygen in shown.points]
    scales = scales_for(rows, others_frac=())
    commands: list[str | float] = []
    for time_s, oxygen in shown.points:
        commands += ["L" if commands else "M", scales.x(time_s), scales.y(oxygen)]
    return picture(
        _grid(scales, shown, reader),
        path("wall", *commands),
        size=(800.0, 440.0),
        name=reader.words("Oxygen at the root against time"),
        told=_trace_told(shown, reader),
        prefix=reader.prefix,
    )


def _grid(scales: Scales, shown: Instrument, reader: Reader) -> str:
    left, top, right, bottom = PLOT
    across = [
        group(
            drawn("line", "grid", x1=left, y1=scales.y(each), x2=right, y2=scales.y(each)),
            label(_level(each, reader), left - 8, scales.y(each) + 8, anchor="end", pen="small"),
        )
        for each in scales.decades()
    ]
    steps = [shown.division * number for number in range(floor(scales.until_s / shown.division) + 1)]
    up = [drawn("line", "grid", x1=scales.x(each), y1=top, x2=scales.x(each), y2=bottom) for each in steps]
    times = [
        label(written_time(each, scales.until_s, reader=reader), scales.x(each), bottom + 30, pen="small")
        for each in scales.times()
    ]
    unit = label(
        reader.words(time_unit(scales.until_s)), right + 24, bottom + 30, anchor="start", pen="small"
    )
    return group(
        *across, *up, *times, unit, path("thin", "M", left, top, "L", left, bottom, "L", right, bottom)
    )


def _trace_told(shown: Instrument, reader: Reader) -> str:
    """The line in a dozen pairs of time and oxygen: as much as the drawing gives to the eye."""
    step = max(1, len(shown.points) // 12)
    until = shown.points[-1][0] if shown.points else 0.0
    pairs = ", ".join(
        f"{written_time(time_s, until, reader=reader)} {time_unit(until)}: {_level(oxygen, reader)}"
        for time_s, oxygen in shown.points[::step]
    )
    return reader.words("Oxygen falls with time: {pairs}.").format(pairs=pairs)


def _level(oxygen_frac: float, reader: Reader) -> str:
    value, unit = (oxygen_frac * 100, "%") if oxygen_frac >= 1e-3 else (oxygen_frac * 1e6, "ppm")
    return f"{reader.number(float(f'{value:.2g}'))} {unit}"  # two figures, never in powers of ten


def _root(shown: Instrument, reader: Reader) -> str:
    return root_drawing(RootGrade(shown.grade), peak_colour=None, oxygen_words="", reader=reader)


def _marks(shown: Instrument) -> list[float]:
    """Every division of the scale, both ends included."""
    count = floor((shown.high - shown.low) / shown.division + _SLACK)
    return [shown.low + shown.division * number for number in range(count + 1)]


def _figure(shown: Instrument, value: float, reader: Reader) -> str:
    return reader.number(value / shown.si_per_unit, ".7g")  # all of an analyser's figures, no powers of ten


def _told(shown: Instrument, reader: Reader) -> str:
    """Between which two marks it stands: what a look at the scale gives before one estimates."""
    below = shown.low + floor((shown.points_to - shown.low) / shown.division + _SLACK) * shown.division
    said = reader.words("A scale from {low} to {high} {unit}; it stands between {below} and {above}.")
    return said.format(
        low=_figure(shown, shown.low, reader),
        high=_figure(shown, shown.high, reader),
        unit=shown.unit,
        below=_figure(shown, below, reader),
        above=_figure(shown, min(below + shown.division, shown.high), reader),
    )


_DRAWN: Mapping[InstrumentKind, Callable[[Instrument, Reader], str]] = {
    InstrumentKind.PRESSURE_GAUGE: _dial,
    InstrumentKind.FLOW_TUBE: _flow_tube,
    InstrumentKind.ANALYSER: _display,
    InstrumentKind.TRACE: _trace,
    InstrumentKind.ROOT: _root,
}
