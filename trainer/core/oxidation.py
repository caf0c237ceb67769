"""Oxidation of the root from the oxygen at arc strike: grade by material group, oxide thickness, colour.

Grades and thicknesses are a proposal that follows the trade's order of colours; neither is a published limit.
Colour shows oxygen, but not corrosion resistance: 70 to 90 nm is pale and passes for clean.
"""

import math
from collections.abc import Mapping
from functools import cache

from trainer.core.errors import Limits, OutOfRange
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup, RootGrade

_ANCHOR_THICKNESS_M = 40e-9
_OXYGEN = Limits(
    quantity="oxygen at the root", unit="", low=0.0, high=O2_IN_DRY_AIR_FRAC, why="no more than air holds"
)
_THICKNESS = Limits(quantity="oxide thickness", unit="m", low=0.0, high=1e-3, why="up to 1 mm of scale")
_GRADES = tuple(RootGrade)
_SCALE_GRADES = (RootGrade.GREY, RootGrade.BLACK, RootGrade.SUGARED)


def grade_thresholds(group: MaterialGroup) -> Mapping[RootGrade, float]:
    """The oxygen up to which each grade reaches, proposed for a material group.

    Args:
        group [text]: material group
    Returns:
        [-] upper mole fraction of oxygen by grade, rising; sugared has none
    Valid: a default that site policy may replace.

    Example:
        >>> grade_thresholds(MaterialGroup.AUSTENITIC_STAINLESS)[RootGrade.STRAW]
        0.0001

    Reference: data/root_grades.csv, a proposal; order after AWS D18.2:2009.
    """
    rows = [row for row in table_rows("root_grades") if row["group"] == group]
    return {RootGrade(row["grade"]): float(row["upper_ppm"]) / 1e6 for row in rows}


def grade(o2_frac: float, *, thresholds: Mapping[RootGrade, float]) -> RootGrade:
    """Grade of a root by the oxygen that it was welded in.

    the first grade whose upper limit is not passed; sugared beyond all of them

    Args:
        o2_frac [-]: oxygen at the worst point of the root
        thresholds [-]: upper mole fraction by grade, as `grade_thresholds` gives
    Returns:
        [text] the grade
    Raises:
        OutOfRange: for more oxygen than air holds, or limits that fall from a grade to a worse one
    Valid: dry, clean metal; a level on a limit keeps the better grade.

    Example:
        >>> limits = grade_thresholds(MaterialGroup.AUSTENITIC_STAINLESS)
        >>> grade(300e-6, thresholds=limits).value, grade(0.2, thresholds=limits).value
        ('brown', 'sugared')

    Reference: data/root_grades.csv, a proposal; order after AWS D18.2:2009.
    """
    _OXYGEN.check(o2_frac)
    ranked = [(thresholds[name], name) for name in _GRADES if name in thresholds]
    for (better, _), (worse, name) in zip(ranked, ranked[1:], strict=False):
        if worse < better:
            why = "a worse grade reaches to more oxygen than a better one"
            raise OutOfRange(f"upper limit of {name}", worse, low=better, high=None, unit="", why=why)
    return next((name for upper, name in ranked if o2_frac <= upper), RootGrade.SUGARED)


def film_thickness_m(o2_frac: float, *, group: MaterialGroup) -> float:
    """Peak thickness of the oxide film beside the root, where the metal was hottest.

    d = 40 nm (x / x_anchor)^m

    Args:
        o2_frac [-]: x, oxygen at the root
        group [text]: material group, for anchor and exponent
    Returns:
        [m] thickness
    Raises:
        OutOfRange: for more oxygen than air holds
    Valid: a proposal for the order of colours; time, moisture and dirt act too.

    Example:
        >>> round(film_thickness_m(500e-6, group=MaterialGroup.AUSTENITIC_STAINLESS) * 1e9)
        40

    Reference: data/film_growth.csv, a proposal fitted to the order of AWS D18.2's samples only.
    """
    _OXYGEN.check(o2_frac)
    row = _growth(group)
    ratio = o2_frac * 1e6 / float(row["anchor_ppm"])
    return _ANCHOR_THICKNESS_M * math.pow(ratio, float(row["exponent"]))


def _growth(group: MaterialGroup) -> Mapping[str, str]:
    return next(row for row in table_rows("film_growth") if row["group"] == group)


def film_colour(thickness_m: float, *, group: MaterialGroup) -> str:
    """Colour of an oxide film of a thickness, by interference up to 160 nm and as scale from 200 nm.

    interpolated in linear light between the table's thicknesses

    Args:
        thickness_m [m]: thickness of the film
        group [text]: material group, for the metal under it
    Returns:
        [text] '#rrggbb'
    Raises:
        OutOfRange: for a thickness below 0 or above 1 mm
    Valid: seen straight on in daylight; thickness to 12 % at best.

    Example:
        >>> film_colour(40e-9, group=MaterialGroup.AUSTENITIC_STAINLESS)
        '#5a4a91'

    Reference: data/film_colours.csv, computed with colour-science 0.4.7; data/scale_tones.csv for scale.
    """
    _THICKNESS.check(thickness_m)
    stops = _colour_stops(_growth(group)["metal"])
    thickness_nm = min(thickness_m * 1e9, stops[-1][0])  # thicker scale keeps the last tone
    right = next(i for i, (stop_nm, _) in enumerate(stops) if i > 0 and thickness_nm <= stop_nm)
    (left_nm, left), (right_nm, right_colour) = stops[right - 1], stops[right]
    weight = (thickness_nm - left_nm) / (right_nm - left_nm)
    mixed = [a + weight * (b - a) for a, b in zip(left, right_colour, strict=True)]
    return "#" + "".join(f"{_encoded(channel):02x}" for channel in mixed)


def root_colour(o2_frac: float, *, group: MaterialGroup, thresholds: Mapping[RootGrade, float]) -> str:
    """Colour that a root shows after welding in a level of oxygen.

    film colour up to blue, the tone of scale from grey on

    Args:
        o2_frac [-]: oxygen at the worst point of the root
        group [text]: material group
        thresholds [-]: upper mole fraction by grade
    Returns:
        [text] '#rrggbb' of the deepest band
    Raises:
        OutOfRange: for more oxygen than air holds
    Valid: a proposal; a weld shows bands, this is the deepest of them.

    Example:
        >>> limits = grade_thresholds(MaterialGroup.TITANIUM)
        >>> root_colour(0.2, group=MaterialGroup.TITANIUM, thresholds=limits)
        '#3d352f'

    Reference: data/film_growth.csv, data/film_colours.csv and data/scale_tones.csv.
    """
    reached = grade(o2_frac, thresholds=thresholds)
    if reached in _SCALE_GRADES:
        return next(row["colour"] for row in table_rows("scale_tones") if row["grade"] == reached)
    return film_colour(film_thickness_m(o2_frac, group=group), group=group)


@cache
def _colour_stops(metal: str) -> tuple[tuple[float, tuple[float, ...]], ...]:
    films = [(float(row["thickness_nm"]), row[metal]) for row in table_rows("film_colours")]
    scale = [(float(row["from_thickness_nm"]), row["colour"]) for row in table_rows("scale_tones")]
    return tuple((nm, tuple(_linear(colour[i : i + 2]) for i in (1, 3, 5))) for nm, colour in films + scale)


def _linear(channel_hex: str) -> float:
    """IEC 61966-2-1: an encoded channel as linear light."""
    value = int(channel_hex, 16) / 255.0
    return value / 12.92 if value <= 0.04045 else math.pow((value + 0.055) / 1.055, 2.4)


def _encoded(light: float) -> int:
    value = 12.92 * light if light <= 0.0031308 else 1.055 * math.pow(light, 1.0 / 2.4) - 0.055
    return round(255.0 * value)
