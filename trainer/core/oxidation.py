"""Oxidation of the root from the oxygen at arc strike: grade by material group, oxide thickness, colour.

Grades and thicknesses are a proposal that follows the trade's order of colours; neither is a published limit.
Colour shows oxygen, but not corrosion resistance: 70 to 90 nm is pale and passes for clean.
"""

import math
from bisect import bisect_left
from collections.abc import Mapping
from functools import cache

from trainer.core.errors import Limits, OutOfRange
from trainer.core.film_optics import encoded_colour, film_linear_rgb, linear_colour
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup, RootGrade

_Light = tuple[float, float, float]

_ANCHOR_THICKNESS_M = 40e-9
# From here on real films grow rough, and interference fades into the grey of scale.
_INTERFERENCE_UP_TO_M = 160e-9
_OXYGEN = Limits(
    quantity="oxygen at the root", unit="", low=0.0, high=O2_IN_DRY_AIR_FRAC, why="no more than air holds"
)
_THICKNESS = Limits(quantity="oxide thickness", unit="m", low=0.0, high=1e-3, why="up to 1 mm of scale")
_STOPS = Limits(quantity="stops of a band", unit="", low=2, high=1000, why="a band has two ends")
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
    limits, grades = grade_limits(thresholds)
    return grades[bisect_left(limits, o2_frac)]


def grade_limits(thresholds: Mapping[RootGrade, float]) -> tuple[tuple[float, ...], tuple[RootGrade, ...]]:
    """The limits in order, and the grades between them, for whoever grades many levels.

    Args:
        thresholds [-]: upper mole fraction by grade, as `grade_thresholds` gives
    Returns:
        [-] upper mole fractions, and the grade up to each; one grade more, sugared, beyond all of them
    Raises:
        OutOfRange: for limits that fall from a grade to a worse one

    Example:
        >>> limits, grades = grade_limits({RootGrade.BRIGHT: 1e-5, RootGrade.STRAW: 1e-4})
        >>> limits, [each.value for each in grades]
        ((1e-05, 0.0001), ['bright', 'straw', 'sugared'])

    Reference: own definition.
    """
    ranked = [(thresholds[name], name) for name in _GRADES if name in thresholds]
    for (better, _), (worse, name) in zip(ranked, ranked[1:], strict=False):
        if worse < better:
            why = "a worse grade reaches to more oxygen than a better one"
            raise OutOfRange(f"upper limit of {name}", worse, low=better, high=None, unit="", why=why)
    return tuple(upper for upper, _ in ranked), (*(name for _, name in ranked), RootGrade.SUGARED)


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
    """Colour of an oxide film of a thickness: by interference, fading into the tones of scale.

    thin-film interference up to 160 nm; fades into grey up to 200 nm; black at 400 nm, sugared from 800 nm

    Args:
        thickness_m [m]: thickness of the film
        group [text]: material group, for the metal under it
    Returns:
        [text] '#rrggbb'
    Raises:
        OutOfRange: for a thickness below 0 or above 1 mm
    Valid: seen straight on in daylight; thickness to 12 % at best.

    Example:
        >>> film_colour(40e-9, group=MaterialGroup.TITANIUM)
        '#5b3382'

    Reference: `film_optics`; data/scale_tones.csv for scale, which is drawn and not computed.
    """
    _THICKNESS.check(thickness_m)
    metal, scale = _growth(group)["metal"], _scale_stops()
    if thickness_m <= _INTERFERENCE_UP_TO_M:
        return encoded_colour(film_linear_rgb(thickness_m, metal=metal))
    if thickness_m >= scale[-1][0]:
        return encoded_colour(scale[-1][1])
    film = (_INTERFERENCE_UP_TO_M, film_linear_rgb(min(thickness_m, scale[0][0]), metal=metal))
    stops = [film, *scale]
    right = next(i for i, (stop_m, _) in enumerate(stops) if thickness_m <= stop_m)
    (left_m, left), (right_m, right_rgb) = stops[right - 1], stops[right]
    return encoded_colour(_mixed(left, right_rgb, (thickness_m - left_m) / (right_m - left_m)))


def film_band(
    peak_thickness_m: float, *, group: MaterialGroup, stops_count: int = 25
) -> tuple[tuple[float, str], ...]:
    """The colours beside a root, from the thickest film at its edge to the bare metal.

    d(s) = d_peak (1 - s),  s the share of the band's width

    Args:
        peak_thickness_m [m]: d_peak
        group [text]: material group
        stops_count [-]: number of stops, both ends included
    Returns:
        [text] place in the band (0 at the root's edge, 1 where the metal is bare) with its '#rrggbb'
    Raises:
        OutOfRange: for a thickness below 0 or above 1 mm, or fewer than two stops
    Valid: order of the colours; their widths follow the heat of each weld, which is not modelled.

    Example:
        >>> band = film_band(40e-9, group=MaterialGroup.TITANIUM, stops_count=3)
        >>> [colour for _, colour in band]
        ['#5b3382', '#b39964', '#cec8c2']

    Reference: `film_optics`; the even fall of thickness is chosen for drawing.
    """
    _STOPS.check(stops_count)
    places = [i / (stops_count - 1) for i in range(stops_count)]
    return tuple((place, film_colour(peak_thickness_m * (1.0 - place), group=group)) for place in places)


def root_band(
    o2_frac: float,
    *,
    group: MaterialGroup,
    thresholds: Mapping[RootGrade, float],
    stops_count: int = 25,
) -> tuple[tuple[float, str], ...]:
    """The colours beside a root that was welded in a level of oxygen.

    the peak is that of `film_thickness_m` up to blue; from grey on, scale as thick as its tone begins at

    Args:
        o2_frac [-]: oxygen at the worst point of the root
        group [text]: material group
        thresholds [-]: upper mole fraction by grade
        stops_count [-]: number of stops, both ends included
    Returns:
        [text] place in the band (0 at the root's edge, 1 where the metal is bare) with its '#rrggbb'
    Raises:
        OutOfRange: for more oxygen than air holds, or fewer than two stops
    Valid: a proposal; the first stop is what `root_colour` gives.

    Example:
        >>> limits = grade_thresholds(MaterialGroup.TITANIUM)
        >>> root_band(0.2, group=MaterialGroup.TITANIUM, thresholds=limits)[0]
        (0.0, '#3d352f')

    Reference: data/film_growth.csv, `film_optics` and data/scale_tones.csv.
    """
    reached = grade(o2_frac, thresholds=thresholds)
    peak_m = film_thickness_m(o2_frac, group=group)
    if reached in _SCALE_GRADES:
        peak_m = _scale_stops()[_SCALE_GRADES.index(reached)][0]
    return film_band(peak_m, group=group, stops_count=stops_count)


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

    Reference: data/film_growth.csv, `film_optics` and data/scale_tones.csv.
    """
    reached = grade(o2_frac, thresholds=thresholds)
    if reached in _SCALE_GRADES:
        return next(row["colour"] for row in table_rows("scale_tones") if row["grade"] == reached)
    return film_colour(film_thickness_m(o2_frac, group=group), group=group)


@cache
def _scale_stops() -> tuple[tuple[float, _Light], ...]:
    """Thickness from which each tone of scale is reached, thinnest first."""
    return tuple(
        (float(row["from_thickness_nm"]) * 1e-9, linear_colour(row["colour"]))
        for row in table_rows("scale_tones")
    )


def _mixed(first: _Light, second: _Light, second_frac: float) -> _Light:
    red, green, blue = (a + second_frac * (b - a) for a, b in zip(first, second, strict=True))
    return red, green, blue
