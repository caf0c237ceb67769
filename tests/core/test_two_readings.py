"""Two readings of an analyser: time still to wait, its ends, and the sign of a floor, against sums by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.core.errors import OutOfRange
from trainer.core.two_readings import TwoReadings, wait_still


def readings(earlier, later, *, apart_s=60.0, uncertainty=0.05, rate=None):
    return TwoReadings(
        earlier_o2_frac=earlier,
        later_o2_frac=later,
        apart_s=apart_s,
        uncertainty_frac=uncertainty,
        tail_rate_per_s=rate,
    )


def test_one_decade_a_minute_by_hand():
    wait = wait_still(readings(0.1, 0.01), target_o2_frac=0.001)
    # ln 10 = 2.302585; sqrt(2) 0.05 = 0.070711; ln 9.5 = 2.251292, ln 10.5 = 2.351375.
    assert wait.time.expected == pytest.approx(60.0)
    assert wait.time.lower == pytest.approx(60.0 * 2.251292 / 2.373296, rel=1e-6)
    assert wait.time.upper == pytest.approx(60.0 * 2.351375 / 2.231874, rel=1e-6)
    assert not wait.floor_reached
    assert wait.floor_o2_frac is None


def test_the_worse_the_analyser_the_wider_the_answer():
    times = [
        wait_still(readings(0.1, 0.01, uncertainty=u), target_o2_frac=0.001).time for u in (0.0, 0.05, 0.2)
    ]
    assert (times[0].lower, times[0].expected, times[0].upper) == pytest.approx((60.0, 60.0, 60.0))
    widths = [time.upper - time.lower for time in times]
    assert widths == sorted(widths)


def test_a_fall_within_its_uncertainty_is_the_sign_of_a_floor_and_has_no_end():
    # ln(1000 / 960) = 0.0408 against sqrt(2) 0.05 = 0.0707.
    wait = wait_still(readings(1000e-6, 960e-6), target_o2_frac=500e-6)
    assert wait.floor_reached
    assert wait.time.upper == math.inf
    # ln(1000 / 900) = 0.1054 is more.
    assert not wait_still(readings(1000e-6, 900e-6), target_o2_frac=500e-6).floor_reached


def test_oxygen_that_does_not_fall_gives_no_time():
    for later in (1000e-6, 1100e-6):
        wait = wait_still(readings(1000e-6, later), target_o2_frac=500e-6)
        assert wait.time is None
        assert wait.floor_reached


def test_with_the_rate_known_the_floor_comes_out_by_hand():
    # Above a floor of 100 ppm, 900 ppm falls to 300 ppm in 60 s: rate ln 3 / 60 s; 300 to 100 takes 60 s again.
    wait = wait_still(
        readings(1000e-6, 400e-6, uncertainty=0.01, rate=math.log(3.0) / 60.0), target_o2_frac=200e-6
    )
    assert wait.floor_o2_frac == pytest.approx(100e-6)
    assert wait.time.expected == pytest.approx(60.0)
    # u_f = 0.01 sqrt(400^2 + 333.33^2) / (2/3) = 7.8102 ppm.
    lower = math.log((396.0 - 92.1898) / (200.0 - 92.1898)) / math.log(3.0) * 60.0
    upper = math.log((404.0 - 107.8102) / (200.0 - 107.8102)) / math.log(3.0) * 60.0
    assert (wait.time.lower, wait.time.upper) == pytest.approx((lower, upper), rel=1e-4)
    assert not wait.floor_reached


def test_with_the_rate_known_a_target_at_the_floor_is_never_reached():
    # By hand: rate ln 10 a minute, 1000 to 550 ppm: f = (550 - 100) / 0.9 = 500 ppm, most of what is read.
    wait = wait_still(readings(1000e-6, 550e-6, rate=math.log(10.0) / 60.0), target_o2_frac=400e-6)
    assert wait.floor_reached
    assert wait.floor_o2_frac == pytest.approx(500e-6)
    assert wait.time is None


def test_readings_too_near_in_time_show_no_floor():
    # In 2 s the tail falls by 8 %, which 5 % of uncertainty hides.
    wait = wait_still(
        readings(1000e-6, 990e-6, apart_s=2.0, rate=math.log(10.0) / 60.0), target_o2_frac=100e-6
    )
    assert not wait.floor_reached
    assert wait.floor_o2_frac is None
    assert wait.time.expected == pytest.approx(60.0 * math.log10(9.9))
    assert wait.time.upper == math.inf


@pytest.mark.parametrize("rate", [None, 0.03])
def test_nothing_to_wait_for_below_the_target_unless_the_analyser_may_be_off(rate):
    sure = wait_still(readings(0.002, 0.0009, rate=rate), target_o2_frac=0.001).time
    assert (sure.expected, sure.upper) == (0.0, 0.0)
    close = wait_still(readings(0.002, 0.00099, rate=rate), target_o2_frac=0.001).time
    assert close.expected == 0.0
    assert close.upper > 0.0


@given(
    rate=st.floats(1e-3, 0.1),
    floor_frac=st.floats(0.0, 4e-4),
    apart_changes=st.floats(0.5, 4.0),
    start=st.floats(2e-3, 0.1),
    still_changes=st.floats(0.1, 5.0),
)
def test_a_tail_over_a_floor_is_met_exactly_by_perfect_readings(
    rate, floor_frac, apart_changes, start, still_changes
):
    def reading(changes):
        return floor_frac + start * math.exp(-changes)

    taken = readings(
        reading(0.0), reading(apart_changes), apart_s=apart_changes / rate, uncertainty=1e-6, rate=rate
    )
    target = reading(apart_changes + still_changes)
    wait = wait_still(taken, target_o2_frac=target)
    assert wait.time.expected == pytest.approx(still_changes / rate, rel=0.05)


@given(
    earlier=st.floats(1e-5, 0.2),
    later=st.floats(1e-5, 0.2),
    uncertainty=st.floats(0.0, 0.5),
    rate=st.none() | st.floats(1e-4, 1.0),
    target=st.floats(1e-5, 0.2),
)
def test_any_two_readings_have_an_answer(earlier, later, uncertainty, rate, target):
    wait = wait_still(readings(earlier, later, uncertainty=uncertainty, rate=rate), target_o2_frac=target)
    if wait.time is not None:
        assert 0.0 <= wait.time.lower <= wait.time.expected <= wait.time.upper
        assert math.isfinite(wait.time.expected)
    if later > target and later >= earlier and rate is None:
        assert wait.time is None


@pytest.mark.parametrize(
    ("changes", "quantity"),
    [
        ({"earlier": 0.0}, "reading"),
        ({"later": math.nan}, "reading"),
        ({"apart_s": 0.0}, "time between the readings"),
        ({"uncertainty": -0.1}, "uncertainty of a reading"),
        ({"uncertainty": 0.9}, "uncertainty of a reading"),
        ({"rate": 0.0}, "rate of the tail"),
    ],
)
def test_readings_that_are_none_are_refused_by_name(changes, quantity):
    values = {"earlier": 0.01, "later": 0.005} | changes
    with pytest.raises(OutOfRange) as refused:
        readings(values.pop("earlier"), values.pop("later"), **values)
    assert refused.value.quantity == quantity


def test_a_target_of_nothing_is_refused():
    with pytest.raises(OutOfRange, match="oxygen wanted"):
        wait_still(readings(0.01, 0.005), target_o2_frac=0.0)
