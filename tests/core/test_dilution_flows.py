"""Purges whose flow changes or that leak: the floor, the last time above a level, and what never gets there."""

import math
from dataclasses import replace

import numpy as np
import pytest
from purge_cases import L_MIN, base_case, flows

from trainer.core.dilution import InLeak, PurgeModel, purge


def test_the_source_sets_the_floor_without_leaks():
    course = purge(base_case(source_o2_frac=50e-6))
    assert course.floor_o2_frac == pytest.approx(50e-6)
    assert course.time_to(50e-6) is None
    assert course.time_to(40e-6) is None
    assert course.oxygen_at(1e5).expected == pytest.approx(50e-6)


@pytest.mark.parametrize("height_frac", [0.0, 0.4, 1.0, None])
def test_in_the_end_the_vent_reads_the_mixed_floor(height_frac):
    # By hand, a balance over the whole section: source + 209,500 ppm Q_in / (Q + Q_in).
    leak = InLeak(height_frac=height_frac, flow_m3_s=0.05 * L_MIN)
    course = purge(base_case(source_o2_frac=10e-6, leaks=(leak,)))
    mixed = 10e-6 + (0.2095 - 10e-6) * 0.05 / 15.05
    assert course.vent_oxygen_at(1e5) == pytest.approx(mixed, rel=1e-6)
    assert course.floor_o2_frac >= mixed * (1.0 - 1e-9)
    assert course.oxygen_at(1e5).expected == pytest.approx(course.floor_o2_frac)
    assert course.time_to(0.99 * course.floor_o2_frac) is None
    assert course.time_to(1.01 * course.floor_o2_frac).expected > 0.0


def test_a_leak_beyond_a_low_vent_stays_there():
    leak = InLeak(height_frac=1.0, flow_m3_s=0.05 * L_MIN)
    low, high = (purge(base_case(vent_height_frac=h, leaks=(leak,))) for h in (0.075, 0.925))
    assert low.floor_o2_frac > 3.0 * high.floor_o2_frac


def test_a_gap_all_round_leaks_at_every_height_of_a_level_joint_and_at_its_own_when_upright():
    ring = (InLeak(height_frac=None, flow_m3_s=0.1 * L_MIN),)
    level = purge(base_case(leaks=ring))
    assert 1.0 < level.floor_o2_frac / (0.2095 * 0.1 / 15.1) < 1.5
    _, upright = purge(base_case(slope_deg=90.0, leaks=ring)).profile(1e4)
    assert upright[0] < 1e-6
    assert upright[-1] == pytest.approx(0.2095 * 0.1 / 15.1, rel=1e-3)


def test_the_oxygen_rises_again_when_the_flow_is_cut_and_the_last_time_counts():
    leaks = (InLeak(height_frac=None, flow_m3_s=0.05 * L_MIN),)
    case = base_case(leaks=leaks, segments=flows((15, 1200.0), (3, 600.0), (15, math.inf)))
    course = purge(case)
    between = (course.floors_o2_frac[0] + course.floors_o2_frac[1]) / 2.0
    assert course.oxygen_at(1199.0).expected < between
    assert course.oxygen_at(1799.0).expected > between
    assert course.time_to(between).expected > 1800.0


def test_a_flow_that_ends_too_soon_never_gets_there():
    case = base_case(segments=flows((15, 60.0)))
    assert purge(case).time_to(0.001) is None
    assert purge(case).time_to(0.2).expected < 60.0


def test_an_end_of_the_interval_beyond_the_last_flow_is_endless():
    case = base_case()
    expected = purge(case).time_to(0.01)
    ending = purge(replace(case, segments=flows((15, 1.1 * expected.expected))))
    assert ending.time_to(0.01).expected == pytest.approx(expected.expected)
    assert ending.time_to(0.01).upper == math.inf


def test_air_is_below_no_level_above_it():
    assert purge(base_case(model=PurgeModel.DISPLACEMENT)).time_to(0.21).expected == 0.0
    assert purge(base_case()).time_to(0.21).expected == 0.0
    assert purge(base_case(segments=flows((15, 60.0), (5, math.inf)))).time_to(0.21).expected == 0.0


def test_the_same_flow_in_pieces_is_the_same_purge():
    whole = purge(base_case())
    pieces = purge(base_case(segments=flows((15, 20.0), (15, 40.0), (15, math.inf))))
    times = np.array([0.0, 10.0, 20.0, 45.0, 60.0, 200.0])
    assert pieces.trace(times) == pytest.approx(whole.trace(times), abs=1e-9)
    assert pieces.time_to(0.001).upper == pytest.approx(whole.time_to(0.001).upper)
