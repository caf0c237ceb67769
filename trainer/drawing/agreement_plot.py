"""Volume changes by the model against those that were simulated, on two logarithmic scales."""

from collections.abc import Sequence
from math import log10

from trainer.core.agreement import Agreement
from trainer.drawing.reader import Reader
from trainer.drawing.svg import drawn, group, label, line, path, picture

SIZE = (800.0, 620.0)
FIELD = (110.0, 30.0, 760.0, 540.0)  # left, top, right, bottom
LOW, HIGH = 0.4, 120.0
_FIGURES = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
_QUARTER = 1.25


def agreement_plot(rows: Sequence[Agreement], *, reader: Reader) -> str:
    """A filled mark for each time that judges, a hollow one for each that constants were set on.

    The line through each mark is the model's interval; on the long line both agree, and between the dashed
    ones the model is within a quarter.
    """
    return picture(
        _axes(reader),
        _diagonal("thin", 1.0),
        _diagonal("dashed", _QUARTER),
        _diagonal("dashed", 1.0 / _QUARTER),
        *(_mark(each) for each in rows),
        size=SIZE,
        name=reader.words("Volume changes: model against simulation"),
        told=reader.words(
            "Each mark is one simulated time and what the model gives for it, with its interval; the table"
            " below holds the same figures."
        ),
        prefix=reader.prefix,
    )


def place(count: float) -> float:
    """Where a number of volume changes lies between the ends of an axis, 0 to 1."""
    return (log10(count) - log10(LOW)) / (log10(HIGH) - log10(LOW))


def _x(simulated: float) -> float:
    left, _, right, _ = FIELD
    return left + (right - left) * place(simulated)


def _y(modelled: float) -> float:
    _, top, _, bottom = FIELD
    return bottom - (bottom - top) * place(min(max(modelled, LOW), HIGH))


def _mark(row: Agreement) -> str:
    """Hollow or filled, so that print in grey tells them apart."""
    x, y = _x(row.simulated_count), _y(row.modelled.expected)
    return group(
        line("thin", x, _y(row.modelled.lower), x, _y(row.modelled.upper)),
        drawn("circle", "solid" if row.judges == "judge" else "shape", cx=x, cy=y, r=5),
        data_run=row.run,
    )


def _diagonal(pen: str, ratio: float) -> str:
    low, high = max(LOW, LOW / ratio), min(HIGH, HIGH / ratio)
    return path(pen, "M", _x(low), _y(low * ratio), "L", _x(high), _y(high * ratio))


def _axes(reader: Reader) -> str:
    left, top, right, bottom = FIELD
    figures = [
        group(
            drawn("line", "grid", x1=left, y1=_y(each), x2=right, y2=_y(each)),
            drawn("line", "grid", x1=_x(each), y1=top, x2=_x(each), y2=bottom),
            label(reader.number(each), left - 12, _y(each) + 8, anchor="end", pen="small"),
            label(reader.number(each), _x(each), bottom + 28, pen="small"),
        )
        for each in _FIGURES
    ]
    return group(
        *figures,
        path("thin", "M", left, top, "L", left, bottom, "L", right, bottom),
        label(reader.words("simulated volume changes"), (left + right) / 2, bottom + 62),
        label(reader.words("by the model"), left + 10, top + 22, anchor="start"),
    )
