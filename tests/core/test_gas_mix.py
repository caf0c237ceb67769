"""Mixtures: density, viscosity and diffusion, which way they layer, and their real-gas contents."""

import math

import CoolProp.CoolProp as coolprop
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.compressibility import compressibility_ratio
from trainer.core.dilution import BASE_CASE, purge
from trainer.core.gas import (
    density_kg_m3,
    diffusivity_in_air_m2_s,
    gas,
    reduced_gravity_m_s2,
    sinks_in_air,
    viscosity_pa_s,
)
from trainer.core.gas_designation import purge_gas
from trainer.core.gas_mix import mixture
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import Inlet, VentHole
from trainer.core.supply import Cylinders, contents_m3
from trainer.core.terms import InletEnd

COOLPROP = {"Ar": "Argon", "He": "Helium", "N2": "Nitrogen", "H2": "Hydrogen"}


@pytest.mark.parametrize(
    ("symbol", "composition", "density", "viscosity"),
    [
        ("R1", "ArH-2", 1.630, 22.29),
        ("R1", "ArH-5", 1.583, 22.27),
        ("N5", "NH-5", 1.111, 17.56),
        ("N5", "NH-10", 1.057, 17.54),
        ("I3", "ArHe-25", 1.288, 22.84),
        ("I3", "ArHe-50", 0.913, 23.30),
        ("I3", "ArHe-70", 0.614, 23.30),
    ],
)
def test_mixtures_have_the_density_and_viscosity_of_the_handbook_of_flow(
    symbol, composition, density, viscosity
):
    """Ideal gas and Wilke (1950) with CoolProp 8.0.0 pure gases, 20 degC and 1 atm, computed elsewhere (status b)."""
    made = purge_gas(symbol, composition=composition)
    assert density_kg_m3(made, temperature_k=293.15) == pytest.approx(density, rel=1.5e-3)
    assert 1e6 * viscosity_pa_s(made, temperature_k=293.15) == pytest.approx(viscosity, rel=5e-3)


def test_argon_helium_turns_from_sinking_to_rising_at_30_5_percent():
    """(39.948 - 28.9647) / (39.948 - 4.0026) = 30.556 % helium, by hand."""
    assert sinks_in_air(purge_gas("I3", composition="ArHe-30.5"))
    assert not sinks_in_air(purge_gas("I3", composition="ArHe-30.6"))


@SHAPE
@given(st.floats(0.5, 95.0))
def test_diffusion_of_a_mixture_lies_between_its_parts(helium_percent):
    made = mixture({"Ar": 1 - helium_percent / 100, "He": helium_percent / 100}, symbol="I3")
    low, high = (diffusivity_in_air_m2_s(gas(s), temperature_k=293.15) for s in ("I1", "I2"))
    assert low < diffusivity_in_air_m2_s(made, temperature_k=293.15) < high


def mixed_case(symbol, composition, *, inlet, vent):
    return PurgeCase(
        section=BASE_CASE.section,
        inlet=Inlet(height_frac=inlet, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
        vent=VentHole(height_frac=vent, diameter_m=0.019),
        gas=purge_gas(symbol, composition=composition),
        source_o2_frac=5e-6,
        segments=BASE_CASE.segments,
    )


@pytest.mark.parametrize(
    ("symbol", "composition", "inlet", "vent"),
    [("R1", "ArH-5", 0.09, 0.925), ("I3", "ArHe-70", 0.91, 0.075), ("I3", "ArHe-10", 0.09, 0.925)],
)
def test_mixture_that_layers_purges_faster_the_right_way_up(symbol, composition, inlet, vent):
    right = purge(mixed_case(symbol, composition, inlet=inlet, vent=vent)).time_to(0.001)
    wrong = purge(mixed_case(symbol, composition, inlet=inlet, vent=1.0 - vent)).time_to(0.001)
    assert right.upper < wrong.expected


@SHAPE
@given(st.floats(0.5, 95.0), st.sampled_from([(0.09, 0.925), (0.91, 0.075)]))
def test_any_argon_helium_mix_purges_to_a_time_within_its_interval(helium_percent, places):
    case = mixed_case("I3", f"ArHe-{helium_percent:.4f}", inlet=places[0], vent=places[1])
    time = purge(case).time_to(0.01)
    assert 0.0 < time.lower <= time.expected <= time.upper < math.inf


def test_mix_as_heavy_as_air_is_taken_as_stirred_with_a_wide_interval():
    level = mixed_case("I3", "ArHe-30.5", inlet=0.09, vent=0.925)
    assert reduced_gravity_m_s2(level.gas, temperature_k=293.15) < 0.03
    here, argon = purge(level).time_to(0.001), purge(BASE_CASE).time_to(0.001)
    assert here.upper / here.lower > argon.upper / argon.lower


def coolprop_ratio(shares, pressure_pa, temperature_k):
    state = coolprop.AbstractState("HEOS", "&".join(COOLPROP[name] for name in shares))
    state.set_mole_fractions(list(shares.values()))
    state.update(coolprop.PT_INPUTS, pressure_pa, temperature_k)
    return state.compressibility_factor()


@pytest.mark.parametrize("temperature_k", [243.15, 263.15, 288.15, 318.15])
@pytest.mark.parametrize("pressure_bar", [20, 150, 200, 300])
@pytest.mark.parametrize(
    "shares",
    [
        {"Ar": 0.7, "He": 0.3},
        {"Ar": 0.3, "He": 0.7},
        {"Ar": 0.95, "H2": 0.05},
        {"Ar": 0.8, "H2": 0.2},
        {"Ar": 0.98, "N2": 0.02},
        {"Ar": 0.6, "N2": 0.4},
        {"N2": 0.95, "H2": 0.05},
        {"N2": 0.6, "H2": 0.4},
        {"He": 0.95, "N2": 0.05},
    ],
    ids=str,
)
def test_mixture_in_a_cylinder_is_as_far_from_ideal_as_the_mixture_model_says(
    shares, pressure_bar, temperature_k
):
    """CoolProp 8.0.0 HEOS mixtures (GERG-2008 pairs). What pairs add was tabulated at equal shares; these are others."""
    ours = compressibility_ratio(
        mixture(shares, symbol="mix"), pressure_pa=pressure_bar * 1e5, temperature_k=temperature_k
    )
    assert ours == pytest.approx(coolprop_ratio(shares, pressure_bar * 1e5, temperature_k), rel=0.01)


def test_contents_of_a_mixture_are_those_of_the_mixture_model():
    """50 L at 200 bar, 15 degC, 70 % argon with 30 % helium: CoolProp 8.0.0 mixture, over an ideal gas at 15 degC, 1 bar."""
    made = purge_gas("I3", composition="ArHe-30")
    full = Cylinders(gas=made, water_volume_m3=0.05, pressure_pa=200e5)
    expected_m3 = 0.05 * 200.0 / coolprop_ratio({"Ar": 0.7, "He": 0.3}, 200e5, 288.15)
    assert contents_m3(full) == pytest.approx(expected_m3, rel=0.01)


@SHAPE
@given(st.floats(1e4, 350e5), st.floats(233.15, 333.15))
def test_mixture_of_nearly_one_gas_is_as_real_as_that_gas(pressure_pa, temperature_k):
    nearly = mixture({"Ar": 1.0 - 1e-7, "He": 1e-7}, symbol="I3")
    pure = compressibility_ratio(gas("I1"), pressure_pa=pressure_pa, temperature_k=temperature_k)
    ours = compressibility_ratio(nearly, pressure_pa=pressure_pa, temperature_k=temperature_k)
    assert ours == pytest.approx(pure, abs=1e-6)
