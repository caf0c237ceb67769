"""Where "about one foot" holds: against reference rows of heat, and its shape."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.dam_heat import dam_limit_k, metal, peak_temperature_k
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.heat_materials import heat_materials, material_limit_k
from trainer.core.one_foot import (
    ONE_FOOT_M,
    distances_to_limit_after_passes_m,
    distances_to_limit_m,
    largest_heat_input_j_m,
    peak_curves,
)
from trainer.core.pass_heat import CooledWall, Passes, peak_with_loss_k
from trainer.core.terms import MaterialGroup

STEEL, TITANIUM = metal(MaterialGroup.AUSTENITIC_STAINLESS), metal(MaterialGroup.TITANIUM)
AMBIENT = 293.15


def wall(wall_m=0.0034, loss=10.0):
    return CooledWall(wall_m=wall_m, metal=STEEL, ambient_k=AMBIENT, loss_w_m2_k=loss)


def celsius(value_k):
    return value_k - 273.15


def test_curves_meet_the_reference_rows():
    """T-01 to T-05 without loss, T-09 to T-11 with it: 616 J/mm, 3.4 mm (flow_checks.csv)."""
    distances = np.array([0.025, 0.05, 0.1, 0.15, 0.3])
    curves = peak_curves(distances, passes=Passes(heat_input_j_m=616e3), wall=wall())
    bare = [463.94331, 241.971655, 130.985827, 93.9905517, 56.9952758]
    assert celsius(curves.without_loss_k[0]).tolist() == pytest.approx(bare, rel=2e-3)
    lossy = celsius(curves.with_loss_k[0][[1, 2, 4]]).tolist()
    assert lossy == pytest.approx([203.197541, 80.685378, 22.2451919], rel=3e-3)


def test_eight_passes_in_a_heavy_wall_meet_their_rows():
    """T-12 and T-13: 900 J/mm each, 10.97 mm, 10 minutes apart, 52.7 degC at 300 mm and 146.3 at 150 mm."""
    passes = Passes(heat_input_j_m=900e3, count=8, interval_s=600.0)
    curves = peak_curves(np.array([0.15, 0.3]), passes=passes, wall=wall(0.01097))
    assert celsius(curves.with_loss_k[7]).tolist() == pytest.approx([146.323152, 52.6853117], rel=5e-3)


def test_one_foot_holds_for_a_root_pass_and_fails_for_titanium_with_much_heat():
    """Worked by hand, H / (rho c t rise 4.133): 616 J/mm in 3.4 mm stainless, tape at 66 degC: 0.241 m; 900 J/mm
    in 2.77 mm titanium: 900e3 / (2.35e6 x 0.00277 x 46 x 4.133) = 0.727 m."""
    tape = dam_limit_k("tape")
    at = {"walls_m": np.array([0.0034]), "ambient_k": AMBIENT}
    root = distances_to_limit_m(tape, heat_inputs_j_m=np.array([616e3]), metal=STEEL, **at)
    assert root[0, 0] == pytest.approx(0.2413, rel=1e-3)
    assert root[0, 0] < ONE_FOOT_M
    hot = distances_to_limit_m(
        tape,
        heat_inputs_j_m=np.array([900e3]),
        walls_m=np.array([0.00277]),
        metal=TITANIUM,
        ambient_k=AMBIENT,
    )
    assert hot[0, 0] == pytest.approx(0.7273, rel=1e-3)
    assert hot[0, 0] > ONE_FOOT_M


@SHAPE
@given(st.floats(1e5, 3e6), st.floats(0.001, 0.02), st.floats(320.0, 500.0))
def test_the_line_where_one_foot_ends_is_where_the_distance_is_one_foot(heat, wall_m, limit):
    most = largest_heat_input_j_m(ONE_FOOT_M, limit_k=limit, wall_m=wall_m, metal=STEEL, ambient_k=AMBIENT)
    there = peak_temperature_k(ONE_FOOT_M, heat_input_j_m=most, wall_m=wall_m, metal=STEEL, ambient_k=AMBIENT)
    assert there == pytest.approx(limit)
    found = distances_to_limit_m(
        limit, heat_inputs_j_m=np.array([heat]), walls_m=np.array([wall_m]), metal=STEEL, ambient_k=AMBIENT
    )
    assert bool(found[0, 0] <= ONE_FOOT_M) is (heat <= most) or heat == pytest.approx(most, rel=1e-9)


@SHAPE
@given(st.integers(1, 5), st.floats(1e5, 2e6), st.floats(330.0, 500.0))
def test_more_passes_reach_further_and_loss_shortens_their_reach(count, heat, limit):
    passes = Passes(heat_input_j_m=heat, count=count)
    bare, lossy = distances_to_limit_after_passes_m(limit, passes=passes, wall=wall())
    assert (np.diff(bare) >= -1e-9).all()
    assert (np.diff(lossy) >= -1e-9).all()
    assert (lossy <= bare * (1 + 1e-6)).all()


@SHAPE
@given(st.integers(1, 4), st.lists(st.floats(0.02, 1.0), min_size=1, max_size=4))
def test_each_curve_is_the_peak_of_its_number_of_passes(count, distances):
    curves = peak_curves(np.array(distances), passes=Passes(heat_input_j_m=616e3, count=4), wall=wall())
    each = [
        peak_with_loss_k(distance, passes=Passes(heat_input_j_m=616e3, count=count), wall=wall())
        for distance in distances
    ]
    assert curves.with_loss_k[count - 1].tolist() == pytest.approx(each, rel=1e-9)
    assert (curves.with_loss_k <= curves.without_loss_k * (1 + 1e-9)).all()


def test_the_first_harm_is_the_limit_of_a_material():
    """Rows T-18 and T-19 (melting, pslc.ws table citing Hilado 1998) within their 3 %; polyurethane foam gives off
    its first products at 200 degC, long before it flashes at 310."""
    assert celsius(material_limit_k("polypropylene")) == pytest.approx(170.0, rel=0.03)
    assert celsius(material_limit_k("nylon 6-6")) == pytest.approx(268.0, rel=0.03)
    assert celsius(material_limit_k("polyether polyurethane foam")) == pytest.approx(200.0)
    with pytest.raises(UnknownName) as refused:
        material_limit_k("asbestos")
    assert refused.value.known == heat_materials()


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: largest_heat_input_j_m(0.3, limit_k=290.0, wall_m=0.003, metal=STEEL, ambient_k=AMBIENT),
        lambda: largest_heat_input_j_m(0.0, limit_k=390.0, wall_m=0.003, metal=STEEL, ambient_k=AMBIENT),
        lambda: distances_to_limit_m(
            390.0, heat_inputs_j_m=np.array([-1.0]), walls_m=np.array([0.003]), metal=STEEL, ambient_k=AMBIENT
        ),
        lambda: distances_to_limit_m(
            390.0, heat_inputs_j_m=np.array([1.0]), walls_m=np.array([0.5]), metal=STEEL, ambient_k=AMBIENT
        ),
        lambda: peak_curves(np.array([0.0]), passes=Passes(heat_input_j_m=616e3), wall=wall()),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
