"""For whom a drawing is made: language, unit system, and a prefix that keeps its ids its own."""

from collections.abc import Callable
from dataclasses import dataclass

from trainer import units
from trainer.domain.quantities import Dimension
from trainer.wording.quantities import inch_mark


def untranslated(words: str) -> str:
    """English as written."""
    return words


@dataclass(frozen=True)
class Unit:
    """A unit to write a value in: its sign and the decimals shown; no dimension for a plain number."""

    dimension: Dimension | None
    sign: str
    decimals: int

    @property
    def per_si(self) -> float:
        """How many of the unit make one of SI."""
        return 1.0 if self.dimension is None else units.in_unit(1.0, self.dimension, self.sign)

    def write(self, value: float) -> str:
        """The value with its unit, joined by a space that does not break."""
        figure = f"{value * self.per_si:.{self.decimals}f}"
        if self.decimals:
            figure = figure.rstrip("0").rstrip(".")
        return f"{figure}\u00a0{self.sign}" if self.sign else figure


_MM, _M = Unit(Dimension.LENGTH, "mm", 0), Unit(Dimension.LENGTH, "m", 2)
_TENTHS_OF_MM = Unit(Dimension.LENGTH, "mm", 1)
_WHOLE_MM_FROM_M = 0.1  # no tape tells tenths of what is longer
_THOUSANDTHS_OF_IN, _AN_INCH_M = Unit(Dimension.LENGTH, "in", 3), 0.0254
_SIXTEENTH_M, _ROUNDED_TO_TENTHS_M = 0.0254 / 16, 0.000051
_IN, _FT = Unit(Dimension.LENGTH, "in", 2), Unit(Dimension.LENGTH, "ft", 1)
_FEET_FROM_M = 2 * 0.3048  # a face is told in feet from here on
_PRESSURE = {"metric": Unit(Dimension.PRESSURE, "bar", 0), "us": Unit(Dimension.PRESSURE, "psi", 0)}
_LONG_M = {"metric": 2.0, "us": 6 * 0.3048}  # from here on dimensions are in metres or feet


@dataclass(frozen=True, kw_only=True)
class Reader:
    """Unit system ("metric" or "us"), translate function, and a prefix for the ids of this drawing."""

    units: str = "metric"
    words: Callable[[str], str] = untranslated
    prefix: str = "set-up"

    def handle_unit(self, dimension: Dimension | None) -> Unit:
        """The unit that the value of a movable part is written in; a plain number where it has none."""
        if dimension is None:
            return Unit(None, "", 2)
        return _IN if self.units == "us" else _TENTHS_OF_MM

    def length(self, length_m: float) -> str:
        """A length as it is dimensioned: millimetres or inches, metres or feet for a long run."""
        if self.units != "us":
            if length_m < _WHOLE_MM_FROM_M:
                return _TENTHS_OF_MM.write(length_m)
            return (_M if length_m >= _LONG_M["metric"] else _MM).write(length_m)
        return _FT.write(length_m) if length_m >= _LONG_M["us"] else _inches(length_m)

    def outside_diameter(self, diameter_m: float) -> str:
        """A pipe's size, as the tables of pipe give it: 168.3 mm, 6 5/8 in."""
        if self.units != "us":
            return _TENTHS_OF_MM.write(diameter_m)
        sixteenth_m = round(diameter_m / _SIXTEENTH_M) * _SIXTEENTH_M
        is_rounded = abs(diameter_m - sixteenth_m) < _ROUNDED_TO_TENTHS_M
        return _inches(sixteenth_m if is_rounded else diameter_m)

    def height(self, height_m: float) -> str:
        """How high a face is: metres, or feet and below a few of them inches."""
        if self.units != "us":
            return _M.write(height_m)
        return _FT.write(height_m) if height_m >= _FEET_FROM_M else _inches(height_m)

    def pressure(self, pressure_pa: float) -> str:
        """A gauge reading."""
        return _PRESSURE[self.units].write(pressure_pa)


def _inches(length_m: float) -> str:
    """Inches as a rule is marked; between its marks in hundredths, and below an inch as drills are told."""
    mark = inch_mark(length_m * _IN.per_si)
    between = _IN if length_m >= _AN_INCH_M else _THOUSANDTHS_OF_IN
    return between.write(length_m) if mark is None else f"{mark}\u00a0{_IN.sign}"


ENGLISH_METRIC = Reader()
