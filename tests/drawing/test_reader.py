"""Lengths on a drawing, as rules, tapes and tables of pipe have them."""

import pytest

from trainer.drawing.reader import Reader

METRIC, US = Reader(), Reader(units="us")


@pytest.mark.parametrize(
    ("length_m", "metric", "us"),
    [
        (0.0025, "2.5 mm", "0.098 in"),
        (0.00635, "6.3 mm", "1/4 in"),
        (0.00795, "8 mm", "0.313 in"),  # what lists of drills call 5/16
        (0.3048, "305 mm", "12 in"),
        (0.3, "300 mm", "11.81 in"),
        (3.6576, "3.66 m", "12 ft"),
    ],
)
def test_lengths_have_no_more_digits_than_their_tape(length_m: float, metric: str, us: str) -> None:
    assert METRIC.length(length_m).replace("\u00a0", " ") == metric
    assert US.length(length_m).replace("\u00a0", " ") == us


@pytest.mark.parametrize(
    ("diameter_m", "metric", "us"),
    [
        # ASME B36.10M gives outsides in inches: 4.500, 5.563, 6.625, 10.750; and 1.315, which is on no mark
        (0.1143, "114.3 mm", "4 1/2 in"),
        (0.1413, "141.3 mm", "5 9/16 in"),
        (0.1683, "168.3 mm", "6 5/8 in"),
        (0.2731, "273.1 mm", "10 3/4 in"),
        (0.0334, "33.4 mm", "1.31 in"),
        (0.1016, "101.6 mm", "4 in"),
    ],
)
def test_outside_diameters_are_those_of_the_tables(diameter_m: float, metric: str, us: str) -> None:
    assert METRIC.outside_diameter(diameter_m).replace("\u00a0", " ") == metric
    assert US.outside_diameter(diameter_m).replace("\u00a0", " ") == us
