"""Instruments: the pointer, float or line stands where the value is, and words give no more than the eye gets."""

import re
from math import atan2, degrees

import pytest
from bs4 import BeautifulSoup

from trainer.domain.scenario import Instrument, InstrumentKind
from trainer.drawing.instruments import instrument_drawing
from trainer.drawing.reader import Reader

READER = Reader(prefix="item-left")


def drawing(**changes):
    scale = {"unit": "bar", "si_per_unit": 1e5, "low": 0.0, "high": 250e5, "division": 5e5, "points_to": 62e5}
    return BeautifulSoup(instrument_drawing(Instrument(**{**scale, **changes}), reader=READER), "html.parser")


@pytest.mark.parametrize("bar", [0.0, 62.0, 125.0, 250.0])
def test_a_gauge_points_as_far_round_its_sweep_as_the_value_lies_up_the_scale(bar):
    shown = drawing(kind=InstrumentKind.PRESSURE_GAUGE, points_to=bar * 1e5)
    pointer = shown.select_one("line.d-wall")
    x = float(pointer["x2"]) - 180.0
    y = float(pointer["y2"]) - 176.0
    turned = (degrees(atan2(y, x)) - 135.0) % 360.0  # from the lower left, clockwise on the screen
    assert turned == pytest.approx(270.0 * bar / 250.0, abs=0.2)


def test_a_gauge_numbers_its_scale_in_its_own_unit():
    shown = drawing(kind=InstrumentKind.PRESSURE_GAUGE)
    figures = {each.text for each in shown.select("text.d-small")}
    assert {"0", "25", "50", "250"} <= figures


def test_the_float_stands_at_its_value():
    shown = drawing(
        kind=InstrumentKind.FLOW_TUBE, unit="L/min", si_per_unit=1 / 60000, high=25 / 60000, division=1 / 60000, points_to=12.5 / 60000
    )  # fmt: skip
    top = float(shown.select_one("polygon")["points"].split()[0].split(",")[1])
    assert top == pytest.approx(210.0, abs=0.1)  # half-way between 380 and 40


def test_the_words_tell_the_neighbouring_marks_and_not_the_reading():
    told = drawing(kind=InstrumentKind.PRESSURE_GAUGE).select_one("desc").text
    assert "between 60 and 65" in told
    assert not re.search(r"\b62\b", told)


def test_a_display_is_text_for_everybody():
    shown = drawing(
        kind=InstrumentKind.ANALYSER,
        unit="ppm",
        si_per_unit=1e-6,
        high=0.01,
        division=10e-6,
        points_to=820e-6,
    )
    assert "820 ppm" in shown.select_one("desc").text


def test_a_display_of_many_ppm_shows_each_of_its_figures():
    shown = drawing(
        kind=InstrumentKind.ANALYSER,
        unit="ppm",
        si_per_unit=1e-6,
        high=0.15,
        division=1e-6,
        points_to=0.012134,
    )
    assert "12134 ppm" in {each.text for each in shown.select("text")}


def test_the_levels_of_a_trace_are_written_without_powers_of_ten():
    points = tuple((60.0 * i, 0.2095 * 0.3**i) for i in range(10))
    shown = drawing(kind=InstrumentKind.TRACE, points=points, division=60.0, high=540.0)
    levels = {each.text for each in shown.select("text.d-small")}
    assert {"100 ppm", "10 ppm", "1 %"} <= levels


def test_a_trace_falls_where_its_points_fall():
    points = tuple((60.0 * i, 0.2095 * 0.6**i) for i in range(12))
    shown = drawing(kind=InstrumentKind.TRACE, points=points, division=60.0, high=660.0)
    numbers = [float(each) for each in re.findall(r"-?\d+\.?\d*", shown.select_one("path.d-wall")["d"])]
    heights = numbers[1::2]
    assert heights == sorted(heights)
    assert len(heights) == 12


def test_a_root_is_drawn_in_its_grade_with_its_word():
    shown = drawing(kind=InstrumentKind.ROOT, grade="blue")
    assert "blue" in {each.text for each in shown.select("text")}
