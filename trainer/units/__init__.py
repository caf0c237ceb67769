"""Turns what people type into SI and SI back into units: nothing else in the package knows a unit.

Frequent units stand in a table of factors, because a command has to answer before pint could even be
imported; what the table does not name is asked of pint.
"""

from trainer.units.factors import FACTORS, READABLE, SHOWN, TEMPERATURES, scaled
from trainer.units.faults import UnitFault, called
from trainer.units.marks import kept_from_typed, typed_from_kept
from trainer.units.reading import parse, parse_bare

__all__ = [
    "UnitFault",
    "accepted_units",
    "as_meant",
    "called",
    "example",
    "in_unit",
    "kept_from_typed",
    "known_units",
    "parse",
    "parse_bare",
    "readable_unit",
    "typed_from_kept",
    "written",
]


# Their SI unit is a second, in which what people type per minute or hour has no last digit.
_PER_TIME = ("volume flow", "speed")
_MEANT_DIGITS = 13


def as_meant(value: float, dimension: str) -> float:
    """An SI value to the digits that somebody can have meant; its last ones tell only which unit was typed.

    So 300 mm is the same float as 11.811023622047244 in, and no last digit decides what is refused, on which
    side of a threshold a figure lies, or whether a gas that weighs nearly what air weighs sinks or rises.
    """
    if dimension not in _PER_TIME:
        return _to_meant_digits(value)
    unit = readable_unit(value, dimension)
    return scaled(_to_meant_digits(in_unit(value, dimension, unit)), FACTORS[dimension][unit])


def _to_meant_digits(number: float) -> float:
    return float(f"{number:.{_MEANT_DIGITS - 1}e}")


def in_unit(value: float, dimension: str, unit: str) -> float:
    """An SI value as a number of the unit, which must be one of the table's."""
    if dimension == "temperature":
        factor, offset = TEMPERATURES[unit]
        return (value - offset) / factor
    return value / FACTORS[dimension][unit]


def written(value: float, dimension: str, unit: str | None = None) -> str:
    """An SI value as text that `parse` reads back to 1e-14, in the unit or in a readable metric one."""
    chosen = unit or readable_unit(value, dimension)
    return f"{in_unit(value, dimension, chosen):.15g} {chosen}"


def readable_unit(value: float, dimension: str) -> str:
    """The metric unit in which a value of that size is read most easily."""
    return next(unit for low, unit in reversed(READABLE[dimension]) if abs(value) >= low)


def accepted_units(dimension: str) -> str:
    """The units that a message or a hint names for a dimension."""
    return SHOWN[dimension][0]


def example(dimension: str) -> str:
    """A quantity of the dimension as it can be typed."""
    return SHOWN[dimension][1]


def known_units(dimension: str) -> tuple[str, ...]:
    """Every spelling in the table for a dimension."""
    return tuple(TEMPERATURES if dimension == "temperature" else FACTORS[dimension])
