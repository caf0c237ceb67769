"""Oxygen as the colours of the oxide that it would leave, each with the word that stands beside it."""

from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from html import escape
from math import exp, log

from trainer.core import oxidation
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.terms import RootGrade
from trainer.drawing.reader import Reader
from trainer.drawing.svg import tag

GradeOf = Callable[[float], RootGrade]  # oxygen as a mole fraction → how the root would come out

# As in the style sheets, for drawings that stand alone, and as the core gives them for stainless steel; a
# test holds the three together. Up to blue they come of interference in the film; from grey on the core has
# tones of scale, which are chosen.
FILM: dict[RootGrade, str] = {
    RootGrade.BRIGHT: "#d6d1cb",
    RootGrade.STRAW: "#c5b38e",
    RootGrade.GOLD: "#ae8330",
    RootGrade.BROWN: "#9a603a",
    RootGrade.VIOLET: "#5a4991",
    RootGrade.BLUE: "#4187bb",
    RootGrade.GREY: "#74757a",
    RootGrade.BLACK: "#2e2d2f",
    RootGrade.SUGARED: "#3d352f",
}
ORDER = tuple(RootGrade)


def grade_by(thresholds: Mapping[RootGrade, float]) -> GradeOf:
    """How the root would come out by these thresholds, for levels that a drawing shows.

    The last digit of a course full of air may lie above what air holds; it is taken for air.
    """
    limits, grades = oxidation.grade_limits(thresholds)
    return lambda oxygen_frac: grades[bisect_left(limits, min(oxygen_frac, O2_IN_DRY_AIR_FRAC))]


def film_class(grade: RootGrade) -> str:
    """The class that the style sheet gives the grade's colour."""
    return f"oxygen-{grade.value}"


def grade_bands(
    grade_of: GradeOf, *, low_frac: float, high_frac: float
) -> list[tuple[RootGrade, float, float]]:
    """Where each grade begins and ends between two oxygen levels, found by halving on the logarithm."""
    bands = []
    here = low_frac
    while here < high_frac:
        grade = grade_of(here)
        end = high_frac if grade_of(high_frac) is grade else _last_of(grade, grade_of, here, high_frac)
        bands.append((grade, here, end))
        here = end * (1 + 1e-9)
    return bands


def _last_of(grade: RootGrade, grade_of: GradeOf, low_frac: float, high_frac: float) -> float:
    low, high = log(low_frac), log(high_frac)
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if grade_of(exp(middle)) is grade else (low, middle)
    return exp(high)


def film_legend(grades: Sequence[RootGrade], *, reader: Reader) -> str:
    """The list of colours with their words, in the order of the scale."""
    items = (
        tag(
            "li",
            tag("span", " ", class_=f"film-chip {film_class(each)}"),
            f" {escape(reader.words(each.value))}",
        )
        for each in sorted(set(grades), key=ORDER.index)
    )
    return tag("ul", *items, class_="film-legend")
