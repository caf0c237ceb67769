"""Gases against CoolProp; mixtures, reference conditions and meters."""

import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.errors import OutOfRange, UnknownGas, UnknownName
from trainer.core.gas import (
    component,
    density_kg_m3,
    diffusivity_in_air_m2_s,
    fuller_diffusivity_m2_s,
    gas,
    sinks_in_air,
    viscosity_pa_s,
)
from trainer.core.gas_mix import mixed_gas, mixture
from trainer.core.gas_pairs import pair_diffusivity_m2_s
from trainer.core.gas_purity import grade_o2_frac, impurity_bound_frac, moisture_frac
from trainer.core.meter import FloatState, reading_to_set_m3_s, true_flow_m3_s, true_flow_ratio
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3

COOLPROP = {"I1": "Argon", "I2": "Helium", "N1": "Nitrogen", "AIR": "Air", "H2": "Hydrogen", "O2": "Oxygen"}
TEMPERATURES = st.floats(233.15, 400.0)
GASES = st.sampled_from([gas(symbol) for symbol in ("I1", "I2", "N1", "AIR")])
STATES = st.builds(GasState, temperature_k=st.floats(200.0, 400.0), pressure_pa=st.floats(5e4, 5e5))


@SHAPE
@given(st.sampled_from(list(COOLPROP)), TEMPERATURES)
def test_viscosity_and_density_agree_with_coolprop(symbol, temperature):
    """CoolProp 8.0.0 at one atmosphere; the power law was fitted to it, so this guards its range."""
    fluid = COOLPROP[symbol]
    viscosity = PropsSI("V", "T", temperature, "P", 101325.0, fluid)
    assert viscosity_pa_s(component(symbol), temperature_k=temperature) == pytest.approx(viscosity, rel=0.007)
    density = PropsSI("D", "T", temperature, "P", 101325.0, fluid)
    assert density_kg_m3(component(symbol), temperature_k=temperature) == pytest.approx(density, rel=3e-3)


@pytest.mark.parametrize(("symbol", "at_273", "at_373"), [("I1", 0.167, 0.289), ("I2", 0.617, 1.057)])
def test_diffusion_follows_the_handbook_with_temperature(symbol, at_273, at_373):
    """CRC Handbook, "Diffusion in gases", cm2/s at 273.15 and 373.15 K, one atmosphere."""
    assert 1e4 * diffusivity_in_air_m2_s(gas(symbol), temperature_k=273.15) == pytest.approx(at_273, rel=0.04)
    assert 1e4 * diffusivity_in_air_m2_s(gas(symbol), temperature_k=373.15) == pytest.approx(at_373, rel=0.04)


def test_nitrogen_in_air_takes_fullers_formula_near_the_memory_value():
    """0.202 cm2/s for nitrogen in oxygen at 293 K, handbook value from memory."""
    assert 1e4 * pair_diffusivity_m2_s("N1", "AIR", temperature_k=293.15) == pytest.approx(0.202, rel=0.08)


def test_argon_with_more_than_30_percent_helium_rises():
    """(39.948 - 28.9647) / (39.948 - 4.0026) = 30.56 % helium, by hand."""
    assert sinks_in_air(mixture({"Ar": 0.70, "He": 0.30}, symbol="I3"))
    assert not sinks_in_air(mixture({"Ar": 0.69, "He": 0.31}, symbol="I3"))
    assert not sinks_in_air(mixture({"N2": 0.95, "H2": 0.05}, symbol="N5"))
    assert sinks_in_air(mixture({"Ar": 0.95, "H2": 0.05}, symbol="R1"))


@SHAPE
@given(st.floats(0.0, 1.0))
def test_mixture_lies_between_its_parts_in_density(share):
    mixed = mixture({"Ar": share, "He": 1.0 - share}, symbol="I3")
    light, heavy = (component(s).molar_mass_kg_mol for s in ("I2", "I1"))
    assert light - 1e-12 <= mixed.molar_mass_kg_mol <= heavy + 1e-12
    assert 1.3 < mixed.heat_capacity_ratio < 1.7


def test_mixture_of_one_gas_is_that_gas():
    same = mixture({"Ar": 1.0}, symbol="I1")
    for name in (
        "molar_mass_kg_mol",
        "viscosity_ref_pa_s",
        "diffusivity_in_air_ref_m2_s",
        "heat_capacity_ratio",
    ):
        assert getattr(same, name) == pytest.approx(getattr(gas("I1"), name))


@pytest.mark.parametrize(
    ("symbol", "composition", "error"),
    [
        ("R1", {"Ar": 0.8, "H2": 0.2}, OutOfRange),
        ("R1", {"Ar": 0.95, "N2": 0.05}, UnknownGas),
        ("Z9", {"Ar": 1.0}, UnknownGas),
        ("N5", {"N2": 1.0}, OutOfRange),
    ],
)
def test_composition_outside_the_symbol_is_refused(symbol, composition, error):
    with pytest.raises(error):
        mixed_gas(symbol, composition=composition)


def test_helium_may_replace_argon_in_r1():
    assert mixed_gas("R1", composition={"He": 0.95, "H2": 0.05}).symbol == "R1"


def test_unknown_gases_name_what_is_accepted():
    with pytest.raises(UnknownGas, match="AIR, I1, I2, N1"):
        gas("I3")
    for wrong in (
        lambda: component("XE"),
        lambda: fuller_diffusivity_m2_s("I1", "XE"),
        lambda: mixture({"Xe": 1.0}, symbol="I1"),
    ):
        with pytest.raises(UnknownGas):
            wrong()


def test_grade_carries_no_more_than_its_impurity():
    for purity in (99.99, 99.996, 99.998, 99.999):
        assert grade_o2_frac(purity) <= impurity_bound_frac(purity)
    with pytest.raises(UnknownName):
        grade_o2_frac(99.5)


@SHAPE
@given(st.floats(0.0, 100.0), STATES, STATES)
def test_reference_conversion_goes_back(volume, one, other):
    there = converted_volume_m3(volume, stated_at=one, wanted_at=other)
    assert converted_volume_m3(there, stated_at=other, wanted_at=one) == pytest.approx(volume)


@SHAPE
@given(st.floats(0.0, 0.01), GASES, GASES)
def test_meter_reading_and_true_flow_are_inverse(flow, scale, used):
    reading = reading_to_set_m3_s(flow, scale_gas=scale, used_gas=used)
    assert true_flow_m3_s(reading, scale_gas=scale, used_gas=used) == pytest.approx(flow)


def test_meter_scaled_at_0_and_run_at_0_8_bar_gauge_passes_a_third_more():
    """sqrt((0.8 + 1.01325) / 1.01325) = 1.338, by hand."""
    scale = FloatState(standard_density_kg_m3=1.66)
    used = FloatState(standard_density_kg_m3=1.66, pressure_pa=101325.0 + 0.8e5)
    assert true_flow_ratio(scale, used=used) == pytest.approx(1.338, rel=1e-3)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: density_kg_m3(gas("I1"), temperature_k=100.0),
        lambda: density_kg_m3(gas("I1"), temperature_k=293.15, pressure_pa=2e7),
        lambda: viscosity_pa_s(gas("I1"), temperature_k=math.nan),
        lambda: mixture({"Ar": 0.5}, symbol="I3"),
        lambda: impurity_bound_frac(50.0),
        lambda: moisture_frac(290.0),
        lambda: true_flow_m3_s(-1.0, scale_gas=gas("I1"), used_gas=gas("I1")),
        lambda: converted_volume_m3(
            -1.0,
            stated_at=ReferenceCondition.AT_0C_1ATM.state,
            wanted_at=ReferenceCondition.AT_15C_1BAR.state,
        ),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()


def test_impurity_could_all_be_oxygen():
    """100 - 99.996 % = 40 ppm; 90 % is the least that a purge gas may be; by hand."""
    assert impurity_bound_frac(99.996) == pytest.approx(40e-6, rel=1e-9)
    assert impurity_bound_frac(90.0) == pytest.approx(0.1)
    assert impurity_bound_frac(100.0) == 0.0


def test_frost_at_the_triple_point_is_the_triple_points_pressure():
    """IAPWS R14-08: 611.657 Pa at 273.16 K."""
    assert moisture_frac(273.16) * 101325.0 == pytest.approx(611.657, rel=1e-9)
