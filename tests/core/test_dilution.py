"""Purges as a person would ask about them: what is reported, inlets, slopes, ranges and refusals."""

import math
from dataclasses import replace

import numpy as np
import pytest
from purge_cases import L_MIN, base_case, flows

from trainer.core.dilution import (
    FlowSegment,
    InLeak,
    Inlet,
    InletEnd,
    PurgeModel,
    PurgeSection,
    VentHole,
    mixing_time_s,
    purge,
)
from trainer.core.errors import OutOfRange
from trainer.core.gas_mix import mixed_gas


def test_vent_below_inlet_leaves_air_at_the_top():
    course = purge(base_case(vent_height_frac=0.1))
    height_m, o2_frac = course.profile(3.0 * course.volume_change_s)
    assert height_m[-1] > 0.15
    assert o2_frac[-1] > 0.12
    assert o2_frac[0] < 0.02


def test_helium_lies_the_other_way_up():
    course = purge(base_case(symbol="I2", inlet_height_frac=0.9, vent_height_frac=0.075))
    height_m, o2_frac = course.profile(course.volume_change_s)
    assert height_m[0] < height_m[-1]
    assert o2_frac[0] > 2.0 * o2_frac[-1]


def test_upright_from_below_the_joint_is_clear_before_one_volume_change():
    course = purge(base_case(slope_deg=90.0))
    assert course.time_to(0.001).expected < 0.8 * course.volume_change_s


def test_upright_the_joint_near_the_inlet_is_clear_sooner():
    near, far = (purge(base_case(slope_deg=90.0, joint_from_inlet_dam_m=joint)) for joint in (0.1, 0.5))
    assert near.time_to(0.001).upper < far.time_to(0.001).lower


def test_upright_from_above_is_a_little_worse_than_mixing():
    course = purge(base_case(slope_deg=-90.0))
    mixed = purge(base_case(slope_deg=-90.0, model=PurgeModel.PERFECT_MIXING))
    assert 1.0 < course.time_to(0.001).expected / mixed.time_to(0.001).expected < 1.3


def test_an_open_tube_cares_little_where_the_vent_is_and_a_diffuser_very_much():
    def slower(end):
        low, high = (
            purge(base_case(end=end, vent_height_frac=h)).time_to(0.01).expected for h in (0.075, 0.925)
        )
        return low / high

    assert slower(InletEnd.OPEN_TUBE) < 1.1
    assert slower(InletEnd.DIFFUSER) > 5.0


def test_a_rag_lies_between_and_its_interval_spans_both():
    for vent in (0.075, 0.925):
        rag, tube, diffuser = (
            purge(base_case(end=end, vent_height_frac=vent)).time_to(0.01)
            for end in (InletEnd.RAG, InletEnd.OPEN_TUBE, InletEnd.DIFFUSER)
        )
        assert min(tube.expected, diffuser.expected) < rag.expected < max(tube.expected, diffuser.expected)
        assert rag.lower <= min(tube.lower, diffuser.lower)
        assert rag.upper >= max(tube.upper, diffuser.upper)


def test_nitrogen_is_taken_as_mixed_with_an_interval_that_spans_the_layers():
    course = purge(base_case(symbol="N1"))
    time = course.time_to(0.01)
    # Perfect mixing: ln(0.2095 / 0.01) = 3.04 volume changes.
    assert time.expected / course.volume_change_s == pytest.approx(3.04, rel=0.03)
    assert time.upper / time.lower > 4.0


def test_a_mixture_as_heavy_as_air_does_not_stop_the_calculation():
    # 30.5 % helium in argon weighs what air weighs.
    course = purge(replace(base_case(), gas=mixed_gas("I3", composition={"Ar": 0.695, "He": 0.305})))
    assert course.time_to(0.01).expected / course.volume_change_s == pytest.approx(3.04, rel=0.03)


def test_a_trace_has_root_mean_and_vent_and_begins_with_air():
    course = purge(base_case())
    trace = course.trace(np.linspace(0.0, 300.0, 50))
    assert trace.shape == (50, 3)
    assert trace[0] == pytest.approx([0.2095, 0.2095, 0.2095])
    assert (np.diff(trace, axis=0) <= 0.0).all()
    assert trace[20] == pytest.approx(
        [
            course.oxygen_at(20 * 300 / 49).expected,
            course.mean_oxygen_at(20 * 300 / 49),
            course.vent_oxygen_at(20 * 300 / 49),
        ]
    )
    assert course.trace(np.array([])).shape == (0, 3)


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"bore_m": 0.4}, "bore"),
        ({"bore_m": 0.05, "vent_diameter_m": 0.006, "inlet_height_frac": 0.2}, "bore"),
        ({"length_m": 4.0}, "length"),
        ({"flow_m3_s": 1.0 * L_MIN}, "flow"),
        ({"flow_m3_s": 60.0 * L_MIN}, "flow"),
    ],
)
def test_beyond_the_tested_range_the_interval_is_twice_as_wide(changes, reason):
    inside, outside = purge(base_case()), purge(base_case(**changes))
    assert inside.beyond_tested_range == ()
    assert any(text.startswith(reason) for text in outside.beyond_tested_range)
    time = outside.time_to(0.01)
    width = math.log(time.upper / time.lower)
    assert width > 1.9 * math.log(inside.time_to(0.01).upper / inside.time_to(0.01).lower)


def test_a_diffuser_so_small_that_it_blows_is_beyond_the_tested_range():
    case = base_case()
    small = replace(case, inlet=replace(case.inlet, face_area_m2=0.5e-4))
    assert "diffuser" in purge(small).beyond_tested_range[0]


def test_below_100_ppm_the_interval_is_twice_as_wide():
    course = purge(base_case())
    above, below = course.time_to(101e-6), course.time_to(99e-6)
    assert math.log(below.upper / below.lower) == pytest.approx(
        2.0 * math.log(above.upper / above.lower), rel=1e-6
    )
    late = course.oxygen_at(course.time_to(20e-6).expected)
    assert late.lower < late.expected < late.upper


def test_inlet_numbers_of_an_open_tube():
    # Run B01 lists 51.3 for the Froude number and 1.91 for the jet length of 15 L/min from 6.35 mm in 161 mm.
    course = purge(base_case(end=InletEnd.OPEN_TUBE))
    assert course.inlet_velocity_m_s == pytest.approx(7.89, rel=0.005)
    assert course.inlet_froude == pytest.approx(51.3, rel=0.01)
    assert course.jet_length_ratio == pytest.approx(1.91, rel=0.01)


@pytest.mark.parametrize("slope_deg", [0.0, 90.0, -90.0])
def test_the_margin_on_a_vent_reading(slope_deg):
    assert purge(base_case(slope_deg=slope_deg)).vent_margin_ratio >= 1.0
    low = purge(base_case(slope_deg=slope_deg, vent_height_frac=0.1)).vent_margin_ratio
    assert (low is None) == (slope_deg == 0.0)


def test_a_few_degrees_are_worth_more_than_anything_but_the_vent():
    # Simulated: 6.9, 3.8, 3.2, 2.1, 0.9 and 0.7 volume changes to 1000 ppm at -5, 0, 2, 10, 45 and 90 degrees.
    times = [purge(base_case(slope_deg=slope)).time_to(0.001).expected for slope in (-5, 0, 2, 10, 45, 90)]
    assert times == sorted(times, reverse=True)
    assert times[0] > 1.5 * times[1] > 2.5 * times[3]


def test_a_sloping_pipe_is_not_cleared_through_a_low_vent():
    low, high = (purge(base_case(slope_deg=10.0, vent_height_frac=h)).time_to(0.01) for h in (0.075, 0.925))
    assert low.lower > 3.0 * high.upper


def test_a_joint_low_in_a_rising_pipe_is_clear_sooner():
    near, far = (purge(base_case(slope_deg=30.0, joint_from_inlet_dam_m=joint)) for joint in (0.1, 0.5))
    assert near.time_to(0.001).upper < far.time_to(0.001).expected


def test_a_falling_vent_gives_no_safe_reading():
    assert purge(base_case(slope_deg=-5.0)).vent_margin_ratio is None
    assert purge(base_case(slope_deg=5.0)).vent_margin_ratio > 1.0


@pytest.mark.parametrize(
    ("slope_deg", "symbol", "tested"),
    [(-5.0, "I1", True), (-30.0, "I1", False), (-90.0, "I1", True), (45.0, "I1", True), (30.0, "I2", False)],
)
def test_pipe_that_falls_steeply_towards_its_vent_was_not_simulated(slope_deg, symbol, tested):
    reasons = purge(base_case(slope_deg=slope_deg, symbol=symbol)).beyond_tested_range
    assert any(reason.startswith("slope") for reason in reasons) != tested


def test_a_slope_beyond_upright_is_refused():
    with pytest.raises(OutOfRange, match="slope of the pipe"):
        PurgeSection(bore_m=0.161, length_m=0.6, slope_deg=90.5)
    with pytest.raises(OutOfRange, match="slope of the pipe"):
        PurgeSection(bore_m=0.161, length_m=0.6, slope_deg=math.nan)


def test_air_leaking_into_an_upright_section_as_it_empties_leaves_no_negative_oxygen():
    leaks = (InLeak(height_frac=0.9, flow_m3_s=0.2 * L_MIN),)
    case = base_case(slope_deg=90.0, leaks=leaks, segments=flows((40, 60.0), (3, math.inf)))
    for time_s in np.linspace(0.0, 300.0, 61):
        assert purge(case).oxygen_at(time_s).lower >= 0.0


@pytest.mark.parametrize(
    "make",
    [
        lambda: VentHole(height_frac=1.2, diameter_m=0.006),
        lambda: VentHole(height_frac=0.5, diameter_m=0.0),
        lambda: VentHole(height_frac=0.5, diameter_m=0.006, count=0),
        lambda: Inlet(height_frac=math.nan, end=InletEnd.DIFFUSER, face_area_m2=1e-3),
        lambda: Inlet(height_frac=0.1, end=InletEnd.DIFFUSER, bore_m=0.006),
        lambda: Inlet(height_frac=0.1, end=InletEnd.OPEN_TUBE, face_area_m2=1e-3),
        lambda: InLeak(height_frac=0.5, flow_m3_s=-1e-6),
        lambda: InLeak(height_frac=2.0, flow_m3_s=1e-6),
        lambda: PurgeSection(bore_m=0.0, length_m=0.6),
        lambda: PurgeSection(bore_m=0.161, length_m=math.inf),
        lambda: PurgeSection(bore_m=0.161, length_m=0.6, joint_from_inlet_dam_m=0.7),
        lambda: FlowSegment(flow_m3_s=-1e-6, duration_s=10.0),
        lambda: FlowSegment(flow_m3_s=1e-4, duration_s=-1.0),
        lambda: FlowSegment(flow_m3_s=1e-4, duration_s=math.nan),
        lambda: base_case(segments=()),
        lambda: base_case(segments=flows((15, math.inf), (5, 10.0))),
        lambda: base_case(vent_height_frac=0.99),
        lambda: base_case(inlet_height_frac=0.0, end=InletEnd.OPEN_TUBE),
        lambda: base_case(source_o2_frac=0.3),
        lambda: base_case(temperature_k=20.0),
        lambda: purge(base_case()).oxygen_at(-1.0),
        lambda: purge(base_case(segments=flows((15, 60.0)))).trace(np.array([61.0])),
        lambda: purge(base_case()).profile(math.nan),
    ],
)
def test_what_cannot_be_is_refused_by_name(make):
    with pytest.raises(OutOfRange):
        make()


def test_mixing_time_is_endless_at_the_source_and_nothing_above_the_start():
    assert mixing_time_s(0.012, flow_m3_s=2.5e-4, o2_frac=10e-6, source_o2_frac=10e-6) == math.inf
    assert mixing_time_s(0.012, flow_m3_s=2.5e-4, o2_frac=0.3) == 0.0
