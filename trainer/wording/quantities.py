"""SI values as people read them, in metric or US units, rounded for reading and never for calculating."""

import math
from enum import StrEnum
from fractions import Fraction

from trainer.domain.quantities import Dimension, Never
from trainer.units import in_unit
from trainer.wording.numerals import ENGLISH, localised, number_words


class UnitSystem(StrEnum):
    """Which units a person reads."""

    METRIC = "metric"
    US = "US"


# Per dimension: units by size, each from the SI value at which it starts.
_METRIC: dict[Dimension, tuple[tuple[float, str], ...]] = {
    Dimension.LENGTH: ((0.0, "mm"), (1.0, "m")),
    Dimension.AREA: ((0.0, "mm^2"), (1e-4, "cm^2"), (0.1, "m^2")),
    Dimension.VOLUME: ((0.0, "L"), (1.0, "m^3")),
    Dimension.VOLUME_FLOW: ((0.0, "L/min"), (0.02, "m^3/h")),
    Dimension.DURATION: ((0.0, "s"),),
    Dimension.PRESSURE: ((0.0, "Pa"), (1e3, "kPa"), (5e4, "bar")),
    Dimension.TEMPERATURE: ((0.0, "degC"),),
    Dimension.FRACTION: ((0.0, "ppm"), (1e-3, "%")),
    Dimension.ANGLE: ((0.0, "deg"),),
    Dimension.CURRENT: ((0.0, "A"),),
    Dimension.VOLTAGE: ((0.0, "V"),),
    Dimension.SPEED: ((0.0, "mm/min"), (0.05, "m/s")),
    Dimension.DENSITY: ((0.0, "kg/m^3"),),
}
_US: dict[Dimension, tuple[tuple[float, str], ...]] = {
    **_METRIC,
    Dimension.LENGTH: ((0.0, "in"), (0.9144, "ft")),
    Dimension.AREA: ((0.0, "in^2"), (0.05, "ft^2")),
    Dimension.VOLUME: ((0.0, "in^3"), (1e-3, "ft^3")),
    Dimension.VOLUME_FLOW: ((0.0, "cfh"), (5e-3, "cfm")),
    Dimension.PRESSURE: ((0.0, "inH2O"), (7e3, "psi")),
    Dimension.TEMPERATURE: ((0.0, "degF"),),
    Dimension.SPEED: ((0.0, "in/min"), (0.05, "ft/min")),
    Dimension.DENSITY: ((0.0, "lb/ft^3"),),
}
_FINEST_MARK = 64  # of an inch
_ON_A_MARK = 1e-6
_PPM_UNTIL = 1000.0 * (1 - 1e-9)
_NOISE = 1e-9  # of the arithmetic, against what is told
_SIGNS = {
    "degC": "°C", "degF": "°F", "deg": "°", "mm^2": "mm²", "cm^2": "cm²", "m^2": "m²", "m^3": "m³",
    "m^3/h": "m³/h", "in^2": "in²", "ft^2": "ft²", "in^3": "in³", "ft^3": "ft³", "inH2O": "inH₂O",
    "kg/m^3": "kg/m³", "lb/ft^3": "lb/ft³",
}  # fmt: skip


def quantity_words(
    value: float | Never | None,
    dimension: Dimension,
    *,
    system: UnitSystem = UnitSystem.METRIC,
    figures: int = 3,
    language: str = ENGLISH,
) -> str:
    """An SI value with its unit, to so many figures; "never", or a dash for what is not known."""
    if value is None:
        return "–"
    if isinstance(value, Never) or math.isinf(value):
        return "never"
    if dimension is Dimension.DURATION:
        return duration_words(value, figures=figures, language=language)
    unit = reading_unit(value, dimension, system=system)
    size = in_unit(value, dimension, unit)
    number = inch_mark(size) if unit == "in" else None
    number = plain_number(size, figures=figures, language=language) if number is None else number
    sign = unit_sign(unit)
    return f"{number}{sign}" if sign == "°" else f"{number} {sign}"


def reading_unit(value: float, dimension: Dimension, *, system: UnitSystem = UnitSystem.METRIC) -> str:
    """The unit, as `units.parse` takes it, in which a value of that size is read."""
    choices = _METRIC[dimension] if system is UnitSystem.METRIC else _US[dimension]
    return next(unit for low, unit in reversed(choices) if abs(value) >= low)


def inch_mark(inches: float) -> str | None:
    """Inches as a rule is marked, 1 3/8; None for what lies between its marks or on a whole inch."""
    sixty_fourths = round(inches * _FINEST_MARK)
    if abs(inches * _FINEST_MARK - sixty_fourths) > _ON_A_MARK or not sixty_fourths % _FINEST_MARK:
        return None
    whole, rest = divmod(abs(sixty_fourths), _FINEST_MARK)
    sign, part = "-" if sixty_fourths < 0 else "", Fraction(rest, _FINEST_MARK)
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def unit_sign(unit: str) -> str:
    """A unit as people write it, of the name that `units.parse` takes."""
    return _SIGNS.get(unit, unit)


def duration_words(value_s: float, *, figures: int = 3, language: str = ENGLISH) -> str:
    """A time in the two largest of days, hours, minutes and seconds that it takes."""
    if value_s < 100.0:
        shown = min(figures, 2) if value_s >= 10.0 else figures
        return f"{plain_number(value_s, figures=shown, language=language)} s"
    pairs = ((86400, "d", 3600, "h"), (3600, "h", 60, "min"), (60, "min", 1, "s"))
    large_s, large, small_s, small = next(each for each in pairs if value_s >= each[0])
    whole, rest = divmod(round(value_s / small_s), large_s // small_s)
    return f"{whole} {large} {rest} {small}" if rest else f"{whole} {large}"


def plain_number(value: float, *, figures: int = 3, language: str = ENGLISH) -> str:
    """A number to so many figures, without an exponent and without trailing zeros."""
    if value == 0.0:
        return "0"
    decimals = max(0, figures - 1 - math.floor(math.log10(abs(value))))
    shown = f"{round(value, figures - 1 - math.floor(math.log10(abs(value)))):.{decimals}f}"
    return localised(shown.rstrip("0").rstrip(".") if "." in shown else shown, language=language)


def oxygen_words(oxygen_frac: float, *, language: str = ENGLISH) -> str:
    """Oxygen at the root as read on site: ppm below 0.1 %, per cent from there; never rounded down."""
    ppm = round_up(oxygen_frac * 1e6)
    if ppm < _PPM_UNTIL:
        return f"{number_words(ppm, '.3g', language=language)}\u00a0ppm"
    return f"{number_words(round_up(oxygen_frac * 100), '.3g', language=language)}\u00a0%"


def air_words(oxygen_frac: float, *, language: str = ENGLISH) -> str:
    """Oxygen to breathe, to a tenth of a per cent; never rounded up to a limit that it misses."""
    return f"{number_words(air_frac_told(oxygen_frac) * 100, '.1f', language=language)}\u00a0%"


def air_frac_told(oxygen_frac: float) -> float:
    """Oxygen to breathe down to a tenth of a per cent."""
    return math.floor(oxygen_frac * 1000.0 + _NOISE) / 1000.0


def round_up(value: float, *, figures: int = 3) -> float:
    """Up to so many figures; what only the arithmetic left beyond them is let go."""
    if value <= 0.0:
        return value
    unit = 10.0 ** (math.floor(math.log10(value)) + 1 - figures)
    return math.ceil(value / unit - _NOISE * 10**figures) * unit
