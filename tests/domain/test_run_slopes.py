"""Any slope through a whole set-up: against what was simulated, and without a jump at level and upright."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import codes, run_of

_SHAPE = settings(max_examples=60, deadline=None)

_PART_OPEN = {"joint__taped": 0.9}


def _at(slope_deg, **changes):
    return run_of(section__slope=f"{slope_deg!r} deg", **changes)


def _simulated(slope_deg, **changes):
    """The simulated section of tests/reference/purge_3d.csv: NPS 6-like, 600 mm, argon, 28 cm2 diffuser, low to high."""
    return _at(
        slope_deg,
        pipe={"outside_diameter": "168 mm", "wall": "3.5 mm"},
        inlet={"height": 0.09, "end": "diffuser", "face_area": "28 cm^2"},
        vent={"height": 0.925, "diameter": "19 mm"} | changes.pop("vent", {}),
        flow__hold=None, flow__hold_for=None, **changes,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("slope_deg", "volume_changes"),
    # Volume changes to 1000 ppm at the worst point of the root with the vent's end raised: three-dimensional
    # simulation, tests/reference/purge_3d.csv, runs T07, A01, T02, T04, V13 and (inlet at mid-height) V01.
    [(-5.0, 6.9), (0.0, 3.8), (2.0, 3.2), (10.0, 2.1), (45.0, 0.9), (90.0, 0.7)],
)
def test_the_time_to_target_follows_the_simulated_slopes(slope_deg, volume_changes):
    """Within 25 %, the agreement that is aimed at; A01, T04 and V13 were in sight when the model was made."""
    found = _simulated(slope_deg).purge.volume_changes_to_target
    assert found.expected == pytest.approx(volume_changes, rel=0.25)
    assert found.lower <= volume_changes <= found.upper


def test_lifting_the_vents_end_helps_and_lowering_it_traps_air():
    times = [_at(slope).purge.time_to_target_s.expected for slope in (-5.0, 0.0, 5.0, 45.0)]
    assert times == sorted(times, reverse=True)
    assert "vent-beyond-pool" in codes(section__slope="-5 deg")
    assert "vent-beyond-pool" not in codes(section__slope="5 deg")


def test_helium_wants_it_the_other_way_round():
    helium = {
        "gas": {"symbol": "I2", "oxygen": "5 ppm"}, "inlet__height": 0.9, "vent__height": 0.05,
    }  # fmt: skip
    times = [_at(slope, **helium).purge.time_to_target_s.expected for slope in (-5.0, 0.0, 5.0)]
    assert times == sorted(times)
    assert "vent-beyond-pool" in codes(section__slope="5 deg", **helium)


def test_a_slope_that_nothing_was_simulated_at_says_so():
    """Simulated: from 10 degrees down to upright, and upright with the inlet above."""
    assert "beyond-tested-range" in codes(section__slope="-45 deg")
    for slope in ("-10 deg", "-3 deg", "0.5 deg", "30 deg", "90 deg", "-90 deg"):
        assert "beyond-tested-range" not in codes(section__slope=slope)
    told = next(each for each in _at(-45.0).cautions if each.code == "beyond-tested-range")
    assert "slope -45 deg" in dict(told.facts)["reasons"]


def test_the_pocket_leans_with_the_pipe():
    """By hand: 45 degrees, bore 161.5 mm, 600 mm: the ends' slopes meet along 161.5 mm of the axis. The vent's centre
    at 0.5 of its dam cuts the axis right there, so half of the last 161.5 mm, less what the circle leaves out
    above its middle, lies beyond: 2 R^3 / 3 x (cot 45 = 1) / (pi R^2 L) = 2 x 80.74 / (3 pi x 600) = 2.86 %."""
    pocket = _at(45.0, vent__height=0.5).section.pocket_beyond_vent_frac
    assert pocket == pytest.approx(2 * 0.08074 / (3 * math.pi * 0.6), rel=1e-3)
    rest = _at(-45.0, vent__height=0.5).section.pocket_beyond_vent_frac
    assert rest == pytest.approx(1.0 - pocket)


def _figures(run):
    figures = {
        "pocket": run.section.pocket_beyond_vent_frac,
        "holds": run.vent.flow_that_holds_air_out_m3_s * 60_000.0,
        "floor": run.purge.floor_frac * 1e6,
        "after": run.purge.oxygen_after_wait_frac.expected * 1e6,
    }
    # Near its floor a purge takes for ever, and a hair more air then makes it never.
    return figures | ({"time": run.purge.time_to_target_s.expected} if run.purge.floor_frac < 0.025 else {})


@_SHAPE
@given(
    st.sampled_from([(0.0, 1.0), (0.0, -1.0), (90.0, -1.0), (-90.0, 1.0)]),
    st.floats(0.2, 0.93),
    st.floats(0.5, 1.0),
    st.sampled_from(["I1", "I2"]),
)
def test_no_figure_jumps_where_the_pipe_becomes_level_or_upright(end, height, taped, symbol):
    at_deg, towards = end
    near = {
        "vent__height": height, "joint__taped": taped, "flow__purge": "6 L/min", "gas__symbol": symbol,
        "target__oxygen": "5 %",
    }  # fmt: skip
    here, there = (_figures(_at(slope, **near)) for slope in (at_deg, at_deg + towards * 1e-5))
    for name in here.keys() & there.keys():
        value = here[name]
        assert there[name] == pytest.approx(value, rel=2e-3, abs=1e-2), name


@_SHAPE
@given(st.floats(-90.0, 90.0), st.floats(0.0, 1.0))
def test_every_slope_is_answered(slope_deg, taped):
    run = _at(slope_deg, joint__taped=taped)
    assert run.purge is not None
    assert 0.0 <= run.section.pocket_beyond_vent_frac <= 1.0
    assert run.vent.flow_that_holds_air_out_m3_s >= 0.0


def test_a_vent_that_leans_up_over_argon_lets_less_air_in():
    """A 40 mm vent at a trickle: it faces sideways when level, up when upright; facing down is the worst."""
    wide = {"vent": {"height": 0.8, "diameter": "40 mm"}, "flow__purge": "4 L/min", "joint__taped": 1.0}
    floors = [_at(slope, **wide).purge.floor_frac for slope in (0.0, 30.0, 60.0, 90.0)]
    assert floors == sorted(floors, reverse=True)
    assert floors[0] > floors[-1] == pytest.approx(5e-6)


def test_a_leaning_open_joint_is_held_by_less_gas():
    """The ring spans bore x cos(slope): less height to drive the exchange, and none but its width when upright."""
    open_joint = {"joint__taped": 0.5, "flow__purge": "8 L/min"}
    floors = [_at(slope, **open_joint).purge.floor_frac for slope in (0.0, 45.0, 75.0, 90.0)]
    assert floors[0] > floors[1] > floors[-1]
