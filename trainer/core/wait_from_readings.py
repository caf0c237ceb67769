"""Time still to wait from two readings, where the purge's rate is known only between two ends."""

from __future__ import annotations

import math
from dataclasses import replace

from trainer.core.interval import Interval
from trainer.core.two_readings import TwoReadings, WaitStill, wait_still


def wait_still_within(
    readings: TwoReadings, *, rate_per_s: Interval | None, target_o2_frac: float
) -> WaitStill:
    """The time still to wait and the sign of a floor, whatever the rate is between its ends.

    a floor stands where every rate shows one; else the readings' own fall gives the rate, and where it is
    lost in their uncertainty the expected rate, or the slowest where only that one shows no floor

    Args:
        readings [record]: the two readings; a rate of their own is not asked
        rate_per_s [1/s]: rate of the tail between its ends; None where it is not known
        target_o2_frac [-]: oxygen wanted at the same place
    Returns:
        [record] time, sign of a floor, and the floor itself where every rate shows one
    Raises:
        OutOfRange: as `wait_still`
    Valid: as `wait_still`.

    Example:
        >>> readings = TwoReadings(
        ...     earlier_o2_frac=0.1, later_o2_frac=0.01, apart_s=60.0, uncertainty_frac=0.05)
        >>> slow = Interval(0.04, 0.03, 0.05)
        >>> wait_still_within(readings, rate_per_s=slow, target_o2_frac=0.001).floor_reached
        False

    Reference: as `wait_still`.
    """
    by_fall = wait_still(replace(readings, tail_rate_per_s=None), target_o2_frac=target_o2_frac)
    if rate_per_s is None:
        return by_fall
    by_rate = [
        wait_still(replace(readings, tail_rate_per_s=rate), target_o2_frac=target_o2_frac)
        for rate in (rate_per_s.expected, rate_per_s.lower, rate_per_s.upper)
    ]
    if all(each.floor_o2_frac is not None for each in by_rate):
        return _above_a_floor(by_rate)
    if readings.fall > readings.fall_uncertainty:
        return replace(by_fall, floor_reached=False)
    without = [each for each in by_rate if each.floor_o2_frac is None]
    return WaitStill(time=_spanned(without), floor_reached=False, floor_o2_frac=None)


def _above_a_floor(by_rate: list[WaitStill]) -> WaitStill:
    return WaitStill(
        time=_spanned(by_rate),
        floor_reached=all(each.floor_reached for each in by_rate),
        floor_o2_frac=by_rate[0].floor_o2_frac,
    )


def _spanned(found: list[WaitStill]) -> Interval | None:
    """The first one's time, ended by the ends of all; without end where one never gets there."""
    expected = found[0].time
    if expected is None:
        return None
    times = [each.time for each in found]
    return Interval(
        expected.expected,
        min(time.lower for time in times if time is not None),
        max(math.inf if time is None else time.upper for time in times),
    )
