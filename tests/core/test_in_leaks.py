"""Air that leaks in elsewhere than at the vent: hose, foam, openings beside it, and the floor that it leaves."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openings_drawn import ARGON
from shape import L_MIN, SHAPE, flows_l_min

from trainer.core.back_diffusion import back_diffusion_ratio, velocity_for_back_diffusion_m_s
from trainer.core.entrainment import (
    foam_edge_air_inflow_m3_s,
    foam_edge_gap_m,
    leak_air_inflow_m3_s,
    leak_places,
)
from trainer.core.errors import UnknownName
from trainer.core.in_leaks import circle_air_inflow_m3_s, mixed_floor_frac, outflow_through_m3_s


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
