"""Peak temperature along the pipe from the weld: pass by pass, with the dam's limit and one foot marked."""

from collections.abc import Sequence

from trainer.core.column import Floats
from trainer.core.one_foot import ONE_FOOT_M, PeakCurves
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, path, picture

SIZE = (800.0, 470.0)
FIELD = (100.0, 30.0, 760.0, 390.0)  # left, top, right, bottom
_CELSIUS_ZERO_K = 273.15
_STEPS_C = (20.0, 50.0, 100.0, 200.0)
_MOST_LINES = 7


def heat_plot(curves: PeakCurves, *, limit_k: float, reader: Reader) -> str:
    """A solid line a number of passes as if nothing were lost, a dashed one with the loss to the air."""
    scale = _Scale(curves, limit_k)
    left, top, right, bottom = FIELD
    foot_x = scale.x(ONE_FOOT_M)
    return picture(
        _axes(scale, reader),
        *(path("line", *_points(scale, curves.distances_m, row)) for row in curves.without_loss_k),
        *(path("mean", *_points(scale, curves.distances_m, row)) for row in curves.with_loss_k),
        line("target", left, scale.y(limit_k), right, scale.y(limit_k)),
        label(
            reader.words("the dam stands {limit}").format(limit=f"{limit_k - _CELSIUS_ZERO_K:.0f} °C"),
            right - 6, scale.y(limit_k) - 8, anchor="end", pen="small",
        ),
        line("dim", foot_x, top, foot_x, bottom),
        label(reader.length(ONE_FOOT_M), foot_x + 8, top + 20, anchor="start", pen="small"),
        size=SIZE,
        name=reader.words("Peak temperature against the distance from the weld"),
        told=_told(curves, limit_k, reader),
        prefix=reader.prefix,
    )  # fmt: skip


class _Scale:
    """Distance to the right, temperature upwards as far as is worth seeing."""

    def __init__(self, curves: PeakCurves, limit_k: float) -> None:
        highest_c = 2.5 * (limit_k - _CELSIUS_ZERO_K)
        self.step_c = next((each for each in _STEPS_C if highest_c / each <= _MOST_LINES), _STEPS_C[-1])
        self.high_c = self.step_c * round(highest_c / self.step_c + 0.5)
        self.far_m = float(curves.distances_m[-1])

    def x(self, distance_m: float) -> float:
        left, _, right, _ = FIELD
        return left + (right - left) * distance_m / self.far_m

    def y(self, temperature_k: float) -> float:
        _, top, _, bottom = FIELD
        share = (temperature_k - _CELSIUS_ZERO_K) / self.high_c
        return bottom - (bottom - top) * min(max(share, 0.0), 1.0)


def _points(scale: _Scale, distances_m: Floats, row: Floats) -> Sequence[str | float]:
    """The line from where it comes into the field."""
    commands: list[str | float] = []
    for distance_m, temperature_k in zip(distances_m.tolist(), row.tolist(), strict=True):
        if temperature_k - _CELSIUS_ZERO_K <= scale.high_c:
            commands += ["L" if commands else "M", scale.x(distance_m), scale.y(temperature_k)]
    return commands


def _axes(scale: _Scale, reader: Reader) -> str:
    left, top, right, bottom = FIELD
    levels = [scale.step_c * number for number in range(int(scale.high_c / scale.step_c) + 1)]
    across = [
        group(
            drawn("line", "grid", x1=left, y1=y, x2=right, y2=y),
            label(f"{level:.0f}", left - 10, y + 8, anchor="end", pen="small"),
        )
        for level in levels
        for y in (scale.y(level + _CELSIUS_ZERO_K),)
    ]
    along = [
        group(
            line("thin", scale.x(each), bottom, scale.x(each), bottom + 6),
            label(reader.length(each), scale.x(each), bottom + 30, pen="small"),
        )
        for each in (0.1, 0.2, 0.3, 0.4, 0.5)
    ]
    return group(
        *across,
        *along,
        label("°C", left - 10, top - 8, anchor="end", pen="small"),
        label(reader.words("from the weld"), (left + right) / 2, bottom + 66),
        path("thin", "M", left, top, "L", left, bottom, "L", right, bottom),
    )


def _told(curves: PeakCurves, limit_k: float, reader: Reader) -> str:
    said = reader.words(
        "Peak temperatures fall with the distance from the weld and rise with each pass, for {passes} passes;"
        " the dam stands {limit} °C. The table below holds where each meets it."
    )
    return said.format(passes=len(curves.without_loss_k), limit=f"{limit_k - _CELSIUS_ZERO_K:.0f}")
