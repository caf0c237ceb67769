"""The supply of a run: gas and liquid, what it delivers, how far it goes, when to change it."""

import CoolProp.CoolProp as coolprop
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import POLICY, codes, document, run_of, set_up

from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.supply_stock import deliverable_of
from trainer.set_up_files import SetUpFaults, read_set_up, write_run, write_set_up

CUBIC_FOOT_M3 = 0.028316846592
L_MIN = 1.0 / 60000.0
ATM_BAR = 1.01325
SCF = ReferenceCondition.AT_21C_1ATM
_MANY = settings(max_examples=150, deadline=None)

# 180 L, 95 % full, boiling at 10 bar absolute.
DEWAR = {"kind": "liquid dewar", "water_volume": "180 L", "pressure": f"{10 - ATM_BAR!r} bar", "fill": 0.95}
TANK = {"kind": "bulk tank", "water_volume": "3 m^3", "pressure": "0 bar", "fill": 0.8}


def _supply(supply, *, reference=ReferenceCondition.AT_15C_1BAR, **changes):
    return run(set_up(supply=supply, **changes), policy=POLICY, reference=reference).supply


def test_a_dewar_holds_what_its_liquid_gives():
    # CoolProp 8.0.0: 122.08 m3 at 15 degC and 1 bar; 4340 scf at 70 degF and 1 atm (status b).
    assert _supply(DEWAR).contents_m3 == pytest.approx(122.083, rel=3e-3)
    assert _supply(DEWAR, reference=SCF).contents_m3 / CUBIC_FOOT_M3 == pytest.approx(4340, rel=5e-3)


def test_a_bulk_tank_holds_836_times_its_liquid():
    # 836 m3 of gas for 1 m3 of liquid argon at 1 atm (CoolProp 8.0.0, status b): 0.8 x 3 x 836 = 2006 m3.
    tank = _supply(TANK)
    assert tank.contents_m3 == pytest.approx(2006, rel=2e-3)
    assert tank.deliverable_m3_s is None


@pytest.mark.parametrize(("symbol", "fluid"), [("I1", "Argon"), ("N1", "Nitrogen")])
@pytest.mark.parametrize("bar", [1.5, 6.0, 15.0])
def test_liquid_is_as_dense_as_its_pressure_says(symbol, fluid, bar):
    """CoolProp: mass of the boiling liquid over the density of the gas at 15 degC and 1 bar."""
    vessel = {**DEWAR, "pressure": f"{bar - ATM_BAR!r} bar"}
    liquid = PropsSI("D", "P", bar * 1e5, "Q", 0, fluid)
    expected_m3 = 0.18 * 0.95 * liquid / PropsSI("D", "P", 1e5, "T", 288.15, fluid)
    assert _supply(vessel, gas__symbol=symbol).contents_m3 == pytest.approx(expected_m3, rel=2e-3)


def test_a_standing_dewar_loses_what_the_trade_says():
    # Lab Manager 2010: 4500 scf at 3 % lose 135 scf a day; this one holds 4340.
    dewar = _supply({**DEWAR, "daily_loss": "3 %"}, reference=SCF)
    assert dewar.evaporates_m3_s * 86400 / CUBIC_FOOT_M3 == pytest.approx(135 * 4340 / 4500, rel=5e-3)


def test_a_dewar_delivers_350_cubic_feet_an_hour_unless_it_is_stated():
    # 350 scf/h = 165.2 L/min at 70 degF and 1 atm, from memory.
    assert _supply(DEWAR, reference=SCF).deliverable_m3_s / L_MIN == pytest.approx(165.2, rel=1e-3)
    stated = _supply({**DEWAR, "largest_draw": "100 L/min"}, reference=SCF, temperature="21.1111111 degC")
    assert stated.deliverable_m3_s / L_MIN == pytest.approx(100.0)
    two = _supply({**DEWAR, "count": 2}, reference=SCF)
    assert two.deliverable_m3_s / L_MIN == pytest.approx(330.4, rel=1e-3)
    assert two.contents_m3 == pytest.approx(2 * _supply(DEWAR, reference=SCF).contents_m3)
    assert _supply({**DEWAR, "count": 2}).evaporates_m3_s == pytest.approx(2 * _supply(DEWAR).evaporates_m3_s)


def test_what_is_left_out_of_a_dewar_is_echoed():
    dewar = _supply(DEWAR)
    assert (dewar.residual_frac, dewar.daily_loss_frac) == (0.05, 0.03)
    assert dewar.usable_m3 == pytest.approx(0.95 * dewar.contents_m3)
    assert dewar.stop_pressure_pa is None
    none = _supply({**DEWAR, "residual": 0.0})
    assert none.usable_m3 == pytest.approx(none.contents_m3)


def test_a_dewar_runs_for_its_contents_over_the_flow():
    # 0.95 x 122.08 m3 over 15 L/min at 20 degC, 1 atm = 14.94 L/min at 15 degC, 1 bar: 129.4 h, by hand.
    assert _supply(DEWAR).runs_for_s / 3600 == pytest.approx(0.95 * 122.08 / (14.94e-3 * 60), rel=4e-3)


def test_gas_boils_off_between_joints():
    # 3 % of 122.08 m3 a day, in 7 h 1.068 m3, more than the 0.214 of a joint: 0.95 / (0.03 x 7 / 24) = 108 joints and
    # not 541; by hand.
    dewar = _supply({**DEWAR, "joint_every": "7 h"})
    assert dewar.evaporates_between_joints_m3 == pytest.approx(122.08 * 0.03 * 7 / 24, rel=3e-3)
    assert dewar.joints == 108
    assert dewar.joints_last_s == 108 * 7 * 3600
    assert _supply({**DEWAR, "joint_every": "1 h"}).joints == pytest.approx(0.95 * 122.08 / 0.2141, abs=3)
    assert "boils-off-unused" in codes(supply={**DEWAR, "joint_every": "8 h"})
    assert "boils-off-unused" not in codes(supply={**DEWAR, "joint_every": "1 h"})


def test_joints_without_a_pace_follow_each_other():
    assert _supply(DEWAR).joints == _supply({**DEWAR, "joint_every": "31 min"}).joints
    assert _supply(DEWAR).joints_last_s is None


def test_a_job_takes_as_many_supplies_as_it_does_joints_without_changing_within_one():
    # 10.42 m3 usable at 15 degC from 200 to 5 bar absolute (CoolProp 8.0.0), 0.245 m3 a joint at 15 degC and 1 bar:
    # 42 joints each, so three cylinders for a hundred, 3 x 10.42 - 24.5 = 6.75 m3 left; by hand.
    per_bar = 1.0 / ATM_BAR  # flows at 1 atm that are 15 and 5 L/min at 1 bar
    flow = {
        "purge": f"{15 * per_bar!r} L/min", "hold": f"{5 * per_bar!r} L/min", "hold_for": "20 min", "after_for": "5 min",
    }  # fmt: skip
    cylinder = {
        "kind": "single cylinder", "water_volume": "50 L", "pressure": f"{200 - ATM_BAR!r} bar",
        "stop_pressure": f"{5 - ATM_BAR!r} bar", "joints_wanted": 100,
    }  # fmt: skip
    supply = _supply(cylinder, flow=flow, wait="8 min", temperature="15 degC")
    assert (supply.joints, supply.supplies_needed) == (42, 3)
    assert supply.left_over_m3 == pytest.approx(6.75, abs=0.1)
    # The mass between the changing pressure and 5 bar, over the density at 15 degC and 1 bar (CoolProp).
    change_pa = supply.change_below_pa + 1.01325e5
    held, left, gas = (PropsSI("D", "P", p, "T", 288.15, "Argon") for p in (change_pa, 5e5, 1e5))
    assert 0.05 * (held - left) / gas == pytest.approx(0.245, rel=4e-3)


def test_a_job_on_dewars_counts_what_boils_off():
    # 1.221 m3 leave from joint to joint, 95 joints a dewar: two for a hundred.
    dewar = _supply({**DEWAR, "joint_every": "8 h", "joints_wanted": 100})
    assert dewar.supplies_needed == 2
    assert dewar.left_over_m3 == pytest.approx(2 * dewar.usable_m3 - 100 * dewar.evaporates_between_joints_m3)


def test_a_dewar_is_changed_at_the_level_that_is_just_enough_for_a_joint():
    # 5 % of 0.95 stays; 0.214 m3 of 128.5 that the full vessel gives are 0.0017 of it: by hand.
    assert _supply(DEWAR).change_below_fill_frac == pytest.approx(0.0475 + 0.2141 / 128.5, rel=1e-3)


def test_a_supply_that_is_not_enough_for_a_joint_has_no_pressure_to_change_at():
    low = run_of(supply__pressure="3 bar")
    assert low.supply.change_below_pa is None
    assert low.supply.joints == 0
    assert "supply-runs-out" in [each.code for each in low.cautions]
    assert "change-before-next-joint" not in [each.code for each in low.cautions]


def test_a_job_that_one_supply_cannot_serve_takes_a_manifold():
    # 5 bar: 0.148 m3 usable and 0.214 a joint: ceil(10 x 0.214 / 0.148) = 15.
    supply = run_of(supply__pressure="5 bar", supply__joints_wanted=10).supply
    assert supply.joints == 0
    assert supply.supplies_needed == 15


def test_the_last_joint_needs_nothing_after_it():
    assert "change-before-next-joint" in codes(supply__pressure="8 bar")
    assert "change-before-next-joint" in codes(supply__pressure="8 bar", supply__joints_wanted=2)
    assert "change-before-next-joint" not in codes(supply__pressure="8 bar", supply__joints_wanted=1)


def test_an_empty_supply_plans_nothing():
    empty = run_of(supply__pressure="1 bar", supply__joints_wanted=10).supply
    assert (empty.usable_m3, empty.joints, empty.supplies_needed) == (0.0, 0, None)


@pytest.mark.parametrize(("draw", "raised"), [("14.9 L/min", True), ("15 L/min", False), ("40 L/min", False)])
def test_a_supply_has_to_keep_up_the_larger_of_the_flows(draw, raised):
    assert ("supply-cannot-deliver" in codes(supply__largest_draw=draw)) is raised
    assert "supply-cannot-deliver" in codes(supply__largest_draw="15 L/min", flow__hold="16 L/min")


def test_the_pressure_of_a_mixture_is_that_of_its_real_gas():
    # CoolProp 8.0.0 mixture: Z of 70 % argon with 30 % helium at 200 bar and 15 degC is 1.031; within 1 %.
    mixed = _supply(
        {"kind": "single cylinder", "water_volume": "50 L", "pressure": f"{200 - ATM_BAR!r} bar"},
        gas={"symbol": "I3", "composition": "ArHe-30"}, temperature="15 degC",
    )  # fmt: skip
    state = coolprop.AbstractState("HEOS", "Argon&Helium")
    state.set_mole_fractions([0.7, 0.3])
    state.update(coolprop.PT_INPUTS, 200e5, 288.15)
    assert mixed.contents_m3 == pytest.approx(10.0 / state.compressibility_factor(), rel=0.01)


@_MANY
@given(st.floats(2.5, 300.0), st.floats(2.5, 300.0))
def test_more_pressure_never_holds_less_nor_gives_fewer_joints(one, other):
    low, high = (
        run_of(supply__pressure=f"{bar!r} bar", supply__joints_wanted=50).supply
        for bar in sorted((one, other))
    )
    assert low.contents_m3 <= high.contents_m3
    assert low.usable_m3 <= high.usable_m3
    assert low.joints <= high.joints
    assert low.supplies_needed >= high.supplies_needed


@_MANY
@given(st.floats(0.0, 0.98), st.floats(0.0, 0.98), st.floats(0.5, 72.0))
def test_a_fuller_dewar_never_gives_fewer_joints(one, other, pause_h):
    low, high = (
        _supply({**DEWAR, "fill": fill, "joint_every": f"{pause_h + 0.5!r} h"})
        for fill in sorted((one, other))
    )
    assert low.contents_m3 <= high.contents_m3
    # A fuller vessel also boils off more of what it holds, joint by joint in the same proportion.
    assert low.joints <= high.joints + 1


@_MANY
@given(st.floats(1.0, 60.0), st.floats(1.0, 60.0))
def test_joints_that_take_more_gas_are_never_more(one, other):
    few, many = (run_of(flow__hold=f"{flow!r} L/min").supply for flow in sorted((one, other), reverse=True))
    assert few.joints <= many.joints
    assert (few.change_below_pa or 1e9) >= (many.change_below_pa or 1e9)


@pytest.mark.parametrize(
    ("supply", "changes", "paths"),
    [
        ({"kind": "single cylinder", "fill": 0.9, "residual": 0.1, "daily_loss": "2 %"}, {},
            ["supply.fill", "supply.residual", "supply.daily_loss"]),
        ({**DEWAR, "fill": 1.0}, {}, ["supply.fill"]),
        ({**DEWAR, "stop_pressure": "2 bar"}, {}, ["supply.stop_pressure"]),
        ({**DEWAR, "pressure": "40 bar"}, {}, ["supply.pressure"]),
        ({"kind": "bulk tank", "water_volume": "3 m^3", "fill": 0.5}, {}, ["supply.pressure"]),
        ({**DEWAR, "joint_every": "5 min"}, {}, ["supply.joint_every"]),
        (DEWAR, {"gas__symbol": "I2"}, ["supply.kind"]),
        (DEWAR, {"gas": {"symbol": "R1", "composition": "ArH-5"}}, ["supply.kind"]),
        ({**DEWAR, "fill": 0.99, "pressure": "30 bar", "stop_pressure": "2 bar"}, {"gas__symbol": "I2"},
            ["supply.kind", "supply.stop_pressure", "supply.fill", "supply.pressure"]),
    ],
)  # fmt: skip
def test_a_supply_that_contradicts_itself_is_explained_all_at_once(supply, changes, paths):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(supply=supply, **changes))
    assert [each.path for each in caught.value.faults] == paths


@pytest.mark.parametrize(
    ("supply", "changes", "says"),
    [
        ({"kind": "cylinder pack", "fill": 0.9}, {}, "0.9 says nothing of a cylinder pack, which holds gas"),
        ({**DEWAR, "fill": 0.985}, {}, "no room for vapour, and liquid comes out of its relief as it warms; accepted up to 0.98"),
        ({**DEWAR, "pressure": "40 bar"}, {}, "the table of saturated liquid goes from 1 atm to 25 bar"),
        (DEWAR, {"gas__symbol": "I2"}, "helium in a liquid dewar is not solved: it boils at 4 K"),
        (DEWAR, {"gas": {"symbol": "R1", "composition": "ArH-5"}}, "a liquid mixture boils off unevenly"),
        ({**DEWAR, "joint_every": "5 min"}, {}, "5 min is less than one joint takes, 31 min from gas on to gas off"),
    ],
)  # fmt: skip
def test_a_contradiction_of_the_supply_says_why(supply, changes, says):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(supply=supply, **changes))
    assert says in caught.value.faults[0].message


@pytest.mark.parametrize("missing", ["fill", "water_volume", "kind"])
def test_half_a_vessel_is_not_made_whole_by_guessing(missing):
    half = {key: value for key, value in DEWAR.items() if key != missing}
    assert run_of(supply=half).supply is None


def test_a_pack_of_which_the_number_is_not_known_is_not_answered():
    pack = {"kind": "cylinder pack", "water_volume": "50 L", "pressure": "200 bar"}
    assert run_of(supply=pack).supply is None
    # 12 x 50 L at 200 bar absolute, 15 degC: 128.0 m3 (CoolProp 8.0.0, row C-12).
    twelve = {**pack, "count": 12, "pressure": f"{200 - ATM_BAR!r} bar"}
    assert _supply(twelve, temperature="15 degC").contents_m3 == pytest.approx(128.006, rel=3e-3)
    assert deliverable_of(SetUp(), reference=SCF) is None


def test_a_dewar_is_written_and_read_back():
    given = set_up(
        supply={**DEWAR, "residual": 0.1, "daily_loss": "1.5 %", "joints_wanted": 40, "joint_every": "6 h"}
    )
    again = read_set_up(write_set_up(given))
    assert again.supply.daily_loss_frac == pytest.approx(given.supply.daily_loss_frac)
    assert again.supply.joint_every_s == pytest.approx(given.supply.joint_every_s)
    answer = write_run(run(given, policy=POLICY))["supply"]
    assert answer["daily_loss_percent"] == pytest.approx(1.5)
    assert answer["evaporates_l_per_day"] == pytest.approx(0.015 * answer["contents_l"])
    assert "null" not in str(answer)
