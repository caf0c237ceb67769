"""Figures as a result page shows them, read back with their units by pint, and held against an answer."""

import math
import re

import pint

_UNITS = pint.UnitRegistry()
_SPELT = {"m³": "m**3", "in³": "in**3", "ft³": "ft**3", "%": "percent", "L": "liter", "inH₂O": "inH2O"}
_FIGURE = r"(-?\d+(?:\.\d+)?)\s*(ppm|%|mm|m³|m|L|Pa|kPa|bar|s|min|h|d|in³|ft³|inH₂O|in|ft|psi)(?![\w³₂])"
ROUNDING = 0.005  # shown to three figures: at the most half a unit of the third


def figures_in(words: str) -> list[tuple[float, str]]:
    """Every number with a unit in a sentence."""
    return [(float(number), unit) for number, unit in re.findall(_FIGURE, words)]


def as_unit(words: str, unit: str) -> float:
    """What is shown as one quantity, in the unit; a time may be in two pieces, such as 6 min 10 s."""
    pieces = figures_in(words)
    assert pieces, f"no figure in '{words}'"
    return sum(_UNITS.Quantity(number, _SPELT.get(sign, sign)).to(unit).magnitude for number, sign in pieces)


def same_or_over(shown: float, answered: float | None) -> bool:
    """Whether oxygen at the root is shown as answered, rounded up by less than one of its third figure."""
    return answered is not None and answered * (1 - 1e-9) <= shown < answered * 1.01 + 1e-9


def same_or_under(shown: float, answered: float | None) -> bool:
    """Whether oxygen to breathe in per cent is shown as answered, rounded down to a tenth."""
    return answered is not None and shown <= answered + 1e-9 < shown + 0.1 + 2e-9


def same(shown: float, answered: float | None) -> bool:
    """Whether a shown figure is the answered one, rounded for reading."""
    return answered is not None and math.isclose(shown, answered, rel_tol=ROUNDING, abs_tol=1e-9)
