"""Friction, choking and screen colours by hand, where one law hands over to the next."""

import math

import pytest
from scipy.optimize import brentq

from trainer.core.film_optics import encoded_colour, linear_colour
from trainer.core.gas import fuller_diffusivity_m2_s, gas
from trainer.core.hose import Hose, friction_factor, largest_flow_m3_s, pressure_drop_pa


def _prandtl(reynolds_count):
    """1/sqrt f = 2 log10(Re sqrt f) - 0.8, solved for f by bracketing."""
    return brentq(
        lambda f: 2.0 * math.log10(reynolds_count * math.sqrt(f)) - 0.8 - 1.0 / math.sqrt(f), 1e-3, 0.1
    )


def test_friction_goes_over_from_poiseuille_to_prandtl_in_a_straight_line():
    assert friction_factor(2000.0) == 0.032
    turbulent = _prandtl(4000.0)
    assert friction_factor(4000.0) == pytest.approx(turbulent, rel=1e-9)
    for reynolds, weight in ((2500.0, 0.25), (3000.0, 0.5), (3999.0, 0.9995)):
        expected = 0.032 * (1.0 - weight) + turbulent * weight
        assert friction_factor(reynolds) == pytest.approx(expected, rel=1e-9)
    for reynolds in (1e4, 1e5, 1e6):
        assert friction_factor(reynolds) == pytest.approx(_prandtl(reynolds), rel=1e-9)


def test_laminar_drop_is_hagen_poiseuille_for_so_small_a_drop():
    # 128 mu L Q / (pi d^4), argon at 20 degC 22.3 uPa s: 0.5 L/min through 2 m of 6.35 mm
    by_hand = 128.0 * 22.3e-6 * 2.0 * (0.5 / 60_000.0) / (math.pi * 0.00635**4)
    found = pressure_drop_pa(0.5 / 60_000.0, hose=Hose(bore_m=0.00635, length_m=2.0), gas=gas("I1"))
    assert found == pytest.approx(by_hand, rel=0.01)


def test_a_warmer_hose_lets_less_mass_through_a_kink():
    hose = Hose(bore_m=0.00635, length_m=1.0, open_frac=0.01)
    cold, warm = (
        largest_flow_m3_s(3e5, hose=hose, gas=gas("I1"), temperature_k=kelvin) for kelvin in (273.15, 323.15)
    )
    # choked: m goes with 1 / sqrt T, so that the volume at its own temperature goes with sqrt T
    assert warm / cold == pytest.approx(math.sqrt(323.15 / 273.15), rel=1e-3)


def test_screen_values_follow_the_curve_of_the_standard():
    assert encoded_colour((1.0, 0.0, 1.0)) == "#ff00ff"
    assert encoded_colour((0.5, 0.0, 0.0)) == "#bc0000"  # IEC 61966-2-1: 1.055 0.5^(1/2.4) - 0.055 = 0.7354
    assert linear_colour("#bc0000")[0] == pytest.approx(0.5029, abs=1e-4)
    # the straight part: 0.002 * 12.92 * 255 = 6.6
    assert encoded_colour((0.002, 0.002, 0.002)) == "#070707"


def test_fuller_s_formula_with_its_published_volumes():
    # Fuller, Schettler and Giddings 1966: 1e-3 T^1.75 (1/M1 + 1/M2)^0.5 / (P (v1^(1/3) + v2^(1/3))^2) cm2/s, P in atm;
    # their diffusion volumes 16.1 (argon) and 2.88 (helium) from memory
    volumes = (16.1 ** (1.0 / 3.0) + 2.88 ** (1.0 / 3.0)) ** 2
    by_hand = 1e-3 * 293.15**1.75 * math.sqrt(1.0 / 39.948 + 1.0 / 4.0026) / volumes * 1e-4
    assert fuller_diffusivity_m2_s("I1", "I2") == pytest.approx(by_hand, rel=1e-5)
