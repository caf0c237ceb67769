"""Time still to wait from two readings, and gas used."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.core.errors import OutOfRange
from trainer.core.purge_parts import FlowSegment
from trainer.core.purge_time import gas_used_m3, volume_changes_count, wait_still_s


def test_a_second_reading_at_a_tenth_leaves_the_same_time_for_the_next_tenth():
    # By hand: one decade a minute.
    assert wait_still_s(0.01, earlier_o2_frac=0.1, apart_s=60.0, target_o2_frac=0.0001) == pytest.approx(
        120.0
    )


def test_a_floor_lengthens_the_wait():
    # By hand: above the floor of 100 ppm, 900 ppm to 300 ppm in 60 s is ln 3; 300 ppm to 100 ppm is ln 3 again.
    wait = wait_still_s(
        400e-6, earlier_o2_frac=1000e-6, apart_s=60.0, target_o2_frac=200e-6, floor_o2_frac=100e-6
    )
    assert wait == pytest.approx(60.0)
    assert wait > wait_still_s(400e-6, earlier_o2_frac=1000e-6, apart_s=60.0, target_o2_frac=200e-6)


def test_nothing_to_wait_for_once_the_reading_is_low_enough():
    assert wait_still_s(0.0009, earlier_o2_frac=0.002, apart_s=30.0, target_o2_frac=0.001) == 0.0


@given(
    rate_per_s=st.floats(1e-4, 0.1),
    floor_frac=st.floats(0.0, 5e-4),
    first_s=st.floats(0.0, 60.0),
    apart_s=st.floats(10.0, 120.0),
    still_s=st.floats(1.0, 600.0),
)
def test_a_single_exponential_is_met_exactly(rate_per_s, floor_frac, first_s, apart_s, still_s):
    def reading(time_s):
        return floor_frac + 0.2 * math.exp(-rate_per_s * time_s / 10.0)

    target = reading(first_s + apart_s + still_s)
    wait = wait_still_s(
        reading(first_s + apart_s),
        earlier_o2_frac=reading(first_s),
        apart_s=apart_s,
        target_o2_frac=target,
        floor_o2_frac=floor_frac,
    )
    assert wait == pytest.approx(still_s, rel=1e-3)


@pytest.mark.parametrize(
    ("changes", "quantity"),
    [
        ({"later_o2_frac": 0.02}, "earlier reading"),
        ({"earlier_o2_frac": 1.1}, "earlier reading"),
        ({"floor_o2_frac": 0.001}, "oxygen wanted"),
        ({"floor_o2_frac": -0.001}, "floor"),
        ({"later_o2_frac": 0.0}, "later reading"),
        ({"apart_s": 0.0}, "time between the readings"),
    ],
    ids=["rising", "more than all", "target at floor", "negative floor", "nothing read", "same moment"],
)
def test_readings_that_say_nothing_are_refused(changes, quantity):
    values = {
        "later_o2_frac": 0.005,
        "earlier_o2_frac": 0.01,
        "apart_s": 30.0,
        "target_o2_frac": 0.001,
        "floor_o2_frac": 0.0,
    } | changes
    with pytest.raises(OutOfRange) as refused:
        wait_still_s(values.pop("later_o2_frac"), **values)
    assert refused.value.quantity == quantity


def test_gas_used_adds_purge_and_hold():
    # By hand: 15 L/min for 4 min and 5 L/min for 20 min are 60 + 100 L.
    used = gas_used_m3(
        [
            FlowSegment(flow_m3_s=15 / 60_000, duration_s=240.0),
            FlowSegment(flow_m3_s=5 / 60_000, duration_s=1200.0),
        ]
    )
    assert used == pytest.approx(0.160)


def test_volume_changes_need_a_volume():
    assert volume_changes_count(48.0, flow_m3_s=2.5e-4, volume_m3=0.012) == pytest.approx(1.0)
    with pytest.raises(OutOfRange, match="volume between the dams"):
        volume_changes_count(48.0, flow_m3_s=2.5e-4, volume_m3=0.0)
