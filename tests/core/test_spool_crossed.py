"""Spools whose gas has to cross a high point without a vent: between hand-worked bounds, of the right shape."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN
from shape import tried
from spool_cases import BORE, spool_case

from trainer.core.dilution import (
    InLeak,
    Inlet,
    InletEnd,
    PurgeCase,
    PurgeModel,
    PurgeSection,
    VentHole,
    purge,
)
from trainer.core.purge_parts import FlowSegment
from trainer.core.purge_watch import highest_o2_frac
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, Tee
from trainer.core.spool_reaches import reaches_of
from trainer.core.spool_ways import layout_of, way_between

TARGETS = (0.01, 0.001, 1e-4)


def bend(name, to_slope_deg, bore_m=BORE):
    return Elbow(name=name, bore_m=bore_m, bend_radius_m=0.2286, angle_deg=90.0, to_slope_deg=to_slope_deg)


def over_the_top(*, up_m=1.0, top_m=2.0, down_m=1.0, sign=1.0, bore_m=BORE, joint_at=None):
    """Up a riser, along the level, down again, the vent at the foot; or all of it upside down."""
    return Spool(
        path=(
            Run(name="up", bore_m=bore_m, length_m=up_m, slope_deg=90.0 * sign),
            bend("shoulder", 0.0, bore_m),
            Run(name="top", bore_m=bore_m, length_m=top_m),
            bend("far shoulder", -90.0 * sign, bore_m),
            Run(name="down", bore_m=bore_m, length_m=down_m, slope_deg=-90.0 * sign),
        ),
        inlet_at=Point(part="up", along_frac=0.0),
        vents=(SpoolVent(at=Point(part="down", along_frac=1.0), diameter_m=0.006),),
        joint_at=joint_at,
    )


def crown_vent(part="top", diameter_m=0.006):
    return SpoolVent(at=Point(part=part, along_frac=0.5, across_frac=1.0), diameter_m=diameter_m)


def low_to_low(case):
    """The worst of the closures on the whole volume: a level section with inlet and vent low."""
    spool = case.spool
    bore_m = spool.pieces[0].bore_m
    section = PurgeSection(bore_m=bore_m, length_m=spool.volume_m3 / (math.pi / 4.0 * bore_m**2))
    return purge(
        PurgeCase(
            section=section,
            inlet=Inlet(height_frac=0.015 / bore_m, end=InletEnd.DIFFUSER, face_area_m2=28e-4),
            vent=VentHole(height_frac=0.075, diameter_m=0.006),
            gas=case.gas,
            source_o2_frac=0.0,
            segments=case.segments,
        )
    )


def expected_s(case, o2_frac):
    return purge_spool(case).root.time_to(o2_frac).expected


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


def test_two_arches_are_crossed_one_after_the_other():
    def arch(name, to_slope_deg=0.0):
        return (
            bend(f"{name} foot", 90.0), Run(name=f"{name} up", bore_m=BORE, length_m=0.5, slope_deg=90.0),
            bend(f"{name} shoulder", 0.0), Run(name=name, bore_m=BORE, length_m=0.4),
            bend(f"{name} far shoulder", -90.0), Run(name=f"{name} down", bore_m=BORE, length_m=0.5, slope_deg=-90.0),
            bend(f"{name} far foot", to_slope_deg),
        )  # fmt: skip

    def run(name):
        return Run(name=name, bore_m=BORE, length_m=0.5)

    def spool(*path):
        vent = SpoolVent(at=Point(part=path[-1].name, along_frac=1.0, across_frac=0.9), diameter_m=0.006)
        return Spool(path=path, inlet_at=Point(part="start", along_frac=0.0, across_frac=0.2), vents=(vent,))

    one = spool_case(spool(run("start"), *arch("a"), run("middle")))
    two = spool_case(spool(run("start"), *arch("a"), run("middle"), *arch("b"), run("end")))
    course = purge_spool(two)
    assert sorted(each.place for each in course.crossed) == ["a", "b"]
    assert course.dead_legs == ()
    assert expected_s(two, 0.001) > expected_s(one, 0.001)


def test_a_capped_branch_on_a_crossed_high_point_is_a_dead_leg_all_the_same():
    spool = over_the_top()
    riser = Tee(
        name="tee", bore_m=BORE, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=90.0,
        branch=(Run(name="riser", bore_m=BORE, length_m=0.4, slope_deg=90.0), Cap(name="cap", bore_m=BORE)),
    )  # fmt: skip
    path = (*spool.path[:3], riser, *spool.path[3:])
    course = purge_spool(spool_case(replace(spool, path=path)))
    assert [each.place for each in course.dead_legs] == ["cap"]
    (high,) = course.crossed
    assert high.place in {"cap", "riser", "top", "tee"}
    assert course.worst(0.001).place == "cap"
    assert course.root.time_to(0.001).expected > expected_s(spool_case(spool), 0.001)


def test_an_inlet_between_two_vents_crosses_only_what_lies_between_it_and_them():
    spool = over_the_top()
    middle = replace(spool, inlet_at=Point(part="top", along_frac=0.5, across_frac=0.1))
    both = replace(
        middle, vents=(*spool.vents, SpoolVent(at=Point(part="up", along_frac=0.0), diameter_m=0.006))
    )
    # The inlet's own level run is what the gas spills out of on either side.
    (own,) = layout_of(both, gas_sinks=True).crossings
    assert both.piece_at(both.inlet_at) in own.crest
    case = spool_case(both)
    change_s = both.volume_m3 / (15.0 * L_MIN)
    assert change_s < expected_s(case, 0.001) < low_to_low(case).time_to(0.001).expected
    assert len(layout_of(both, gas_sinks=True).way) == len(both.pieces)
    # From the foot of the riser, with one vent beside the inlet and one over the top: half crosses.
    beside = replace(
        spool, vents=(*spool.vents, SpoolVent(at=Point(part="up", along_frac=0.1), diameter_m=0.006))
    )
    course = purge_spool(spool_case(beside))
    (high,) = course.crossed
    assert high.vents_beyond == (0,)
    assert course.root.time_to(0.001).expected > expected_s(spool_case(spool), 0.001)


def test_a_vent_on_a_branch_is_reached_by_way_of_its_tee():
    spool = over_the_top()
    tee = Tee(
        name="tee", bore_m=BORE, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=-90.0,
        branch=(Run(name="drop", bore_m=BORE, length_m=1.5, slope_deg=-90.0),),
    )  # fmt: skip
    vent = SpoolVent(at=Point(part="drop", along_frac=1.0), diameter_m=0.006)
    path = (*spool.path[:3], tee, Run(name="on", bore_m=BORE, length_m=0.5))
    course = purge_spool(spool_case(replace(spool, path=path, vents=(vent,))))
    (high,) = course.crossed
    assert high.place in {"top", "tee", "on"}
    assert course.dead_legs == ()
    # The closed end beyond the tee lies level with what the gas crosses.
    assert course.root.time_to(0.001).expected < low_to_low(course.case).time_to(0.001).expected


def test_a_reducer_on_the_way_changes_no_way():
    small = 0.108
    path = (
        Run(name="up", bore_m=BORE, length_m=1.0, slope_deg=90.0), bend("shoulder", 0.0),
        Run(name="top", bore_m=BORE, length_m=1.0),
        Reducer(name="cone", bore_m=BORE, other_bore_m=small, length_m=0.15),
        Run(name="thin", bore_m=small, length_m=1.0), bend("far shoulder", -90.0, small),
        Run(name="down", bore_m=small, length_m=1.0, slope_deg=-90.0),
    )  # fmt: skip
    case = spool_case(replace(over_the_top(), path=path))
    assert len(purge_spool(case).crossed) == 1
    time_s = expected_s(case, 0.001)
    assert case.spool.volume_m3 / (15.0 * L_MIN) < time_s < low_to_low(case).time_to(0.001).expected


def test_a_hump_lower_than_the_bore_is_passed_below_and_still_reported():
    rise_deg = 3.0
    path = (
        Run(name="start", bore_m=BORE, length_m=1.0, slope_deg=rise_deg),
        Elbow(name="hump", bore_m=BORE, bend_radius_m=0.4, angle_deg=6.0, to_slope_deg=-rise_deg),
        Run(name="end", bore_m=BORE, length_m=1.0, slope_deg=-rise_deg),
    )
    spool = Spool(
        path=path,
        inlet_at=Point(part="start", along_frac=0.0, across_frac=0.1),
        vents=(SpoolVent(at=Point(part="end", along_frac=1.0, across_frac=0.9), diameter_m=0.006),),
    )
    layout = layout_of(spool, gas_sinks=True)
    assert [each.is_barrier for each in layout.crossings] == [False]
    course = purge_spool(spool_case(spool))
    (high,) = course.crossed
    assert high.time_to(0.001).expected > 0.0
    assert course.root.time_to(0.001).expected < low_to_low(course.case).time_to(0.001).expected


def test_the_way_between_two_pieces_is_the_only_one_there_is():
    pieces = over_the_top().pieces
    assert way_between(pieces, start=0, end=len(pieces) - 1) == tuple(range(len(pieces)))


def tilted_top(tilt_deg):
    """The same, its level run tilted along the way of the gas."""
    spool = over_the_top()
    path = (
        spool.path[0],
        replace(spool.path[1], angle_deg=90.0 - tilt_deg, to_slope_deg=tilt_deg),
        replace(spool.path[2], slope_deg=tilt_deg),
        replace(spool.path[3], angle_deg=90.0 + tilt_deg),
        spool.path[4],
    )
    return replace(spool, path=path)


def test_tilting_what_the_gas_crosses_brings_no_jump():
    times = [expected_s(spool_case(tilted_top(tilt_deg)), 0.001) for tilt_deg in np.arange(-12.0, 12.1, 0.5)]
    assert max(abs(math.log(one / other)) for one, other in zip(times, times[1:], strict=False)) < 0.06
    # A run that rises to the edge fills from its low end; one that falls from it keeps its air.
    assert times[-1] < times[len(times) // 2] <= 1.05 * times[0]


@pytest.mark.parametrize(("top_m", "down_m"), [(0.3, 0.6), (2.0, 1.0), (4.0, 0.5)])
def test_gas_let_in_on_top_of_a_leg_spills_down_to_the_vent_at_its_foot(top_m, down_m):
    path = (Run(name="top", bore_m=BORE, length_m=top_m), *over_the_top(down_m=down_m).path[3:])
    spool = replace(over_the_top(), path=path, inlet_at=Point(part="top", along_frac=0.0, across_frac=0.1))
    case = spool_case(spool)
    assert [each.place for each in purge_spool(case).crossed] == ["top"]
    change_s = spool.volume_m3 / (15.0 * L_MIN)
    for o2_frac in TARGETS:
        assert change_s < expected_s(case, o2_frac) < low_to_low(case).time_to(o2_frac).expected
