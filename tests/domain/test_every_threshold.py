"""Each row of the thresholds table, tried on a whole run that has a value for it: at, just below and just above."""

from dataclasses import replace

import pytest
from air_examples import DEWAR, PIT, people_at, standing
from judged_examples import raised
from set_up_examples import A_RISER_WITHOUT_VENT, OVER_THE_TOP, POLICY, codes, set_up
from test_run_set_up_thresholds import beside, codes_of_rows, values_of_rows

from trainer.core.terms import MaterialGroup
from trainer.domain.set_up import PurgeGas, SetUp, Vent

_LAST_OF_JOINT = {"joint__left_open": "0 mm", "joint__pool_depth": "3 mm"}
# Set-ups of which between them every row of the table has something to judge.
_SET_UPS = {
    "hot, damp and led into a pit where somebody lies": {
        "surroundings": {**PIT, "fresh_oxygen": "21 %"},
        "scene": {"vent_leads_to": "pit", "analyser_at": "vent", **people_at(("pit", "0.2 m"))},
        "near_heat": [{"what": "tape", "material": "polyimide tape", "distance": "50 mm"}],
        "arc__passes": 2, "gas__frost_point": "-50 degC", "supply__joints_wanted": 20,
        "joint__pool_depth": "1 mm", "joint__left_open": "10 mm",
    },
    "helium under a ceiling": {"surroundings": PIT, "scene": people_at(("pit", "1.5 m")), "gas": {"symbol": "I2"}},
    "a dewar in a van": {"surroundings": standing(air_changes_per_h=1), "supply": {**DEWAR, "joint_every": "24 h"}},
    "a capped riser": A_RISER_WITHOUT_VENT,
    "a high point that is crossed": OVER_THE_TOP,
    "a blocked vent": {"vent__blocked": True, **_LAST_OF_JOINT},
    "a rope on a dam": {
        "section__left_end": "2.5 m",
        "dams": [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new", "rope": "3 m"}],
    },
    "readings that fall no more": {
        "readings": [{"after": "4 min", "oxygen": "0.41 %"}, {"after": "5 min", "oxygen": "0.4 %"}],
        "analyser": {"uncertainty": "5 %"},
    },
    "a line that falls out after the wait": {
        "flow__hold_for": None, "wait": "8 min",
        "flow__stages": [
            {"kind": "purge", "for": "8 min"}, {"kind": "line out", "for": "1 min", "opening": "8 mm"},
            {"kind": "hold", "for": "20 min"},
        ],
    },
}  # fmt: skip


@pytest.fixture(scope="module")
def judged_by_row():
    """By the row's place in the table: a set-up with a value for it, and that value."""
    found = {}
    for changes in _SET_UPS.values():
        made = set_up(**changes)
        found |= {place: (made, value) for place, value in values_of_rows(made).items() if place not in found}
    return found


@pytest.mark.parametrize(
    "place",
    range(len(POLICY.thresholds)),
    ids=[f"{row.code} {row.quantity}" for row in POLICY.thresholds],
)
def test_a_row_moved_onto_the_value_of_a_run_decides_by_its_sign_alone(judged_by_row, place):
    made, value = judged_by_row[place]
    row = POLICY.thresholds[place]
    for at, is_raised in beside(value, row.compare):
        assert (codes_of_rows(made, [replace(row, value=at)]).keys() >= {"row 0"}) is is_raised, at


# Rows of facts: what counts is there or not, so that the row's own threshold lies between nothing and one.


@pytest.mark.parametrize(
    ("code", "below", "at"),
    [
        ("asphyxiation", {"scene": {"vent_leads_to": "room"}}, {"scene": {"vent_leads_to": "pit"}}),
        ("inside-purged-pipe", {"scene": people_at(("room", "0.1 m"))}, {"scene": people_at(("pipe", "0.1 m"))}),
        ("gas-not-for-material", {"material": "titanium"}, {"material": "titanium", "gas__symbol": "N1"}),
        ("gas-not-for-material", {"material": "duplex", "gas__symbol": "N1"}, {"gas__symbol": "N1"}),
        ("no-purge-needed", {}, {"material": "carbon steel"}),
        ("vent-blocked", {"vent__blocked": False}, {"vent__blocked": True}),
        ("blows-the-bead", _LAST_OF_JOINT, {**_LAST_OF_JOINT, "vent__blocked": True}),
        ("beyond-tested-range", {}, {"section__left_dam": "4 m"}),
    ],
)  # fmt: skip
def test_a_fact_is_told_of_once_it_is_there_and_not_before(code, below, at):
    assert code not in codes(**below)
    assert code in codes(**at)


def test_more_facts_than_one_are_one_caution():
    assert codes(scene=people_at(("pipe", "0.1 m"), ("pipe", "0.1 m"))).count("inside-purged-pipe") == 1
    both = codes(section__left_dam="4 m", target__oxygen="50 ppm")
    assert both.count("beyond-tested-range") == 1


@pytest.mark.parametrize(("percent", "burns"), [("2.9999999", False), ("3", True), ("3.0000001", True)])
def test_hydrogen_burns_from_three_percent_on(percent, burns):
    gas = PurgeGas(symbol="R1", composition=f"Ar + {percent} % H2")
    made = SetUp(gas=gas, material=MaterialGroup.AUSTENITIC_STAINLESS)
    assert ("hydrogen-burns" in raised(made)) is burns


def _untrusted(helium_percent):
    gas = PurgeGas(symbol="I3", composition=f"Ar + {helium_percent} % He")
    return "placement-untrusted" in raised(SetUp(gas=gas, vent=Vent(height_frac=0.9)))


def test_placement_is_trusted_from_a_difference_of_five_percent_on_either_side_of_air():
    """By hand: 39.948 - 35.9454 x g/mol with x helium against 28.9647; 5 % of air's own weight more or less."""
    heavier, lighter = ((39.948 - 28.9647 * ratio) / 35.9454 * 100 for ratio in (1.05, 0.95))
    assert [_untrusted(f"{heavier + aside:.4f}") for aside in (-0.01, 0.01)] == [False, True]
    assert [_untrusted(f"{lighter + aside:.4f}") for aside in (-0.01, 0.01)] == [True, False]
