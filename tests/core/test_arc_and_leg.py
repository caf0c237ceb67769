"""The moving arc and the dead leg against analytical solutions written another way."""

import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar
from scipy.special import k0

from trainer.core.arc_heat import MovingArc, moving_source_peak_k, moving_source_temperature_k
from trainer.core.closure import constant
from trainer.core.dam_heat import dam_limit_k, metal
from trainer.core.dead_leg import DeadLeg, closed_end_air_frac
from trainer.core.leg_course import LegCourse
from trainer.core.purge_parts import FlowSegment
from trainer.core.terms import MaterialGroup

STAINLESS = metal(MaterialGroup.AUSTENITIC_STAINLESS)
ARC = MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034, metal=STAINLESS, ambient_k=293.15)


def _rosenthal_k(ahead_m, aside_m):
    """Rosenthal's thin plate with the plain Bessel function, which overflows far from the arc."""
    per_m = ARC.speed_m_s / (2.0 * STAINLESS.diffusivity_m2_s)
    scale = ARC.power_w / (2.0 * math.pi * STAINLESS.conductivity_w_m_k * ARC.wall_m)
    return ARC.ambient_k + scale * math.exp(-per_m * ahead_m) * k0(per_m * math.hypot(ahead_m, aside_m))


@pytest.mark.parametrize(
    ("ahead_m", "aside_m"),
    [(0.02, 0.01), (0.005, 0.0), (0.0, 0.02), (-0.02, 0.01), (-0.1, 0.03), (-0.05, 0.0)],
)
def test_moving_arc_is_rosenthal_s_thin_plate_ahead_beside_and_behind(ahead_m, aside_m):
    found = moving_source_temperature_k(ARC, ahead_m=ahead_m, aside_m=aside_m)
    assert found == pytest.approx(_rosenthal_k(ahead_m, aside_m), rel=1e-9)


@pytest.mark.parametrize("aside_m", [0.003, 0.01, 0.03, 0.06])
def test_peak_beside_a_moving_arc_is_the_maximum_along_the_plate(aside_m):
    found = minimize_scalar(
        lambda ahead_m: -_rosenthal_k(ahead_m, aside_m), bounds=(-2.0, 0.01), options={"xatol": 1e-9}
    )
    assert moving_source_peak_k(ARC, aside_m=aside_m) == pytest.approx(-found.fun, rel=1e-7)


@pytest.mark.parametrize("aside_m", [0.3, 3.0])
def test_far_from_the_line_the_peak_is_that_of_an_instant_line_of_heat(aside_m):
    # q / v = Q per length: dT = Q / (rho c t x sqrt(2 pi e)), rho c = k / alpha
    line_j_m = ARC.power_w / ARC.speed_m_s
    capacity = STAINLESS.conductivity_w_m_k / STAINLESS.diffusivity_m2_s
    by_hand = line_j_m / (capacity * ARC.wall_m * aside_m * math.sqrt(2.0 * math.pi * math.e))
    found = moving_source_peak_k(ARC, aside_m=aside_m) - ARC.ambient_k
    assert found == pytest.approx(by_hand, rel=0.01)


def test_limits_of_dams_are_in_kelvin():
    # data/dam_limits.csv: foam 100 degC, metal plate 250 degC
    assert dam_limit_k("foam") == pytest.approx(373.15)
    assert dam_limit_k("metal plate") == pytest.approx(523.15)


# --- a dead leg as a second stirred tank: its answer to a mouth that decays is known in closed form --------------


class TankLeg(DeadLeg):
    """A leg that decays as one stirred tank would, so that the course has a closed form."""

    def air_frac(self, elapsed_s):
        return np.exp(-elapsed_s / 200.0)

    def time_to(self, o2_frac):
        wanted = (o2_frac - self.source_o2_frac) / (0.2095 - self.source_o2_frac)
        return None if wanted <= 0.0 else max(0.0, -200.0 * math.log(wanted))


def _leg(source_o2_frac=0.0):
    return TankLeg(
        place="cap",
        mouth="tee",
        volume_m3=0.01,
        length_m=0.5,
        mouth_above_m=0.0,
        diffusivity_m2_s=1.9e-5,
        source_o2_frac=source_o2_frac,
    )


def _course(source_o2_frac=0.0, segments=None, mouth=lambda times_s: np.exp(-times_s / 50.0)):
    segments = segments or [FlowSegment(flow_m3_s=2.5e-4, duration_s=math.inf)]
    return LegCourse(_leg(source_o2_frac), mouth_air_frac=mouth, segments=segments)


def _tanks_in_series(time_s):
    """Two stirred tanks of 50 s and 200 s, both full of air at first (Levenspiel)."""
    return (200.0 * np.exp(-time_s / 200.0) - 50.0 * np.exp(-time_s / 50.0)) / 150.0


@pytest.mark.parametrize("source_o2_frac", [0.0, 0.01])
def test_a_leg_behind_a_decaying_mouth_is_two_tanks_in_series(source_o2_frac):
    times_s = np.linspace(0.0, 1500.0, 3001)
    found = _course(source_o2_frac).oxygen_at(times_s)
    expected = source_o2_frac + (0.2095 - source_o2_frac) * _tanks_in_series(times_s)
    assert found == pytest.approx(expected, abs=2e-5)


@pytest.mark.parametrize("o2_frac", [0.1, 0.01, 0.001])
def test_time_of_the_closed_end_is_found_between_its_grid_points(o2_frac):
    found = _course().time_to(o2_frac)
    exact_s = brentq(lambda time_s: 0.2095 * _tanks_in_series(time_s) - o2_frac, 1.0, 5000.0)
    assert found.expected == pytest.approx(exact_s, rel=2e-3)
    width = constant("gentle, upper") ** 2
    assert found.upper == pytest.approx(found.expected * width)
    assert found.lower == pytest.approx(_leg().time_to(o2_frac) / width)


def test_a_source_counts_in_the_time_of_the_closed_end():
    found = _course(0.01).time_to(0.02)
    exact_s = brentq(lambda time_s: 0.1995 * _tanks_in_series(time_s) - 0.01, 1.0, 5000.0)
    assert found.expected == pytest.approx(exact_s, rel=2e-3)
    assert _course(0.01).time_to(0.01) is None


def test_flows_that_end_too_soon_or_a_mouth_that_stays_foul_never_get_there():
    short = [FlowSegment(flow_m3_s=2.5e-4, duration_s=100.0), FlowSegment(flow_m3_s=1e-4, duration_s=100.0)]
    assert _course(segments=short).time_to(0.01) is None
    assert _course(segments=short).time_to(0.15).expected < 200.0
    assert _course(mouth=lambda times_s: 0.5 + 0.5 * np.exp(-times_s / 50.0)).time_to(0.05) is None
    foul_then_clean = _course(
        segments=[
            FlowSegment(flow_m3_s=2.5e-4, duration_s=3000.0),
            FlowSegment(flow_m3_s=5e-4, duration_s=math.inf),
        ],
        mouth=lambda times_s: (
            0.5 * np.exp(-times_s / 50.0) + 0.5 * np.exp(-np.maximum(times_s - 3000.0, 0.0) / 50.0)
        ),
    )
    assert 3000.0 < foul_then_clean.time_to(0.05).expected < 3600.0
    assert _course().time_to(0.3).expected == 0.0


@pytest.mark.parametrize("source_o2_frac", [0.0, 1e-3])
@pytest.mark.parametrize("o2_frac", [0.2, 0.05, 2e-3])
def test_time_of_a_leg_alone_is_the_inverse_of_its_air(source_o2_frac, o2_frac):
    leg = DeadLeg(
        place="cap",
        mouth="tee",
        volume_m3=0.01,
        length_m=0.5,
        mouth_above_m=0.0,
        diffusivity_m2_s=1.9e-5,
        source_o2_frac=source_o2_frac,
    )
    air = float(leg.air_frac(np.array([leg.time_to(o2_frac)]))[0])
    assert source_o2_frac + (0.2095 - source_o2_frac) * air == pytest.approx(o2_frac, rel=1e-8)
    assert leg.time_to(source_o2_frac) is None
    assert leg.time_to(0.2095) == 0.0


def test_a_long_settled_leg_falls_by_its_first_mode():
    # exp(-pi^2 tau / 4) once the others are gone: a tenth takes 4 ln 10 / pi^2 of L^2 / D
    late = closed_end_air_frac(np.array([1.0, 1.0 + 4.0 * math.log(10.0) / math.pi**2]))
    assert late[0] / late[1] == pytest.approx(10.0, rel=1e-6)
    assert late[0] == pytest.approx(4.0 / math.pi * math.exp(-(math.pi**2) / 4.0), rel=1e-6)
    assert closed_end_air_frac(np.array([0, 1])).tolist() == [1.0, late[0]]
