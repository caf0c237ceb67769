"""The vent, and the exchange of air and gas through openings."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq
from shape import L_MIN, SHAPE, flows_l_min

from trainer.core.back_diffusion import back_diffusion_ratio, velocity_for_back_diffusion_m_s
from trainer.core.entrainment import (
    foam_edge_air_inflow_m3_s,
    foam_edge_gap_m,
    leak_air_inflow_m3_s,
    leak_places,
)
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.gas import gas
from trainer.core.in_leaks import (
    circle_air_inflow_m3_s,
    mixed_floor_frac,
    outflow_through_m3_s,
    vent_air_inflow_m3_s,
    vent_flow_that_holds_air_out_m3_s,
)
from trainer.core.joint_gap import (
    JointGap,
    gap_air_inflow_m3_s,
    gap_flow_that_holds_air_out_m3_s,
    gap_open_area_m2,
)
from trainer.core.vent import (
    flow_that_holds_air_out_m3_s,
    flow_that_holds_air_out_of_circle_m3_s,
    pressure_build_up_s,
    vent_diameter_for_pressure_m,
    vent_pressure_pa,
)

ARGON, HELIUM, NITROGEN = gas("I1"), gas("I2"), gas("N1")
GASES = st.sampled_from([ARGON, HELIUM, NITROGEN])
DIAMETERS = st.floats(0.002, 0.1)
COUNTS = st.integers(1, 6)
SLOPES = st.floats(-90.0, 90.0) | st.sampled_from([-90.0, 0.0, 90.0])
GAPS = st.builds(
    JointGap,
    bore_m=st.floats(0.02, 0.6),
    gap_m=st.floats(0.0005, 0.006),
    taped_frac=st.floats(0.0, 0.99),
    slope_deg=SLOPES,
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


@SHAPE
@given(GAPS, GASES, st.floats(0.0, 1.0))
def test_gap_inflow_is_continuous_and_stops_at_the_holding_flow(gap, which, share):
    hold = gap_flow_that_holds_air_out_m3_s(gap, gas=which)
    assert gap_air_inflow_m3_s(hold, gap=gap, gas=which) == 0.0
    here = gap_air_inflow_m3_s(share * hold, gap=gap, gas=which)
    near = gap_air_inflow_m3_s(share * hold * (1 + 1e-6), gap=gap, gas=which)
    assert here == pytest.approx(near, abs=1e-5 * hold)
    assert 0.0 <= here <= hold


def integrated_inflow(width, top, flow, which):
    """Neutral level and inflow by scipy's quad and brentq, strip by strip: an independent route."""
    air, inside = 0.0289647, which.molar_mass_kg_mol
    out_g, in_g = (9.80665 * abs(inside - air) / rho for rho in (inside, air))

    def through(gravity, low, high, neutral):
        def strip(z):
            return width(z) * math.sqrt(2 * gravity * abs(z - neutral))

        return 0.61 * quad(strip, low, high, limit=200)[0] if high > low else 0.0

    def net(neutral):
        return through(out_g, 0.0, neutral, neutral) - through(in_g, neutral, top, neutral) - flow

    neutral = brentq(net, 0.0, top, xtol=1e-12)
    return through(in_g, neutral, top, neutral)


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


def test_ring_agrees_with_an_integration_around_it():
    gap = JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=0.5)
    angles = np.linspace(0.0, math.pi, 200001)
    heads = 0.1615 * (1 + np.cos(angles)) / 2
    strips = 0.61 * 0.0015 * 0.1615 * np.sqrt(2 * 9.80665 * (39.948 - 28.9647) / 39.948 * heads)
    assert gap_flow_that_holds_air_out_m3_s(gap, gas=ARGON) == pytest.approx(
        float(np.trapezoid(strips, angles)), rel=1e-4
    )


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


@SHAPE
@given(st.floats(0.0, 5.0), st.floats(0.001, 0.05), st.floats(0.0, 0.01))
def test_back_diffusion_and_its_velocity_are_inverse(velocity, diameter, thickness):
    at = {"diameter_m": diameter, "thickness_m": thickness, "diffusivity_m2_s": 1.89e-5}
    ratio = back_diffusion_ratio(min(velocity, 60 * 1.89e-5 / (thickness + diameter)), **at)
    assert back_diffusion_ratio(velocity_for_back_diffusion_m_s(ratio, **at), **at) == pytest.approx(ratio)


def test_leak_in_the_hose_grows_with_its_area_and_with_flow_but_not_its_share():
    at = {"where": "hose fitting", "hose_bore_m": 0.00635, "gas": ARGON}
    small, large = (leak_air_inflow_m3_s(15 * L_MIN, area_m2=a, **at) for a in (1e-6, 2e-6))
    assert large == pytest.approx(2 * small)
    assert leak_air_inflow_m3_s(30 * L_MIN, area_m2=1e-6, **at) == pytest.approx(2 * small)


def test_leak_of_the_section_is_a_hole_of_its_area():
    area = math.pi / 4 * 0.01**2
    at = {"where": "dam edge", "hose_bore_m": 0.00635, "gas": ARGON}
    assert leak_air_inflow_m3_s(15 * L_MIN, area_m2=area, **at) == pytest.approx(
        circle_air_inflow_m3_s(0.0, diameter_m=0.01, gas=ARGON)
    )
    assert leak_air_inflow_m3_s(15 * L_MIN, area_m2=0.0, **at) == 0.0


def test_unknown_place_of_a_leak_names_those_that_are_known():
    with pytest.raises(UnknownName) as refused:
        leak_air_inflow_m3_s(1e-4, where="the moon", area_m2=1e-6, hose_bore_m=0.006, gas=ARGON)
    assert refused.value.known == leak_places()


def test_new_foam_is_tight_and_old_foam_is_not():
    inflows = [
        foam_edge_air_inflow_m3_s(0.1615, edge_gap_m=foam_edge_gap_m(age), thickness_m=0.1, gas=ARGON)
        for age in ("new", "old")
    ]
    assert inflows[0] == 0.0 < inflows[1]
    with pytest.raises(UnknownName, match="new, old"):
        foam_edge_gap_m("mouldy")


def test_flow_divides_over_openings_by_area():
    assert outflow_through_m3_s(3.0, area_m2=1.0, all_open_area_m2=3.0) == 1.0


@SHAPE
@given(flows_l_min(1.0, 40.0), flows_l_min(0.0, 5.0), st.floats(0.0, 1e-4))
def test_mixed_floor_lies_between_source_and_air_and_rises_with_the_air_that_comes_in(flow, air, source):
    floors = [mixed_floor_frac(a, flow_m3_s=flow, source_o2_frac=source) for a in (0.0, air, 2 * air)]
    assert floors[0] == pytest.approx(source)
    assert floors == sorted(floors)
    assert floors[-1] < 0.2095


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
