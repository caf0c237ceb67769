"""What the root of a spool sees of its dead legs, and where points of a spool lie."""

import math
from dataclasses import replace

import numpy as np
import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import L_MIN, base_case
from scipy.integrate import quad
from spool_cases import spool_case, spool_with_branch, straight_spool

from trainer.core.dead_leg import closed_end_air_frac, mean_leg_air_frac
from trainer.core.dilution import PurgeModel
from trainer.core.interruption import line_fallen_out
from trainer.core.purge_parts import FlowSegment
from trainer.core.purge_watch import highest_o2_frac
from trainer.core.spool import purge_spool
from trainer.core.spool_case import Point
from trainer.core.spool_places import (
    RISER_SPOOL,
    beyond_vents_frac,
    body_of,
    facing_up_deg,
    height_in_body_frac,
    is_in_end_face,
)


@pytest.mark.parametrize("tau", [0.001, 0.01, 0.049, 0.051, 0.3, 1.0])
def test_the_mean_of_a_leg_is_that_of_its_profile(tau):
    # Crank, The Mathematics of Diffusion (1975), equation 2.17: the profile of half a sheet, integrated here.
    def profile(x):
        k = np.arange(200)
        odd = 2 * k + 1
        return float(
            4
            / math.pi
            * np.sum(
                (-1.0) ** k / odd * np.exp(-(odd**2) * math.pi**2 / 4 * tau) * np.cos(odd * math.pi / 2 * x)
            )
        )

    assert float(mean_leg_air_frac(np.array(tau))) == pytest.approx(quad(profile, 0.0, 1.0)[0], abs=2e-6)


@tried(100)
@given(tau=st.floats(0.0, 5.0))
def test_the_closed_end_holds_the_most_of_a_leg(tau):
    mean, end = float(mean_leg_air_frac(np.array(tau))), float(closed_end_air_frac(np.array(tau)))
    assert 0.0 <= mean <= end + 1e-6 <= 1.0 + 2e-6


def test_the_root_of_a_spool_without_dead_legs_is_its_body_s():
    course = purge_spool(spool_case(straight_spool(0.0)))
    assert course.root is course.body


def test_all_air_that_leaves_a_leg_leaves_the_spool_by_the_vent():
    flow = 15.0 * L_MIN
    course = purge_spool(spool_case(spool_with_branch(90.0)))
    times = np.concatenate([[0.0], np.geomspace(0.01, 4e4, 4000)])
    oxygen = course.root.trace(times)
    out = flow * np.trapezoid(oxygen[:, 2], times)
    held = course.case.spool.volume_m3 * (oxygen[0, 1] - oxygen[-1, 1])
    assert out == pytest.approx(held, rel=0.01)


@pytest.mark.parametrize("model", [PurgeModel.LAYERED, PurgeModel.PERFECT_MIXING, PurgeModel.DISPLACEMENT])
def test_a_leg_holds_the_root_up_and_never_lowers_it(model):
    course = purge_spool(spool_case(spool_with_branch(90.0), model=model))
    for time_s in (10.0, 100.0, 1000.0, 10000.0):
        assert course.root.oxygen_at(time_s).expected >= course.body.oxygen_at(time_s).expected
    assert course.root.time_to(0.001).expected > course.body.time_to(0.001).expected
    at = course.root.time_to(0.001)
    assert course.root.oxygen_at(at.expected).expected == pytest.approx(0.001, rel=0.02)
    assert at.lower < at.expected < at.upper


def test_a_mixed_body_sees_what_leaves_its_leg_over_the_flow():
    course = purge_spool(spool_case(spool_with_branch(90.0), model=PurgeModel.PERFECT_MIXING))
    (leg,) = course.dead_legs
    # Crank 4.18, its derivative at late times, and the balance of a stirred tank: x = 0.2095 F / Q.
    per_s = leg.diffusivity_m2_s / leg.length_m**2
    for time_s in (8000.0, 15000.0):
        given_off = leg.volume_m3 * per_s * 2.0 * math.exp(-(math.pi**2) / 4.0 * per_s * (time_s - 300.0))
        assert course.root.oxygen_at(time_s).expected == pytest.approx(
            0.2095 * given_off / (15.0 * L_MIN), rel=0.04
        )


def test_a_root_in_the_leg_sees_its_closed_end_and_one_anywhere_the_worst_of_all():
    inside = replace(spool_with_branch(90.0), joint_at=Point(part="branch"))
    anywhere = replace(spool_with_branch(90.0), joint_at=None)
    for spool in (inside, anywhere):
        course = purge_spool(spool_case(spool))
        assert course.root.time_to(0.001).expected == pytest.approx(course.time_to(0.001).expected, rel=0.01)
        (at_end,) = course.leg_oxygen_at(600.0)
        assert course.root.oxygen_at(600.0).expected == pytest.approx(at_end, rel=1e-3)


def test_less_flow_thins_what_a_leg_gives_off_less():
    segments = (
        FlowSegment(flow_m3_s=15.0 * L_MIN, duration_s=1800.0),
        FlowSegment(flow_m3_s=5.0 * L_MIN, duration_s=600.0),
    )
    course = purge_spool(spool_case(spool_with_branch(90.0), segments=segments))
    before = course.root.oxygen_at(1799.0).expected
    assert highest_o2_frac(course.root, from_s=1801.0, until_s=2400.0) > 2.0 * before
    assert course.root.trace(np.array([])).shape[0] == 0


def test_a_floor_stays_a_floor_and_a_short_purge_never_gets_there():
    course = purge_spool(spool_case(spool_with_branch(90.0), source_o2_frac=5e-6))
    assert course.root.time_to(4e-6) is None
    assert highest_o2_frac(course.root, from_s=1e6, until_s=math.inf) == pytest.approx(5e-6, rel=0.01)
    short = (FlowSegment(flow_m3_s=15.0 * L_MIN, duration_s=900.0),)
    assert purge_spool(spool_case(spool_with_branch(90.0), segments=short)).root.time_to(0.001) is None


def test_holes_face_as_the_wall_or_the_end_that_they_are_in():
    spool = straight_spool(30.0)
    at = {"part": "run", "across_frac": 0.5}
    assert facing_up_deg(spool, point=Point(along_frac=1.0, **at)) == pytest.approx(30.0)
    assert facing_up_deg(spool, point=Point(along_frac=0.0, **at)) == pytest.approx(-30.0)
    # By hand: a hole in the crown of a pipe at 30 degrees looks up at 60.
    crown = Point(part="run", along_frac=0.5, across_frac=1.0)
    assert facing_up_deg(spool, point=crown) == pytest.approx(60.0)
    assert not is_in_end_face(RISER_SPOOL, point=Point(part="tee outlet", along_frac=1.0))
    assert is_in_end_face(RISER_SPOOL, point=Point(part="tee", along_frac=1.0))


def test_a_share_of_the_body_s_height_is_counted_from_its_lowest_point():
    spool = straight_spool(0.0)
    for across in (0.0, 0.3, 1.0):
        point = Point(part="run", across_frac=across)
        assert height_in_body_frac(spool, point=point, body=spool.pieces) == pytest.approx(across)
    riser = Point(part="riser", along_frac=1.0)
    assert height_in_body_frac(RISER_SPOOL, point=riser, body=body_of(RISER_SPOOL, gas_sinks=True)) == 1.0


def test_what_lies_beyond_the_vent_of_a_level_run_is_the_segment_above_it():
    # flow_checks.csv V-15: vent at 0.95 of the inside height, 1.869 % of the section (fluids, scipy quad).
    spool = straight_spool(0.0, vent_across_frac=0.95)
    assert beyond_vents_frac(spool, gas_sinks=True) == pytest.approx(0.0186930367, rel=1e-6)
    assert beyond_vents_frac(spool, gas_sinks=False) == pytest.approx(1.0 - 0.0186930367, rel=1e-6)


def test_the_gas_diffuses_out_of_a_leg_as_fast_as_into_it():
    legs = purge_spool(spool_case(spool_with_branch(-90.0), symbol="I2")).dead_legs
    argon = purge_spool(spool_case(spool_with_branch(90.0))).dead_legs
    # Argon 0.189 and helium 0.657 cm2/s in air at 20 degC, from memory; times go with their ratio.
    assert argon[0].time_to(0.001) / legs[0].time_to(0.001) == pytest.approx(0.657 / 0.189, rel=0.1)
    assert legs[0].length_m == pytest.approx(argon[0].length_m)


def test_a_line_that_falls_out_of_a_spool_drains_it_between_its_own_heights():
    slope = straight_spool(30.0)
    spooled, straight = purge_spool(spool_case(slope)).body.case, base_case(slope_deg=30.0)
    there, here = (line_fallen_out(case, opening_m=0.01, duration_s=60.0) for case in (spooled, straight))
    for one, other in zip(there.air_in, here.air_in, strict=True):
        assert (one.height_frac, one.flow_m3_s) == pytest.approx(
            (other.height_frac, other.flow_m3_s), rel=0.02
        )
    # A level run under a dead riser: the riser's height lies between no openings.
    level = replace(RISER_SPOOL, joint_at=None)
    (drained, *_) = line_fallen_out(
        purge_spool(spool_case(level)).body.case, opening_m=0.01, duration_s=60.0
    ).air_in
    space = purge_spool(spool_case(level)).body.case.space
    assert space.height_m == pytest.approx(0.1)
    assert drained.height_frac == pytest.approx(max(space.inlet_frac, space.vent_frac))
