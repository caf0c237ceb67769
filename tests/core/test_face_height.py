"""Air at the height of a face: layers from below and above, cold boil-off, rescue, and gas lying in pipe."""

import math
from dataclasses import replace

import CoolProp.CoolProp as coolprop
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from shape import L_MIN, SHAPE

from trainer.core.breathing import Space, oxygen_mixed_frac, steady_frac, time_to_frac_s
from trainer.core.dewar import Dewar
from trainer.core.errors import OutOfRange, UnknownName
from trainer.core.face_height import Place, air_at_face, rescue_times, time_to_danger_s
from trainer.core.gas import gas
from trainer.core.gas_designation import purge_gas
from trainer.core.liquid_supply import LiquidSupply
from trainer.core.pipe_pool import PipeInside
from trainer.core.pool import PoolSide, layer_depth_m, pipe_pool_depth_m, pool_side, pool_side_at
from trainer.core.standing_vessel import air_changes_needed_per_s, boil_off_temperature_k, standing_space
from trainer.core.terms import Fan

PIT = Space(volume_m3=12.0, release_m3_s=15 * L_MIN)
VESSEL = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
ROOM_K = 293.15


def at(face_m, symbol="I1", **changes):
    place = Place(space=PIT, gas=gas(symbol), floor_area_m2=6.0, face_height_m=face_m)
    return replace(place, **changes)


def test_argon_in_a_pit_reaches_a_lying_face_first_and_a_standing_one_only_mixed():
    """15 L/min on 6 m2 rise 2.5 mm a minute: 0.2 m in 80 min, 1.5 m in 600 min; by hand."""
    lying, standing = (air_at_face(at(height), time_s=81 * 60.0) for height in (0.2, 1.5))
    assert lying.layer_covers_face
    assert lying.worst_o2_frac == 0.0
    assert lying.layer_depth_m == pytest.approx(0.2025)
    assert not standing.layer_covers_face
    assert (
        standing.worst_o2_frac
        == standing.mixed_o2_frac
        == pytest.approx(0.209 * math.exp(-81 * 15e-3 / 12.0))
    )


def test_layer_in_the_tank_is_deadly_where_the_mixed_sum_looks_fair():
    """1.8 m3 of argon in a tank of 12 m2 floor: 0.15 m of pure argon, or about 19 % if mixed; trade handbook, by hand."""
    tank = Space(volume_m3=24.0, release_m3_s=0.001)
    place = Place(space=tank, gas=gas("I1"), floor_area_m2=12.0, face_height_m=0.15)
    air = air_at_face(place, time_s=1800.0)
    assert air.mixed_o2_frac > 0.19
    assert air.worst_o2_frac == 0.0


def test_helium_gathers_under_the_ceiling_where_a_standing_face_meets_it_first():
    """2 m high: 0.5 m of helium, 3 m3, come down to 1.5 m in 200 min at 15 L/min; by hand."""
    standing = air_at_face(at(1.5, "I2"), time_s=201 * 60.0)
    kneeling = air_at_face(at(0.5, "I2"), time_s=201 * 60.0)
    assert standing.layer_covers_face
    assert not kneeling.layer_covers_face
    assert time_to_danger_s(at(1.5, "I2"), o2_frac=0.06) == pytest.approx(200 * 60.0)


def test_nitrogen_makes_no_layer_and_is_everywhere():
    for face_m in (0.0, 1.0, 2.0):
        air = air_at_face(at(face_m, "N1"), time_s=3600.0)
        assert air.layer_depth_m is None
        assert air.worst_o2_frac == pytest.approx(oxygen_mixed_frac(PIT, time_s=3600.0))


def test_cold_boil_off_sinks_whatever_it_is():
    """Nitrogen vapour at its boiling point is about 3.8 times as heavy as room air; density by the ideal gas law."""
    assert pool_side_at(gas("N1"), gas_temperature_k=77.4, air_temperature_k=ROOM_K) is PoolSide.FLOOR
    assert pool_side_at(gas("I1"), gas_temperature_k=87.3, air_temperature_k=ROOM_K) is PoolSide.FLOOR
    assert pool_side_at(gas("I2"), gas_temperature_k=200.0, air_temperature_k=ROOM_K) is PoolSide.CEILING
    assert air_at_face(at(0.1, "N1", gas_temperature_k=80.0), time_s=7200.0).layer_covers_face


@SHAPE
@given(st.sampled_from(["I1", "I2", "N1"]), st.floats(230.0, 400.0))
def test_gas_at_the_airs_own_temperature_goes_by_its_weight(symbol, temperature_k):
    known = pool_side_at(gas(symbol), gas_temperature_k=temperature_k, air_temperature_k=temperature_k)
    assert known is pool_side(gas(symbol))


def test_mixture_about_as_heavy_as_air_makes_no_layer():
    assert pool_side(purge_gas("I3", composition="ArHe-30")) is PoolSide.NOWHERE
    assert pool_side(purge_gas("N5", composition="NH-5")) is PoolSide.CEILING


@pytest.mark.parametrize("fan", [Fan.BLOWS_IN, Fan.DRAWS_OUT])
def test_fan_stirs_the_layer_away(fan):
    fanned = replace(PIT, fan=fan, fan_flow_m3_s=0.1)
    place = at(0.1, space=fanned)
    assert place.side is PoolSide.NOWHERE
    assert air_at_face(place, time_s=1e5).worst_o2_frac > 0.2
    assert time_to_danger_s(place, o2_frac=0.195) is None


@SHAPE
@given(st.floats(0.0, 1.9), st.floats(0.0, 1.9), st.floats(0.0, 1e5), st.floats(1e-6, 0.01))
def test_in_argon_a_lower_face_is_never_better_off(one_m, other_m, time_s, release):
    low_m, high_m = sorted((one_m, other_m))
    space = replace(PIT, release_m3_s=release)
    lower, higher = (
        air_at_face(at(face, space=space), time_s=time_s).worst_o2_frac for face in (low_m, high_m)
    )
    assert lower <= higher


@SHAPE
@given(
    st.sampled_from(["I1", "I2", "N1"]),
    st.floats(0.0, 2.0),
    st.floats(0.0, 1e5),
    st.floats(0.0, 1e5),
)
def test_air_at_a_face_never_gets_better_while_gas_escapes(symbol, face_m, one_s, other_s):
    early_s, late_s = sorted((one_s, other_s))
    early, late = (air_at_face(at(face_m, symbol), time_s=time).worst_o2_frac for time in (early_s, late_s))
    assert late <= early <= 0.209


@SHAPE
@given(st.sampled_from(["I1", "I2", "N1"]), st.floats(0.0, 2.0), st.floats(0.01, 0.2))
def test_time_to_danger_is_when_the_air_at_the_face_passes_the_level(symbol, face_m, level):
    place = at(face_m, symbol)
    time_s = time_to_danger_s(place, o2_frac=level)
    after = air_at_face(place, time_s=time_s * (1 + 1e-9) + 1e-6).worst_o2_frac
    assert after <= level + 1e-9
    if time_s > 1.0:
        assert air_at_face(place, time_s=time_s * (1 - 1e-6)).worst_o2_frac >= level - 1e-9


def test_layer_that_air_has_mixed_into_is_deeper():
    """A layer at 10 % oxygen is 1 / (1 - 10 / 20.9) = 1.92 times as deep; trade handbook, by hand."""
    pure = layer_depth_m(0.6, floor_area_m2=2.7)
    assert layer_depth_m(0.6, floor_area_m2=2.7, layer_o2_frac=0.10) / pure == pytest.approx(1.917, rel=1e-3)
    lean = air_at_face(at(0.35), time_s=81 * 60.0, layer_o2_frac=0.10)
    assert lean.layer_covers_face
    assert lean.worst_o2_frac == 0.10


def test_space_full_of_gas_has_a_layer_no_deeper_than_itself():
    air = air_at_face(at(2.0), time_s=1e6)
    assert air.layer_depth_m == pytest.approx(2.0)
    assert air.worst_o2_frac == 0.0


def test_no_release_no_danger():
    quiet = at(0.0, space=replace(PIT, release_m3_s=0.0))
    assert time_to_danger_s(quiet, o2_frac=0.16) is None
    assert air_at_face(quiet, time_s=1e6).worst_o2_frac == 0.209


def test_rescue_knows_when_each_level_came_and_how_long_the_blower_takes():
    """From nothing back to 19.5 % takes 2.70 air changes: 12 m3 at 20 m3/min, 1.62 min; trade handbook, by hand."""
    times = rescue_times(at(0.2), found_after_s=5400.0, blower_m3_s=20 / 60)
    assert list(times.by_level_s) == [0.195, 0.18, 0.16, 0.10, 0.06]
    assert times.by_level_s[0.195] == pytest.approx(12 / 15e-3 * 60 * math.log(0.209 / 0.195))
    assert times.by_level_s[0.06] == pytest.approx(4800.0)
    assert times.ventilated_s / 60 == pytest.approx(2.70 * 12 / 20, rel=2e-3)


def test_rescue_without_a_blower_never_clears_the_air_and_one_in_good_air_needs_none():
    assert rescue_times(at(0.2), found_after_s=5400.0, blower_m3_s=0.0).ventilated_s is None
    assert rescue_times(at(1.5), found_after_s=10.0, blower_m3_s=0.1).ventilated_s == 0.0


def test_levels_above_a_spaces_own_fresh_air_are_left_out():
    thin = at(0.2, space=replace(PIT, fresh_o2_frac=0.19))
    assert 0.195 not in rescue_times(thin, found_after_s=60.0, blower_m3_s=0.1, safe_o2_frac=0.18).by_level_s


@SHAPE
@given(st.floats(0.05, 2.0), st.floats(0.5, 50.0), st.floats(0.0, 1.0))
def test_gas_in_a_pipe_fills_the_segment_below_its_surface(bore_m, length_m, share):
    """Area by numerical integration of the chord (scipy quad), independent of the closed form."""
    volume = share * math.pi / 4 * bore_m**2 * length_m
    depth = pipe_pool_depth_m(volume, bore_m=bore_m, length_m=length_m)
    below, _ = quad(lambda z: 2.0 * np.sqrt(max(z * (bore_m - z), 0.0)), 0.0, depth, limit=200)
    assert below * length_m == pytest.approx(volume, rel=1e-5, abs=1e-9)


def test_pipe_holds_no_more_than_itself():
    assert pipe_pool_depth_m(1e3, bore_m=0.6, length_m=1.0) == 0.6
    assert pipe_pool_depth_m(0.0, bore_m=0.6, length_m=1.0) == pytest.approx(0.0, abs=1e-12)


def test_dewar_in_a_closed_van_makes_the_air_unfit_within_a_working_day():
    """3 % a day of 122 m3 into 10 m3: t = V / R ln(20.9 / 19.5), by hand."""
    van = standing_space(
        LiquidSupply(vessel=VESSEL), volume_m3=10.0, air_changes_per_s=0.0, temperature_k=288.15
    )
    by_hand_h = 10.0 / (122.0 * 0.03 / 24 * 1e5 / 101325) * math.log(0.209 / 0.195)
    assert time_to_frac_s(van, o2_frac=0.195) / 3600 == pytest.approx(by_hand_h, rel=5e-3)


def lying_pipe(face_m, symbol="I1", **changes):
    """A pipe of 0.6 m bore and 6 m length into which 10 L/min leak."""
    inside = PipeInside(bore_m=0.6, length_m=6.0)
    space = Space(volume_m3=inside.volume_m3, release_m3_s=10 * L_MIN, **changes)
    return Place(space=space, gas=gas(symbol), face_height_m=face_m, pipe=inside)


def test_a_face_in_a_lying_pipe_is_reached_when_the_segment_below_it_is_full():
    """Segment of a circle, R^2 acos((R - h) / R) - (R - h) sqrt(2 R h - h^2), times 6 m over 10 L/min; by hand."""
    segment_m2 = 0.09 * math.acos(0.5) - 0.15 * math.sqrt(2 * 0.3 * 0.15 - 0.15**2)
    reached_s = segment_m2 * 6.0 / (10 * L_MIN)
    assert time_to_danger_s(lying_pipe(0.15), o2_frac=0.06) == pytest.approx(reached_s, rel=1e-9)
    before, after = (air_at_face(lying_pipe(0.15), time_s=reached_s * share) for share in (0.999, 1.001))
    assert (before.layer_covers_face, after.layer_covers_face) == (False, True)
    assert after.layer_depth_m == pytest.approx(0.15, abs=1e-3)


@SHAPE
@given(st.floats(0.0, 0.6), st.floats(0.0, 1e5), st.floats(0.0, 0.1))
def test_helium_under_a_pipes_crown_is_argon_on_its_bottom_turned_over(face_m, time_s, layer):
    below = air_at_face(lying_pipe(face_m), time_s=time_s, layer_o2_frac=layer)
    above = air_at_face(lying_pipe(0.6 - face_m, "I2"), time_s=time_s, layer_o2_frac=layer)
    assert above.layer_depth_m == below.layer_depth_m
    if abs(below.layer_depth_m - face_m) > 1e-9:
        assert above == below


def test_a_pipe_holds_no_deeper_layer_than_its_bore():
    assert air_at_face(lying_pipe(0.6), time_s=1e6).layer_depth_m == 0.6


def test_a_draught_thins_the_mixed_gas_and_leaves_the_layer_where_it_is():
    """Four air changes an hour of a pit of 12 m3: steady oxygen 20.9 (1 - R / Q), by hand."""
    airy = replace(PIT, draught_m3_s=4 * 12.0 / 3600)
    assert steady_frac(airy) == pytest.approx(0.209 * (1 - 15 * L_MIN / (48.0 / 3600)))
    assert at(0.2, space=airy).side is PoolSide.FLOOR
    assert air_at_face(at(0.2, space=airy), time_s=81 * 60.0).worst_o2_frac == 0.0
    fanned = replace(PIT, fan=Fan.DRAWS_OUT, fan_flow_m3_s=4 * 12.0 / 3600)
    assert steady_frac(fanned) == steady_frac(airy)
    assert at(0.2, space=fanned).side is PoolSide.NOWHERE


def test_a_space_whose_floor_is_not_known_is_only_mixed():
    nowhere = at(0.2, floor_area_m2=None)
    assert nowhere.side is PoolSide.NOWHERE
    assert air_at_face(nowhere, time_s=81 * 60.0).worst_o2_frac == oxygen_mixed_frac(PIT, time_s=81 * 60.0)


@pytest.mark.parametrize(("symbol", "fluid"), [("I1", "Argon"), ("N1", "Nitrogen")])
def test_boil_off_is_as_cold_as_the_liquid_boils(symbol, fluid):
    """CoolProp 8.0.0, saturation at one atmosphere."""
    assert boil_off_temperature_k(gas(symbol)) == pytest.approx(
        coolprop.PropsSI("T", "P", 101325.0, "Q", 0, fluid), rel=1e-5
    )


def test_helium_is_not_stored_as_a_liquid():
    with pytest.raises(UnknownName):
        boil_off_temperature_k(gas("I2"))


@SHAPE
@given(st.floats(5.0, 500.0), st.floats(0.01, 0.2))
def test_needed_air_changes_hold_the_level(volume_m3, loss):
    supply = LiquidSupply(vessel=VESSEL, daily_loss_frac=loss)
    changes = air_changes_needed_per_s(supply, volume_m3=volume_m3)
    room = standing_space(supply, volume_m3=volume_m3, air_changes_per_s=changes)
    assert steady_frac(room) == pytest.approx(0.195, rel=1e-9)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: at(2.1),
        lambda: at(-0.1),
        lambda: lying_pipe(0.61),
        lambda: replace(PIT, draught_m3_s=-1.0),
        lambda: replace(PIT, fan=Fan.BLOWS_IN, draught_m3_s=1.0),
        lambda: at(0.5, floor_area_m2=0.0),
        lambda: air_at_face(at(0.5), time_s=-1.0),
        lambda: air_at_face(at(0.5), time_s=1.0, layer_o2_frac=0.209),
        lambda: time_to_danger_s(at(0.5), o2_frac=0.3),
        lambda: rescue_times(at(0.5), found_after_s=60.0, blower_m3_s=-1.0),
        lambda: pool_side_at(gas("I1"), gas_temperature_k=50.0, air_temperature_k=ROOM_K),
        lambda: pool_side_at(gas("I1"), gas_temperature_k=290.0, air_temperature_k=500.0),
        lambda: pipe_pool_depth_m(-1.0, bore_m=0.6, length_m=1.0),
        lambda: pipe_pool_depth_m(1.0, bore_m=0.6, length_m=0.0),
        lambda: standing_space(LiquidSupply(vessel=VESSEL), volume_m3=10.0, air_changes_per_s=-1.0),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
