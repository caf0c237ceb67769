"""Heat of a set-up's weld at its dams, ropes and tapes, against reference rows and values worked by hand."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import codes, run_of

_SHAPE = settings(max_examples=60, deadline=None)

_NEW_FOAM = {"kind": "foam", "thickness": "100 mm", "age": "new"}


def _dam(**changes):
    return run_of(**changes).dams[0]


def _three(between):
    return {"arc__passes": 3, "arc__between_passes": between}


def test_one_pass_at_one_foot_and_the_distance_that_foam_needs():
    """T-05 and T-17 of flow_checks.csv: 57.0 degC at 300 mm; 100 degC at 138.7 mm."""
    dam = _dam()
    assert dam.temperature_c == pytest.approx(56.9952758, rel=2e-3)
    assert dam.limit_c == pytest.approx(100.0)
    assert dam.safe_distance_m == pytest.approx(0.138732284, rel=2e-3)


def test_an_arc_that_never_stops_is_the_bound_of_all_passes():
    """T-14 of flow_checks.csv, k 16: 33.1 degC at 300 mm. By hand with k 16.3 of 304: A = pi x 164.9 x 3.4 mm2,
    P = pi x 168.3 mm: m = 13.571 / m, 308 W / 0.38961 W/K x exp(-4.071) = 13.5 K above 20 degC."""
    assert _dam().steady_c == pytest.approx(33.49, abs=0.05)
    assert _dam().steady_c == pytest.approx(33.1027, rel=0.02)


def test_three_passes_are_the_sum_of_what_each_leaves():
    """By hand on a fine grid of times: ring sources 5 minutes apart without loss, summed."""
    alpha, plate = 16.3 / 3.95e6, 3.95e6 * 0.0034
    since = np.linspace(1.0, 2e4, 200_001)[:, None] + 300.0 * np.arange(3)
    rises = 616e3 / plate / np.sqrt(4 * np.pi * alpha * since) * np.exp(-(0.3**2) / (4 * alpha * since))
    assert _dam(**_three("5 min")).temperature_c == pytest.approx(
        20.0 + float(rises.sum(axis=1).max()), rel=1e-5
    )


def test_passes_ten_minutes_apart_when_nobody_says():
    assert _dam(arc__passes=3).temperature_c == _dam(**_three("10 min")).temperature_c


@_SHAPE
@given(st.integers(1, 8), st.floats(1.0, 140.0), st.floats(1.0, 10.0))
def test_a_longer_pause_never_makes_a_dam_hotter(passes, minutes, times):
    soon, later = (
        _dam(arc__passes=passes + 1, arc__between_passes=f"{pause!r} min")
        for pause in (minutes, minutes * times)
    )
    assert later.temperature_c <= soon.temperature_c * (1 + 1e-9)
    assert later.safe_distance_m <= soon.safe_distance_m * (1 + 1e-6)


@_SHAPE
@given(
    st.floats(20.0, 2000.0), st.integers(1, 5), st.sampled_from(["foam", "metal plate", "tape", "inflatable"])
)
def test_a_dam_is_within_its_limit_exactly_beyond_its_safe_distance(distance_mm, passes, kind):
    dam = _dam(
        section__left_dam=f"{distance_mm!r} mm", arc__passes=passes, dams=[{"side": "left", "kind": kind}]
    )
    if abs(distance_mm / 1000.0 / dam.safe_distance_m - 1.0) > 1e-6:
        assert (dam.temperature_c < dam.limit_c) is (distance_mm / 1000.0 > dam.safe_distance_m)


def test_on_a_site_as_hot_as_the_limit_no_distance_is_safe():
    tape = {"dams": [{"side": "left", "kind": "tape"}]}
    assert _dam(temperature="60 degC", **tape).safe_distance_m is not None
    hot = run_of(temperature="60 degC", near_heat=[{"material": "paper masking tape", "distance": "1 m"}])
    assert hot.near_heat[0].safe_distance_m > 1.0


def test_passes_that_build_up_are_cautioned_from_the_second_one():
    """T-16 of flow_checks.csv: chromium-molybdenum, 168.3 x 10.97, 900 W without end, 115.5 degC at 300 mm."""
    heavy = {
        "material": "chromium-molybdenum", "pipe": {"nps": "6", "schedule": "80"}, "arc__current": "120 A",
        "arc__voltage": "12.5 V", "arc__efficiency": 0.6,
    }  # fmt: skip
    assert _dam(**heavy).steady_c == pytest.approx(115.54081, rel=2e-3)
    assert "dams-heat-up" not in codes(**heavy)
    assert "dams-heat-up" in codes(**heavy, arc__passes=2)
    assert "dams-heat-up" not in codes(**heavy, arc__passes=2, section__left_dam="400 mm")


def test_a_dam_that_its_peak_spoils_gets_no_second_word():
    hot = codes(section__left_dam="80 mm", **_three("5 min"))
    assert "dam-too-close" in hot
    assert "dams-heat-up" not in hot


def test_a_rope_has_to_lead_all_the_way_out():
    """The dam stands 0.3 m from the joint and the pipe ends 3 m from it: 2.7 m of rope reach the end, no more."""
    ends = {"section__left_end": "3 m", "section__right_end": "6 m"}

    def with_rope(side, rope):
        return {"dams": [{"side": side, **_NEW_FOAM, "rope": rope}], **ends}

    assert _dam(**with_rope("left", "2.71 m")).rope_long_enough is True
    assert _dam(**with_rope("left", "2.69 m")).rope_long_enough is False
    assert _dam(**with_rope("right", "2.71 m")).rope_long_enough is False
    assert "rope-too-short" in codes(**with_rope("right", "2.71 m"))
    assert "rope-too-short" not in codes(**with_rope("left", "2.71 m"))


def test_a_rope_without_the_pipes_end_is_not_judged():
    dams = [{"side": "left", **_NEW_FOAM, "rope": "1 m"}]
    assert _dam(dams=dams).rope_long_enough is None
    assert "rope-too-short" not in codes(dams=dams)


def test_a_polypropylene_rope_near_the_weld_melts():
    """By hand: 616 J/mm / (3.95e6 x 0.0034 x 0.06 x 4.1327) = 185 K above 20 degC at 60 mm; polypropylene melts
    at 170 (T-18 of flow_checks.csv, Hilado 1998), so 74.0 mm are needed."""
    rope = {"what": "draw rope", "material": "polypropylene", "distance": "60 mm"}
    (found,) = run_of(near_heat=[rope]).near_heat
    assert (found.what, found.limit_c) == ("draw rope", pytest.approx(170.0))
    assert found.temperature_c == pytest.approx(205.0, abs=0.5)
    assert found.safe_distance_m == pytest.approx(0.0740, rel=2e-3)
    assert "burns-near-weld" in codes(near_heat=[rope])
    assert "burns-near-weld" not in codes(near_heat=[{**rope, "distance": "80 mm"}])
    assert "burns-near-weld" not in codes(near_heat=[{**rope, "material": "polyimide tape"}])


def test_the_nearest_to_its_limit_speaks_for_all():
    parts = [
        {"what": "draw rope", "material": "polypropylene", "distance": "1 m"},
        {"what": "hose end", "material": "rubber", "distance": "50 mm"},
    ]
    caution = next(each for each in run_of(near_heat=parts).cautions if each.code == "burns-near-weld")
    assert dict(caution.facts)["part"] == "hose end"


@pytest.mark.parametrize(
    ("part", "known"),
    [
        ({"what": "draw rope"}, {"what"}),
        ({"material": "polyester"}, {"limit_c", "safe_distance_m"}),
        ({"what": "hose end", "distance": "5 cm"}, {"what", "temperature_c"}),
    ],
)
def test_what_is_left_out_is_not_guessed(part, known):
    (found,) = run_of(near_heat=[part]).near_heat
    names = ("what", "temperature_c", "limit_c", "safe_distance_m")
    assert {name for name in names if getattr(found, name) is not None} == known


def test_without_an_arc_nothing_is_hot():
    dam = _dam(arc=None)
    assert (dam.temperature_c, dam.steady_c, dam.safe_distance_m) == (None, None, None)
    assert dam.limit_c == pytest.approx(100.0)
