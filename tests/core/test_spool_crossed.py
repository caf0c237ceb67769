"""Spools whose gas has to cross a high point without a vent: between hand-worked bounds, of the right shape."""

import math
from dataclasses import replace

import numpy as np
import pytest
from crossed_spools import TARGETS, crown_vent, expected_s, low_to_low, over_the_top
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN
from shape import tried
from spool_cases import BORE, spool_case

from trainer.core.dilution import InLeak, PurgeModel
from trainer.core.purge_parts import FlowSegment
from trainer.core.purge_watch import highest_o2_frac
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point
from trainer.core.spool_reaches import reaches_of
from trainer.core.spool_ways import layout_of


def test_gas_that_has_to_go_over_the_top_is_through_in_an_hour_and_not_a_week():
    course = purge_spool(spool_case(over_the_top()))
    assert course.dead_legs == ()
    (high,) = course.crossed
    assert high.place == "top"
    # By hand: 1 + 2 + 1 m and two quarter bends of 229 mm in a bore of 161 mm.
    volume_m3 = math.pi / 4.0 * BORE**2 * (4.0 + math.pi * 0.2286)
    change_s = volume_m3 / (15.0 * L_MIN)
    one, a_tenth, a_hundredth = (course.root.time_to(o2_frac).expected for o2_frac in TARGETS)
    # No purge beats displacement. tests/reference/purge_3d.csv: low inlet and low vent need 20, 34 and 47
    # changes, an upright section with its inlet above 4.0, 6.3 and 8.2, a high inlet with a low vent 8.2, 14, 20.
    assert change_s < one < 8.2 * change_s
    assert change_s < a_tenth < 14.0 * change_s
    assert change_s < a_hundredth < 20.0 * change_s


def test_the_crossed_high_point_alone_takes_most_of_the_time_and_never_more():
    course = purge_spool(spool_case(over_the_top()))
    (high,) = course.crossed
    for o2_frac in TARGETS:
        alone = high.time_to(o2_frac).expected
        assert 0.5 * alone < course.root.time_to(o2_frac).expected
        assert alone < course.root.time_to(o2_frac).expected
    assert high.time_to(0.0) is None
    # By hand: the run, and of both bends what lies less than half a bore below its bottom.
    assert 2.0 < high.length_m < 2.0 + 2.0 * math.pi / 2.0 * 0.2286
    assert high.volume_m3 == pytest.approx(math.pi / 4.0 * BORE**2 * high.length_m)


def test_the_interval_is_twice_as_wide_and_says_why():
    root = purge_spool(spool_case(over_the_top())).root
    assert "spool: gas crosses a high point without a vent" in root.beyond_tested_range
    found = root.time_to(0.001)
    # "gentle, upper" 1.38 and lower 0.73, each squared: the least that a level reach brings.
    assert found.upper / found.expected >= 1.38**2 - 1e-6
    assert found.lower / found.expected <= 0.73**2 + 1e-6


@tried(40)
@given(
    up_m=st.floats(0.4, 4.0),
    top_m=st.floats(0.05, 6.0),
    down_m=st.floats(0.4, 4.0),
    flow_l_min=st.floats(2.0, 40.0),
    o2_frac=st.sampled_from(TARGETS),
)
def test_times_lie_between_displacement_and_the_worst_placing(up_m, top_m, down_m, flow_l_min, o2_frac):
    case = spool_case(over_the_top(up_m=up_m, top_m=top_m, down_m=down_m), flow_l_min=flow_l_min)
    time_s = expected_s(case, o2_frac)
    assert case.spool.volume_m3 / (flow_l_min * L_MIN) < time_s < low_to_low(case).time_to(o2_frac).expected


@tried(30)
@given(
    lengths=st.tuples(st.floats(0.4, 3.0), st.floats(0.1, 4.0), st.floats(0.4, 3.0)),
    flow_l_min=st.floats(2.0, 38.0),
    part=st.integers(0, 2),
    o2_frac=st.sampled_from(TARGETS),
)
def test_more_flow_never_lengthens_and_a_longer_part_never_shortens(lengths, flow_l_min, part, o2_frac):
    def at(given_m, flow):
        up_m, top_m, down_m = given_m
        return expected_s(
            spool_case(over_the_top(up_m=up_m, top_m=top_m, down_m=down_m), flow_l_min=flow), o2_frac
        )

    longer = [length * (1.2 if number == part else 1.0) for number, length in enumerate(lengths)]
    base_s = at(lengths, flow_l_min)
    assert at(lengths, flow_l_min * 1.05) <= base_s * (1.0 + 1e-6)
    assert at(longer, flow_l_min) >= base_s * (1.0 - 1e-6)


@tried(30)
@given(
    up_m=st.floats(0.4, 4.0), top_m=st.floats(0.1, 6.0), down_m=st.floats(0.4, 4.0), flow_l_min=st.floats(2.0, 40.0)
)  # fmt: skip
def test_the_vent_at_the_high_point_always_shortens_the_purge(up_m, top_m, down_m, flow_l_min):
    spool = over_the_top(up_m=up_m, top_m=top_m, down_m=down_m)
    vented = replace(spool, vents=(crown_vent(),))
    for o2_frac in TARGETS:
        there, below = (
            expected_s(spool_case(each, flow_l_min=flow_l_min), o2_frac) for each in (vented, spool)
        )
        assert there < below


def test_a_vent_added_at_the_high_point_shortens_the_purge():
    spool = over_the_top()
    added = replace(spool, vents=(*spool.vents, crown_vent()))
    assert purge_spool(spool_case(added)).crossed == ()
    for o2_frac in TARGETS:
        assert expected_s(spool_case(added), o2_frac) < expected_s(spool_case(spool), o2_frac)


@pytest.mark.parametrize("o2_frac", TARGETS)
def test_upside_down_with_the_gas_turned_over_the_same_places_are_crossed(o2_frac):
    up, down = (over_the_top(sign=sign) for sign in (1.0, -1.0))
    assert layout_of(up, gas_sinks=True) == layout_of(down, gas_sinks=False)
    assert layout_of(down, gas_sinks=True).crossings == layout_of(up, gas_sinks=False).crossings == ()
    course = purge_spool(spool_case(down, symbol="I2"))
    ours, theirs = (
        reaches_of(each, layout=purge_spool(each).layout) for each in (spool_case(up), course.case)
    )
    for one, other in zip(ours, theirs, strict=True):
        assert (one.numbers, one.entry, one.is_crest) == (other.numbers, other.entry, other.is_crest)
        assert [each.outlet.seen_m for each in one.outlets] == pytest.approx(
            [each.outlet.seen_m for each in other.outlets]
        )
    (low,) = course.crossed
    assert low.place == "top"
    change_s = down.volume_m3 / (15.0 * L_MIN)
    assert (
        change_s < course.root.time_to(o2_frac).expected < low_to_low(course.case).time_to(o2_frac).expected
    )


def test_no_air_is_lost_between_the_reaches():
    course = purge_spool(spool_case(over_the_top()))
    times = np.concatenate([[0.0], np.geomspace(0.01, 40.0 * course.body.volume_change_s, 6000)])
    oxygen = course.root.trace(times)
    out = 15.0 * L_MIN * np.trapezoid(oxygen[:, 2], times)
    held = course.case.spool.volume_m3 * (oxygen[0, 1] - oxygen[-1, 1])
    # A full pool pushed out by trapezes.
    assert out == pytest.approx(held, rel=2e-3)
    assert (np.diff(oxygen[:, 0]) <= 1e-12).all()
    assert (np.diff(oxygen[:, 1]) <= 1e-12).all()


def test_a_joint_in_the_riser_is_clear_long_before_one_beyond_it():
    riser, top, leg = (
        expected_s(spool_case(over_the_top(joint_at=Point(part=part))), 0.001)
        for part in ("up", "top", "down")
    )
    assert riser < 0.1 * min(top, leg)
    anywhere = expected_s(spool_case(over_the_top()), 0.001)
    assert max(riser, top, leg) <= anywhere * (1.0 + 1e-9)


@pytest.mark.parametrize("model", [PurgeModel.PERFECT_MIXING, PurgeModel.DISPLACEMENT])
def test_the_limits_take_the_whole_volume(model):
    case = spool_case(over_the_top(), model=model)
    course = purge_spool(case)
    change_s = case.spool.volume_m3 / (15.0 * L_MIN)
    changes = {PurgeModel.PERFECT_MIXING: math.log(0.2095 / 0.001), PurgeModel.DISPLACEMENT: 1.0}[model]
    assert course.root.time_to(0.001).expected == pytest.approx(changes * change_s, rel=1e-6)
    assert [each.place for each in course.crossed] == ["top"]


def test_air_that_leaks_in_stays_and_a_hold_keeps_what_was_reached():
    tight, leaky = (
        purge_spool(spool_case(over_the_top(), leaks=leaks)).root.floor_o2_frac
        for leaks in ((), (InLeak(height_frac=0.5, flow_m3_s=0.01 * 15.0 * L_MIN),))
    )
    assert tight == 0.0
    # Mixed into what enters, a hundredth of air makes 0.2095 / 101.
    assert leaky >= 0.2095 / 101.0 * 0.999
    segments = (
        FlowSegment(flow_m3_s=15.0 * L_MIN, duration_s=2000.0),
        FlowSegment(flow_m3_s=0.0, duration_s=600.0, air_in=()),
        FlowSegment(flow_m3_s=5.0 * L_MIN, duration_s=math.inf),
    )
    root = purge_spool(spool_case(over_the_top(), segments=segments)).root
    before = root.oxygen_at(2000.0).expected
    assert highest_o2_frac(root, from_s=2000.0, until_s=math.inf) == pytest.approx(before, rel=0.05)
    assert root.time_to(1e-3).expected > 2000.0
