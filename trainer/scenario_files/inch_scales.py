"""The scale of a drawn gauge or flow tube for readers of inches and pounds: unit and marks, round in it."""

from collections.abc import Mapping
from fractions import Fraction
from math import ceil
from typing import Any

from trainer.domain.quantities import Dimension
from trainer.units import UnitFault, in_unit, parse

# What such an instrument is printed in, by what is printed on its metric counterpart.
_PRINTED = {
    "L/min": ("cfh", Dimension.VOLUME_FLOW),
    "bar": ("psi", Dimension.PRESSURE),
    "Pa": ("inH2O", Dimension.PRESSURE),
}


def with_inch_scale(item: Mapping[str, Any]) -> dict[str, Any]:
    """An item's table as it is, the scale of its instrument in the unit that inch-pound instruments have."""
    unit, dimension = _PRINTED.get(str(item.get("unit_hint")), ("", Dimension.PRESSURE))
    if "instrument" not in item or not unit:
        return dict(item)
    try:
        high, division = (
            in_unit(parse(item[each], dimension), dimension, unit) for each in ("high", "division")
        )
    except (KeyError, TypeError, UnitFault):
        return dict(item)  # the reader of the item says what is wrong with it
    step = step_near(division, unit)
    marks = ceil(high / float(step) - 1e-9)
    scale = {"low": Fraction(0), "high": marks * step, "division": step}
    return {**item, "unit_hint": unit, **{each: f"{float(mark):g} {unit}" for each, mark in scale.items()}}


def step_near(size: float, unit: str) -> Fraction:
    """The round step that is nearest: 1, 2 or 5 of a unit, or of an inch a half of it halved again."""
    halves = [Fraction(1, 2**power) for power in range(7)] if unit == "in" else []
    decades = [Fraction(digit) * Fraction(10) ** power for power in range(-3, 5) for digit in (1, 2, 5)]
    wholes = [each for each in decades if not halves or each >= 1]
    return min((*halves, *wholes), key=lambda each: abs(float(each) - size))
