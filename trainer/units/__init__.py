"""Turns what people type into SI and SI back into units: nothing else in the package knows a unit.

Frequent units stand in a table of factors, because a command has to answer before pint could even be
imported; what the table does not name is asked of pint.
"""

from trainer.units.factors import FACTORS, READABLE, SHOWN, TEMPERATURES
from trainer.units.faults import UnitFault
from trainer.units.reading import parse

__all__ = [
    "UnitFault",
    "accepted_units",
    "example",
    "in_unit",
    "known_units",
    "parse",
    "readable_unit",
    "written",
]


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
