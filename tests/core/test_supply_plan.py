"""Liquid in use, when to change a supply, and what a joint costs in gas."""

import math
from dataclasses import replace

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from shape import L_MIN, SHAPE

from trainer.core.changeover import JointTimes, change_below_pa, gas_cost, gas_use, supply_plan
from trainer.core.dewar import Dewar, dewar_contents_m3
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.gas import gas
from trainer.core.gas_designation import purge_gas
from trainer.core.liquid_supply import (
    LiquidSupply,
    boil_off_m3_s,
    change_below_fill_frac,
    deliverable_m3_s,
    liquid_joints_count,
    liquid_lasts_s,
    usable_liquid_m3,
    vaporised_m3_s,
)
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.supply import Cylinders, contents_m3, pressure_for_contents_pa, usable_m3

CUBIC_FOOT_M3 = 0.028316846592
DAY_S = 86400.0
SCF = ReferenceCondition.AT_21C_1ATM
VESSEL = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
FULL = Cylinders(gas=gas("I1"), water_volume_m3=0.05, pressure_pa=200e5)
FULL3 = replace(FULL, count=3)


def liquid(**changes):
    return replace(LiquidSupply(vessel=VESSEL), **changes)


def test_portable_vessel_holds_and_loses_what_the_trade_says():
    """180 L, 95 % full at 10 bar: 4340 scf (CoolProp 8.0.0, status b); 4500 scf and 135 scf a day, Lab Manager 2010, read."""
    usable = usable_liquid_m3(liquid(residual_frac=0.0), reference=SCF)
    assert usable / CUBIC_FOOT_M3 == pytest.approx(4340, rel=5e-3)
    lost_a_day = boil_off_m3_s(liquid(), reference=SCF) * DAY_S
    assert lost_a_day / CUBIC_FOOT_M3 == pytest.approx(135 * 4340 / 4500, rel=5e-3)


def test_boil_off_of_a_full_vessel_is_some_litres_a_minute():
    """3 % a day of 122 m3 is 2.5 L/min, by hand."""
    assert boil_off_m3_s(liquid()) / L_MIN == pytest.approx(122 * 0.03 / 1440 * 1000, rel=5e-3)


def test_standing_vessel_is_down_to_its_residual_in_a_month():
    """95 % of the contents at 3 % a day: 31.7 days, by hand."""
    assert liquid_lasts_s(liquid(), flow_m3_s=0.0) / DAY_S == pytest.approx(0.95 / 0.03)


def test_vessel_that_is_drawn_from_vents_nothing_on_top():
    """116 m3 at 60 L/min: 32 h, by hand."""
    assert liquid_lasts_s(liquid(), flow_m3_s=60 * L_MIN) / 3600 == pytest.approx(0.95 * 122 / 3.6, rel=5e-3)


@SHAPE
@given(st.floats(0.0, 200.0), st.floats(0.0, 200.0), st.floats(0.001, 0.2))
def test_drawing_more_never_makes_a_vessel_last_longer(one, other, loss):
    low, high = sorted((one, other))
    supply = liquid(daily_loss_frac=loss)
    assert liquid_lasts_s(supply, flow_m3_s=high * L_MIN) <= liquid_lasts_s(supply, flow_m3_s=low * L_MIN)


@SHAPE
@given(st.floats(0.01, 5.0), st.floats(60.0, 1e6), st.floats(60.0, 1e6))
def test_longer_pauses_never_give_more_joints(joint_m3, one_s, other_s):
    short_s, long_s = sorted((one_s, other_s))
    counts = [
        liquid_joints_count(liquid(), gas_per_joint_m3=joint_m3, joint_to_joint_s=pause)
        for pause in (long_s, short_s)
    ]
    assert 0 <= counts[0] <= counts[1] <= usable_liquid_m3(liquid()) / joint_m3


def test_vessel_used_once_a_day_gives_what_it_does_not_boil_off():
    """95 % at 3 % a day: 31 joints of 0.245 m3, one a day, whatever they take below the boil-off; by hand."""
    assert liquid_joints_count(liquid(), gas_per_joint_m3=0.245, joint_to_joint_s=DAY_S) == 31


@pytest.mark.parametrize(("wanted", "kept_up"), [(15.0, 15.0), (165.0, 165.0), (400.0, 165.2)])
def test_portable_vessel_delivers_no_more_than_its_vaporiser(wanted, kept_up):
    """350 standard cubic feet an hour are 165.2 L/min; from memory."""
    assert deliverable_m3_s(liquid(), wanted_m3_s=wanted * L_MIN) / L_MIN == pytest.approx(kept_up, rel=1e-3)
    assert deliverable_m3_s(liquid(largest_draw_m3_s=None), wanted_m3_s=wanted * L_MIN) == wanted * L_MIN


def test_vaporiser_of_1_2_kw_is_enough_for_350_scfh():
    """1.2 kW for 350 scfh from boiling liquid at 1 atm to 20 degC (CoolProp 8.0.0, status b)."""
    bulk = Dewar(gas=gas("I1"), volume_m3=3.0, fill_frac=0.8, pressure_pa=101325.0)
    assert vaporised_m3_s(1230.0, vessel=bulk) / CUBIC_FOOT_M3 * 3600 == pytest.approx(350, rel=0.01)
    assert vaporised_m3_s(0.0, vessel=bulk) == 0.0


def test_bulk_tank_of_3000_litres_holds_some_two_thousand_cubic_metres():
    """836 m3 of gas for each m3 of liquid at 1 atm (CoolProp 8.0.0, status b): 0.8 x 3 x 836 = 2006 m3."""
    bulk = Dewar(gas=gas("I1"), volume_m3=3.0, fill_frac=0.8, pressure_pa=101325.0)
    assert dewar_contents_m3(bulk) == pytest.approx(2006, rel=2e-3)


def test_helium_and_mixtures_are_not_stored_as_liquid_here():
    for stored in (gas("I2"), purge_gas("R1", composition="ArH-5")):
        with pytest.raises(UnknownName, match="I1, N1"):
            usable_liquid_m3(LiquidSupply(vessel=replace(VESSEL, gas=stored)))


def test_job_of_a_hundred_joints_takes_three_cylinders_and_sends_gas_back():
    """15 L/min for 8 min and 5 L/min for 25 min are 0.245 m3; 10.42 m3 usable: 42 joints each, by hand."""
    plan = supply_plan(10.42, gas_per_joint_m3=0.245, joints_count=100)
    assert (plan.joints_per_supply_count, plan.supplies_count) == (42, 3)
    assert plan.left_over_m3 == pytest.approx(3 * 10.42 - 24.5)


@SHAPE
@given(st.floats(0.1, 200.0), st.floats(0.01, 50.0), st.integers(0, 500))
def test_plan_draws_what_the_joints_take_and_begins_none_without_gas_for_it(usable, joint, joints):
    plan = supply_plan(usable, gas_per_joint_m3=joint, joints_count=joints)
    assert plan.drawn_m3 == pytest.approx(joints * joint)
    assert plan.drawn_m3 + plan.left_over_m3 == pytest.approx(plan.supplies_count * usable, abs=1e-6)
    if plan.joints_per_supply_count:
        assert (plan.supplies_count - 1) * plan.joints_per_supply_count < max(joints, 1)
        assert plan.supplies_count * plan.joints_per_supply_count >= joints


def test_joint_that_one_supply_cannot_serve_takes_a_manifold():
    plan = supply_plan(10.0, gas_per_joint_m3=25.0, joints_count=2)
    assert (plan.joints_per_supply_count, plan.supplies_count) == (0, 5)
    assert plan.left_over_m3 == 0.0


@SHAPE
@given(st.floats(0.05, 9.0), st.floats(2e5, 10e5))
def test_cylinder_at_the_changing_pressure_is_just_enough_for_a_joint(joint_m3, stop_pa):
    pressure = change_below_pa(FULL, stop_pressure_pa=stop_pa, gas_per_joint_m3=joint_m3)
    left = usable_m3(replace(FULL, pressure_pa=pressure), stop_pressure_pa=stop_pa)
    assert left == pytest.approx(joint_m3, rel=1e-9)


def test_no_pressure_is_enough_for_a_joint_that_takes_more_than_a_full_cylinder():
    assert change_below_pa(FULL, stop_pressure_pa=5e5, gas_per_joint_m3=11.0) is None


def test_gas_of_a_joint_before_during_and_after_adds_up():
    """15 x 8 + 5 x 20 + 5 x 5 = 245 L; 3 min of 15 L/min too long wastes 45 L; by hand."""
    times = JointTimes(
        purge_flow_m3_s=15 * L_MIN,
        purge_s=480.0,
        hold_flow_m3_s=5 * L_MIN,
        arc_s=1200.0,
        after_s=300.0,
        needed_s=300.0,
    )
    use = gas_use(times)
    assert [use.before_m3, use.during_m3, use.after_m3, use.wasted_m3] == pytest.approx(
        [0.12, 0.1, 0.025, 0.045]
    )
    assert use.total_m3 == pytest.approx(0.245)
    assert gas_cost(use.total_m3, price_per_m3=8.0) == pytest.approx(1.96)


@pytest.mark.parametrize("needed_s", [None, 480.0, 900.0])
def test_purge_that_is_not_too_long_wastes_nothing(needed_s):
    times = JointTimes(
        purge_flow_m3_s=15 * L_MIN,
        purge_s=480.0,
        hold_flow_m3_s=0.0,
        arc_s=0.0,
        after_s=0.0,
        needed_s=needed_s,
    )
    assert gas_use(times).wasted_m3 == 0.0


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: liquid(residual_frac=1.1),
        lambda: liquid(daily_loss_frac=-0.1),
        lambda: liquid(largest_draw_m3_s=-1.0),
        lambda: liquid_lasts_s(liquid(), flow_m3_s=-1.0),
        lambda: liquid_lasts_s(liquid(daily_loss_frac=0.0), flow_m3_s=0.0),
        lambda: liquid_joints_count(liquid(), gas_per_joint_m3=0.0, joint_to_joint_s=60.0),
        lambda: liquid_joints_count(liquid(), gas_per_joint_m3=1.0, joint_to_joint_s=0.0),
        lambda: deliverable_m3_s(liquid(), wanted_m3_s=math.nan),
        lambda: vaporised_m3_s(-1.0, vessel=VESSEL),
        lambda: supply_plan(0.0, gas_per_joint_m3=1.0, joints_count=1),
        lambda: supply_plan(1.0, gas_per_joint_m3=0.0, joints_count=1),
        lambda: supply_plan(1.0, gas_per_joint_m3=1.0, joints_count=-1),
        lambda: change_below_pa(FULL, stop_pressure_pa=5e5, gas_per_joint_m3=0.0),
        lambda: gas_cost(-1.0, price_per_m3=1.0),
        lambda: gas_cost(1.0, price_per_m3=-1.0),
        lambda: JointTimes(purge_flow_m3_s=-1.0, purge_s=1.0, hold_flow_m3_s=0.0, arc_s=0.0, after_s=0.0),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()


def test_cylinder_is_changed_at_the_pressure_that_coolprop_gives():
    """CoolProp 8.0.0: the mass between the two pressures at 15 degC, over the density at 15 degC and 1 bar."""
    pressure = change_below_pa(FULL, stop_pressure_pa=5e5, gas_per_joint_m3=2.45)
    heavy, light, per_m3 = (PropsSI("D", "P", p, "T", 288.15, "Argon") for p in (pressure, 5e5, 1e5))
    assert 0.05 * (heavy - light) / per_m3 == pytest.approx(2.45, rel=3e-3)


def test_pressure_for_contents_is_the_inverse_of_the_contents():
    for bar in (1.0, 20.0, 150.0, 300.0):
        full = replace(FULL, pressure_pa=bar * 1e5, count=3)
        held = contents_m3(full, reference=SCF)
        assert pressure_for_contents_pa(held, cylinders=FULL3, reference=SCF) == pytest.approx(bar * 1e5)


@SHAPE
@given(st.floats(0.01, 100.0), st.floats(0.0, 0.3), st.floats(0.05, 0.95))
def test_vessel_at_the_changing_level_is_just_enough_for_a_joint(joint_m3, residual, fill):
    supply = liquid(residual_frac=residual, vessel=replace(VESSEL, fill_frac=fill))
    level = change_below_fill_frac(supply, gas_per_joint_m3=joint_m3)
    if level is None:
        assert usable_liquid_m3(supply) < joint_m3
        return
    left_m3 = dewar_contents_m3(replace(VESSEL, fill_frac=min(level, 1.0)))
    stays_m3 = dewar_contents_m3(replace(VESSEL, fill_frac=residual * fill))
    assert left_m3 - stays_m3 == pytest.approx(joint_m3, rel=1e-6)
    assert level <= fill * (1 + 1e-12)
