"""Time still to wait from two readings of an analyser, how sure it is, and whether a floor is reached."""

from __future__ import annotations

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.interval import Interval
from trainer.core.purge_time import wait_still_s

_READING = Limits(
    quantity="reading", unit="", low=1e-9, high=1.0, why="an analyser reads a share of oxygen above none"
)
_UNCERTAINTY = Limits(
    quantity="uncertainty of a reading",
    unit="",
    low=0.0,
    high=0.5,
    why="it is a share of the reading; past a half the reading says nothing",
)
_RATE = Limits(quantity="rate of the tail", unit="1/s", low=1e-9, why="a purge falls at some rate")
_APART = Limits(quantity="time between the readings", unit="s", low=1e-6, why="take two readings, one later")
_TARGET = Limits(quantity="oxygen wanted", unit="", low=1e-9, high=1.0, why="some oxygen is always left")
# Where this much of a reading is floor, waiting has nearly done what it can.
_FLOOR_SHARE = 0.5


@dataclass(frozen=True, kw_only=True)
class TwoReadings:
    """Two readings at one place and one flow, the second some time after the first.

    Args:
        earlier_o2_frac [-]: the first reading
        later_o2_frac [-]: the second reading
        apart_s [s]: time between the two
        uncertainty_frac [-]: how far a reading may be off, as a share of it
        tail_rate_per_s [1/s]: rate at which the purge should fall by now, where it is known
    Raises:
        OutOfRange: for a reading of nothing, no time between the two, or an uncertainty that is none

    Example:
        >>> TwoReadings(earlier_o2_frac=0.1, later_o2_frac=0.01, apart_s=60.0, uncertainty_frac=0.05).apart_s
        60.0

    Reference: own definition.
    """

    earlier_o2_frac: float
    later_o2_frac: float
    apart_s: float
    uncertainty_frac: float
    tail_rate_per_s: float | None = None

    def __post_init__(self) -> None:
        _READING.check(self.earlier_o2_frac)
        _READING.check(self.later_o2_frac)
        _APART.check(self.apart_s)
        _UNCERTAINTY.check(self.uncertainty_frac)
        if self.tail_rate_per_s is not None:
            _RATE.check(self.tail_rate_per_s)

    @property
    def fall(self) -> float:
        """By how much the logarithm of the oxygen has fallen.

        Returns:
            [-] ln(x_1 / x_2)
        """
        return math.log(self.earlier_o2_frac / self.later_o2_frac)

    @property
    def fall_uncertainty(self) -> float:
        """By how much that may be wrong, both readings being off independently.

        Returns:
            [-] sqrt(2) u
        """
        return math.sqrt(2.0) * self.uncertainty_frac


@dataclass(frozen=True, kw_only=True)
class WaitStill:
    """What two readings say about the time still to wait.

    Args:
        time [record]: seconds between their ends; None when the readings show nothing that would get there
        floor_reached [bool]: whether the oxygen has stopped falling, or most of what is read is floor
        floor_o2_frac [-]: the floor, where the rate is known and the readings tell a floor from none

    Reference: own definition.
    """

    time: Interval | None
    floor_reached: bool
    floor_o2_frac: float | None


def wait_still(readings: TwoReadings, *, target_o2_frac: float) -> WaitStill:
    """The time still to wait after two readings, how sure it is, and the sign of a floor.

    rate unknown: t = dt ln(x_2 / x) / ln(x_1 / x_2), ends by x_2 (1 +- u) and ln(x_1 / x_2) +- sqrt(2) u;
    rate known: f = (x_2 - x_1 e^(-lambda dt)) / (1 - e^(-lambda dt)),  t = ln[(x_2 - f) / (x - f)] / lambda,
    ends by x_2 (1 +- u) and f +- u_f,  u_f = u sqrt(x_2^2 + x_1^2 e^(-2 lambda dt)) / (1 - e^(-lambda dt))

    Args:
        readings [record]: the two readings
        target_o2_frac [-]: x, oxygen wanted at the same place
    Returns:
        [record] time, sign of a floor, and the floor itself where it is known
    Valid: one flow, past the first volume changes; an analyser at the vent of a layered purge reads lower
        than the root. Without the rate, a fall within its own uncertainty is the sign of a floor; with the
        rate, a floor beyond its uncertainty that makes up half of the later reading.

    Example:
        >>> readings = TwoReadings(
        ...     earlier_o2_frac=0.1, later_o2_frac=0.01, apart_s=60.0, uncertainty_frac=0.05)
        >>> round(wait_still(readings, target_o2_frac=0.001).time.expected, 6)
        60.0

    Reference: slowest mode of a linear system; propagation of uncertainty, JCGM 100:2008, 5.1.2.
    """
    _TARGET.check(target_o2_frac)
    if readings.tail_rate_per_s is None:
        return _by_the_fall(readings, target_o2_frac)
    return _by_the_rate(readings, target_o2_frac, readings.tail_rate_per_s)


def _by_the_fall(readings: TwoReadings, target_o2_frac: float) -> WaitStill:
    reached = readings.fall <= readings.fall_uncertainty
    if readings.later_o2_frac <= target_o2_frac:
        upper_s = _upper_by_the_fall_s(readings, target_o2_frac)
        return WaitStill(time=Interval(0.0, 0.0, upper_s), floor_reached=reached, floor_o2_frac=None)
    if readings.fall <= 0.0:
        return WaitStill(time=None, floor_reached=True, floor_o2_frac=None)
    expected_s = wait_still_s(
        readings.later_o2_frac,
        earlier_o2_frac=readings.earlier_o2_frac,
        apart_s=readings.apart_s,
        target_o2_frac=target_o2_frac,
    )
    least = math.log(readings.later_o2_frac * (1.0 - readings.uncertainty_frac) / target_o2_frac)
    lower_s = readings.apart_s * max(0.0, least) / (readings.fall + readings.fall_uncertainty)
    time = Interval(expected_s, lower_s, _upper_by_the_fall_s(readings, target_o2_frac))
    return WaitStill(time=time, floor_reached=reached, floor_o2_frac=None)


def _upper_by_the_fall_s(readings: TwoReadings, target_o2_frac: float) -> float:
    most = math.log(readings.later_o2_frac * (1.0 + readings.uncertainty_frac) / target_o2_frac)
    slowest = readings.fall - readings.fall_uncertainty
    if most <= 0.0:
        return 0.0
    return readings.apart_s * most / slowest if slowest > 0.0 else math.inf


def _by_the_rate(readings: TwoReadings, target_o2_frac: float, rate_per_s: float) -> WaitStill:
    left = math.exp(-rate_per_s * readings.apart_s)
    floor = (readings.later_o2_frac - readings.earlier_o2_frac * left) / (1.0 - left)
    off = readings.uncertainty_frac * math.hypot(readings.later_o2_frac, readings.earlier_o2_frac * left)
    floor_off = off / (1.0 - left)
    is_floor = floor > floor_off
    used = floor if is_floor else 0.0

    def wait_s(reading_frac: float, floor_frac: float) -> float:
        if reading_frac <= target_o2_frac:
            return 0.0
        if floor_frac >= target_o2_frac:
            return math.inf
        return math.log((reading_frac - floor_frac) / (target_o2_frac - floor_frac)) / rate_per_s

    later, share = readings.later_o2_frac, readings.uncertainty_frac
    expected_s = wait_s(later, used)
    lower_s = wait_s(later * (1.0 - share), max(0.0, used - floor_off))
    upper_s = wait_s(later * (1.0 + share), max(0.0, floor + floor_off))
    return WaitStill(
        time=None if math.isinf(expected_s) else Interval(expected_s, lower_s, max(expected_s, upper_s)),
        floor_reached=is_floor and floor >= _FLOOR_SHARE * later,
        floor_o2_frac=floor if is_floor else None,
    )
