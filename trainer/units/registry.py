"""The one pint registry, made when a unit is typed that the table of factors does not name."""

import re
from functools import cache
from typing import Any

_PINT_UNITS = {
    "length": "m",
    "area": "m**2",
    "volume": "m**3",
    "volume flow": "m**3/s",
    "duration": "s",
    "pressure": "Pa",
    "current": "A",
    "voltage": "V",
    "speed": "m/s",
    "density": "kg/m**3",
}  # fractions and angles are left out: pint takes radians and counts for plain numbers
_SHAPE = re.compile(r"[A-Za-zµ]{1,20}(\^?[1-3])?( ?[*/] ?[A-Za-zµ]{1,20}(\^?[1-3])?){0,2}")


def factor_from_pint(unit: str, dimension: str) -> float | None:
    """The factor to SI of a unit that pint knows and that is of the dimension; None where there is none."""
    if dimension not in _PINT_UNITS or not _SHAPE.fullmatch(unit):
        return None
    registry, undefined = _registry()
    wanted = registry.parse_units(_PINT_UNITS[dimension])
    try:
        asked = registry.parse_units(re.sub(r"([A-Za-zµ])\^?([1-3])", r"\1**\2", unit))
    except undefined:
        return None
    if asked.dimensionality != wanted.dimensionality:
        return None
    return float(registry.Quantity(1.0, asked).m_as(wanted))


@cache
def _registry() -> tuple[Any, Any]:
    # Imported here because it takes longer than all else that a command does.
    import pint

    return pint.UnitRegistry(), pint.errors.UndefinedUnitError
