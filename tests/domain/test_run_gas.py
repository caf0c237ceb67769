"""The purge gas of a run: mixtures, where they lie, what they carry, and what is said of them behind a root."""

from dataclasses import replace

import CoolProp.CoolProp as coolprop
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import POLICY, codes, document, run_of, set_up

from trainer.core.backing_gas import BackingRule, BackingVerdict, GasPart
from trainer.core.terms import MaterialGroup
from trainer.domain.run_gas import gas_result
from trainer.domain.run_set_up import run
from trainer.domain.set_up import PurgeGas, SetUp
from trainer.set_up_files import SetUpFaults, read_set_up, write_run, write_set_up

_COOLPROP = {"Ar": "Argon", "He": "Helium", "N2": "Nitrogen", "H2": "Hydrogen"}
_MANY = settings(max_examples=150, deadline=None)


def _gas(symbol, composition=None, **changes):
    given = {"symbol": symbol, **({"composition": composition} if composition else {})}
    return run_of(gas=given, **changes).gas


@pytest.mark.parametrize(
    ("symbol", "composition", "density", "lies"),
    [
        # CoolProp 8.0.0 HEOS mixtures and pure gases, 20 degC and 1 atm, as printed to four figures elsewhere (status b).
        ("I1", None, 1.662, "low"),
        ("I2", None, 0.1663, "high"),
        ("N1", None, 1.165, "nowhere"),
        ("R1", "Ar + 5 % H2", 1.583, "low"),
        ("N5", "NH-5", 1.111, "high"),
        ("N5", "NH-10", 1.057, "high"),
        ("I3", "ArHe-25", 1.288, "low"),
        ("I3", "ArHe-50", 0.913, "high"),
        ("I3", "ArHe-70", 0.614, "high"),
    ],
)
def test_a_gas_is_as_heavy_as_the_handbook_says_and_lies_where_its_weight_takes_it(
    symbol, composition, density, lies
):
    answered = _gas(symbol, composition, material=None)
    assert answered.density_kg_m3 == pytest.approx(density, rel=2e-3)
    assert answered.density_over_air_ratio == pytest.approx(density / 1.2046, rel=2e-3)
    assert answered.lies == lies


@pytest.mark.parametrize("shares", [{"Ar": 0.9, "H2": 0.1}, {"Ar": 0.45, "He": 0.55}, {"N2": 0.7, "H2": 0.3}])
@pytest.mark.parametrize("celsius", [-20.0, 20.0, 45.0])
def test_density_of_a_mixture_is_that_of_the_mixture_model(shares, celsius):
    """CoolProp HEOS mixtures at one atmosphere; an ideal gas is within 0.2 % of them."""
    state = coolprop.AbstractState("HEOS", "&".join(_COOLPROP[name] for name in shares))
    state.set_mole_fractions(list(shares.values()))
    state.update(coolprop.PT_INPUTS, 101325.0, 273.15 + celsius)
    symbol = {"He": "I3", "H2": "R1" if "Ar" in shares else "N5"}[list(shares)[1]]
    written = " + ".join(f"{100 * share:g} % {name}" for name, share in shares.items())
    answered = _gas(symbol, written, temperature=f"{celsius} degC")
    assert answered.density_kg_m3 == pytest.approx(state.rhomass(), rel=2e-3)


@_MANY
@given(st.floats(0.5, 95.0))
def test_density_of_a_mixture_lies_between_that_of_its_parts(percent):
    made = gas_result(SetUp(gas=PurgeGas(symbol="I3", composition=f"ArHe-{percent:.6f}")), policy=POLICY)
    light, heavy = (gas_result(SetUp(gas=PurgeGas(symbol=s)), policy=POLICY) for s in ("I2", "I1"))
    assert light.density_kg_m3 < made.density_kg_m3 < heavy.density_kg_m3


def test_argon_with_helium_turns_the_pocket_round_at_30_5_percent():
    # (39.948 - 28.9647) / (39.948 - 4.0026) = 30.556 % helium makes the mix as heavy as air, by hand.
    def pocket(percent):
        mixed = {"symbol": "I3", "composition": f"ArHe-{percent}"}
        return run_of(gas=mixed, vent__height=0.95).section.pocket_beyond_vent_frac

    assert pocket(30.5) < 0.1
    assert pocket(30.6) > 0.9


def test_forming_gas_rises_so_that_its_vent_belongs_low():
    forming = {"symbol": "N5", "composition": "NH-5"}
    high, low = (run_of(gas=forming, vent__height=height).purge for height in (0.95, 0.05))
    low_in = run_of(gas=forming, vent__height=0.05, inlet__height=0.9).purge
    assert low_in.time_to_target_s.expected < high.time_to_target_s.expected
    assert low.time_to_target_s.expected < high.time_to_target_s.expected


def test_a_mixture_and_its_parts_in_other_words_are_one_gas():
    runs = [
        run_of(gas={"symbol": "R1", "composition": text})
        for text in ("ArH-5", "Ar + 5 % H2", "95 % argon + 5 % hydrogen")
    ]
    assert runs[0] == runs[1] == runs[2]
    assert runs[0].gas.composition == "Ar 95 %, H2 5 %"
    assert runs[0].gas.name == "argon with 5 % hydrogen"


def test_a_pure_gas_may_name_its_composition():
    assert _gas("I1", "Ar") == _gas("I1")


@pytest.mark.parametrize(
    ("given", "ppm", "at_most_ppm"),
    [
        # Site policy by grade (common practice): 99.99 10, 99.996 5, 99.998 3, 99.999 2 ppm; the bound by hand.
        ({"purity": "99.99 %"}, 10.0, 100.0),
        ({"purity": "99.996 %"}, 5.0, 40.0),
        ({"purity": "99.998 %"}, 3.0, 20.0),
        ({"purity": "99.9 %"}, 1000.0, 1000.0),
        ({"purity": "99.996 %", "oxygen": "12 ppm"}, 12.0, 40.0),
        ({}, 10.0, None),
        ({"oxygen": "7 ppm"}, 7.0, None),
    ],
)
def test_purity_says_what_oxygen_the_gas_is_taken_to_carry(given, ppm, at_most_ppm):
    answered = run_of(gas={"symbol": "I1", **given})
    assert answered.gas.oxygen_frac * 1e6 == pytest.approx(ppm)
    assert answered.purge.floor_frac * 1e6 == pytest.approx(ppm, rel=1e-3)
    if at_most_ppm is None:
        assert answered.gas.oxygen_at_most_frac is None
    else:
        assert answered.gas.oxygen_at_most_frac * 1e6 == pytest.approx(at_most_ppm)


def test_a_frost_point_tells_the_water():
    # -50 degC over ice at 1 atm: 38.86 ppm (chemicals 1.5.2, IAPWS sublimation pressure).
    answered = run_of(gas__frost_point="-50 degC")
    assert answered.gas.moisture_frac * 1e6 == pytest.approx(38.86, rel=0.02)
    assert "gas-is-damp" not in [each.code for each in answered.cautions]
    assert run_of().gas.moisture_frac is None


@pytest.mark.parametrize(
    ("symbol", "composition", "material", "verdict", "code"),
    [
        ("I1", None, "titanium", "recommended", None),
        ("N1", None, "duplex", "recommended", None),
        ("R1", "ArH-2", "titanium", "never", "gas-not-for-material"),
        ("R1", "ArH-2", "duplex", "never", "gas-not-for-material"),
        ("R1", "ArH-2", "super duplex", "never", "gas-not-for-material"),
        ("R1", "ArH-2", "chromium-molybdenum", "never", "gas-not-for-material"),
        ("N2", "ArN-2", "titanium", "never", "gas-not-for-material"),
        ("N2", "ArN-2", "super duplex", "recommended", None),
        ("N5", "NH-10", "austenitic stainless", "by procedure", "gas-not-for-material"),
        ("I3", "ArHe-50", "nickel alloy", "recommended", None),
        ("I1", None, "carbon steel", "not needed", "no-purge-needed"),
    ],
)
def test_each_gas_is_judged_for_each_material_by_its_strictest_part(
    symbol, composition, material, verdict, code
):
    """Trade rules, with the sources and their status that data/backing_gases.csv names."""
    answered = _gas(symbol, composition, material=material)
    assert answered.verdict == verdict
    assert answered.verdict_because
    assert answered.verdict_by
    given = {"symbol": symbol, **({"composition": composition} if composition else {})}
    raised = {"gas-not-for-material", "no-purge-needed"} & set(codes(gas=given, material=material))
    assert raised == ({code} if code else set())


def test_a_gas_without_a_material_is_not_judged():
    assert _gas("N1", material=None).verdict is None


def test_the_rule_of_a_site_comes_before_the_default():
    own = BackingRule(
        group=MaterialGroup.DUPLEX, part=GasPart.NITROGEN, verdict=BackingVerdict.BY_PROCEDURE,
        why="the owner wants argon", source="the owner's specification", status="d",
    )  # fmt: skip
    strict = replace(POLICY, gas_rules=(own,))
    answered = gas_result(set_up(material="duplex", gas__symbol="N1"), policy=strict)
    assert (answered.verdict, answered.verdict_by) == ("by procedure", "the owner's specification")


@pytest.mark.parametrize(
    ("composition", "burns"), [("ArH-2.9", False), ("ArH-3", True), ("ArH-5", True), ("ArHe-30", False)]
)
def test_hydrogen_from_3_percent_brings_the_word_that_it_can_burn(composition, burns):
    """Argon with under 3 % hydrogen is sold as non-flammable (read in a handbook of gases)."""
    symbol = "I3" if "He" in composition else "R1"
    raised = codes(gas={"symbol": symbol, "composition": composition})
    assert ("hydrogen-burns" in raised) is burns


def test_a_meter_for_a_mixture_reads_another_gas_by_the_root_of_the_weights():
    # sqrt(M_scale / M_used), by hand: argon with 5 % hydrogen 38.0514 g/mol on argon 39.948: 0.97597.
    metered = run_of(meter={"reads": "15 L/min", "calibrated_for": "ISO 14175 - R1 - ArH - 5"})
    assert metered.flow.true_m3_s / 2.5e-4 == pytest.approx(0.97597, rel=1e-4)
    mixed = run_of(
        meter={"reads": "15 L/min", "calibrated_for": "I1"}, gas={"symbol": "R1", "composition": "ArH-5"}
    )
    assert mixed.flow.true_m3_s / 2.5e-4 == pytest.approx(1.02462, rel=1e-4)


def test_every_part_of_a_run_follows_the_mixture():
    argon, mixed = run_of(), run_of(gas={"symbol": "I3", "composition": "ArHe-70"})
    assert mixed.vent.pressure_rise_pa < argon.vent.pressure_rise_pa
    assert mixed.hose.pressure_drop_pa < argon.hose.pressure_drop_pa
    # 30 % argon in helium is nearly ideal at 200 bar where argon takes 6 % less room: fewer joints in a cylinder.
    assert mixed.supply.contents_m3 < argon.supply.contents_m3
    assert mixed.purge.time_to_target_s != argon.purge.time_to_target_s


@pytest.mark.parametrize(
    "symbol", ["M21", "M1", "C1", "O1", "CO2", "AIR", "M21-ArC-18", "ISO 14175-M13-ArO-2"]
)
def test_a_gas_for_the_arc_is_no_gas_for_the_root(symbol):
    with pytest.raises(SetUpFaults, match="holds carbon dioxide or oxygen") as caught:
        set_up(gas={"symbol": symbol})
    assert [each.path for each in caught.value.faults] == ["gas.symbol"]


@pytest.mark.parametrize(
    ("gas", "path", "says"),
    [
        ({"symbol": "R1"}, "gas.composition", "H2 0.5 to 15 % (ISO 14175:2008, table from memory)"),
        ({"symbol": "R1", "composition": "ArH-20"}, "gas.composition", "R1 stands for H2 0.5 to 15 %"),
        ({"symbol": "R1", "composition": "ArH-20"}, "gas.composition", "that would be R2"),
        ({"symbol": "I1", "composition": "ArHe-30"}, "gas.composition", "contradicts I1, which holds no He but Ar 100 %"),
        ({"symbol": "I1", "composition": "ArHe-30"}, "gas.composition", "that would be I3"),
        ({"symbol": "I3", "composition": "ArHe-130"}, "gas.composition", "adds up to 130 %"),
        ({"symbol": "I3", "composition": "60 % Ar + 30 % He"}, "gas.composition", "adds up to 90 %"),
        ({"symbol": "I3", "composition": "xenon"}, "gas.composition", "write it like 'ArHe-30'"),
        ({"symbol": "I1", "composition": "Ar + 18 % CO2"}, "gas.composition", "oxidises the root"),
        ({"symbol": "I3", "composition": "Ar + 30 % He + 1 % O2"}, "gas.composition", "oxidises the root"),
        ({"composition": "ArC-18"}, "gas.composition", "oxidises the root"),
        ({"composition": "NH-5"}, "gas.symbol", "that would be N5"),
        ({"composition": "ArH-60"}, "gas.symbol", "'ArH-60' needs its symbol beside it; no symbol stands for it"),
        ({"symbol": "X9", "composition": "ArH-5"}, "gas.symbol", "'X9' is no purge gas by ISO 14175"),
        ({"symbol": "R2", "composition": "ArH-60"}, "gas.composition", "holds 60 % H2; R2 stands for H2 over 15 to 50 %"),
        ({"symbol": "I1", "purity": "99.999 %", "oxygen": "50 ppm"}, "gas.oxygen", "10 ppm is all of its impurity"),
    ],
)  # fmt: skip
def test_a_gas_that_contradicts_itself_is_explained(gas, path, says):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(gas=gas))
    (fault,) = caught.value.faults
    assert fault.path == path
    assert says in fault.message


def test_a_gas_for_an_unreadable_scale_is_explained():
    with pytest.raises(SetUpFaults, match="a mixture by its designation, such as 'R1-ArH-5'"):
        set_up(meter={"reads": "15 L/min", "calibrated_for": "R1"})


def test_a_gas_is_written_and_read_back():
    given = {"symbol": "N4", "composition": "ArHN-5/2", "purity": "99.95 %", "frost_point": "-50 degC"}
    assert read_set_up(write_set_up(set_up(gas=given))) == set_up(gas=given)
    answer = write_run(run_of(gas=given))["gas"]
    assert set(answer) == {
        "name", "composition", "density_kg_m3", "density_over_air", "lies", "oxygen_ppm", "oxygen_at_most_ppm",
        "moisture_ppm", "verdict", "verdict_because", "verdict_by",
    }  # fmt: skip


def _faults(given):
    try:
        read_set_up(given)
    except SetUpFaults as refused:
        return refused.faults
    return []


_WRITTEN = st.text("ArHeNCO2-/%+,. 0159", max_size=24).map(str.strip).filter(bool)


@_MANY
@given(st.sampled_from(["I1", "I3", "R1", "R2", "N2", "N4", "N5", "M21", "X9"]), _WRITTEN, _WRITTEN)
def test_whatever_is_written_for_a_gas_is_answered_or_explained(symbol, composition, made_for):
    given = document(
        gas={"symbol": symbol, "composition": composition},
        meter={"reads": "15 L/min", "calibrated_for": made_for},
        section=None,
    )
    faults = _faults(given)
    assert {each.path for each in faults} <= {"gas.symbol", "gas.composition", "meter.calibrated_for"}
    assert all(each.message and "%(" not in each.message for each in faults)
    if faults:
        return
    answered = run(read_set_up(given), policy=POLICY)
    assert 0.0 < answered.gas.density_kg_m3 < 2.0
    assert answered.flow.true_m3_s > 0.0


@_MANY
@given(st.floats(0.5, 95.0))
def test_a_mixture_made_by_designation_or_by_shares_is_the_same_run(percent):
    designated, shared = (
        run_of(gas={"symbol": "I3", "composition": text}, section=None)
        for text in (f"ArHe-{percent:.3f}", f"Ar + {percent:.3f} % He")
    )
    assert designated == shared
