"""What is said at and beyond the ends of tested ranges and paths, and the values that lie exactly on an end."""

import math
from dataclasses import replace

import numpy as np
import pytest
from purge_cases import L_MIN, base_case
from scipy.optimize import brentq
from spool_cases import BORE

from trainer.core.dilution import purge
from trainer.core.errors import UnknownName
from trainer.core.film_optics import film_linear_rgb
from trainer.core.gas import R, density_kg_m3, gas
from trainer.core.gas_mix import mixture
from trainer.core.hose import Hose, pressure_drop_with_friction_pa
from trainer.core.peak import highest_between
from trainer.core.pipe import pipe_from_wall, sanitary_tube
from trainer.core.purge_groups import beyond_tested_range
from trainer.core.purge_time import wait_still_s
from trainer.core.spool_parts import Cap, Elbow, Run, Tee
from trainer.core.spool_pieces import spool_pieces
from trainer.core.two_readings import TwoReadings, wait_still

LEVEL = Run(name="run", bore_m=BORE, length_m=0.5)


@pytest.mark.parametrize(
    ("changes", "reasons"),
    [
        ({"bore_m": 0.054, "length_m": 0.6}, ()),
        ({"bore_m": 0.0539, "length_m": 0.6}, ("bore 53.9 mm: 54 to 305 mm tested",)),
        ({"bore_m": 0.306, "length_m": 0.6}, ("bore 306 mm: 54 to 305 mm tested",)),
        ({"bore_m": 0.1, "length_m": 1.9}, ()),
        ({"bore_m": 0.1, "length_m": 1.9015}, ()),
        ({"bore_m": 0.1, "length_m": 1.95}, ("length 19.5 times the bore: up to 19 tested",)),
        ({"slope_deg": -10.0}, ()),
        ({"slope_deg": -10.5}, ("slope -10.5 deg: -10 to 90 deg and -90 deg tested",)),
        ({"slope_deg": -18.0}, ("slope -18 deg: -10 to 90 deg and -90 deg tested",)),
        ({"slope_deg": -89.6}, ()),
        ({"slope_deg": 45.0}, ()),
        ({"flow_m3_s": 1.999 * L_MIN}, ()),
        ({"flow_m3_s": 1.9 * L_MIN}, ("flow 1.9 L/min: 2 to 40 L/min tested",)),
        ({"flow_m3_s": 40.0 * L_MIN}, ()),
        ({"flow_m3_s": 41.0 * L_MIN}, ("flow 41 L/min: 2 to 40 L/min tested",)),
    ],
)
def test_a_set_up_is_told_which_quantity_was_not_simulated(changes, reasons):
    case = base_case(**({"vent_diameter_m": 0.005, "inlet_height_frac": 0.2} | changes))
    assert beyond_tested_range(case) == reasons


def test_heights_of_a_profile_are_counted_from_the_bottom_for_any_gas():
    for symbol in ("I1", "I2"):
        heights, oxygen = purge(base_case(symbol=symbol)).profile(15.0)
        step = 0.161 / 32
        assert heights == pytest.approx((np.arange(32) + 0.5) * step)
        assert bool(oxygen[0] < oxygen[-1]) is (symbol == "I1")


# --- paths -----------------------------------------------------------------------------------------------------


def test_an_elbow_has_to_turn_by_at_least_the_difference_of_the_slopes():
    rising = replace(LEVEL, slope_deg=30.0)
    elbow = Elbow(name="bend", bore_m=BORE, bend_radius_m=0.25, angle_deg=59.0, to_slope_deg=-30.0)
    with pytest.raises(ValueError, match="angle of bend is 59 deg but must be between 59.9 and 180.1 deg"):
        spool_pieces((rising, elbow))
    assert spool_pieces((rising, replace(elbow, angle_deg=60.0)))
    steep = replace(LEVEL, slope_deg=60.0)
    turned_over = replace(elbow, angle_deg=90.0, to_slope_deg=50.0)
    # two directions of 60 and 50 degrees of slope are at most 180 - 110 = 70 degrees apart
    with pytest.raises(ValueError, match="angle of bend is 90 deg but must be between 9.9 and 70.1 deg"):
        spool_pieces((steep, turned_over))


def test_what_follows_an_elbow_or_stands_on_a_tee_goes_on_as_they_point():
    elbow = Elbow(name="bend", bore_m=BORE, bend_radius_m=0.25, angle_deg=90.0, to_slope_deg=90.0)
    with pytest.raises(ValueError, match="slope of on is 0 deg but must be between 89.9 and 90.1 deg"):
        spool_pieces((LEVEL, elbow, replace(LEVEL, name="on")))
    branch = (Run(name="branch", bore_m=BORE, length_m=0.3, slope_deg=45.0),)
    tee = Tee(
        name="tee", bore_m=BORE, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=90.0, branch=branch
    )
    with pytest.raises(ValueError, match="slope of branch is 45 deg but must be between 89.9 and 90.1 deg"):
        spool_pieces((LEVEL, tee))
    # a cap right on the tee points as the outlet does
    capped = spool_pieces((LEVEL, replace(tee, branch=(Cap(name="cap", bore_m=BORE),))))
    assert {piece.slope_deg for piece in capped if piece.part == "cap"} == {90.0}


def test_a_cap_with_less_than_no_flange_is_refused():
    with pytest.raises(ValueError, match="length is -0.01 m"):
        Cap(name="cap", bore_m=BORE, straight_flange_m=-0.01)


# --- readings and names ----------------------------------------------------------------------------------------


def test_readings_on_the_ends_of_their_range_are_taken():
    pure_oxygen = wait_still_s(0.5, earlier_o2_frac=1.0, apart_s=60.0, target_o2_frac=0.25)
    assert pure_oxygen == pytest.approx(60.0)
    assert wait_still_s(0.01, earlier_o2_frac=0.1, apart_s=60.0, target_o2_frac=0.01) == 0.0
    assert wait_still_s(0.01, earlier_o2_frac=0.1, apart_s=1e-6, target_o2_frac=0.001) == pytest.approx(1e-6)
    with pytest.raises(ValueError, match="oxygen wanted is 1.5 but must be between 0 and 1"):
        wait_still_s(0.01, earlier_o2_frac=0.1, apart_s=60.0, target_o2_frac=1.5)


def test_a_level_that_is_reached_still_tells_whether_the_readings_stand():
    def told(earlier, later):
        readings = TwoReadings(
            earlier_o2_frac=earlier, later_o2_frac=later, apart_s=60.0, uncertainty_frac=0.05
        )
        return wait_still(readings, target_o2_frac=0.01)

    falling, standing = told(0.1, 0.005), told(0.0051, 0.005)
    assert (falling.floor_reached, standing.floor_reached) == (False, True)
    assert falling.time.expected == standing.time.expected == 0.0


def test_names_that_nobody_knows_are_repeated_with_those_that_are():
    with pytest.raises(UnknownName, match="'brass' is not a known metal with a film; accepted: nickel, "):
        film_linear_rgb(1e-8, metal="brass")
    with pytest.raises(UnknownName, match="'xenon' is not a known gas; accepted: ") as refused:
        mixture({"xenon": 1.0}, symbol="X")
    assert refused.value.name == "xenon"


def test_a_size_keeps_its_wall_and_reads_inches_with_and_without_their_mark():
    size = pipe_from_wall(outside_diameter_m=0.1, wall_m=0.002)
    assert (size.outside_diameter_m, size.wall_m, size.bore_m) == pytest.approx((0.1, 0.002, 0.096))
    assert sanitary_tube('1-1/2"') == sanitary_tube(" 1 1/2 ") == sanitary_tube("1-1/2")


# --- numbers ---------------------------------------------------------------------------------------------------


def test_a_choked_end_stands_above_one_atmosphere():
    # P2 = G sqrt(R T / M) at the choked end, P1 from P1^2 - P2^2 = G^2 (R T / M) (f L / d + 2 ln(P1 / P2))
    argon, hose, flow = gas("I1"), Hose(bore_m=0.01, length_m=1.0), 0.05
    flux = flow * density_kg_m3(argon, temperature_k=293.15) / (math.pi / 4.0 * 0.01**2)
    specific = R * 293.15 / argon.molar_mass_kg_mol
    end_pa = flux * math.sqrt(specific)
    assert end_pa > 2e5
    inlet_pa = brentq(
        lambda p: p**2 - end_pa**2 - flux**2 * specific * (0.02 * 100.0 + 2.0 * math.log(p / end_pa)),
        1.001 * end_pa,
        100.0 * end_pa,
        xtol=1e-6,
    )
    found = pressure_drop_with_friction_pa(flow, hose=hose, gas=argon, friction_ratio=0.02)
    assert found == pytest.approx(inlet_pa - 101325.0, rel=1e-9)


@pytest.mark.parametrize("top_s", [0.0, 0.02, 3.0, 47.0, 49.9, 50.0])
def test_the_highest_of_a_hump_is_found_wherever_it_lies(top_s):
    found = highest_between(lambda t: 1.0 - (t - top_s) ** 2 / 2500.0, first_s=0.0, last_s=50.0)
    assert found == pytest.approx(1.0, abs=1e-9)
    sharp = highest_between(lambda t: -np.abs(t - top_s), first_s=0.0, last_s=50.0)
    assert sharp == pytest.approx(0.0, abs=1e-4)
