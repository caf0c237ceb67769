"""The hold that follows the wait where no stages are declared: what the root sees while the weld is made."""

import math

import pytest
from set_up_examples import codes, run_of

AIR = 0.2095
L_MIN = 1.0 / 60_000.0
VOLUME_M3 = math.pi / 4.0 * 0.1615**2 * 0.6  # NPS 6 10S, 600 mm
MIXED = {"model": "perfect mixing", "gas__oxygen": "0 ppm"}
WIDE = {"vent__diameter": "30 mm", "vent__height": 0.85}


def test_a_tight_hold_is_highest_where_it_starts():
    purge = run_of(wait="6 min").purge
    assert purge.highest_in_hold_frac == purge.oxygen_after_wait_frac.expected
    upright = run_of(wait="6 min", section__slope="90 deg").purge
    assert upright.highest_in_hold_frac >= upright.oxygen_after_wait_frac.expected * (1.0 - 1e-9)


def test_a_hold_that_lets_air_in_rises_towards_its_floor_by_hand():
    # Mixed: f + (c0 - f) exp(-(Q + q) t / V) with f = q / (Q + q); the floor that is reported at the hold flow alone
    # gives q, which the vent's own tests hold to its sums.
    held = run_of(**MIXED, **WIDE, flow__hold="2 L/min", flow__hold_for="20 min", wait="6 min").purge
    floor = run_of(
        **MIXED, **WIDE, flow__purge="2 L/min", flow__hold=None, flow__hold_for=None
    ).purge.floor_frac
    start = held.oxygen_after_wait_frac.expected
    q_m3_s = 2 * L_MIN * floor / (AIR - floor)
    end = floor + (start - floor) * math.exp(-(2 * L_MIN + q_m3_s) * 1200.0 / VOLUME_M3)
    assert held.highest_in_hold_frac == pytest.approx(end, rel=1e-9)
    assert held.highest_in_hold_frac > 10.0 * start


def test_gas_shut_off_while_welding_lets_air_in_by_every_opening():
    # Without flow the 30 mm vent takes in 2.497 L/min (two layers, see the test of stages without flow).
    purge = run_of(**MIXED, **WIDE, flow__hold="0 L/min", flow__hold_for="5 min", wait="6 min").purge
    start = purge.oxygen_after_wait_frac.expected
    end = AIR - (AIR - start) * math.exp(-2.497 * L_MIN * 300.0 / VOLUME_M3)
    assert purge.highest_in_hold_frac == pytest.approx(end, rel=1e-3)


def test_air_that_comes_back_is_judged_by_the_highest_and_by_the_floor():
    # A short hold has not come near its floor yet; the floor alone speaks then.
    short = run_of(**WIDE, target__oxygen="2 %", wait="6 min", flow__hold="3 L/min", flow__hold_for="6 s")
    (caution,) = (each for each in short.cautions if each.code == "hold-lets-air-in")
    assert "highest_frac" not in dict(caution.facts)
    long = run_of(**WIDE, target__oxygen="2 %", wait="6 min", flow__hold="3 L/min", flow__hold_for="1 h")
    (caution,) = (each for each in long.cautions if each.code == "hold-lets-air-in")
    assert dict(caution.facts)["highest_frac"] == long.purge.highest_in_hold_frac > 0.02


def test_a_wait_too_short_is_not_blamed_on_the_hold():
    purge = run_of(wait="1 min").purge
    assert purge.highest_in_hold_frac > 0.001
    assert "hold-lets-air-in" not in codes(wait="1 min")


@pytest.mark.parametrize("missing", ["flow__hold_for", "wait"])
def test_without_hold_time_or_wait_nothing_is_said_of_the_hold(missing):
    assert run_of(**{missing: None}).purge.highest_in_hold_frac is None


def test_a_joint_that_is_left_open_lets_air_in_during_the_hold():
    taped, open_ = (
        run_of(
            joint__taped=taped, flow__hold="3 L/min", flow__hold_for="20 min", wait="6 min"
        ).purge.highest_in_hold_frac
        for taped in (1.0, 0.7)
    )
    assert open_ > 10.0 * taped
