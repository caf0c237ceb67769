"""The vent: pressure, the flow that holds the air out, and the exchange of air and gas through it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openings_drawn import ARGON, COUNTS, DIAMETERS, GASES, HELIUM, SLOPES, integrated_inflow
from shape import L_MIN, SHAPE, flows_l_min

from trainer.core.entrainment import foam_edge_air_inflow_m3_s
from trainer.core.errors import OutOfRange
from trainer.core.in_leaks import (
    circle_air_inflow_m3_s,
    mixed_floor_frac,
    outflow_through_m3_s,
    vent_air_inflow_m3_s,
    vent_flow_that_holds_air_out_m3_s,
)
from trainer.core.joint_gap import JointGap
from trainer.core.vent import (
    flow_that_holds_air_out_m3_s,
    flow_that_holds_air_out_of_circle_m3_s,
    pressure_build_up_s,
    vent_diameter_for_pressure_m,
    vent_pressure_pa,
)


@SHAPE
@given(flows_l_min(0.1, 20.0), st.floats(0.005, 0.1), COUNTS, st.floats(1.0, 3.0))
def test_vent_pressure_rises_with_flow_and_falls_with_holes(flow, diameter, count, times_more):
    pressure = vent_pressure_pa(flow, gas_density_kg_m3=1.66, diameter_m=diameter, count=count)
    more_flow = vent_pressure_pa(flow * times_more, gas_density_kg_m3=1.66, diameter_m=diameter, count=count)
    more_holes = vent_pressure_pa(flow, gas_density_kg_m3=1.66, diameter_m=diameter, count=count + 1)
    assert more_flow >= pressure > more_holes


@SHAPE
@given(flows_l_min(), st.floats(1.0, 2000.0), COUNTS)
def test_vent_diameter_is_the_inverse_of_the_pressure(flow, pressure, count):
    diameter = vent_diameter_for_pressure_m(flow, gas_density_kg_m3=1.66, pressure_pa=pressure, count=count)
    back = vent_pressure_pa(flow, gas_density_kg_m3=1.66, diameter_m=diameter, count=count)
    assert back == pytest.approx(pressure)


@SHAPE
@given(DIAMETERS, GASES, COUNTS, SLOPES, st.lists(st.floats(0.0, 1.0), min_size=2, max_size=2))
def test_more_outflow_never_lets_more_air_in(diameter, which, count, slope, shares):
    hold = vent_flow_that_holds_air_out_m3_s(diameter, gas=which, count=count, slope_deg=slope)
    low, high = (share * hold for share in sorted(shares))
    more = vent_air_inflow_m3_s(low, diameter_m=diameter, gas=which, count=count, slope_deg=slope)
    less = vent_air_inflow_m3_s(high, diameter_m=diameter, gas=which, count=count, slope_deg=slope)
    assert more >= less * (1 - 1e-9)


@SHAPE
@given(DIAMETERS, GASES, COUNTS, SLOPES)
def test_inflow_stops_at_the_holding_flow_without_a_jump(diameter, which, count, slope):
    hold = vent_flow_that_holds_air_out_m3_s(diameter, gas=which, count=count, slope_deg=slope)
    at = {"diameter_m": diameter, "gas": which, "count": count, "slope_deg": slope}
    assert vent_air_inflow_m3_s(hold, **at) == 0.0
    assert vent_air_inflow_m3_s(hold * (1 - 1e-6), **at) <= 1e-4 * hold


@pytest.mark.parametrize("which", [ARGON, HELIUM], ids=lambda g: g.name)
@pytest.mark.parametrize("share", [0.0, 0.3, 0.8])
def test_round_hole_agrees_with_an_integration_over_the_circle(which, share):
    diameter = 0.025
    hold = vent_flow_that_holds_air_out_m3_s(diameter, gas=which)
    expected = integrated_inflow(
        lambda z: 2 * math.sqrt(max(z * (diameter - z), 0.0)), diameter, share * hold, which
    )
    assert circle_air_inflow_m3_s(share * hold, diameter_m=diameter, gas=which) == pytest.approx(
        expected, rel=2e-3
    )


def test_square_of_equal_area_agrees_with_an_integration():
    side = 0.025 * math.sqrt(math.pi) / 2
    expected = integrated_inflow(lambda _: side, side, 1.0 * L_MIN, ARGON)
    ours = vent_air_inflow_m3_s(1.0 * L_MIN, diameter_m=0.025, gas=ARGON)
    assert ours == pytest.approx(expected, rel=1e-3)


@SHAPE
@given(DIAMETERS)
def test_square_and_circle_differ_by_eight_percent(diameter):
    square = flow_that_holds_air_out_m3_s(diameter, reduced_gravity_m_s2=2.7)
    circle = flow_that_holds_air_out_of_circle_m3_s(diameter, reduced_gravity_m_s2=2.7)
    assert circle / square == pytest.approx(1.08, abs=0.01)


def test_hole_that_faces_up_over_argon_does_not_exchange_and_one_facing_down_is_the_worst():
    facing = {"up": 90.0, "side": 0.0, "down": -90.0}
    held = {
        name: vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, slope_deg=slope)
        for name, slope in facing.items()
    }
    let_in = {
        name: vent_air_inflow_m3_s(0.0, diameter_m=0.025, gas=ARGON, slope_deg=slope)
        for name, slope in facing.items()
    }
    assert held["up"] == let_in["up"] == 0.0
    assert held["down"] > held["side"] > 0.0
    assert let_in["down"] >= let_in["side"] > 0.0
    assert vent_air_inflow_m3_s(0.0, diameter_m=0.025, gas=HELIUM, slope_deg=-90.0) == 0.0


def test_a_vent_facing_straight_down_is_held_at_a_froude_number_of_one():
    """Worked by hand: g' = 9.80665 x (39.948 - 28.9647) / 39.948 = 2.6963 m/s2; a 25 mm hole, 490.87 mm2:
    490.87e-6 x sqrt(2.6963 x 0.025) = 1.2744e-4 m3/s."""
    held = vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, slope_deg=-90.0)
    assert held == pytest.approx(1.2744e-4, rel=1e-3)


def test_a_leaning_vent_exchanges_over_the_height_that_it_still_spans():
    """The doorway law goes with the root of the height: cos 60 = 1/2, so sqrt(1/2) of the level hole."""
    level, leaning = (
        vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, slope_deg=slope) for slope in (0.0, 60.0)
    )
    assert leaning / level == pytest.approx(math.sqrt(0.5))


@SHAPE
@given(DIAMETERS, GASES, SLOPES, SLOPES, st.floats(0.0, 1.0))
def test_a_vent_that_faces_up_more_over_argon_is_never_the_worse(diameter, which, one, other, share):
    low, high = sorted((one, other), reverse=which is not ARGON)
    held = [vent_flow_that_holds_air_out_m3_s(diameter, gas=which, slope_deg=slope) for slope in (low, high)]
    assert held[0] >= held[1] * (1 - 1e-9)
    let_in = [
        vent_air_inflow_m3_s(share * held[0], diameter_m=diameter, gas=which, slope_deg=slope)
        for slope in (low, high)
    ]
    assert let_in[0] >= let_in[1] - 1e-9 * held[0]


@SHAPE
@given(DIAMETERS, GASES, st.sampled_from([0.0, 90.0, -90.0]), st.floats(0.0, 0.95))
def test_a_vent_exchanges_without_a_jump_where_the_pipe_becomes_level_or_upright(diameter, which, end, share):
    near = end + (1e-7 if end <= 0.0 else -1e-7)
    level = vent_flow_that_holds_air_out_m3_s(diameter, gas=which)
    held = [vent_flow_that_holds_air_out_m3_s(diameter, gas=which, slope_deg=slope) for slope in (end, near)]
    assert held[0] == pytest.approx(held[1], abs=1e-3 * level)
    let_in = [
        vent_air_inflow_m3_s(share * level, diameter_m=diameter, gas=which, slope_deg=slope)
        for slope in (end, near)
    ]
    assert let_in[0] == pytest.approx(let_in[1], abs=1e-3 * level)


def test_blocked_vent_lifts_the_bead_within_a_second():
    """12.3 L x 1 kPa / (101.325 kPa x 0.25 L/s) = 0.486 s, by hand."""
    found = pressure_build_up_s(1000.0, volume_m3=0.0123, flow_m3_s=15 * L_MIN)
    assert found == pytest.approx(0.4856, rel=1e-3)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: vent_pressure_pa(0.01, gas_density_kg_m3=1.66, diameter_m=0.006),
        lambda: vent_pressure_pa(-1e-4, gas_density_kg_m3=1.66, diameter_m=0.006),
        lambda: vent_diameter_for_pressure_m(1e-4, gas_density_kg_m3=1.66, pressure_pa=0.0),
        lambda: vent_air_inflow_m3_s(1e-4, diameter_m=0.01, gas=ARGON, count=0),
        lambda: mixed_floor_frac(0.0, flow_m3_s=0.0, source_o2_frac=0.0),
        lambda: pressure_build_up_s(1000.0, volume_m3=0.01, flow_m3_s=0.0),
        lambda: JointGap(bore_m=0.1, gap_m=0.003, taped_frac=1.2),
        lambda: outflow_through_m3_s(1.0, area_m2=2.0, all_open_area_m2=1.0),
        lambda: foam_edge_air_inflow_m3_s(0.1, edge_gap_m=0.01, thickness_m=0.1, gas=ARGON),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
