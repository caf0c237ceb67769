"""Every caution that the policy can raise has words, and they start with the danger."""

import pytest
from set_up_examples import A_RISER_WITHOUT_VENT, OVER_THE_TOP, POLICY, run_of

from trainer.domain.caution_quantities import QUANTITIES
from trainer.domain.purge_run import Caution
from trainer.wording.cautions import cause_words, caution_words
from trainer.wording.quantities import UnitSystem

DEWAR = {"kind": "liquid dewar", "water_volume": "180 L", "pressure": "10 bar", "fill": 0.95}

_RAISING = {
    "asphyxiation": {"scene": {"vent_leads_to": "trench"}},
    "asphyxiation ": {
        "surroundings": {"kind": "pit", "volume": "3 m^3", "floor_area": "2.7 m^2", "fan": "none", "after": "40 min"}
    },
    "asphyxiation  ": {
        "surroundings": {"kind": "pit", "volume": "30 m^3", "floor_area": "2.7 m^2", "fan": "none", "after": "40 min"},
        "scene": {"people": [{"where": "pit", "face_height": "10 cm"}]},
    },
    "collects-at-ceiling": {
        "surroundings": {"kind": "pit", "volume": "12 m^3", "floor_area": "6 m^2", "fan": "none", "after": "40 min"},
        "scene": {"people": [{"where": "pit", "face_height": "1.95 m"}]},
        "gas__symbol": "I2",
    },
    "inside-purged-pipe": {"scene": {"people": [{"where": "pipe", "face_height": "5 cm"}]}},
    "boil-off-collects": {
        "surroundings": {"kind": "van", "volume": "10 m^3", "fan": "none"},
        "supply": {"kind": "liquid dewar", "water_volume": "180 L", "pressure": "9 bar", "fill": 0.95},
    },
    "supply-could-empty-here": {"surroundings": {"kind": "van", "volume": "10 m^3", "fan": "none"}},
    "enriched-air": {"surroundings__fresh_oxygen": "24 %"},
    "gas-not-for-material": {"material": "titanium", "gas__symbol": "N1"},
    "gas-not-for-material ": {"gas": {"symbol": "R1", "composition": "ArH-2"}},
    "hydrogen-burns": {"gas": {"symbol": "R1", "composition": "ArH-5"}},
    "gas-is-damp": {"gas__frost_point": "-30 degC"},
    "no-purge-needed": {"material": "carbon steel"},
    "floor-above-target": {"target__oxygen": "4 ppm"},
    "root-lost": {"wait": "1 min"},
    "oxygen-above-target": {"wait": "1 min"},
    "hold-lets-air-in": {"vent__diameter": "30 mm", "vent__height": 0.85},
    "hold-lets-air-in ": {"flow__hold": "2 L/min", "flow__hold_for": "1 h", "vent__diameter": "30 mm", "vent__height": 0.85},
    "oxygen-comes-back": {
        "flow__hold_for": None,
        "flow__stages": [{"kind": "purge", "for": "8 min"}, {"kind": "line out", "for": "2 min", "opening": "8 mm"}, {"kind": "hold"}],
    },
    "oxygen-rising": {
        "readings": [{"after": "5 min", "oxygen": "0.1 %"}, {"after": "6 min", "oxygen": "0.2 %"}],
        "analyser": {"uncertainty": "5 %"},
    },
    "floor-reached": {
        "readings": [{"after": "30 min", "oxygen": "0.2 %"}, {"after": "40 min", "oxygen": "0.2 %"}],
        "analyser": {"uncertainty": "5 %"},
    },
    "supply-runs-out": {"supply__pressure": "4 bar"},
    "change-before-next-joint": {"supply__pressure": "8 bar"},
    "supply-cannot-deliver": {"supply__largest_draw": "12 L/min"},
    "boils-off-unused": {"supply": {**DEWAR, "joint_every": "8 h"}},
    "hose-starves-flow": {"hose__open_fraction": 0.01},
    "dam-too-close": {"section__left_dam": "80 mm"},
    "dams-heat-up": {
        "material": "chromium-molybdenum", "pipe": {"nps": "6", "schedule": "80"}, "arc__current": "120 A",
        "arc__voltage": "12.5 V", "arc__passes": 2,
    },
    "rope-too-short": {
        "section__left_end": "3 m",
        "dams": [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new", "rope": "2 m"}],
    },
    "burns-near-weld": {"near_heat": [{"what": "draw rope", "material": "polypropylene", "distance": "60 mm"}]},
    "dead-leg": A_RISER_WITHOUT_VENT,
    "high-point-crossed": OVER_THE_TOP,
    "vent-beyond-pool": {"vent__height": 0.5},
    "placement-untrusted": {"material": "duplex", "gas__symbol": "N1"},
    "vent-too-small": {"vent__diameter": "2.5 mm"},
    "pressure-on-bead": {"flow__hold": "12 L/min"},
    "vent-blocked": {"vent__blocked": True},
    "blows-the-bead": {"joint__left_open": "1 mm", "joint__pool_depth": "2 mm", "flow__hold": "15 L/min"},
    "blows-the-bead ": {"vent__blocked": True, "joint__left_open": "0 mm", "joint__pool_depth": "2 mm"},
    "vent-too-large": {"vent__diameter": "60 mm", "vent__height": 0.8},
    "vent-reading-flatters": {"vent__height": 0.5, "scene": {"analyser_at": "vent"}},
    "beyond-tested-range": {"section__left_dam": "4 m"},
    "beyond-tested-range ": {"target__oxygen": "50 ppm"},
}  # fmt: skip


def test_every_code_of_the_policy_is_tried_here():
    assert {each.code for each in POLICY.thresholds} == {code.strip() for code in _RAISING}
    assert {each.quantity for each in POLICY.thresholds} <= set(QUANTITIES)


@pytest.mark.parametrize("code", list(_RAISING))
@pytest.mark.parametrize("system", list(UnitSystem))
def test_a_caution_is_one_line_with_its_reason(code, system):
    (caution,) = (each for each in run_of(**_RAISING[code]).cautions if each.code == code.strip())
    words = caution_words(caution, str, system=system)
    for line in (words.text, words.because):
        assert line
        assert "\n" not in line
        assert "%" not in line.replace(" %", "")
        assert "None" not in line
        assert "!" not in line
    assert words.text[0].isupper()
    assert words.text.endswith(".")


def test_the_danger_comes_first_with_the_readers_units():
    trench = run_of(**_RAISING["asphyxiation"]).cautions[0]
    assert caution_words(trench, str).text.startswith("Argon collects in the trench")
    bead = next(each for each in run_of(flow__hold="12 L/min").cautions if each.code == "pressure-on-bead")
    assert "112 Pa" in caution_words(bead, str).text
    assert "0.448 inH₂O" in caution_words(bead, str, system=UnitSystem.US).text


def test_a_flow_and_a_temperature_are_read_with_their_own_units():
    vent = next(
        each for each in run_of(**_RAISING["vent-too-large"]).cautions if each.code == "vent-too-large"
    )
    assert "L/min leave there" in caution_words(vent, str).text
    dam = next(each for each in run_of(**_RAISING["dam-too-close"]).cautions if each.code == "dam-too-close")
    assert "stands 100 °C" in caution_words(dam, str).text


def test_the_words_go_through_the_translator():
    caution = run_of(**_RAISING["no-purge-needed"]).cautions[0]
    assert caution_words(caution, lambda text: f"<{text}>").text.startswith(
        "<Gas is wasted on a <carbon steel> root"
    )


def test_causes_stand_in_the_order_given():
    words = cause_words(("vent-lets-air-in", "gas-carries-oxygen"), str)
    assert words.index("vent") < words.index("carries oxygen itself")


def test_a_caution_without_a_gas_speaks_of_the_purge_gas():
    caution = Caution(code="asphyxiation", facts=(("oxygen_frac", 0.18), ("limit_oxygen_frac", 0.195)))
    assert caution_words(caution, str).text.startswith("Purge gas takes the place of air: at 18 %")
