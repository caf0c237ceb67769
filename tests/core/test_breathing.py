"""Shape and limits of the sums on oxygen in spaces; figures are in the reference rows."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from shape import SHAPE

from trainer.core.breathing import (
    Space,
    air_changes_to_recover,
    below_fresh,
    oxygen_mixed_frac,
    steady_frac,
    time_to_frac_s,
    ventilation_needed_m3_s,
)
from trainer.core.errors import OutOfRange
from trainer.core.gas import O2_IN_ROOM_AIR_FRAC
from trainer.core.terms import Fan

VOLUMES = st.floats(1.0, 1000.0)
RELEASES = st.floats(1e-5, 0.05)
FAN_FLOWS = st.floats(0.0, 1.0)
TIMES = st.floats(0.0, 20000.0)
FANS = st.sampled_from(list(Fan))


@st.composite
def spaces(draw, fan=None, release=RELEASES):
    return Space(
        volume_m3=draw(VOLUMES),
        release_m3_s=draw(release),
        fan=draw(FANS) if fan is None else fan,
        fan_flow_m3_s=draw(FAN_FLOWS),
    )


def changed(space, **changes):
    values = {name: getattr(space, name) for name in ("volume_m3", "release_m3_s", "fan", "fan_flow_m3_s")}
    return Space(**(values | changes))


@SHAPE
@given(spaces(), TIMES, st.floats(1.0, 10.0))
def test_more_gas_never_leaves_more_oxygen(space, time_s, times_more):
    more = changed(space, release_m3_s=space.release_m3_s * times_more)
    assert oxygen_mixed_frac(more, time_s=time_s) <= oxygen_mixed_frac(space, time_s=time_s) + 1e-12


@SHAPE
@given(spaces(), TIMES, st.floats(1.0, 10.0))
def test_more_ventilation_never_leaves_less_oxygen(space, time_s, times_more):
    more = changed(space, fan_flow_m3_s=space.fan_flow_m3_s * times_more)
    assert oxygen_mixed_frac(more, time_s=time_s) >= oxygen_mixed_frac(space, time_s=time_s) - 1e-12


@SHAPE
@given(spaces())
def test_blowing_in_beats_drawing_out_beats_no_fan_in_the_end(space):
    blows, draws, none = (
        steady_frac(changed(space, fan=fan)) for fan in (Fan.BLOWS_IN, Fan.DRAWS_OUT, Fan.NONE)
    )
    assert blows >= draws >= none == 0.0


@SHAPE
@given(spaces(), TIMES)
def test_a_fan_that_stops_becomes_no_fan_without_a_jump(space, time_s):
    drawing = changed(space, fan=Fan.DRAWS_OUT, fan_flow_m3_s=1e-12)
    none = changed(space, fan=Fan.NONE)
    assert oxygen_mixed_frac(drawing, time_s=time_s) == oxygen_mixed_frac(none, time_s=time_s)
    barely = changed(space, fan=Fan.DRAWS_OUT, fan_flow_m3_s=space.release_m3_s * (1 + 1e-9))
    assert oxygen_mixed_frac(barely, time_s=time_s) == pytest.approx(
        oxygen_mixed_frac(none, time_s=time_s), abs=1e-6
    )


@SHAPE
@given(spaces(release=st.just(0.0)), TIMES)
def test_without_a_release_the_air_stays_fresh(space, time_s):
    assert oxygen_mixed_frac(space, time_s=time_s) == pytest.approx(O2_IN_ROOM_AIR_FRAC)
    assert steady_frac(space) == O2_IN_ROOM_AIR_FRAC


@SHAPE
@given(spaces(), st.floats(0.0, O2_IN_ROOM_AIR_FRAC), TIMES)
def test_time_to_a_level_is_the_inverse_of_the_level_at_a_time(space, start, time_s):
    level = oxygen_mixed_frac(space, time_s=time_s, start_o2_frac=start)
    assume(abs(level - steady_frac(space)) > 1e-5)
    assume(abs(level - start) > 1e-5)
    assert time_to_frac_s(space, o2_frac=level, start_o2_frac=start) == pytest.approx(time_s, rel=1e-6)


@SHAPE
@given(spaces(), st.floats(0.01, 0.99))
def test_a_level_below_the_steady_state_is_never_reached(space, share):
    steady = steady_frac(space)
    assert time_to_frac_s(space, o2_frac=steady * share) is None


@SHAPE
@given(st.floats(1e-5, 0.05), st.floats(0.01, 0.20), st.sampled_from([Fan.BLOWS_IN, Fan.DRAWS_OUT]))
def test_the_ventilation_needed_holds_the_level_that_it_was_asked_for(release, level, fan):
    needed = ventilation_needed_m3_s(release, o2_frac=level, fan=fan)
    held = Space(volume_m3=10.0, release_m3_s=release, fan=fan, fan_flow_m3_s=needed)
    assert steady_frac(held) == pytest.approx(level)


@pytest.mark.parametrize("fan", list(Fan))
@pytest.mark.parametrize("start", [0.05, 0.209])
def test_closed_forms_agree_with_an_integration_of_the_balance(fan, start):
    """scipy's solve_ivp on V dy/dt = air in y0 - out y, the fan's flow below and above the release."""
    for fan_flow in (0.001, 0.02):
        space = Space(volume_m3=12.0, release_m3_s=0.004, fan=fan, fan_flow_m3_s=fan_flow)
        air = {
            Fan.NONE: 0.0,
            Fan.BLOWS_IN: fan_flow,
            Fan.DRAWS_OUT: fan_flow - 0.004 if fan_flow > 0.004 else 0.0,
        }[fan]

        def balance(_, y, air=air):
            return (air * 0.209 - (air + 0.004) * y) / 12.0

        run = solve_ivp(balance, (0.0, 3000.0), [start], rtol=1e-10, atol=1e-12)
        ours = oxygen_mixed_frac(space, time_s=3000.0, start_o2_frac=start)
        assert ours == pytest.approx(run.y[0, -1], rel=1e-6)


def test_a_level_that_holds_already_takes_no_time():
    assert time_to_frac_s(Space(volume_m3=3.0, release_m3_s=1e-3), o2_frac=O2_IN_ROOM_AIR_FRAC) == 0.0


def test_a_space_with_neither_gas_nor_air_stays_as_it_is():
    closed = Space(volume_m3=3.0, release_m3_s=0.0)
    assert oxygen_mixed_frac(closed, time_s=1e6, start_o2_frac=0.1) == 0.1
    assert time_to_frac_s(closed, o2_frac=0.15, start_o2_frac=0.1) is None


def test_no_fan_has_no_flow_that_would_do():
    assert ventilation_needed_m3_s(1e-3, o2_frac=0.195, fan=Fan.NONE) is None


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Space(volume_m3=0.0, release_m3_s=1e-3),
        lambda: Space(volume_m3=1.0, release_m3_s=-1e-3),
        lambda: Space(volume_m3=1.0, release_m3_s=math.nan),
        lambda: oxygen_mixed_frac(Space(volume_m3=1.0, release_m3_s=1e-3), time_s=-1.0),
        lambda: oxygen_mixed_frac(Space(volume_m3=1.0, release_m3_s=1e-3), time_s=1.0, start_o2_frac=0.22),
        lambda: time_to_frac_s(Space(volume_m3=1.0, release_m3_s=1e-3), o2_frac=0.22),
        lambda: ventilation_needed_m3_s(1e-3, o2_frac=0.209, fan=Fan.BLOWS_IN),
        lambda: air_changes_to_recover(0.2, o2_frac=0.195),
        lambda: below_fresh(0.5),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()


def test_recovery_from_twelve_per_cent_takes_less_air_than_from_none():
    """ln((20.9 - 12) / (20.9 - 19.5)) = 1.85 and ln(20.9 / 1.4) = 2.70 air changes, by hand."""
    assert air_changes_to_recover(0.12, o2_frac=0.195) == pytest.approx(1.8495, rel=1e-3)
    assert air_changes_to_recover(0.0, o2_frac=0.195) == pytest.approx(2.7033, rel=1e-3)
