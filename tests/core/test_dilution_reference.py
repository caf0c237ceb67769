"""The layered purge against routes outside it: 3-D simulation, closed forms, and an ODE solver."""

import math

import numpy as np
import pytest
from closed_vessel import closed_vessel_air_frac
from purge_cases import TARGETS, base_case, course_of, simulated_rows
from scipy.integrate import quad, solve_ivp

from trainer.core.dilution import purge
from trainer.core.gas_column import gas_column
from trainer.core.layers import Mixing
from trainer.core.purge_courses import mixing_of
from trainer.core.purge_groups import situation
from trainer.core.stirring import closure

ROWS = simulated_rows()
JUDGE_ROWS = [row for row in ROWS if not row.is_fit_row]


def ratios(row):
    """Simulated over modelled time at each target."""
    course = purge(row.case)
    return {
        target: row.volume_changes[target] * course.volume_change_s / course.time_to(o2_frac).expected
        for target, o2_frac in TARGETS.items()
    }


def is_held(row, target):
    course = purge(row.case)
    interval = course.time_to(TARGETS[target])
    return interval.lower <= row.volume_changes[target] * course.volume_change_s <= interval.upper


# Rows that judge but that the width of an interval was chosen with in sight, for want of another of their kind.
SEEN_ROWS = ("F15_jet_fall10_Q5",)


def test_the_rows_lie_in_the_tested_range():
    assert len(ROWS) == 43
    assert len(JUDGE_ROWS) == 17
    assert all(purge(row.case).beyond_tested_range == () for row in ROWS)


def test_the_interval_holds_nine_in_ten_of_the_rows_that_were_not_fitted(record_property):
    for row in JUDGE_ROWS:
        record_property(row.name, {target: round(ratio, 3) for target, ratio in ratios(row).items()})
    held = [is_held(row, target) for row in JUDGE_ROWS if row.name not in SEEN_ROWS for target in TARGETS]
    assert sum(held) / len(held) >= 0.9


@pytest.mark.parametrize("rows", [ROWS, [row for row in ROWS if row.is_fit_row]], ids=["all", "fitted"])
def test_the_interval_holds_nine_in_ten_of_the_rows(rows):
    held = [is_held(row, target) for row in rows for target in TARGETS]
    assert sum(held) / len(held) >= 0.9


def test_nine_in_ten_of_the_times_that_were_not_fitted_lie_within_a_quarter():
    # At 1 % and 1000 ppm. Not so: 40 L/min to 1 %, and the weak jet in a falling pipe.
    close = [
        0.8 <= ratio <= 1.25
        for row in JUDGE_ROWS
        for target, ratio in ratios(row).items()
        if target != "100ppm"
    ]
    assert len(close) == 34
    assert sum(close) / len(close) >= 0.9


def test_the_expected_time_lies_within_a_tenth_of_half_the_rows_that_were_not_fitted():
    errors = [abs(math.log(ratio)) for row in JUDGE_ROWS for ratio in ratios(row).values()]
    assert np.median(errors) < math.log(1.1)


def test_the_layered_model_beats_perfect_mixing_on_the_diffuser_rows_that_were_not_fitted():
    rows = [row for row in JUDGE_ROWS if row.case.inlet.face_area_m2 and row.case.inlet.end == "diffuser"]
    mixed = [
        abs(math.log(row.volume_changes[target] / math.log(0.2095 / o2_frac)))
        for row in rows
        for target, o2_frac in TARGETS.items()
    ]
    layered = [abs(math.log(ratio)) for row in rows for ratio in ratios(row).values()]
    assert np.median(layered) < np.median(mixed) / 2.0


def test_in_a_wrong_set_up_the_vent_hides_the_pocket_as_simulated():
    # Wrong: diffuser with a low or middle vent, argon. Root over vent 2.4 to 8 at one volume change in the runs.
    # The rows of slopes list no readings at the vent.
    rows = [row for row in ROWS if row.root_over_vent and purge(row.case).vent_margin_ratio is None]
    assert len(rows) >= 5
    for row in rows:
        course = purge(row.case)
        if row.case.gas.symbol == "I1":
            now = course.volume_change_s
            modelled = course.oxygen_at(now).expected / course.vent_oxygen_at(now)
            assert modelled == pytest.approx(row.root_over_vent[1], rel=0.25)


def test_the_margin_on_a_vent_reading_covers_nine_in_ten_of_the_rows():
    covered = [
        ratio <= purge(row.case).vent_margin_ratio
        for row in ROWS
        for ratio in row.root_over_vent.values()
        if purge(row.case).vent_margin_ratio is not None
    ]
    assert len(covered) > 20
    assert sum(covered) / len(covered) >= 0.9


@pytest.mark.parametrize("peclet", [1.0, 5.0, 20.0])
@pytest.mark.parametrize("volume_changes", [0.3, 1.0, 2.0])
def test_a_stirred_upright_column_meets_the_closed_vessel_of_danckwerts(peclet, volume_changes):
    case = base_case(slope_deg=90.0)
    velocity = case.segments[0].flow_m3_s / case.section.area_m2
    mixing = Mixing(diffusivity_m2_s=velocity * case.section.length_m / peclet, stirring_m2_s=0.0)
    course = course_of(case, mixing=mixing, layers_count=400)
    time = volume_changes * case.section.length_m / velocity
    root, _, vent = course.root_mean_vent(np.array([time]))[0]
    # Second order in the layer's depth, with 400 layers.
    assert vent == pytest.approx(closed_vessel_air_frac(1.0, volume_changes, peclet), abs=1e-3)
    assert root == pytest.approx(closed_vessel_air_frac(0.5, volume_changes, peclet), abs=1e-3)


@pytest.mark.parametrize("peclet", [2.0, 10.0])
@pytest.mark.parametrize("reaction", [0.5, 3.0])
def test_the_residence_times_give_the_conversion_of_wehner_and_wilhelm(peclet, reaction):
    # c_out/c_in = 4 a e^(Pe/2) / [(1+a)^2 e^(a Pe/2) - (1-a)^2 e^(-a Pe/2)], a = sqrt(1 + 4 k / Pe)
    # (Wehner and Wilhelm, Chem. Eng. Sci. 6 (1956) 89); it is the mean of exp(-k n) over residence times.
    a = math.sqrt(1.0 + 4.0 * reaction / peclet)
    expected = (
        4.0
        * a
        * math.exp(peclet / 2.0)
        / ((1.0 + a) ** 2 * math.exp(a * peclet / 2.0) - (1.0 - a) ** 2 * math.exp(-a * peclet / 2.0))
    )
    case = base_case(slope_deg=90.0)
    change_s = case.section.volume_m3 / case.segments[0].flow_m3_s
    mixing = Mixing(diffusivity_m2_s=case.section.length_m**2 / change_s / peclet, stirring_m2_s=0.0)
    course = course_of(case, mixing=mixing, layers_count=400)
    n = np.linspace(0.0, 15.0, 6001)
    vent = course.root_mean_vent(n * change_s)[:, 2]
    reacted = 1.0 - reaction * np.trapezoid(vent * np.exp(-reaction * n), n)
    assert reacted == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("vent_height_frac", [0.08, 0.5, 0.925])
@pytest.mark.parametrize("stirring_m2_s", [0.0, 5e-5])
def test_an_ode_solver_on_the_same_balance_gives_the_same_air(vent_height_frac, stirring_m2_s):
    case = base_case(vent_height_frac=vent_height_frac)
    diffusivity, count = 1.9e-5, 32
    bore, length, flow = case.section.bore_m, case.section.length_m, case.segments[0].flow_m3_s
    edges = np.linspace(0.0, bore, count + 1)

    def width(z):
        return 2.0 * math.sqrt(max(z * (bore - z), 0.0))

    def area(low, high):
        return quad(width, low, high, epsabs=1e-14, limit=200)[0] if high > low else 0.0

    def hole(low, high):
        centre, radius = vent_height_frac * bore, case.vent.diameter_m / 2.0
        low, high = max(low, centre - radius), min(high, centre + radius)
        return (
            quad(lambda z: math.sqrt(max(radius**2 - (z - centre) ** 2, 0.0)), low, high)[0]
            if high > low
            else 0.0
        )

    layers = list(zip(edges[:-1], edges[1:], strict=True))
    volumes = np.array([area(low, high) * length for low, high in layers])
    supply = np.array([area(low, min(high, 0.015)) for low, high in layers])
    exits = np.array([hole(low, high) for low, high in layers])
    supply, exits = flow * supply / supply.sum(), flow * exits / exits.sum()

    def fitted(x):
        return 1.0 - x / 2.0 if abs(x) < 1e-8 else x / math.expm1(x)

    def rate(_, air):
        change, upward = -exits * air, 0.0
        for k in range(count - 1):
            upward += supply[k] - exits[k]
            conductance = width(edges[k + 1]) * length * (diffusivity + stirring_m2_s) / (bore / count)
            x = upward / conductance
            flux = conductance * (fitted(-x) * air[k] - fitted(x) * air[k + 1])
            change[k] -= flux
            change[k + 1] += flux
        return change / volumes

    times = np.array([10.0, 50.0, 150.0, 400.0])
    solved = solve_ivp(
        rate, (0.0, 400.0), np.ones(count), method="LSODA", t_eval=times, rtol=1e-10, atol=1e-13
    )
    course = course_of(case, mixing=Mixing(diffusivity_m2_s=diffusivity, stirring_m2_s=stirring_m2_s))
    for time, air in zip(times, solved.y.T, strict=True):
        assert course.profile(time)[1] == pytest.approx(air, abs=1e-6)


def test_endless_stirring_is_perfect_mixing():
    change_s = base_case().section.volume_m3 / base_case().segments[0].flow_m3_s
    n = np.array([0.5, 1.0, 3.0, 6.0])
    mixed = np.repeat(np.exp(-n)[:, np.newaxis], 3, axis=1)
    error = []
    for diffusivity in (1.0, 10.0):
        course = course_of(base_case(), mixing=Mixing(diffusivity_m2_s=diffusivity, stirring_m2_s=0.0))
        error.append(np.abs(course.root_mean_vent(n * change_s) / mixed - 1.0).max())
    assert error[1] < 1e-3
    assert error[1] < 0.2 * error[0]


@pytest.mark.parametrize("slope_deg", [0.0, 90.0])
def test_without_any_mixing_and_the_vent_at_the_crown_the_air_is_driven_out(slope_deg):
    case = base_case(slope_deg=slope_deg, vent_height_frac=1.0 - 0.001 / 0.161, vent_diameter_m=0.002)
    change_s = case.section.volume_m3 / case.segments[0].flow_m3_s
    n = np.array([0.3, 0.6, 0.8, 1.1])
    # The front is as thick as a few layers: it narrows as their number grows.
    error = []
    for count in (100, 400):
        course = course_of(case, mixing=Mixing(diffusivity_m2_s=1e-12, stirring_m2_s=0.0), layers_count=count)
        error.append(np.abs(course.root_mean_vent(n * change_s)[:, 1] - np.maximum(1.0 - n, 0.0)).max())
    assert error[1] < 0.01
    assert error[1] < 0.6 * error[0]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_four_times_the_layers_hardly_change_the_time(row):
    flow = row.case.segments[0].flow_m3_s
    stirring = closure(situation(row.case, flow_m3_s=flow)).expected
    mixing = mixing_of(row.case, flow_m3_s=flow, stirring=stirring)
    count = gas_column(row.case).volume_m3.size
    for o2_frac in TARGETS.values():
        usual, fine = (
            course_of(row.case, mixing=mixing, layers_count=n).last_time_above(o2_frac / 0.2095)
            for n in (count, 4 * count)
        )
        assert usual == pytest.approx(fine, rel=0.1 if row.case.section.slope_deg else 0.03)
