"""What is watched on a time line: the highest oxygen of a stretch and the tail's rate, against sums by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN, base_case
from purge_strategies import set_ups

from trainer.core.dilution import FlowSegment, InLeak, PurgeModel, purge
from trainer.core.gas_column import gas_column
from trainer.core.interval import Interval
from trainer.core.layer_solution import ModeSolution, PowerSolution
from trainer.core.layers import Mixing, layer_balance
from trainer.core.peak import highest_between
from trainer.core.purge_watch import highest_o2_frac, tail_rate_per_s
from trainer.core.two_readings import TwoReadings, wait_still
from trainer.core.wait_from_readings import wait_still_within


def flow(litres_a_minute, duration_s, air_in=None):
    return FlowSegment(flow_m3_s=litres_a_minute * L_MIN, duration_s=duration_s, air_in=air_in)


def mixed(*segments, **changes):
    return purge(base_case(model=PurgeModel.PERFECT_MIXING, segments=segments, **changes))


RING = (InLeak(height_frac=None, flow_m3_s=0.2 * L_MIN),)


def test_a_hold_that_lets_air_in_is_highest_at_its_end_and_for_ever_at_its_floor():
    # By hand, mixed: c = f + (c0 - f) exp(-(Q + q) t / V) with f = q / (Q + q), c0 = exp(-Q0 t0 / V).
    course = mixed(flow(15, 300.0), flow(5, math.inf, RING))
    volume_m3 = course.case.section.volume_m3
    start = math.exp(-15.0 * L_MIN * 300.0 / volume_m3)
    floor = 0.2 / 5.2
    after_10_min = floor + (start - floor) * math.exp(-5.2 * L_MIN * 600.0 / volume_m3)
    assert highest_o2_frac(course, from_s=300.0, until_s=900.0) == pytest.approx(0.2095 * after_10_min)
    assert highest_o2_frac(course, from_s=300.0, until_s=math.inf) == pytest.approx(0.2095 * floor)
    assert highest_o2_frac(course, from_s=0.0, until_s=100.0) == pytest.approx(0.2095)


def test_the_highest_of_a_rise_and_a_fall_lies_where_they_meet():
    course = mixed(flow(15, 300.0), flow(0, 60.0, RING), flow(15, math.inf))
    peak = course.oxygen_at(360.0).expected
    assert highest_o2_frac(course, from_s=300.0, until_s=math.inf) == pytest.approx(peak)
    assert highest_o2_frac(course, from_s=330.0, until_s=400.0) == pytest.approx(peak)
    assert highest_o2_frac(course, from_s=330.0, until_s=330.0) == course.oxygen_at(330.0).expected


def test_an_upright_joint_sees_the_front_of_a_pinched_hose_come_down_and_even_out():
    # The root is one height: argon stands below it, air above; with the flow gone the air spreads downwards.
    course = purge(base_case(slope_deg=90.0, segments=(flow(10, 40.0), flow(0, math.inf))))
    start, floor = course.oxygen_at(40.0).expected, course.floors_o2_frac[1]
    highest = highest_o2_frac(course, from_s=40.0, until_s=math.inf)
    assert highest >= max(start, floor)
    seen = course.trace(np.linspace(40.0, 40_000.0, 4001))[:, 0].max()
    assert highest == pytest.approx(max(seen, floor), rel=1e-3)


@pytest.mark.parametrize("parameter", [0.3, 2.0, 11.0])
def test_a_maximum_between_the_points_is_found_by_hand(parameter):
    # t^p exp(-t) is highest at t = p.
    found = highest_between(lambda t: t**parameter * np.exp(-t), first_s=0.0, last_s=97.0)
    assert found == pytest.approx(parameter**parameter * math.exp(-parameter), rel=1e-9)


def test_a_plug_is_all_air_until_it_has_passed_the_root():
    course = purge(
        base_case(model=PurgeModel.DISPLACEMENT, segments=(flow(15, 100.0), flow(15, math.inf, RING)))
    )
    assert highest_o2_frac(course, from_s=0.0, until_s=20.0) == pytest.approx(0.2095)
    assert highest_o2_frac(course, from_s=80.0, until_s=90.0) == 0.0
    assert highest_o2_frac(course, from_s=80.0, until_s=math.inf) == pytest.approx(0.2095 * 0.2 / 15.2)
    assert tail_rate_per_s(course, from_s=10.0, until_s=20.0) is None


@tried(150)
@given(set_up=set_ups(), hold=st.floats(0.0, 1.0), first_s=st.floats(1.0, 600.0))
def test_without_air_in_the_highest_over_the_section_never_rises(set_up, hold, first_s):
    if set_up["slope_deg"] != 0.0:
        set_up["slope_deg"] = 0.0  # level, where the root spans every height
    case = base_case(**set_up)
    q_m3_s = case.segments[0].flow_m3_s
    segments = (
        FlowSegment(flow_m3_s=q_m3_s, duration_s=first_s),
        FlowSegment(flow_m3_s=hold * q_m3_s, duration_s=900.0),
        FlowSegment(flow_m3_s=q_m3_s, duration_s=math.inf),
    )
    course = purge(replace(case, segments=segments))
    before = course.oxygen_at(first_s).expected
    # Shares of air below 1e-9 are rounding of the modes.
    assert highest_o2_frac(course, from_s=first_s, until_s=math.inf) <= before * (1.0 + 1e-7) + 1e-9


def test_the_tail_of_a_stirred_section_falls_by_its_volume_change():
    # By hand: one tank, rate (Q + q) / V.
    course = mixed(flow(15, 300.0), flow(5, math.inf, RING))
    volume_m3 = course.case.section.volume_m3
    assert tail_rate_per_s(course, from_s=60.0, until_s=120.0).expected == pytest.approx(
        15 * L_MIN / volume_m3
    )
    slow = tail_rate_per_s(mixed(flow(15, 60.0), flow(5, math.inf, RING)), from_s=100.0, until_s=200.0)
    assert slow.expected == pytest.approx(5.2 * L_MIN / volume_m3)
    # Above the floor after a short purge; after a long one the oxygen rises, which is no tail.
    assert tail_rate_per_s(course, from_s=400.0, until_s=500.0) is None
    assert tail_rate_per_s(mixed(flow(15, 60.0), flow(0, math.inf)), from_s=100.0, until_s=200.0) is None


def test_a_layered_tail_comes_when_the_front_has_passed_and_lies_between_the_closure_s_ends():
    course = purge(base_case(vent_height_frac=0.5))
    assert tail_rate_per_s(course, from_s=5.0, until_s=20.0) is None
    rate = tail_rate_per_s(course, from_s=900.0, until_s=1000.0)
    late, later = (course.oxygen_at(t).expected for t in (900.0, 1000.0))
    assert rate.expected == pytest.approx(math.log(late / later) / 100.0, rel=1e-3)
    assert rate.lower < rate.expected < rate.upper


def test_both_routes_name_the_same_slowest_mode():
    case = base_case(flow_m3_s=2.0 * L_MIN, vent_height_frac=0.5)
    balance = layer_balance(
        gas_column(case), flow_m3_s=2.0 * L_MIN, mixing=Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=2e-5)
    )
    assert ModeSolution(balance).slowest_per_s == pytest.approx(
        PowerSolution(balance).slowest_per_s, rel=1e-9
    )


def readings(earlier, later, *, apart_s=60.0, uncertainty=0.05):
    return TwoReadings(
        earlier_o2_frac=earlier, later_o2_frac=later, apart_s=apart_s, uncertainty_frac=uncertainty
    )


def test_a_floor_is_told_only_where_every_rate_shows_it():
    # Rate ln 10 a minute between ends a quarter apart; 1000 to 550 ppm is floor at any of them.
    rate = math.log(10.0) / 60.0
    ends = Interval(rate, 0.75 * rate, 1.25 * rate)
    sure = wait_still_within(readings(1000e-6, 550e-6), rate_per_s=ends, target_o2_frac=400e-6)
    assert sure.floor_reached
    # By hand at the expected rate: (550 - 100) / 0.9 = 500 ppm.
    assert sure.floor_o2_frac == pytest.approx(500e-6)
    assert sure.time is None
    # 1000 to 178 ppm is just the slowest rate (10^-0.75): no floor, and the readings' own fall gives the time.
    slow = readings(1000e-6, 178e-6)
    no_floor = wait_still_within(slow, rate_per_s=ends, target_o2_frac=100e-6)
    assert not no_floor.floor_reached
    assert no_floor.floor_o2_frac is None
    assert no_floor.time == wait_still(slow, target_o2_frac=100e-6).time


def test_readings_too_near_in_time_take_the_model_s_rate_and_show_no_floor():
    rate = math.log(10.0) / 60.0
    ends = Interval(rate, 0.75 * rate, 1.25 * rate)
    wait = wait_still_within(readings(1000e-6, 990e-6, apart_s=1.0), rate_per_s=ends, target_o2_frac=99e-6)
    assert not wait.floor_reached
    assert wait.time.expected == pytest.approx(60.0)  # a decade at the expected rate
    alone = wait_still_within(readings(1000e-6, 990e-6, apart_s=1.0), rate_per_s=None, target_o2_frac=99e-6)
    assert alone.floor_reached


@given(
    earlier=st.floats(1e-5, 0.2), later=st.floats(1e-5, 0.2), uncertainty=st.floats(0.0, 0.5),
    rates=st.tuples(st.floats(1e-4, 1.0), st.floats(0.0, 0.5)), target=st.floats(1e-5, 0.2),
)  # fmt: skip
def test_any_two_readings_and_any_rates_have_an_answer(earlier, later, uncertainty, rates, target):
    rate, spread = rates
    ends = Interval(rate, rate * (1.0 - spread), rate * (1.0 + spread))
    wait = wait_still_within(
        readings(earlier, later, uncertainty=uncertainty), rate_per_s=ends, target_o2_frac=target
    )
    if wait.time is not None:
        assert 0.0 <= wait.time.lower <= wait.time.expected <= wait.time.upper
        assert math.isfinite(wait.time.expected)
    if wait.floor_reached:
        assert wait.floor_o2_frac is not None
