"""Pressure on the bead: through all openings that are left, and what the molten pool stands."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import L_MIN, SHAPE, flows_l_min

from trainer.core.bead_pressure import liquid_metal, openings_pressure_pa
from trainer.core.errors import OutOfRange
from trainer.core.terms import MaterialGroup
from trainer.core.vent import vent_pressure_pa

ARGON_KG_M3 = 1.66182


@SHAPE
@given(flows_l_min(0.1, 20.0), st.floats(0.006, 0.1), st.integers(1, 6))
def test_through_the_vent_alone_it_is_the_vents_own_pressure(flow, diameter, count):
    alone = openings_pressure_pa(
        flow, gas_density_kg_m3=ARGON_KG_M3, area_m2=count * math.pi / 4 * diameter**2
    )
    assert alone == pytest.approx(
        vent_pressure_pa(flow, gas_density_kg_m3=ARGON_KG_M3, diameter_m=diameter, count=count)
    )


@SHAPE
@given(flows_l_min(0.1, 10.0), st.floats(1e-5, 1e-3), st.floats(1.0, 10.0))
def test_more_left_open_never_presses_harder(flow, area, times):
    at = {"gas_density_kg_m3": ARGON_KG_M3}
    assert openings_pressure_pa(flow, area_m2=area * times, **at) <= openings_pressure_pa(
        flow, area_m2=area, **at
    )


def test_fifteen_litres_through_the_last_centimetre_of_a_gap():
    """10 mm of a 3 mm gap: 250e-6 / 30e-6 = 8.33 m/s; 1.66182 / 2 x (8.33 / 0.61)^2 = 155 Pa, by hand."""
    found = openings_pressure_pa(15 * L_MIN, gas_density_kg_m3=ARGON_KG_M3, area_m2=30e-6)
    assert found == pytest.approx(155.1, rel=1e-3)


@pytest.mark.parametrize("group", list(MaterialGroup))
def test_each_material_group_has_its_pool(group):
    pool = liquid_metal(group)
    assert 4000.0 < pool.density_kg_m3 < 8000.0
    assert 1.0 < pool.surface_tension_n_m < 2.0


@pytest.mark.parametrize("area", [0.0, 2e-6, math.nan])
def test_without_a_way_out_there_is_no_pressure_to_state(area):
    with pytest.raises(OutOfRange):
        openings_pressure_pa(15 * L_MIN, gas_density_kg_m3=ARGON_KG_M3, area_m2=area)
