"""For whom a drawing is made: language, unit system, and a prefix that keeps its ids its own."""

from collections.abc import Callable
from dataclasses import dataclass

from trainer import units
from trainer.domain.quantities import Dimension
from trainer.wording.numerals import ENGLISH, decimal_sign, localised, number_words
from trainer.wording.quantities import air_words, inch_mark, oxygen_words


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

    def write(self, value: float, *, language: str) -> str:
        """The value with its unit, joined by a space that does not break."""
        figure = f"{value * self.per_si:.{self.decimals}f}"
        if self.decimals:
            figure = localised(figure.rstrip("0").rstrip("."), language=language)
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
    """Unit system ("metric" or "us"), language with its translate function, and a prefix for ids."""

    units: str = "metric"
    language: str = ENGLISH
    words: Callable[[str], str] = untranslated
    prefix: str = "set-up"

    def handle_unit(self, dimension: Dimension | None) -> Unit:
        """The unit that the value of a movable part is written in; a plain number where it has none."""
        if dimension is None:
            return Unit(None, "", 2)
        return _IN if self.units == "us" else _TENTHS_OF_MM

    @property
    def decimal_sign(self) -> str:
        """What stands before decimals, for a script that writes where a part was moved to."""
        return decimal_sign(self.language)

    def number(self, value: float, form: str = "g") -> str:
        """A number in a form of `format`, as it is written in the reader's language."""
        return number_words(value, form, language=self.language)

    def measure(self, value: float, unit: Unit) -> str:
        """A value in a unit."""
        return unit.write(value, language=self.language)

    def oxygen(self, oxygen_frac: float) -> str:
        """Oxygen at the root in ppm or per cent."""
        return oxygen_words(oxygen_frac, language=self.language)

    def air(self, oxygen_frac: float) -> str:
        """Oxygen to breathe."""
        return air_words(oxygen_frac, language=self.language)

    def length(self, length_m: float) -> str:
        """A length as it is dimensioned: millimetres or inches, metres or feet for a long run."""
        if self.units != "us":
            if length_m < _WHOLE_MM_FROM_M:
                return self.measure(length_m, _TENTHS_OF_MM)
            return self.measure(length_m, _M if length_m >= _LONG_M["metric"] else _MM)
        return self.measure(length_m, _FT) if length_m >= _LONG_M["us"] else self._inches(length_m)

    def outside_diameter(self, diameter_m: float) -> str:
        """A pipe's size, as the tables of pipe give it: 168.3 mm, 6 5/8 in."""
        if self.units != "us":
            return self.measure(diameter_m, _TENTHS_OF_MM)
        sixteenth_m = round(diameter_m / _SIXTEENTH_M) * _SIXTEENTH_M
        is_rounded = abs(diameter_m - sixteenth_m) < _ROUNDED_TO_TENTHS_M
        return self._inches(sixteenth_m if is_rounded else diameter_m)

    def height(self, height_m: float) -> str:
        """How high a face is: metres, or feet and below a few of them inches."""
        if self.units != "us":
            return self.measure(height_m, _M)
        return self.measure(height_m, _FT) if height_m >= _FEET_FROM_M else self._inches(height_m)

    def pressure(self, pressure_pa: float) -> str:
        """A gauge reading."""
        return self.measure(pressure_pa, _PRESSURE[self.units])

    def _inches(self, length_m: float) -> str:
        """Inches as a rule is marked; between its marks in hundredths, below an inch as drills are told."""
        mark = inch_mark(length_m * _IN.per_si)
        between = _IN if length_m >= _AN_INCH_M else _THOUSANDTHS_OF_IN
        return self.measure(length_m, between) if mark is None else f"{mark}\u00a0{_IN.sign}"


ENGLISH_METRIC = Reader()
