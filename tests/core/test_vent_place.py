"""Where the vent lies in a section that slopes, and the share of the volume beyond it."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.errors import OutOfRange
from trainer.core.pipe import pocket_frac
from trainer.core.vent_place import VentPlace, beyond_vent_frac, vent_height_frac

ACROSS = st.floats(0.0, 1.0)
SECTIONS = st.builds(VentPlace, bore_m=st.floats(0.02, 0.6), length_m=st.floats(0.1, 6.0),
                     slope_deg=st.floats(-90.0, 90.0), across_frac=ACROSS)  # fmt: skip


def place(slope_deg, across_frac=0.9):
    return VentPlace(bore_m=0.161, length_m=0.6, slope_deg=slope_deg, across_frac=across_frac)


def test_the_pocket_of_a_falling_pipe_agrees_with_points_thrown_into_it():
    """Monte Carlo over a million points, a route of its own: none of the closed forms is used."""
    rng = np.random.default_rng(3)
    along = rng.uniform(0.0, 0.6, 1_000_000)
    across, aside = rng.uniform(-0.0805, 0.0805, (2, 1_000_000))
    inside = across**2 + aside**2 < 0.0805**2
    for slope, high in ((-10.0, 0.925), (-3.0, 0.9), (25.0, 0.5)):
        lean = math.radians(slope)
        heights = along * math.sin(lean) + across * math.cos(lean)
        vent = 0.6 * math.sin(lean) + (high - 0.5) * 0.161 * math.cos(lean)
        expected = float((heights[inside] > vent).mean())
        assert beyond_vent_frac(place(slope, high), gas_sinks=True) == pytest.approx(expected, abs=2e-3)
        assert beyond_vent_frac(place(slope, high), gas_sinks=False) == pytest.approx(1 - expected, abs=2e-3)


@SHAPE
@given(SECTIONS)
def test_what_lies_beyond_for_one_gas_lies_before_it_for_the_other(section):
    beyond = [beyond_vent_frac(section, gas_sinks=sinks) for sinks in (True, False)]
    assert sum(beyond) == pytest.approx(1.0)
    assert all(-1e-12 <= each <= 1.0 + 1e-12 for each in beyond)
    assert -1e-12 <= vent_height_frac(section) <= 1.0 + 1e-12


@SHAPE
@given(st.floats(-90.0, 90.0), st.floats(-90.0, 90.0), ACROSS)
def test_lifting_the_vents_end_never_leaves_more_beyond_the_vent(one, other, across):
    low, high = sorted((one, other))
    pockets = [beyond_vent_frac(place(slope, across), gas_sinks=True) for slope in (low, high)]
    assert pockets[1] <= pockets[0] + 1e-9


@SHAPE
@given(ACROSS, st.booleans())
def test_pocket_and_height_meet_those_of_level_and_upright_without_a_jump(across, sinks):
    assert beyond_vent_frac(place(0.0, across), gas_sinks=sinks) == pocket_frac(
        0.161, vent_height_frac=across, gas_sinks=sinks
    )
    for end, near in ((0.0, 2e-6), (0.0, -2e-6), (90.0, 90.0 - 2e-6), (-90.0, 2e-6 - 90.0)):
        for figure in (vent_height_frac, lambda each: beyond_vent_frac(each, gas_sinks=sinks)):
            assert figure(place(near, across)) == pytest.approx(figure(place(end, across)), abs=1e-5)


def test_a_slope_beyond_upright_is_no_slope():
    with pytest.raises(OutOfRange, match="at most upright"):
        place(91.0)
    with pytest.raises(OutOfRange, match="height of the vent"):
        place(0.0, 1.2)
