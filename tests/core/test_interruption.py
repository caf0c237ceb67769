"""A purge, its interruption and its recovery on one time line."""

import math
from dataclasses import replace

import numpy as np
import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN, base_case
from purge_strategies import set_ups
from scipy.integrate import quad
from spool_cases import spool_case, straight_spool

from trainer.core.dilution import FlowSegment, InLeak, PurgeModel, purge
from trainer.core.errors import OutOfRange
from trainer.core.gas import gas
from trainer.core.interruption import Draining, draining_m3_s, line_fallen_out
from trainer.core.spool import purge_spool


def flow(litres_a_minute, duration_s, air_in=None):
    return FlowSegment(flow_m3_s=litres_a_minute * L_MIN, duration_s=duration_s, air_in=air_in)


def test_a_pinched_hose_without_a_leak_keeps_the_air_that_is_left_and_only_spreads_it():
    case = base_case(segments=(flow(15, 120.0), flow(0, 600.0)))
    course = purge(case)
    before, after = course.mean_oxygen_at(120.0), course.mean_oxygen_at(720.0)
    assert after == pytest.approx(before, rel=1e-9)
    assert course.oxygen_at(720.0).expected < course.oxygen_at(120.0).expected
    # In the end it is even: the floor is the mean of what was left.
    assert course.floors_o2_frac[1] == pytest.approx(before, rel=1e-9)
    # What stands at the vent is what an analyser there reads.
    assert 0.0 < course.vent_oxygen_at(400.0) < 0.2095


def test_without_flow_a_level_section_evens_out_as_diffusion_does():
    # By hand, a slab of the bore's height: its slowest difference decays as exp(-pi^2 D t / H^2), a circle's as
    # exp(-(1.8412 / R)^2 D t) (first zero of J1', Abramowitz and Stegun, Table 9.5).
    course = purge(base_case(segments=(flow(15, 60.0), flow(0, math.inf))))
    mean = course.floors_o2_frac[1]
    early, late = (course.oxygen_at(60.0 + t).expected - mean for t in (600.0, 1200.0))
    rate = math.log(early / late) / 600.0
    by_circle = (1.8412 / 0.0805) ** 2 * 1.89e-5
    assert rate == pytest.approx(by_circle, rel=0.1)


def test_a_pinched_hose_with_a_leak_fills_with_air_at_the_leak_s_own_pace():
    # By hand, mixed in the end: nothing but air comes in, so all ends at air.
    leak = (InLeak(height_frac=0.5, flow_m3_s=0.2 * L_MIN),)
    course = purge(base_case(segments=(flow(15, 240.0), flow(0, math.inf, leak))))
    assert course.floors_o2_frac[1] == pytest.approx(0.2095)
    assert course.time_to(0.01) is None
    rise = course.mean_oxygen_at(300.0) - course.mean_oxygen_at(240.0)
    # 0.2 L of air in a minute against 12.2 L of section, little of it back out through the vent yet.
    assert rise == pytest.approx(0.2095 * 0.2 / 12.21, rel=0.05)


def test_an_interruption_costs_what_recovery_has_to_win_back():
    leak = (InLeak(height_frac=None, flow_m3_s=0.5 * L_MIN),)
    whole = purge(base_case()).time_to(0.001).expected
    cut = purge(base_case(segments=(flow(15, 120.0), flow(0, 60.0, leak), flow(15, math.inf))))
    assert cut.time_to(0.001).expected > whole + 60.0
    unhurt = purge(base_case(segments=(flow(15, 120.0), flow(0, 60.0, ()), flow(15, math.inf))))
    # Shut tight, it costs its own time and the little that diffusion has spoilt of the layers.
    assert unhurt.time_to(0.001).expected == pytest.approx(whole + 60.0, rel=0.03)


def test_air_in_meanwhile_replaces_the_leaks_of_the_whole_purge_for_that_segment_only():
    ring = (InLeak(height_frac=None, flow_m3_s=0.1 * L_MIN),)
    case = base_case(leaks=ring, segments=(flow(15, 600.0), flow(15, 600.0, ()), flow(15, math.inf)))
    floors = purge(case).floors_o2_frac
    assert floors[1] == 0.0
    assert floors[0] == floors[2] > 0.0


@pytest.mark.parametrize("slope_deg", [0.0, 7.0, -7.0, 90.0, -90.0])
@pytest.mark.parametrize("symbol", ["I1", "I2"])
def test_a_line_that_falls_out_lets_more_air_in_than_a_pinched_hose(slope_deg, symbol):
    case = base_case(slope_deg=slope_deg, symbol=symbol)
    lost = line_fallen_out(case, opening_m=0.00635, duration_s=120.0)
    assert lost.flow_m3_s == 0.0
    fallen, pinched = (
        purge(replace(case, segments=(flow(15, 400.0), segment, flow(15, math.inf))))
        for segment in (lost, flow(0, 120.0))
    )
    assert fallen.mean_oxygen_at(520.0) > pinched.mean_oxygen_at(520.0)
    assert fallen.time_to(1e-3).expected >= pinched.time_to(1e-3).expected


def test_the_air_that_a_fallen_line_lets_in_comes_at_the_top_and_the_argon_runs_out_at_the_bottom():
    case = base_case()
    course = purge(
        replace(case, segments=(flow(15, 600.0), line_fallen_out(case, opening_m=0.00635, duration_s=60.0)))
    )
    height_m, o2_frac = course.profile(660.0)
    assert o2_frac[-1] > 10.0 * o2_frac[0]
    up_to_the_vent = o2_frac[height_m < 0.925 * 0.161 - 0.019 / 2.0]
    assert (np.diff(up_to_the_vent) > 0.0).all()


def test_openings_at_one_height_only_exchange_each_within_itself():
    case = base_case(inlet_height_frac=0.5, vent_height_frac=0.5)
    through, *within = line_fallen_out(case, opening_m=0.02, duration_s=60.0).air_in
    assert through.flow_m3_s == 0.0
    assert all(each.flow_m3_s > 0.0 and each.leaves_at_frac == each.height_frac for each in within)


def test_draining_through_equal_holes_by_hand():
    # Both 1 cm2, 0.5 m apart, argon 1.6607 and air 1.2041 kg/m3 at 20 degC (p M / R T): head 0.4566 x 9.80665 x
    # 0.5 = 2.2389 Pa; Q = 0.61e-4 sqrt(2 x 2.2389 / 2.8648) = 7.626e-5 m3/s.
    holes = Draining(gas_side_area_m2=1e-4, air_side_area_m2=1e-4, apart_m=0.5)
    assert draining_m3_s(holes, gas=gas("I1"), temperature_k=293.15) == pytest.approx(7.626e-5, rel=1e-3)


@given(depth_m=st.floats(0.01, 2.0), factor=st.floats(1.1, 10.0))
def test_draining_grows_as_the_root_of_the_depth(depth_m, factor):
    one, more = (
        draining_m3_s(
            Draining(gas_side_area_m2=1e-4, air_side_area_m2=3e-4, apart_m=apart),
            gas=gas("I1"),
            temperature_k=293.15,
        )
        for apart in (depth_m, depth_m * factor)
    )
    assert more == pytest.approx(one * math.sqrt(factor))


@tried(300)
@given(
    set_up=set_ups(),
    cut_s=st.floats(1.0, 600.0),
    leak_l_min=st.sampled_from([0.0, 0.05, 1.0]),
    fallen=st.booleans(),
)
def test_gas_in_is_gas_out_and_gas_stored_across_an_interruption(set_up, cut_s, leak_l_min, fallen):
    case = base_case(**set_up)
    leaks = (InLeak(height_frac=0.6, flow_m3_s=leak_l_min * L_MIN),)
    before = FlowSegment(flow_m3_s=case.segments[0].flow_m3_s, duration_s=60.0)
    cut = FlowSegment(flow_m3_s=0.0, duration_s=cut_s, air_in=leaks)
    if fallen:
        cut = line_fallen_out(replace(case, leaks=leaks), opening_m=0.006, duration_s=cut_s)
    after = replace(before, duration_s=math.inf)
    course = purge(replace(case, segments=(before, cut, after)))
    times = np.linspace(0.0, 60.0 + cut_s + 60.0, 41)
    oxygen = course.trace(times)
    assert np.isfinite(oxygen).all()
    assert (oxygen >= 0.0).all()
    assert (oxygen <= 0.2095 * (1.0 + 1e-9)).all()
    held = course.mean_oxygen_at(60.0), course.mean_oxygen_at(60.0 + cut_s)
    through = sum(leak.flow_m3_s for leak in cut.air_in if leak.leaves_at_frac is None)
    if not fallen:
        volume = case.section.volume_m3
        lost = through * quad(lambda t: course.vent_oxygen_at(60.0 + t), 0.0, cut_s, limit=200)[0]
        assert volume * held[1] == pytest.approx(volume * held[0] + 0.2095 * through * cut_s - lost, rel=1e-5)


def test_a_plug_waits_out_an_interruption():
    case = base_case(model=PurgeModel.DISPLACEMENT)
    whole_s = purge(case).time_to(0.001).expected
    half = flow(15, whole_s / 2.0)
    cut = purge(replace(case, segments=(half, flow(0, 100.0), flow(15, math.inf))))
    assert cut.time_to(0.001).expected == pytest.approx(whole_s + 100.0)
    never = purge(replace(case, segments=(half, flow(0, math.inf))))
    assert never.time_to(0.001) is None
    assert never.mean_oxygen_at(1e4) == pytest.approx(0.2095 / 2.0)


def test_mixed_the_interruption_follows_the_sums():
    leak = (InLeak(height_frac=0.5, flow_m3_s=1.0 * L_MIN),)
    case = base_case(model=PurgeModel.PERFECT_MIXING, segments=(flow(15, 300.0), flow(0, 120.0, leak)))
    course = purge(case)
    # By hand: c rises towards 1 at the leak's own rate.
    kept = math.exp(-1.0 * L_MIN * 120.0 / case.section.volume_m3)
    left = course.oxygen_at(300.0).expected / 0.2095
    assert course.oxygen_at(420.0).expected == pytest.approx(0.2095 * (1.0 - (1.0 - left) * kept))


def test_a_spool_follows_an_interruption_too():
    segments = (
        flow(15, 120.0),
        flow(0, 60.0, (InLeak(height_frac=0.5, flow_m3_s=L_MIN),)),
        flow(15, math.inf),
    )
    cut = purge_spool(spool_case(straight_spool(0.0), segments=segments)).body
    straight = purge(base_case(segments=segments))
    assert cut.time_to(0.001).expected == pytest.approx(straight.time_to(0.001).expected, rel=0.01)


def test_a_flow_of_nothing_is_no_reason_to_be_beyond_the_tested_range():
    assert purge(base_case(segments=(flow(15, 120.0), flow(0, 60.0)))).beyond_tested_range == ()


def test_a_purge_begins_with_a_flow_and_an_opening_has_a_size():
    with pytest.raises(OutOfRange, match="purge flow"):
        base_case(segments=(flow(0, 60.0), flow(15, math.inf)))
    with pytest.raises(OutOfRange, match="opening left by the line"):
        line_fallen_out(base_case(), opening_m=0.0, duration_s=60.0)
    with pytest.raises(OutOfRange, match="height"):
        InLeak(height_frac=0.5, flow_m3_s=1e-6, leaves_at_frac=1.5)
    with pytest.raises(OutOfRange, match="height between"):
        draining_m3_s(
            Draining(gas_side_area_m2=1e-4, air_side_area_m2=1e-4, apart_m=-1.0),
            gas=gas("I1"),
            temperature_k=293.15,
        )
