"""What is asked of the core costs bounded time and memory: how many pieces, layers, flows and steps there may be."""

import math
from dataclasses import replace

import numpy as np
import pytest
from purge_cases import base_case
from spool_cases import spool_case

from trainer.core.chain_courses import ChainCourses
from trainer.core.column import Column
from trainer.core.dilution import purge
from trainer.core.errors import OutOfRange
from trainer.core.gas_column import gas_column
from trainer.core.layer_solution import PowerSolution
from trainer.core.layers import LayerBalance, Mixing, layer_balance
from trainer.core.purge_course import LayeredCourse, Stretch
from trainer.core.purge_parts import FlowSegment, InLeak, PurgeSection
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Elbow, Run
from trainer.core.spool_pieces import spool_pieces
from trainer.core.spool_reaches import case_of_reach, reaches_of
from trainer.core.spool_ways import layout_of

BORE = 0.1


def up_and_down(legs_count, *, leg_m=0.5, last_m=0.5, fall_deg=90.0, bend_radius_m=0.15):
    """A pipe that goes up and down by turns, with the inlet at one end and the vent at the other."""
    path, slope_deg = [Run(name="leg 0", bore_m=BORE, length_m=leg_m, slope_deg=90.0)], 90.0
    for number in range(1, legs_count):
        to_deg = -fall_deg if slope_deg > 0.0 else 90.0
        path.append(
            Elbow(
                name=f"bend {number}",
                bore_m=BORE,
                bend_radius_m=bend_radius_m,
                angle_deg=abs(to_deg - slope_deg),
                to_slope_deg=to_deg,
            )
        )
        length_m = last_m if number == legs_count - 1 else leg_m
        path.append(Run(name=f"leg {number}", bore_m=BORE, length_m=length_m, slope_deg=to_deg))
        slope_deg = to_deg
    last = path[-1].name
    return spool_case(
        Spool(
            path=tuple(path),
            inlet_at=Point(part="leg 0", along_frac=0.0),
            vents=(SpoolVent(at=Point(part=last, along_frac=1.0), diameter_m=0.005),),
            joint_at=Point(part=last),
        )
    )


def layers_in_chain(case):
    layout = layout_of(case.spool, gas_sinks=True)
    reaches = reaches_of(case, layout=layout)
    chain = ChainCourses(case, reaches=reaches, body=case.spool.pieces)
    return len(reaches), chain.expected.layers_air_frac(np.zeros(1)).shape[0]


# --- pieces and layers -----------------------------------------------------------------------------------------


def test_a_long_run_of_small_pipe_takes_no_more_pieces_than_four_hundred():
    assert len(spool_pieces([Run(name="run", bore_m=0.005, length_m=50.0)])) == 400
    assert len(spool_pieces([Run(name="run", bore_m=0.1, length_m=20.0)])) == 400
    assert len(spool_pieces([Run(name="run", bore_m=0.1, length_m=19.95)])) == 399


def test_a_spool_of_more_pieces_than_four_thousand_is_refused():
    assert (
        len(spool_pieces([Run(name=f"run {each}", bore_m=0.01, length_m=3.0) for each in range(10)])) == 4000
    )
    with pytest.raises(OutOfRange, match="number of short pieces .* 4001 .* at most 4000"):
        spool_pieces([Run(name=f"run {each}", bore_m=0.01, length_m=3.0) for each in range(11)])


@pytest.mark.parametrize("legs_count", [2, 8, 24])
def test_a_chain_of_reaches_has_a_bounded_number_of_layers(legs_count):
    reaches_count, layers_count = layers_in_chain(up_and_down(legs_count))
    assert reaches_count >= legs_count
    assert layers_count <= 384


def test_fewer_layers_for_each_of_many_reaches_hardly_change_the_time(monkeypatch):
    case = up_and_down(4)
    usual = purge_spool(case).root.time_to(0.01).expected
    monkeypatch.setattr("trainer.core.chain_courses._MOST_OF_ALL_COUNT", 16 * layers_in_chain(case)[0])
    assert purge_spool(case).root.time_to(0.01).expected == pytest.approx(usual, rel=0.03)


def test_a_spool_with_more_high_points_than_can_be_followed_is_refused():
    with pytest.raises(OutOfRange, match="number of reaches of the spool .* at most 48"):
        _ = purge_spool(up_and_down(50, leg_m=0.1)).root.time_to(0.01)


# --- reaches of next to no length ------------------------------------------------------------------------------


def test_a_reach_may_be_as_short_as_two_millimetres():
    case = up_and_down(2, last_m=0.002, fall_deg=45.0, bend_radius_m=0.3)
    layout = layout_of(case.spool, gas_sinks=True)
    shortest_m = min(
        case_of_reach(case, reach=each).section.length_m for each in reaches_of(case, layout=layout)
    )
    assert shortest_m == pytest.approx(0.002)
    time = purge_spool(case).root.time_to(0.01)
    assert 0.0 < time.lower < time.expected < time.upper < math.inf


def test_a_section_that_people_give_is_at_least_ten_millimetres_long():
    with pytest.raises(
        OutOfRange, match=r"length between the dams is 0.002 m but must be between 0.01 and 200 m"
    ):
        PurgeSection(bore_m=BORE, length_m=0.002)


# --- flows, steps and waiting ----------------------------------------------------------------------------------


def test_a_hundred_flows_are_followed_and_one_more_is_refused():
    minute = FlowSegment(flow_m3_s=2.5e-4, duration_s=60.0)
    whole, endless = purge(replace(base_case(), segments=(minute,) * 100)), purge(base_case())
    assert whole.oxygen_at(300.0).expected == pytest.approx(endless.oxygen_at(300.0).expected, rel=1e-6)
    with pytest.raises(OutOfRange, match="number of flow segments is 101 but must be at most 100"):
        replace(base_case(), segments=(minute,) * 101)


def test_air_that_nothing_moves_is_never_gone_and_not_waited_for_without_end():
    # Two layers that hand each other nothing, one of them flushed: the other keeps its air for ever.
    nothing = np.zeros(1)
    flushed = np.array([1e-4, 0.0])
    balance = LayerBalance(
        volume_m3=np.full(2, 1e-3),
        rise_m3_s=nothing,
        fall_m3_s=nothing,
        exit_m3_s=flushed,
        vent_m3_s=flushed,
        vent_frac=np.array([1.0, 0.0]),
        leak_m3_s=np.zeros(2),
        outflow_m3_s=1e-4,
    )
    column = Column(
        edge_m=np.array([0.0, 0.1, 0.2]),
        volume_m3=balance.volume_m3,
        exchange_length_m=nothing,
        supply_frac=np.array([1.0, 0.0]),
        exit_frac=np.array([1.0, 0.0]),
        leak_m3_s=np.zeros(2),
        returned_m3_s=np.zeros(2),
        root_weight_frac=None,
        is_turned_over=False,
    )
    solution = PowerSolution(balance)
    course = LayeredCourse(column, [Stretch(balance=balance, solution=solution, duration_s=math.inf)])
    assert course.last_time_above(0.5) is None
    assert course.highest_root_frac(100.0, until_s=math.inf) == pytest.approx(1.0)


# Air in at one height, as much gas out at another: summed by layer the two differ by rounding, of either sign.
DRAINING = [
    InLeak(height_frac=0.05, leaves_at_frac=leaves_at, flow_m3_s=1.2715e-5) for leaves_at in (0.25, 0.6)
]


@pytest.mark.parametrize("leak", DRAINING)
@pytest.mark.parametrize("slope_deg", [0.0, -10.0, 90.0])
def test_where_as_much_returns_as_leaks_in_nothing_leaves_by_the_vent(leak, slope_deg):
    column = gas_column(replace(base_case(slope_deg=slope_deg), leaks=(leak,)))
    assert column.through_leak_m3_s == 0.0
    still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
    assert layer_balance(column, flow_m3_s=0.0, mixing=still).outflow_m3_s == 0.0


@pytest.mark.parametrize("leak", DRAINING)
@pytest.mark.parametrize("slope_deg", [0.0, -10.0])
def test_a_line_that_stays_out_is_followed_until_the_air_has_come_back(leak, slope_deg):
    # An outflow of -1e-21 m3/s made the time to settle negative: it was doubled without end, a matrix each time.
    purging = FlowSegment(flow_m3_s=2.5e-4, duration_s=600.0)
    line_out = FlowSegment(flow_m3_s=0.0, duration_s=math.inf, air_in=(leak,))
    course = purge(replace(base_case(slope_deg=slope_deg), segments=(purging, line_out)))
    assert course.time_to(0.01) is None
    highest_frac = course.courses.expected.highest_root_frac(600.0, until_s=math.inf)
    assert highest_frac == pytest.approx(1.0, rel=1e-6)


def test_no_time_before_the_first_is_followed():
    still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
    solution = PowerSolution(layer_balance(gas_column(base_case()), flow_m3_s=2.5e-4, mixing=still))
    air = solution.follow(np.ones(32))
    assert air(np.zeros(1)) == pytest.approx(1.0)
    with pytest.raises(OutOfRange, match="fastest exchange between layers .* between 0 and"):
        air(np.array([10.0, -1.0]))
