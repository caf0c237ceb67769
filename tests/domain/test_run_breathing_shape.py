"""The air around a set-up in shape: which way each answer moves."""

import math

import pytest
from air_examples import FRESH, air_of, people_at, still
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from set_up_examples import codes

from trainer.domain.quantities import NEVER

_SHAPE = settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
_FLOWS = st.floats(0.1, 500.0)
_MINUTES = st.floats(0.1, 2000.0)


def _space(release, minutes, **more):
    return still("pit", "12 m^3", f"{release!r} L/min", f"{minutes!r} min", floor_area="6 m^2", **more)


def _breathed(release, minutes, face_m, **more):
    return air_of(_space(release, minutes, **more), scene=people_at(("pit", f"{face_m!r} m")))


def _ventilated(how, m3_h):
    if how == "none":
        return {}
    if how == "draught":
        return {"air_changes_per_h": m3_h / 12.0}
    return {"fan": how, "fan_flow": f"{m3_h!r} m^3/h"}


_VENTILATION = st.builds(
    _ventilated, st.sampled_from(["none", "draught", "blows in", "draws out"]), st.floats(0.0, 1000.0)
)


@_SHAPE
@given(_FLOWS, st.floats(1.0, 3.0), _MINUTES, st.floats(0.0, 2.0), _VENTILATION)
def test_more_gas_never_raises_the_oxygen_that_anybody_breathes(release, more, minutes, face_m, airing):
    less = _breathed(release, minutes, face_m, **airing)
    worse = _breathed(release * more, minutes, face_m, **airing)
    assert worse.oxygen_mixed_frac <= less.oxygen_mixed_frac + 1e-12
    assert worse.people[0].oxygen_frac <= less.people[0].oxygen_frac + 1e-12
    assert worse.steady_frac <= less.steady_frac + 1e-12


@_SHAPE
@given(
    _FLOWS,
    _MINUTES,
    st.sampled_from(["draught", "blows in", "draws out"]),
    st.floats(0.0, 900.0),
    st.floats(0.0, 300.0),
)
def test_more_ventilation_never_lowers_the_oxygen(release, minutes, how, m3_h, more):
    less = _breathed(release, minutes, 1.0, **_ventilated(how, m3_h))
    better = _breathed(release, minutes, 1.0, **_ventilated(how, m3_h + more))
    assert better.oxygen_mixed_frac >= less.oxygen_mixed_frac - 1e-12
    assert better.people[0].oxygen_frac >= less.people[0].oxygen_frac - 1e-12


@_SHAPE
@given(_FLOWS, _MINUTES, st.floats(0.0, 2.0), _VENTILATION, st.sampled_from(["I1", "I2", "N1"]))
def test_a_lower_level_never_comes_sooner_and_nothing_is_above_fresh(
    release, minutes, face_m, airing, symbol
):
    air = air_of(
        _space(release, minutes, blower="1 m^3/min", **airing),
        scene=people_at(("pit", f"{face_m!r} m")), gas__symbol=symbol,
    )  # fmt: skip
    assert air.steady_frac - 1e-12 <= air.oxygen_mixed_frac <= FRESH
    assert 0.0 <= air.people[0].oxygen_frac <= air.oxygen_mixed_frac
    for owner, levels in ((air, ("19_5", "18", "16", "10", "6")), (air.people[0], ("19_5", "10", "6"))):
        times = [getattr(owner, f"time_to_{level}_s") for level in levels]
        ordered = [math.inf if each is NEVER else each for each in times]
        assert ordered == sorted(ordered)
        assert all(each >= 0.0 for each in ordered)
    assert air.ventilated_s is not NEVER
    assert math.isfinite(air.ventilated_s)


@_SHAPE
@given(_FLOWS, _MINUTES, st.floats(0.01, 1.99))
def test_argon_and_helium_mirror_each_other_between_floor_and_ceiling(release, minutes, face_m):
    low = _breathed(release, minutes, face_m)
    high = air_of(_space(release, minutes), scene=people_at(("pit", f"{2.0 - face_m!r} m")), gas__symbol="I2")
    assert high.pool_depth_m == low.pool_depth_m
    assert high.people[0].time_to_6_s == pytest.approx(low.people[0].time_to_6_s, rel=1e-6)
    if abs(low.pool_depth_m - face_m) > 1e-9:
        assert high.people[0].in_layer is low.people[0].in_layer


@_SHAPE
@given(_FLOWS, _MINUTES, st.floats(0.0, 2.0))
def test_a_face_is_in_the_layer_exactly_when_the_caution_says_so(release, minutes, face_m):
    """The layer's caution alone: without a volume nothing is known of the mixed air."""
    around, scene = _space(release, minutes), people_at(("pit", f"{face_m!r} m"))
    del around["volume"]
    in_layer = air_of(around, scene=scene).people[0].in_layer
    assert ("asphyxiation" in codes(surroundings=around, scene=scene)) is in_layer
