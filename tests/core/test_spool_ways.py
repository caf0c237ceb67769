"""Which high points lie on the way of the gas, and in what order it crosses them."""

import math
from dataclasses import replace

import numpy as np
import pytest
from crossed_spools import TARGETS, bend, expected_s, low_to_low, over_the_top
from purge_cases import L_MIN
from spool_cases import BORE, spool_case

from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, Tee
from trainer.core.spool_ways import layout_of, way_between


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
