"""The limits of the layered purge: perfect mixing, displacement and unstirred layers."""

import math
from dataclasses import replace

import pytest
from purge_cases import L_MIN, base_case, flows

from trainer.core.dilution import InLeak, PurgeModel, displacement_time_s, mixing_time_s, purge


def test_perfect_mixing_is_the_exponential():
    course = purge(base_case(model=PurgeModel.PERFECT_MIXING))
    expected = mixing_time_s(base_case().section.volume_m3, flow_m3_s=15 * L_MIN, o2_frac=0.001)
    time = course.time_to(0.001)
    assert time.expected == pytest.approx(expected, rel=1e-9)
    assert time.lower == time.upper == time.expected
    assert course.oxygen_at(course.volume_change_s).expected == pytest.approx(0.2095 * math.exp(-1.0))


def test_displacement_drives_the_air_out_in_one_volume_change():
    case = base_case(model=PurgeModel.DISPLACEMENT)
    course = purge(case)
    one = displacement_time_s(case.section.volume_m3, flow_m3_s=15 * L_MIN)
    assert course.time_to(0.001).expected == pytest.approx(one)
    assert course.mean_oxygen_at(one / 2.0) == pytest.approx(0.2095 / 2.0)
    assert course.vent_oxygen_at(0.99 * one) == pytest.approx(0.2095)
    assert course.vent_oxygen_at(1.01 * one) == 0.0
    height_m, o2_frac = course.profile(one / 2.0)
    assert height_m[-1] == pytest.approx(0.161)
    assert o2_frac[0] == 0.0
    assert o2_frac[-1] == 0.2095


def test_displacement_of_an_upright_section_clears_the_joint_when_it_passes():
    course = purge(base_case(model=PurgeModel.DISPLACEMENT, slope_deg=90.0, joint_from_inlet_dam_m=0.15))
    assert course.time_to(0.001).expected == pytest.approx(course.volume_change_s / 4.0)


def test_displacement_follows_a_change_of_flow_and_a_leak():
    case = base_case(model=PurgeModel.DISPLACEMENT)
    volume = case.section.volume_m3
    half_s = 0.5 * volume / (15 * L_MIN)
    chained = replace(case, segments=flows((15, half_s), (5, math.inf)))
    # By hand: the second half takes three times as long at a third of the flow.
    assert purge(chained).time_to(0.001).expected == pytest.approx(4.0 * half_s)
    leaking = replace(chained, leaks=(InLeak(height_frac=0.5, flow_m3_s=0.5 * L_MIN),))
    assert purge(leaking).time_to(0.001) is None
    assert purge(leaking).floors_o2_frac == pytest.approx((0.2095 * 0.5 / 15.5, 0.2095 * 0.5 / 5.5))
    assert purge(leaking).time_to(0.1).expected < 4.0 * half_s
    never_full = replace(case, segments=flows((15, half_s)))
    assert purge(never_full).time_to(0.001) is None


def test_a_leak_that_only_the_second_flow_cannot_hold_is_seen_by_the_plug():
    case = base_case(model=PurgeModel.DISPLACEMENT, leaks=(InLeak(height_frac=0.5, flow_m3_s=0.5 * L_MIN),))
    thin_then_strong = replace(case, segments=flows((5, 1000.0), (15, math.inf)))
    assert purge(thin_then_strong).time_to(0.01).expected == pytest.approx(1000.0)


def test_unstirred_layers_never_purge_past_a_low_vent_faster_than_stirred_ones():
    still, stirred = (
        purge(base_case(vent_height_frac=0.075, model=model)).time_to(0.01)
        for model in (PurgeModel.UNSTIRRED, PurgeModel.LAYERED)
    )
    assert still.expected > stirred.expected
    assert still.lower == still.expected == still.upper


def test_a_joint_at_the_inlet_is_clear_at_once_in_a_plug():
    case = base_case(model=PurgeModel.DISPLACEMENT, slope_deg=90.0, joint_from_inlet_dam_m=0.0)
    assert purge(case).time_to(0.001).expected == 0.0


def test_displacement_of_a_sloping_section_clears_the_joint_between_level_and_upright():
    shares = [
        purge(base_case(slope_deg=slope, model=PurgeModel.DISPLACEMENT)).time_to(0.001).expected
        / purge(base_case()).volume_change_s
        for slope in (0.0, 0.01, 20.0, 60.0, 89.99, 90.0)
    ]
    assert shares == sorted(shares, reverse=True)
    assert shares[1] == pytest.approx(shares[0], rel=1e-2)
    assert shares[-2] == pytest.approx(shares[-1], rel=1e-3)
