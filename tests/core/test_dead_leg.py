"""Diffusion out of a dead leg against closed forms and a solver, and the leg's mouth that clears slowly."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from trainer.core.dead_leg import DeadLeg, closed_end_air_frac
from trainer.core.leg_course import LegCourse
from trainer.core.purge_parts import FlowSegment

LEG = DeadLeg(
    place="riser",
    mouth="tee",
    volume_m3=0.01,
    length_m=0.5,
    mouth_above_m=0.16,
    diffusivity_m2_s=1.89e-5,
    source_o2_frac=0.0,
)
ENDLESS = (FlowSegment(flow_m3_s=2.5e-4, duration_s=math.inf),)


def test_the_closed_end_early_on_is_that_of_an_endless_leg_and_its_image():
    # Crank, The Mathematics of Diffusion, 2nd ed., 2.45: c = 1 - 2 erfc(1 / (2 sqrt(tau))) while tau is small;
    # by table erfc(1.5811) = 0.02535 at tau = 0.1.
    assert closed_end_air_frac(np.array([0.1]))[0] == pytest.approx(1.0 - 2.0 * 0.02535, abs=2e-5)


def test_the_closed_end_late_is_the_first_mode():
    # By hand: 4/pi exp(-pi^2 / 2) = 1.27324 x 0.0071919 at tau = 2.
    assert closed_end_air_frac(np.array([2.0]))[0] == pytest.approx(0.0091570, rel=1e-4)


@given(tau=st.floats(1e-3, 5.0), more=st.floats(1.0001, 2.0))
def test_the_closed_end_only_falls(tau, more):
    early, late = closed_end_air_frac(np.array([tau, tau * more]))
    assert 0.0 < late <= early <= 1.0


def test_the_two_series_meet():
    near = closed_end_air_frac(np.array([0.2 - 1e-9, 0.2 + 1e-9]))
    assert near[0] == pytest.approx(near[1], abs=1e-8)


def diffused(mouth, times, count=200):
    """Finite volumes on another route: mouth on the left, closed end on the right, unit length and diffusivity."""
    depth = 1.0 / count

    def rate(time, air):
        flux = np.empty(count + 1)
        flux[0] = 2.0 * (mouth(time) - air[0]) / depth
        flux[1:-1] = (air[:-1] - air[1:]) / depth
        flux[-1] = 0.0
        return (flux[:-1] - flux[1:]) / depth

    solved = solve_ivp(
        rate, (0.0, times[-1]), np.ones(count), "LSODA", t_eval=times, rtol=1e-8, atol=1e-10, lband=1, uband=1
    )
    return solved.y[-1]


def test_a_clean_mouth_by_finite_volumes():
    times = np.array([0.05, 0.2, 0.6, 1.5])
    assert closed_end_air_frac(times) == pytest.approx(diffused(lambda _: 0.0, times), abs=2e-4)


def test_a_mouth_that_clears_slowly_by_finite_volumes():
    unit_s = LEG.length_m**2 / LEG.diffusivity_m2_s
    course = LegCourse(
        LEG, mouth_air_frac=lambda times_s: np.exp(-times_s / (0.3 * unit_s)), segments=ENDLESS
    )
    times = np.linspace(0.0, 2.0, 400)
    by_course = course.oxygen_at(times * unit_s) / 0.2095
    by_volumes = diffused(lambda tau: math.exp(-tau / 0.3), times[1:])
    assert by_course[1:] == pytest.approx(by_volumes, abs=2e-3)


def test_the_time_that_a_leg_alone_needs():
    # By hand, first mode: 1 % is c = 0.04773, tau = 4/pi^2 ln(1.27324 / 0.04773) = 1.3309; L^2/D = 13,228 s.
    assert LEG.time_to(0.01) == pytest.approx(1.3309 * 13_228.0, rel=1e-3)
    assert LEG.time_to(0.21) == 0.0
    assert LEG.time_to(0.0) is None


def test_twice_the_length_needs_four_times_as_long_alone():
    double = DeadLeg(**(LEG.__dict__ | {"length_m": 1.0}))
    assert double.time_to(0.001) == pytest.approx(4.0 * LEG.time_to(0.001), rel=1e-9)


def test_behind_a_mouth_that_clears_at_once_the_leg_needs_its_own_time():
    course = LegCourse(
        LEG, mouth_air_frac=lambda times_s: np.where(times_s > 0.0, 0.0, 1.0), segments=ENDLESS
    )
    assert course.time_to(0.001).expected == pytest.approx(LEG.time_to(0.001), rel=0.01)


def test_a_leg_behind_a_mouth_that_never_clears_or_a_flow_that_ends_never_gets_there():
    foul = LegCourse(LEG, mouth_air_frac=lambda times_s: 0.0 * times_s + 0.1, segments=ENDLESS)
    assert foul.time_to(0.001) is None
    ending = (FlowSegment(flow_m3_s=2.5e-4, duration_s=600.0),)
    assert LegCourse(LEG, mouth_air_frac=lambda t: 0.0 * t, segments=ending).time_to(0.001) is None
    assert foul.time_to(0.0) is None
    assert foul.time_to(0.2099).expected == 0.0
