"""Ideal displacement worked by hand: the air in front of a plug, leg by leg."""

import math

import numpy as np
import pytest

from trainer.core.plug_course import PlugCourse, PlugStretch, displacement_time_s, mixing_time_s

# A section of 1 m3 and flows of sixteenths of it a second: binary numbers hold them exactly.
PACE = 0.0625


def _stretch(*, leak=0.0, flow=PACE, duration_s=math.inf, returned=0.0):
    return PlugStretch(flow_m3_s=flow, leak_m3_s=leak, duration_s=duration_s, returned_m3_s=returned)


def _course(*stretches, root_place_frac=0.5):
    return PlugCourse(volume_m3=1.0, height_m=0.2, root_place_frac=root_place_frac, stretches=list(stretches))


def test_root_is_clear_when_the_plug_passes_it_and_the_vent_at_the_end():
    course = _course(_stretch())
    # 4 s fill a quarter, 8 s a half, 16 s all; the mean is what is not filled
    rows = course.root_mean_vent(np.array([4.0, 8.0, 12.0, 16.0, 32.0])).tolist()
    assert rows == [[1.0, 0.75, 1.0], [0.0, 0.5, 1.0], [0.0, 0.25, 1.0], [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]]
    assert course.last_time_above(0.01) == 8.0
    assert course.last_time_above(1.0) == 0.0


def test_a_leak_fills_faster_and_leaves_its_share_behind():
    # half of the plug is air; as much as leaks in leaves at the leak itself, so that it fills no faster
    course = _course(_stretch(duration_s=4.0), _stretch(leak=PACE, returned=PACE))
    assert course.root_floor_frac == (0.0, 0.5)
    rows = course.root_mean_vent(np.array([6.0, 8.0, 16.0, 64.0])).tolist()
    assert rows == [[1.0, 1.0 - 0.375 * 0.5, 1.0], [0.5, 0.75, 1.0], [0.5, 0.5, 0.5], [0.5, 0.5, 0.5]]
    assert course.last_time_above(0.5) == 8.0
    assert course.last_time_above(0.4) is None
    # without the way out at the leak the plug goes twice as fast
    assert _course(_stretch(leak=PACE)).root_mean_vent(np.array([8.0])).tolist() == [[0.5, 0.5, 0.5]]


def test_a_root_that_is_passed_stays_at_the_plug_of_its_time():
    leaking_first = _course(_stretch(leak=PACE, duration_s=16.0), _stretch(), root_place_frac=0.25)
    assert leaking_first.last_time_above(0.4) == 16.0
    assert leaking_first.last_time_above(0.5) == 2.0
    clean_first = _course(_stretch(duration_s=8.0), _stretch(duration_s=8.0), root_place_frac=0.25)
    assert clean_first.last_time_above(0.4) == 4.0
    assert _course(_stretch(duration_s=8.0), root_place_frac=0.5).last_time_above(0.4) == 8.0
    assert _course(_stretch(duration_s=8.0), root_place_frac=0.0).last_time_above(0.4) == 0.0


def test_a_flow_that_stops_before_the_root_never_clears_it():
    assert _course(_stretch(duration_s=4.0)).last_time_above(0.4) is None
    held = _course(_stretch(duration_s=4.0), _stretch(flow=0.0, duration_s=8.0), _stretch())
    # a quarter, eight seconds of nothing, then the second quarter
    assert held.last_time_above(0.4) == 16.0
    assert _course(_stretch(duration_s=4.0), _stretch(flow=0.0)).last_time_above(0.4) is None
    passed = _course(_stretch(duration_s=8.0), _stretch(flow=0.0), root_place_frac=0.25)
    assert passed.last_time_above(0.4) == 4.0


def test_profile_is_the_plug_below_and_air_above():
    course = _course(_stretch(duration_s=4.0), _stretch(leak=PACE, returned=PACE))
    heights, air = course.profile(8.0)
    assert len(heights) == 65
    assert (heights[0], heights[-1]) == (0.0, 0.2)
    assert air[:32].tolist() == [0.5] * 32
    assert air[32:].tolist() == [1.0] * 33


def test_mixing_time_is_the_stirred_tank_s():
    # ln 2 volume changes halve what is above the source
    halved = mixing_time_s(0.5, flow_m3_s=0.25, o2_frac=0.15, source_o2_frac=0.1, start_o2_frac=0.2)
    assert halved == pytest.approx(2.0 * math.log(2.0))
    assert mixing_time_s(0.5, flow_m3_s=0.25, o2_frac=0.1, source_o2_frac=0.1) == math.inf
    assert mixing_time_s(0.5, flow_m3_s=0.25, o2_frac=0.2, start_o2_frac=0.1) == 0.0
    assert mixing_time_s(1.0, flow_m3_s=1.0, o2_frac=0.2095 / math.e) == pytest.approx(1.0, rel=1e-3)
    assert displacement_time_s(0.5, flow_m3_s=0.25) == 2.0
