"""Leaks and openings against values worked by hand from the equations that their docstrings name."""

import math

import pytest

from trainer.core.entrainment import foam_edge_air_inflow_m3_s
from trainer.core.fittings import cap_volume_m3, foam_air_m3, length_between_dams_m
from trainer.core.gas import gas
from trainer.core.gas_pairs import pair_diffusivity_m2_s
from trainer.core.in_leaks import (
    mixed_floor_frac,
    outflow_through_m3_s,
    vent_air_inflow_m3_s,
    vent_flow_that_holds_air_out_m3_s,
)
from trainer.core.joint_gap import JointGap, gap_air_inflow_m3_s, gap_flow_that_holds_air_out_m3_s
from trainer.core.vent import (
    capillary_pa,
    flow_that_holds_air_out_of_circle_m3_s,
    pressure_build_up_s,
    vent_pressure_pa,
)

ARGON = gas("I1")
HELIUM = gas("I2")
# g (rho_argon - rho_air) / rho_argon at 20 degC from the molar masses 39.948 and 28.9655 g/mol
GRAVITY_M_S2 = 9.80665 * (39.948 - 28.9655) / 39.948


def test_air_along_a_foam_edge_is_plane_poiseuille_flow():
    # w^3 g (1.6607 - 1.2041) d^2 / (24 mu b), mu of air at 20 degC 18.13 uPa s: 2.015e-2 L/min
    new = foam_edge_air_inflow_m3_s(0.1615, edge_gap_m=0.0005, thickness_m=0.1, gas=ARGON)
    assert new * 60_000 == pytest.approx(0.02015, rel=0.01)
    # the gap counts with its cube, the bore with its square, the thickness inversely
    assert foam_edge_air_inflow_m3_s(0.1615, edge_gap_m=0.001, thickness_m=0.1, gas=ARGON) == pytest.approx(
        8.0 * new
    )
    assert foam_edge_air_inflow_m3_s(0.323, edge_gap_m=0.0005, thickness_m=0.2, gas=ARGON) == pytest.approx(
        2.0 * new
    )


def test_a_tabulated_pair_is_the_table_s_and_grows_with_the_power_of_the_temperature():
    # CRC Handbook of Chemistry and Physics, "Diffusion in gases": O2 in argon 0.187, helium in argon 0.726 cm2/s
    assert pair_diffusivity_m2_s("I1", "O2", temperature_k=293.15) == 1.87e-5
    assert pair_diffusivity_m2_s("I2", "I1", temperature_k=293.15) == 7.26e-5
    # (373.15 / 293.15)^1.75 = exp(1.75 * 0.24130) = 1.5254
    warm = pair_diffusivity_m2_s("O2", "I1", temperature_k=373.15)
    assert warm == pytest.approx(1.5254 * 1.87e-5, rel=1e-4)


def test_a_hole_that_faces_the_unstable_way_holds_air_out_at_a_froude_number_of_one():
    # (pi/4) d^2 sqrt(g' d), two holes of 25 mm
    by_hand = 2 * math.pi / 4 * 0.025**2 * math.sqrt(GRAVITY_M_S2 * 0.025)
    found = vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, count=2, slope_deg=-90.0)
    assert found == pytest.approx(by_hand, rel=1e-3)
    assert vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, count=2, slope_deg=90.0) == 0.0
    assert vent_flow_that_holds_air_out_m3_s(0.025, gas=HELIUM, slope_deg=-90.0) == 0.0
    assert vent_flow_that_holds_air_out_m3_s(0.025, gas=HELIUM, slope_deg=90.0) > 0.0


def test_above_the_flow_that_ends_the_layered_exchange_plumes_alone_bring_air_in():
    # 0.055 n sqrt(g' d^5) (1 - Q / Q_hold)^2.3 (Epstein), two holes of 25 mm at 0.8 of Q_hold
    hold = vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, count=2, slope_deg=-90.0)
    side = vent_flow_that_holds_air_out_m3_s(0.025, gas=ARGON, count=2)
    assert side < 0.8 * hold
    by_hand = 0.055 * 2 * math.sqrt(GRAVITY_M_S2 * 0.025**5) * 0.2**2.3
    found = vent_air_inflow_m3_s(0.8 * hold, diameter_m=0.025, gas=ARGON, count=2, slope_deg=-90.0)
    assert found == pytest.approx(by_hand, rel=1e-3)
    assert vent_air_inflow_m3_s(hold, diameter_m=0.025, gas=ARGON, count=2, slope_deg=-90.0) == 0.0


def test_two_holes_exchange_as_one_with_half_the_flow_each():
    both = vent_air_inflow_m3_s(4e-5, diameter_m=0.025, gas=ARGON, count=2)
    assert both == pytest.approx(2.0 * vent_air_inflow_m3_s(2e-5, diameter_m=0.025, gas=ARGON))
    # still gas: the exchange of the layers is far above that of plumes, whichever way the hole faces
    assert vent_air_inflow_m3_s(0.0, diameter_m=0.025, gas=ARGON, slope_deg=-90.0) == vent_air_inflow_m3_s(
        0.0, diameter_m=0.025, gas=ARGON
    )


def test_an_upright_gap_is_a_slot_as_long_as_its_open_share_of_the_ring():
    def gap(taped_frac, slope_deg=90.0):
        return JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=taped_frac, slope_deg=slope_deg)

    whole, half = (gap_flow_that_holds_air_out_m3_s(gap(taped), gas=ARGON) for taped in (0.0, 0.5))
    assert half == pytest.approx(whole / 2.0)
    still_whole, still_half = (gap_air_inflow_m3_s(0.0, gap=gap(taped), gas=ARGON) for taped in (0.0, 0.5))
    assert still_half == pytest.approx(still_whole / 2.0)
    # Cd w (2/3) sqrt(2 g' h^3), w the circumference and h the gap
    by_hand = 0.61 * math.pi * 0.1615 * 2.0 / 3.0 * math.sqrt(2.0 * GRAVITY_M_S2 * 0.003**3)
    assert whole == pytest.approx(by_hand, rel=1e-3)
    assert gap_flow_that_holds_air_out_m3_s(gap(0.0, 0.0), gas=ARGON) > 5.0 * whole


def test_openings_share_the_flow_by_area_and_mixed_leaks_by_flow():
    assert outflow_through_m3_s(3e-4, area_m2=2e-5, all_open_area_m2=6e-5) == pytest.approx(1e-4)
    # a thousandth of air beside pure gas: 0.2095 / 1001
    assert mixed_floor_frac(1e-7, flow_m3_s=1e-4, source_o2_frac=0.0) == pytest.approx(2.093e-4, rel=1e-3)


def test_a_round_hole_holds_air_out_by_its_integral():
    # Cd d^2 sqrt(2 g' d) I, I = integral of 2 sqrt(s (1 - s)) sqrt(1 - s) ds from 0 to 1 = 2 B(3/2, 2) = 8/15
    by_hand = 0.61 * 0.025**2 * math.sqrt(2.0 * 2.7 * 0.025) * 8.0 / 15.0
    found = flow_that_holds_air_out_of_circle_m3_s(0.025, reduced_gravity_m_s2=2.7)
    assert found == pytest.approx(by_hand, rel=1e-9)


def test_small_formulas_with_their_usual_values():
    # 2 * 1.6 N/m / 3 mm; 1000 Pa * 12.3 L / (101325 Pa * 0.25 L/s)
    assert capillary_pa(0.003) == pytest.approx(1066.667, rel=1e-6)
    assert pressure_build_up_s(1000.0, volume_m3=0.0123, flow_m3_s=2.5e-4) == pytest.approx(0.48557, rel=1e-4)
    assert vent_pressure_pa(2e-4, gas_density_kg_m3=1.66, diameter_m=0.006, count=2) == pytest.approx(
        vent_pressure_pa(1e-4, gas_density_kg_m3=1.66, diameter_m=0.006)
    )
    # 97 % of the open foam is air; a cap without flange is pi d^3 / 24; centres less half of each thickness
    assert foam_air_m3(0.2, thickness_m=0.1) == pytest.approx(0.97 * math.pi / 4 * 0.2**2 * 0.1)
    assert cap_volume_m3(0.2) == pytest.approx(math.pi * 0.2**3 / 24)
    dams = length_between_dams_m(0.3, right_centre_m=0.4, left_thickness_m=0.1, right_thickness_m=0.06)
    assert dams == pytest.approx(0.62)
    assert length_between_dams_m(
        0.05, right_centre_m=0.03, left_thickness_m=0.1, right_thickness_m=0.06
    ) == pytest.approx(0.0, abs=1e-15)
