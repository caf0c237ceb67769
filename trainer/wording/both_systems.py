"""The amounts of a text in the other unit system, as the working of a solution shows its numbers twice.

A figure of the core comes from its SI value, to as many digits as the text gives it; any other amount is what
it is written as. Times, shares, currents and pipe sizes are the same for everybody.
"""

import re
from collections.abc import Sequence
from functools import partial

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import ShownFigure
from trainer.units import UnitFault, parse
from trainer.wording.numerals import ENGLISH
from trainer.wording.quantities import UnitSystem, quantity_words

_DIGITS = 3  # of an amount that is no figure of the core
_METRIC: dict[str, Dimension] = {
    "mm": Dimension.LENGTH, "cm": Dimension.LENGTH, "m": Dimension.LENGTH, "mm²": Dimension.AREA,
    "cm²": Dimension.AREA, "m²": Dimension.AREA, "L": Dimension.VOLUME, "m³": Dimension.VOLUME,
    "L/min": Dimension.VOLUME_FLOW, "m³/h": Dimension.VOLUME_FLOW, "m³/min": Dimension.VOLUME_FLOW,
    "Pa": Dimension.PRESSURE, "kPa": Dimension.PRESSURE, "bar": Dimension.PRESSURE,
    "°C": Dimension.TEMPERATURE, "mm/min": Dimension.SPEED, "m/s": Dimension.SPEED,
}  # fmt: skip
_US: dict[str, Dimension] = {
    "in": Dimension.LENGTH, "ft": Dimension.LENGTH, "in²": Dimension.AREA, "ft²": Dimension.AREA,
    "in³": Dimension.VOLUME, "ft³": Dimension.VOLUME, "cfh": Dimension.VOLUME_FLOW,
    "cfm": Dimension.VOLUME_FLOW, "inH₂O": Dimension.PRESSURE, "psi": Dimension.PRESSURE,
    "°F": Dimension.TEMPERATURE, "in/min": Dimension.SPEED, "ft/min": Dimension.SPEED,
    "mph": Dimension.SPEED,
}  # fmt: skip
_DIMENSIONS = {**_METRIC, **_US}
_NUMBER = r"-?(?:(?:\d+ )?\d+/\d+|\d+(?:[.,]\d+)?)"  # with a point in English, a comma in Spanish
_AMOUNT = re.compile(
    rf"(?<![\w.,/-])(?P<number>{_NUMBER}) (?P<unit>"
    + "|".join(sorted(map(re.escape, _DIMENSIONS), key=len, reverse=True))
    + r")(?![\w/²³⁴^-])"
)
# What is left in its own units has no place beside amounts of the other system; and litres times the gas that
# each litre gives are a volume times a volume: in other units the product would be another.
_UNCONVERTED = re.compile(r"\d k?J\b|\d M?J/|\d (?:g|kg|kg/m³)\b|\d L\b(?!/)[^;=+]*· [\d.,]+ m³(?!/)")
_PLAIN_SIGNS = str.maketrans({"²": "^2", "³": "^3", "₂": "2"})


def other_system(system: UnitSystem) -> UnitSystem:
    """The one of the two that it is not."""
    return UnitSystem.METRIC if system is UnitSystem.US else UnitSystem.US


def system_of(text: str) -> UnitSystem | None:
    """The system that all amounts of a text are in; None where they are of both, or where there are none."""
    found = {
        UnitSystem.METRIC if each["unit"] in _METRIC else UnitSystem.US for each in _AMOUNT.finditer(text)
    }
    return found.pop() if len(found) == 1 else None


def can_be_converted(text: str) -> bool:
    """Whether it still holds in other units: nothing is left behind, no constant is of one unit only."""
    return _UNCONVERTED.search(text) is None


def in_system(
    text: str, *, system: UnitSystem, figures: Sequence[ShownFigure] = (), language: str = ENGLISH
) -> str:
    """The text with each amount of the other system in this one."""
    exact = {each.text: each for each in figures}
    said = partial(quantity_words, system=system, language=language)
    mine = _METRIC if system is UnitSystem.METRIC else _US

    def converted(found: re.Match[str]) -> str:
        if found["unit"] in mine:
            return found[0]
        written = found[0].replace(",", ".")
        figure = exact.get(written)
        if figure is not None:
            return said(figure.value, figure.dimension, figures=max(figure.digits, 2))
        dimension = _DIMENSIONS[found["unit"]]
        try:
            value = parse(written.translate(_PLAIN_SIGNS), dimension)
        except UnitFault:
            return found[0]
        return said(value, dimension, figures=_DIGITS)

    return _AMOUNT.sub(converted, text)
