"""Cylinders and liquid against CoolProp, and the shape of contents."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.compressibility import compressibility_ratio
from trainer.core.dewar import (
    Dewar,
    dewar_contents_m3,
    evaporation_m3_s,
    heat_to_gas_w,
    liquid_density_kg_m3,
    steady_draw_m3_s,
)
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.gas import gas
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.supply import (
    Cylinders,
    contents_m3,
    joints_count,
    pressure_at_temperature_pa,
    runs_for_s,
    usable_m3,
)

NAMES = {"I1": "Argon", "I2": "Helium", "N1": "Nitrogen"}
GASES = st.sampled_from([gas(symbol) for symbol in NAMES])
PRESSURES = st.floats(0.0, 350e5)
TEMPERATURES = st.floats(233.15, 333.15)


@st.composite
def cylinders(draw, pressure=PRESSURES):
    return Cylinders(
        gas=draw(GASES),
        water_volume_m3=draw(st.floats(0.001, 1.0)),
        pressure_pa=draw(pressure),
        temperature_k=draw(TEMPERATURES),
        count=draw(st.integers(1, 16)),
    )


@SHAPE
@given(GASES, st.floats(1e4, 350e5), TEMPERATURES)
def test_compressibility_agrees_with_coolprop_between_the_points_of_the_table(which, pressure, temperature):
    ours = compressibility_ratio(which, pressure_pa=pressure, temperature_k=temperature)
    assert ours == pytest.approx(PropsSI("Z", "P", pressure, "T", temperature, NAMES[which.symbol]), abs=3e-4)


@SHAPE
@given(cylinders(), st.floats(0.0, 1.0))
def test_contents_rise_with_pressure(full, share):
    lower = Cylinders(
        gas=full.gas,
        water_volume_m3=full.water_volume_m3,
        pressure_pa=share * full.pressure_pa,
        temperature_k=full.temperature_k,
        count=full.count,
    )
    assert contents_m3(lower) <= contents_m3(full)


@SHAPE
@given(cylinders(), PRESSURES)
def test_usable_gas_is_never_more_than_the_contents_nor_less_than_none(full, stop_pa):
    assert 0.0 <= usable_m3(full, stop_pressure_pa=stop_pa) <= contents_m3(full)


@SHAPE
@given(cylinders(pressure=st.floats(1e5, 200e5)), TEMPERATURES)
def test_cylinder_that_warms_and_cools_again_reads_as_before(full, temperature):
    try:
        moved_pa = pressure_at_temperature_pa(full, temperature_k=temperature)
    except OutOfRange:  # a warm cylinder may pass the end of the table, and then says so
        assert temperature > full.temperature_k
        return
    moved = Cylinders(
        gas=full.gas, water_volume_m3=full.water_volume_m3, pressure_pa=moved_pa, temperature_k=temperature
    )
    back = pressure_at_temperature_pa(moved, temperature_k=full.temperature_k)
    assert back == pytest.approx(full.pressure_pa, rel=1e-9)


def test_same_reading_on_a_cold_site_means_more_gas():
    """50 L, 200 bar: CoolProp 8.0.0 densities at 0 and 15 degC over that at 15 degC and 1 bar."""
    cold = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5, temperature_k=273.15)
    expected = (
        0.05 * PropsSI("D", "P", 200e5, "T", 273.15, "Argon") / PropsSI("D", "P", 1e5, "T", 288.15, "Argon")
    )
    assert contents_m3(cold) == pytest.approx(expected, rel=1e-3)


def test_argon_at_2400_psia_and_300_k_has_the_published_density():
    """NIST value 279.24 kg/m3 at 300 K and 2400 psia, read in a public repository."""
    pressure = 2400 * 6894.757293168
    ratio = compressibility_ratio(gas("I1"), pressure_pa=pressure, temperature_k=300.0)
    assert pressure * 0.039948 / (ratio * 8.314462618 * 300.0) == pytest.approx(279.24, rel=5e-4)


def test_reference_condition_moves_the_contents_by_the_ideal_gas_law():
    full = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
    normal = contents_m3(full, reference=ReferenceCondition.AT_0C_1ATM)
    assert contents_m3(full) / normal == pytest.approx(1.0689, rel=1e-3)


def test_cylinder_at_or_below_its_stop_pressure_has_nothing_to_give():
    empty = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=2e5)
    assert usable_m3(empty, stop_pressure_pa=3e5) == 0.0
    assert joints_count(0.0, gas_per_joint_m3=0.1) == 0
    assert runs_for_s(0.0, flow_m3_s=1e-4) == 0.0


@SHAPE
@given(st.sampled_from(["I1", "N1"]), st.floats(101325.0, 25e5))
def test_liquid_agrees_with_coolprop_between_the_points_of_the_table(symbol, pressure):
    density = liquid_density_kg_m3(gas(symbol), pressure_pa=pressure)
    assert density == pytest.approx(PropsSI("D", "P", pressure, "Q", 0, NAMES[symbol]), rel=3e-3)
    heat = heat_to_gas_w(1.0, gas=gas(symbol), pressure_pa=pressure)
    warm = PropsSI("H", "P", 101325.0, "T", 293.15, NAMES[symbol])
    assert heat == pytest.approx(warm - PropsSI("H", "P", pressure, "Q", 0, NAMES[symbol]), rel=3e-3)


@SHAPE
@given(st.floats(101325.0, 25e5), st.floats(0.0, 1.0))
def test_dewar_under_pressure_holds_less(pressure, fill):
    held = [
        dewar_contents_m3(Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=fill, pressure_pa=p))
        for p in (101325.0, pressure)
    ]
    assert held[1] <= held[0]


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=400e5),
        lambda: Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5, temperature_k=400.0),
        lambda: Cylinders(gas=gas("I1"), water_volume_m3=0.0, pressure_pa=200e5),
        lambda: runs_for_s(1.0, flow_m3_s=0.0),
        lambda: joints_count(1.0, gas_per_joint_m3=0.0),
        lambda: Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=1.1, pressure_pa=10e5),
        lambda: evaporation_m3_s(100.0, daily_loss_frac=1.5),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()


def test_gas_without_a_table_is_named_and_the_known_ones_offered():
    with pytest.raises(UnknownName) as refused:
        contents_m3(Cylinders(gas=gas("AIR"), water_volume_m3=0.05, pressure_pa=200e5))
    assert refused.value.known == ("H2", "I1", "I2", "N1")
    with pytest.raises(UnknownName, match="I1, N1"):
        liquid_density_kg_m3(gas("I2"), pressure_pa=101325.0)


def test_steady_draw_is_enough_for_any_purge():
    assert steady_draw_m3_s() > 100 / 60000


def test_usable_gas_is_stated_at_the_condition_asked_for():
    full = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
    usual, normal = (
        usable_m3(full, stop_pressure_pa=5e5, reference=reference)
        for reference in (ReferenceCondition.AT_15C_1BAR, ReferenceCondition.AT_0C_1ATM)
    )
    assert usual / normal == pytest.approx(1.0689, rel=1e-3)
    vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
    liquid = [
        dewar_contents_m3(vessel, reference=reference)
        for reference in (ReferenceCondition.AT_15C_1BAR, ReferenceCondition.AT_0C_1ATM)
    ]
    assert liquid[0] / liquid[1] == pytest.approx(1.0689, rel=1e-3)


def test_saturated_liquid_has_the_density_of_coolprop_between_the_points_of_the_table():
    """CoolProp 8.0.0, saturated liquid."""
    for pressure_pa in (1.5e5, 6.5e5, 10.5e5, 20.5e5):
        expected = PropsSI("D", "P", pressure_pa, "Q", 0, "Argon")
        assert liquid_density_kg_m3(gas("I1"), pressure_pa=pressure_pa) == pytest.approx(expected, rel=2e-3)


def test_steady_draw_is_350_cubic_feet_an_hour():
    """350 x 28.3168 L / 60 min = 165.18 L/min, by hand; the 350 from memory."""
    assert steady_draw_m3_s() * 60000 == pytest.approx(165.18, rel=1e-4)
