"""Gases by symbol and composition, their real-gas contents, and what may stand behind which root."""

import math

import CoolProp.CoolProp as coolprop
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.backing_gas import BackingRule, BackingVerdict, GasPart, backing_rule
from trainer.core.compressibility import compressibility_ratio
from trainer.core.dilution import BASE_CASE, purge
from trainer.core.errors import CompositionNeeded, OutOfRange, UnknownGas, UnknownName
from trainer.core.gas import (
    AIR,
    density_kg_m3,
    diffusivity_in_air_m2_s,
    gas,
    reduced_gravity_m_s2,
    sinks_in_air,
    viscosity_pa_s,
)
from trainer.core.gas_designation import gas_of_designation, purge_gas
from trainer.core.gas_mix import accepted_shares, mixture
from trainer.core.gas_shares import composition_of
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import Inlet, VentHole
from trainer.core.supply import Cylinders, contents_m3
from trainer.core.tables import table_rows
from trainer.core.terms import InletEnd, MaterialGroup

COOLPROP = {"Ar": "Argon", "He": "Helium", "N2": "Nitrogen", "H2": "Hydrogen"}


@pytest.mark.parametrize(
    ("designation", "expected"),
    [
        ("Ar", {"Ar": 1.0}),
        ("ArHe \u2013 30", {"Ar": 0.7, "He": 0.3}),
        ("NH-5", {"N2": 0.95, "H2": 0.05}),
        ("ArHeN-20/2", {"Ar": 0.78, "He": 0.2, "N2": 0.02}),
    ],
)
def test_designation_is_read(designation, expected):
    assert composition_of(designation) == pytest.approx(expected)


@pytest.mark.parametrize("designation", ["", "ArHe", "ArHe-x", "ArAr-5", "Xe-5", "ArHe-30/2", "ArHe-1.2.3"])
def test_designation_that_cannot_be_read_is_refused(designation):
    with pytest.raises(UnknownName):
        composition_of(designation)


@pytest.mark.parametrize("designation", ["ArHe-130", "ArHeN-60/50", "NH-100.1"])
def test_mix_that_sums_over_the_whole_is_refused_saying_so(designation):
    with pytest.raises(OutOfRange, match="additions to the balance gas together is .* between 0 and 100 %"):
        composition_of(designation)


@pytest.mark.parametrize(
    ("symbol", "composition", "molar_mass_g"),
    [
        ("I1", None, 39.948),
        ("I1", "Ar", 39.948),
        ("I3", "ArHe-30", 0.7 * 39.948 + 0.3 * 4.0026),
        ("R1", "ArH-5", 0.95 * 39.948 + 0.05 * 2.01588),
        ("R2", "ArH-20", 0.8 * 39.948 + 0.2 * 2.01588),
        ("N2", "ArN-2", 0.98 * 39.948 + 0.02 * 28.0134),
        ("N3", "ArN-30", 0.7 * 39.948 + 0.3 * 28.0134),
        ("N4", "ArHN-5/2", 0.93 * 39.948 + 0.05 * 2.01588 + 0.02 * 28.0134),
        ("N5", "NH-10", 0.9 * 28.0134 + 0.1 * 2.01588),
    ],
)
def test_each_symbol_gives_its_gas(symbol, composition, molar_mass_g):
    """Molar masses by hand from IUPAC atomic weights."""
    made = purge_gas(symbol, composition=composition)
    assert made.symbol == symbol
    assert made.molar_mass_kg_mol * 1000 == pytest.approx(molar_mass_g, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("ISO 14175 - I3 - ArHe - 30", "argon with 30 % helium"),
        ("ISO 14175 \u2013 N5 \u2013 NH \u2013 5", "nitrogen with 5 % hydrogen"),
        ("R1-ArH-2", "argon with 2 % hydrogen"),
        ("I1", "argon"),
        ("N4-ArHN-5/2", "argon with 5 % hydrogen and 2 % nitrogen"),
    ],
)
def test_full_designation_is_read(text, name):
    assert gas_of_designation(text).name == name


@pytest.mark.parametrize("text", ["", "ISO 14175", "argon", "ISO 14175 - argon - 30"])
def test_designation_without_a_symbol_is_refused(text):
    with pytest.raises(UnknownName, match="gas designation"):
        gas_of_designation(text)


def test_range_symbol_without_composition_says_what_it_may_hold():
    with pytest.raises(
        CompositionNeeded, match="R1 is a range of mixtures; say which: .*H2 0.5 to 15 %"
    ) as raised:
        purge_gas("R1")
    assert raised.value.accepted == accepted_shares("R1")


@pytest.mark.parametrize(
    ("symbol", "composition", "words"),
    [
        ("R1", "ArH-15.1", "H2 in R1 is 15.1 % but must be between 0.5 and 15 %"),
        ("R2", "ArH-15", "more than 15 %"),
        ("N3", "ArN-5", "more than 5 %"),
        ("I3", "ArHe-96", "Ar in I3 is 4 %"),
        ("N5", "NH-51", "N2 in N5 is 49 %"),
        ("I1", "ArHe-30", "'He' is not a known gas; accepted: Ar"),
        ("M2", "ArH-5", "'M2' is not a known gas; accepted: I1, I2, I3, N1"),
    ],
)
def test_share_outside_the_symbol_is_named_with_what_is_accepted(symbol, composition, words):
    with pytest.raises((OutOfRange, UnknownGas), match=words.replace("(", "\\(")):
        purge_gas(symbol, composition=composition)


def test_share_on_the_symbols_limit_is_accepted():
    assert purge_gas("R1", composition="ArH-15").symbol == "R1"
    assert purge_gas("R2", composition="ArH-15.01").symbol == "R2"
    assert purge_gas("R2", composition="ArH-50").symbol == "R2"
    assert purge_gas("N5", composition="NH-50").symbol == "N5"


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


@pytest.mark.parametrize(
    ("symbol", "composition", "group", "verdict"),
    [
        ("I1", None, MaterialGroup.TITANIUM, BackingVerdict.RECOMMENDED),
        ("N1", None, MaterialGroup.TITANIUM, BackingVerdict.NEVER),
        ("R1", "ArH-2", MaterialGroup.TITANIUM, BackingVerdict.NEVER),
        ("N5", "NH-10", MaterialGroup.AUSTENITIC_STAINLESS, BackingVerdict.BY_PROCEDURE),
        ("N1", None, MaterialGroup.DUPLEX, BackingVerdict.RECOMMENDED),
        ("N2", "ArN-2", MaterialGroup.SUPER_DUPLEX, BackingVerdict.RECOMMENDED),
        ("N5", "NH-5", MaterialGroup.DUPLEX, BackingVerdict.NEVER),
        ("N4", "ArHN-5/2", MaterialGroup.SUPER_DUPLEX, BackingVerdict.NEVER),
        ("R1", "ArH-5", MaterialGroup.CHROMIUM_MOLYBDENUM, BackingVerdict.NEVER),
        ("R1", "ArH-5", MaterialGroup.NICKEL_ALLOY, BackingVerdict.BY_PROCEDURE),
        ("I3", "ArHe-50", MaterialGroup.NICKEL_ALLOY, BackingVerdict.RECOMMENDED),
        ("I1", None, MaterialGroup.CARBON_STEEL, BackingVerdict.NOT_NEEDED),
    ],
)
def test_strictest_part_of_a_gas_decides_behind_a_root(symbol, composition, group, verdict):
    """Trade rules with the sources that data/backing_gases.csv names."""
    assert backing_rule(purge_gas(symbol, composition=composition), group=group).verdict is verdict


def test_each_material_has_a_line_for_each_part_with_source_and_status():
    rows = table_rows("backing_gases")
    assert {(row["group"], row["part"]) for row in rows} == {
        (group.value, part) for group in MaterialGroup for part in ("inert", "nitrogen", "hydrogen")
    }
    assert all(row["why"] and row["source"] and row["status"] in "abcd" for row in rows)


def test_air_is_no_backing_gas():
    with pytest.raises(UnknownGas, match="AIR"):
        backing_rule(AIR, group=MaterialGroup.DUPLEX)


def test_rule_of_the_table_comes_whole():
    rule = backing_rule(gas("N1"), group=MaterialGroup.TITANIUM)
    row = next(r for r in table_rows("backing_gases") if (r["group"], r["part"]) == ("titanium", "nitrogen"))
    assert [rule.verdict.value, rule.part, rule.why, rule.source, rule.status] == [
        row[key] for key in ("verdict", "part", "why", "source", "status")
    ]


def test_a_sites_own_rule_stands_in_place_of_the_default_for_its_part_only():
    own = BackingRule(
        group=MaterialGroup.AUSTENITIC_STAINLESS, part=GasPart.NITROGEN, verdict=BackingVerdict.NEVER,
        why="the owner prohibits it", source="site", status="d",
    )  # fmt: skip

    def verdict(symbol, composition=None, group=MaterialGroup.AUSTENITIC_STAINLESS):
        used = purge_gas(symbol, composition=composition)
        return backing_rule(used, group=group, own_rules=(own,)).verdict

    assert verdict("N1") is verdict("N2", "ArN-2") is BackingVerdict.NEVER
    assert verdict("R1", "ArH-5") is BackingVerdict.BY_PROCEDURE
    assert verdict("I1") is verdict("N1", group=MaterialGroup.DUPLEX) is BackingVerdict.RECOMMENDED
