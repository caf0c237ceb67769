"""Reading items: distance in what is measured, and the same reading in another unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.items.reading import reading_outcome, score_reading
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Instrument, InstrumentKind, Item, ItemKind, ReadingBand
from trainer.scenario_files import parse_response

BAND = ReadingBand(tolerance=2.5e5, zero_at=15e5)  # half a division and three of a gauge divided by 5 bar
GAUGE = Item(
    id="left", kind=ItemKind.READING, skill=7, text="What does the gauge show?", dimension=Dimension.PRESSURE,
    unit_hint="bar",
    instrument=Instrument(kind=InstrumentKind.PRESSURE_GAUGE, unit="bar", si_per_unit=1e5, high=250e5, division=5e5, points_to=62e5),
)  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "score"),
    [("62 bar", 1.0), ("64.5 bar", 1.0), ("59.5 bar", 1.0), ("70.75 bar", 0.5), ("77 bar", 0.0), ("20 bar", 0.0)],
)  # fmt: skip
def test_marks_fall_from_half_a_division_to_three(typed, score):
    # hand-worked: 70.75 bar is 8.75 bar off, half-way between 2.5 and 15 bar
    response = parse_response(GAUGE, typed)
    assert score_reading(BAND, key=62e5, response=response) == pytest.approx(score, abs=1e-9)


def test_the_same_reading_in_another_unit_scores_the_same():
    bar, psi = parse_response(GAUGE, "70 bar"), parse_response(GAUGE, "1015.264 psi")
    assert score_reading(BAND, key=62e5, response=bar) == pytest.approx(
        score_reading(BAND, key=62e5, response=psi), abs=1e-5
    )


@given(st.floats(0, 250e5), st.floats(0, 250e5))
def test_nearer_never_scores_less(first, second):
    near, far = sorted((first, second), key=lambda each: abs(each - 62e5))
    assert score_reading(BAND, key=62e5, response=near) >= score_reading(BAND, key=62e5, response=far)


def test_an_empty_gauge_can_be_read():
    assert parse_response(GAUGE, "0 bar") == 0.0


def test_a_wrong_reading_says_on_which_side_it_lies():
    outcome = reading_outcome(GAUGE, band=BAND, key=62e5, response=80e5)
    assert (outcome.score, outcome.why, outcome.answered) == (0.0, ("Too high.",), True)
    assert reading_outcome(GAUGE, band=BAND, key=62e5, response=None).answered is False
