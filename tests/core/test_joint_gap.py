"""The gap of a joint all round the pipe: exchange of air and gas, however the pipe leans."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from openings_drawn import ARGON, GAPS, GASES
from scipy.integrate import dblquad
from shape import SHAPE

from trainer.core.joint_gap import (
    JointGap,
    gap_air_inflow_m3_s,
    gap_flow_that_holds_air_out_m3_s,
    gap_open_area_m2,
)


@SHAPE
@given(GAPS, GASES, st.floats(0.0, 1.0))
def test_gap_inflow_is_continuous_and_stops_at_the_holding_flow(gap, which, share):
    hold = gap_flow_that_holds_air_out_m3_s(gap, gas=which)
    assert gap_air_inflow_m3_s(hold, gap=gap, gas=which) == 0.0
    here = gap_air_inflow_m3_s(share * hold, gap=gap, gas=which)
    near = gap_air_inflow_m3_s(share * hold * (1 + 1e-6), gap=gap, gas=which)
    assert here == pytest.approx(near, abs=1e-5 * hold)
    assert 0.0 <= here <= hold


def test_ring_agrees_with_an_integration_around_it():
    gap = JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=0.5)
    angles = np.linspace(0.0, math.pi, 200001)
    heads = 0.1615 * (1 + np.cos(angles)) / 2
    strips = 0.61 * 0.0015 * 0.1615 * np.sqrt(2 * 9.80665 * (39.948 - 28.9647) / 39.948 * heads)
    assert gap_flow_that_holds_air_out_m3_s(gap, gas=ARGON) == pytest.approx(
        float(np.trapezoid(strips, angles)), rel=1e-4
    )


def test_upright_joint_gap_exchanges_over_its_own_width_only():
    level, upright = (
        JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=0.0, slope_deg=slope) for slope in (0.0, 90.0)
    )
    assert gap_open_area_m2(level) == gap_open_area_m2(upright)
    # Worked by hand, the doorway law over 3 mm of height: (2/3) x 0.61 x 1522.1 mm2 x sqrt(2 x 2.6963 x 0.003)
    # = 7.873e-5 m3/s.
    assert gap_flow_that_holds_air_out_m3_s(upright, gas=ARGON) == pytest.approx(7.873e-5, rel=1e-3)
    assert gap_flow_that_holds_air_out_m3_s(upright, gas=ARGON) < 0.2 * gap_flow_that_holds_air_out_m3_s(
        level, gas=ARGON
    )


@pytest.mark.parametrize("slope", [0.0, 20.0, 70.0, 90.0])
def test_leaning_ring_agrees_with_an_integration_over_its_surface(slope):
    """All round and along the gap's width, by scipy's dblquad: an independent route."""
    bore, wide = 0.1615, 0.02
    gap = JointGap(bore_m=bore, gap_m=wide, taped_frac=0.25, slope_deg=-slope)
    lean = math.radians(slope)
    top = bore * math.cos(lean) + wide * math.sin(lean)

    def strip(along, angle):
        height = bore * math.cos(lean) * (1 - math.cos(angle)) / 2 + along * math.sin(lean)
        return math.sqrt(2 * 9.80665 * (39.948 - 28.9647) / 39.948 * max(top - height, 0.0))

    expected = 0.61 * 0.75 * bore * dblquad(strip, 0.0, math.pi, 0.0, wide, epsabs=1e-10)[0]
    assert gap_flow_that_holds_air_out_m3_s(gap, gas=ARGON) == pytest.approx(expected, rel=1e-4)


@SHAPE
@given(GAPS, GASES, st.floats(0.0, 90.0))
def test_a_gap_in_a_steeper_pipe_needs_no_more_gas_to_hold_the_air_out(gap, which, steeper):
    flat, steep = sorted((abs(gap.slope_deg), steeper))
    holds = [
        gap_flow_that_holds_air_out_m3_s(replace(gap, slope_deg=slope), gas=which) for slope in (flat, steep)
    ]
    # Its own width makes a ring that leans a little a hair higher.
    assert holds[1] <= holds[0] * (1 + 10 * (gap.gap_m / gap.bore_m) ** 2)


@SHAPE
@given(GAPS, GASES, st.sampled_from([0.0, 90.0]), st.floats(0.0, 1.0))
def test_a_gap_exchanges_without_a_jump_where_the_pipe_becomes_level_or_upright(gap, which, end, share):
    near = end + 1e-7 if end == 0.0 else end - 1e-7
    at, close = (replace(gap, slope_deg=slope) for slope in (end, near))
    hold = gap_flow_that_holds_air_out_m3_s(at, gas=which)
    assert gap_flow_that_holds_air_out_m3_s(close, gas=which) == pytest.approx(hold, rel=1e-4)
    inflows = [gap_air_inflow_m3_s(share * hold, gap=each, gas=which) for each in (at, close)]
    assert inflows[0] == pytest.approx(inflows[1], abs=1e-4 * hold)


def test_fully_taped_joint_lets_nothing_in():
    taped = JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=1.0)
    assert gap_flow_that_holds_air_out_m3_s(taped, gas=ARGON) == 0.0
    assert gap_air_inflow_m3_s(0.0, gap=taped, gas=ARGON) == 0.0
