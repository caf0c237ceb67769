"""Sentences of scenarios in the units that a person reads: their amounts are written in metric units."""

import re

from trainer.domain.quantities import Dimension
from trainer.units import parse
from trainer.wording.numerals import ENGLISH
from trainer.wording.quantities import UnitSystem, quantity_words

_DIMENSIONS = {
    "mm": Dimension.LENGTH,
    "cm": Dimension.LENGTH,
    "m": Dimension.LENGTH,
    "m²": Dimension.AREA,
    "m³": Dimension.VOLUME,
    "L/min": Dimension.VOLUME_FLOW,
    "m³/h": Dimension.VOLUME_FLOW,
    "mm/min": Dimension.SPEED,
    "Pa": Dimension.PRESSURE,
    "kPa": Dimension.PRESSURE,
    "bar": Dimension.PRESSURE,
    "°C": Dimension.TEMPERATURE,
}
# Litres on their own stay: a cylinder is called by its litres whatever the reader's units are.
_NUMBER = r"-?\d+(?:[.,]\d+)?"  # with a point in English, a comma in Spanish
_AMOUNT = re.compile(
    rf"(?<![\w.,-])(?:(?P<from>{_NUMBER}) (?P<until>to|a) )?(?P<to>{_NUMBER}) (?P<unit>"
    + "|".join(sorted(map(re.escape, _DIMENSIONS), key=len, reverse=True))
    + r")"
    r"(?![\w/²³-])"
)
# The same amount twice, as a rule was written: readers of inches and pounds get the one in brackets.
_TWICE = re.compile(
    rf"(?<![\w.,-]){_NUMBER} (?:{'|'.join(sorted(map(re.escape, _DIMENSIONS), key=len, reverse=True))})"
    r" \((?P<own>(?:(?:\d+ )?\d+/\d+|\d+(?:[.,]\d+)?) (?:in|ft|cfh|psi|°F))\)"
)


def in_units_of(text: str, *, system: UnitSystem, language: str = ENGLISH) -> str:
    """The sentence with each metric amount in the reader's units, squares and cubes as people write them."""
    written = text.replace("^2", "²").replace("^3", "³").replace("inH2O", "inH₂O")
    if system is UnitSystem.METRIC:
        return written
    once = _TWICE.sub(r"\g<own>", written)
    return _AMOUNT.sub(lambda found: _converted(found, system, language), once)


def _converted(found: re.Match[str], system: UnitSystem, language: str) -> str:
    """One amount, or both ends of a range, whose unit stands at the second only."""
    dimension = _DIMENSIONS[found["unit"]]
    ends = [each.replace(",", ".") for each in (found["from"], found["to"]) if each is not None]
    written = (parse(f"{each} {found['unit']}", dimension) for each in ends)
    said = (quantity_words(each, dimension, system=system, language=language) for each in written)
    return f" {found['until']} ".join(said)
