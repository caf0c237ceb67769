"""Heat at the dams: bounds against each other, a finite-difference run, and the shape."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.arc_heat import (
    MovingArc,
    SteadyFin,
    moving_source_peak_k,
    moving_source_temperature_k,
    steady_fin_temperature_k,
)
from trainer.core.dam_heat import (
    dam_limit_k,
    distance_for_peak_m,
    heat_input_j_m,
    material_effect_k,
    metal,
    peak_temperature_k,
)
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.pass_heat import (
    CooledWall,
    Passes,
    peak_with_loss_k,
    peaks_with_loss_k,
    safe_distance_m,
)
from trainer.core.terms import MaterialGroup

STEEL = metal(MaterialGroup.AUSTENITIC_STAINLESS)
AMBIENT = 293.15
DISTANCES = st.floats(0.02, 0.5)
INPUTS = st.floats(1e5, 2e6)
WALLS = st.floats(0.001, 0.02)
PASSES = st.builds(Passes, heat_input_j_m=INPUTS, count=st.integers(1, 8), interval_s=st.floats(1.0, 3600.0))


def bare_peak_k(distance, heat_input, wall):
    return peak_temperature_k(
        distance, heat_input_j_m=heat_input, wall_m=wall, metal=STEEL, ambient_k=AMBIENT
    )


def cooled(wall, loss=10.0):
    return CooledWall(wall_m=wall, metal=STEEL, ambient_k=AMBIENT, loss_w_m2_k=loss)


@SHAPE
@given(DISTANCES, INPUTS, WALLS)
def test_distance_for_a_peak_is_the_inverse_of_the_peak(distance, heat_input, wall):
    peak = bare_peak_k(distance, heat_input, wall)
    back = distance_for_peak_m(peak, heat_input_j_m=heat_input, wall_m=wall, metal=STEEL, ambient_k=AMBIENT)
    assert back == pytest.approx(distance)


@SHAPE
@given(DISTANCES, INPUTS, WALLS, st.floats(0.0, 50.0))
def test_loss_never_makes_it_hotter_and_none_gives_the_bound(distance, heat_input, wall, loss):
    one = Passes(heat_input_j_m=heat_input)
    bound = bare_peak_k(distance, heat_input, wall)
    assert peak_with_loss_k(distance, passes=one, wall=cooled(wall, loss)) <= bound * (1 + 1e-9)
    assert peak_with_loss_k(distance, passes=one, wall=cooled(wall, 0.0)) == pytest.approx(bound, rel=1e-6)


@SHAPE
@given(DISTANCES, INPUTS, WALLS, st.integers(1, 10), st.floats(60.0, 3600.0))
def test_another_pass_never_makes_it_cooler(distance, heat_input, wall, count, interval):
    peaks = [
        peak_with_loss_k(
            distance,
            passes=Passes(heat_input_j_m=heat_input, count=n, interval_s=interval),
            wall=cooled(wall),
        )
        for n in (count, count + 1)
    ]
    assert peaks[1] >= peaks[0] * (1 - 1e-6)


@SHAPE
@given(st.floats(0.05, 0.5), st.floats(1.0, 2.0))
def test_each_source_is_cooler_farther_away(distance, times_farther):
    arc = MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034, metal=STEEL, ambient_k=AMBIENT)
    fin = SteadyFin(power_w=616.0, outside_diameter_m=0.1683, wall_m=0.0034, metal=STEEL, ambient_k=AMBIENT)
    far = distance * times_farther
    assert moving_source_peak_k(arc, aside_m=far) <= moving_source_peak_k(arc, aside_m=distance)
    assert steady_fin_temperature_k(fin, distance_m=far) <= steady_fin_temperature_k(fin, distance_m=distance)
    assert bare_peak_k(far, 616e3, 0.0034) <= bare_peak_k(distance, 616e3, 0.0034)


@SHAPE
@given(st.floats(0.05, 0.3))
def test_moving_source_comes_to_the_ring_source_far_from_the_weld(distance):
    """Far away a moving line source is an instantaneous one: x v / alpha above 10 makes it good to 2 %."""
    arc = MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034, metal=STEEL, ambient_k=AMBIENT)
    rise = moving_source_peak_k(arc, aside_m=distance) - AMBIENT
    assert rise == pytest.approx(bare_peak_k(distance, 616e3, 0.0034) - AMBIENT, rel=0.02)


def test_ring_source_with_loss_agrees_with_a_finite_difference_run():
    """Explicit scheme, 0.5 mm steps, half the heat in the middle cell of a symmetric rod."""
    step, alpha, plate = 0.0005, STEEL.diffusivity_m2_s, STEEL.heat_capacity_j_m3_k * 0.0034
    cells = np.zeros(801)
    cells[0] = 616e3 / plate / step
    dt, hottest = 0.4 * step**2 / alpha, 0.0
    for _ in range(int(700 / dt)):
        before = np.concatenate(([cells[1]], cells[:-1]))
        after = np.concatenate((cells[1:], [cells[-1]]))
        cells = cells + dt * (alpha * (before - 2 * cells + after) / step**2 - 10.0 * cells / plate)
        hottest = max(hottest, cells[100])
    ours = peak_with_loss_k(0.05, passes=Passes(heat_input_j_m=616e3), wall=cooled(0.0034))
    assert ours - AMBIENT == pytest.approx(hottest, rel=3e-3)


@SHAPE
@given(st.lists(DISTANCES, min_size=1, max_size=5), INPUTS, WALLS, st.integers(1, 6), st.floats(0.0, 50.0))
def test_several_distances_at_once_are_each_as_alone(distances, heat_input, wall, count, loss):
    passes = Passes(heat_input_j_m=heat_input, count=count)
    together = peaks_with_loss_k(np.array(distances), passes=passes, wall=cooled(wall, loss))
    alone = [peak_with_loss_k(each, passes=passes, wall=cooled(wall, loss)) for each in distances]
    assert together.tolist() == pytest.approx(alone, rel=1e-12)


@SHAPE
@given(st.floats(313.0, 600.0), PASSES, WALLS, st.floats(0.0, 50.0))
def test_at_the_safe_distance_the_passes_heat_it_to_the_limit(limit, passes, wall, loss):
    distance = safe_distance_m(limit, passes=passes, wall=cooled(wall, loss))
    peak = peak_with_loss_k(distance, passes=passes, wall=cooled(wall, loss))
    assert peak == pytest.approx(limit, abs=1e-4 * (limit - AMBIENT))


@SHAPE
@given(PASSES, WALLS, st.floats(0.0, 50.0), st.floats(313.0, 500.0), st.floats(1.0, 1.5))
def test_a_lower_limit_or_more_heat_never_lets_it_come_nearer(passes, wall, loss, limit, times):
    here, hotter = (
        safe_distance_m(limit_k, passes=passes, wall=cooled(wall, loss)) for limit_k in (limit, limit * times)
    )
    more = replace(passes, heat_input_j_m=passes.heat_input_j_m * times)
    assert hotter <= here * (1 + 1e-6)
    assert safe_distance_m(limit, passes=more, wall=cooled(wall, loss)) >= here * (1 - 1e-6)


def test_an_arc_too_weak_to_matter_is_safe_right_at_the_weld():
    """1 J/m in 20 mm: 1 / (3.95e6 x 0.02 x 80 x 4.133) = 3.8e-8 m for 100 degC, by hand; twice that for two."""
    weak = Passes(heat_input_j_m=1.0, count=2)
    assert safe_distance_m(373.15, passes=weak, wall=cooled(0.02)) == pytest.approx(7.66e-8, rel=0.01)


def test_safe_distances_of_the_root_pass_against_published_peaks():
    """T-10 and T-17 of flow_checks.csv the other way round: 80.7 degC at 100 mm with loss, 100 at 139 without."""
    one = Passes(heat_input_j_m=616e3)
    assert safe_distance_m(273.15 + 80.685378, passes=one, wall=cooled(0.0034)) == pytest.approx(
        0.1, rel=2e-3
    )
    assert safe_distance_m(373.15, passes=one, wall=cooled(0.0034, 0.0)) == pytest.approx(0.13873, rel=2e-3)


def test_moving_source_is_hotter_behind_the_arc_than_ahead_of_it():
    arc = MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034, metal=STEEL, ambient_k=AMBIENT)
    behind, ahead = (moving_source_temperature_k(arc, ahead_m=x, aside_m=0.02) for x in (-0.03, 0.03))
    assert behind > ahead > AMBIENT
    far_behind = moving_source_temperature_k(arc, ahead_m=-5.0, aside_m=0.02)
    assert math.isfinite(far_behind)


def test_heat_input_of_the_root_pass_is_616_j_per_mm():
    """80 A x 11 V x 0.7 / 1 mm/s = 616 J/mm, by hand."""
    found = heat_input_j_m(80.0, voltage_v=11.0, efficiency_frac=0.7, travel_speed_m_s=1e-3)
    assert found == pytest.approx(616e3)


@pytest.mark.parametrize("group", list(MaterialGroup))
def test_each_material_group_has_its_metal(group):
    assert 1e-6 < metal(group).diffusivity_m2_s < 2e-5


def test_unknown_dams_and_materials_name_those_that_are_known():
    with pytest.raises(UnknownName, match="metal plate"):
        dam_limit_k("chewing gum")
    with pytest.raises(UnknownName, match="polypropylene: melting"):
        material_effect_k("polypropylene", effect="dancing")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: bare_peak_k(0.0, 616e3, 0.0034),
        lambda: distance_for_peak_m(
            290.0, heat_input_j_m=616e3, wall_m=0.0034, metal=STEEL, ambient_k=AMBIENT
        ),
        lambda: heat_input_j_m(80.0, voltage_v=11.0, efficiency_frac=1.7, travel_speed_m_s=1e-3),
        lambda: heat_input_j_m(80.0, voltage_v=11.0, efficiency_frac=0.7, travel_speed_m_s=0.0),
        lambda: Passes(heat_input_j_m=616e3, count=0),
        lambda: cooled(0.5),
        lambda: MovingArc(power_w=-1.0, speed_m_s=1e-3, wall_m=0.003, metal=STEEL, ambient_k=AMBIENT),
        lambda: SteadyFin(
            power_w=1.0,
            outside_diameter_m=0.1,
            wall_m=0.003,
            metal=STEEL,
            ambient_k=AMBIENT,
            loss_w_m2_k=0.0,
        ),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
