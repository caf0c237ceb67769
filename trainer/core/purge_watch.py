"""What is watched on a purge's time line: the highest oxygen of a stretch, how fast the tail falls."""

from __future__ import annotations

import math

import numpy as np

from trainer.core.dilution import Purge
from trainer.core.interval import Interval
from trainer.core.plug_course import PlugCourse
from trainer.core.spool_root import SpoolRoot

# The tail has come when the oxygen at the root falls at the slowest mode's rate but for this share.
_TAIL_WITHIN = 0.25


def highest_o2_frac(purge: Purge, *, from_s: float, until_s: float) -> float:
    """Highest oxygen that the worst point of the root sees within a stretch of time.

    max over t of x_O2(t),  x_O2 as `purge`

    Args:
        purge [record]: the purge with all its flows
        from_s [s]: start of the stretch, counted from when the gas was turned on
        until_s [s]: its end; infinite for all that follows
    Returns:
        [-] mole fraction; for a stretch without end also the one that it ends at
    Valid: as `purge`; the expected course.

    Example:
        >>> from trainer.core.dilution import BASE_CASE, purge
        >>> course = purge(BASE_CASE)
        >>> highest_o2_frac(course, from_s=60.0, until_s=120.0) == course.oxygen_at(60.0).expected
        True

    Reference: as `purge`.
    """
    if isinstance(purge, SpoolRoot):
        return purge.highest_o2_frac(from_s=from_s, until_s=until_s)
    return purge.case.o2_frac(purge.courses.expected.highest_root_frac(from_s, until_s=until_s))


def tail_rate_per_s(purge: Purge, *, from_s: float, until_s: float) -> Interval | None:
    """Rate at which oxygen falls in the tail of one flow, where two times lie in that tail.

    the slowest mode of the flow's layers; its ends are those of the closure

    Args:
        purge [record]: the purge with all its flows
        from_s [s]: the earlier time, counted from when the gas was turned on
        until_s [s]: the later time, during the same flow
    Returns:
        [1/s] rate between its ends; None where there is no tail: for a plug, before the faster modes have
            died away, or where the oxygen does not fall
    Valid: as `purge`.

    Example:
        >>> from trainer.core.dilution import BASE_CASE, PurgeModel, purge
        >>> from dataclasses import replace
        >>> mixed = purge(replace(BASE_CASE, model=PurgeModel.PERFECT_MIXING))
        >>> rate = tail_rate_per_s(mixed, from_s=60.0, until_s=120.0)
        >>> round(rate.expected * mixed.volume_change_s, 9)
        1.0

    Reference: slowest mode of a linear system.
    """
    course = purge.courses.expected
    number = _segment_at(purge, until_s)
    if isinstance(course, PlugCourse) or purge.case.segments[number].flow_m3_s == 0.0:
        return None
    expected = course.tail_rate_per_s(until_s)
    early, late = purge.trace(np.array([from_s, until_s]))[:, 0] - purge.floors_o2_frac[number]
    if not _falls_at(expected, early=float(early), late=float(late), apart_s=until_s - from_s):
        return None
    ends = [
        each.tail_rate_per_s(until_s)
        for each in purge.courses.ends(purge.widening_ratio)
        if not isinstance(each, PlugCourse)
    ]
    return Interval(expected, min(expected, *ends, expected), max(expected, *ends, expected))


def _falls_at(rate_per_s: float, *, early: float, late: float, apart_s: float) -> bool:
    if early <= late:
        return False
    # What rounding leaves at or below the floor has long been in the tail.
    return late <= 0.0 or abs(math.log(early / late) / (rate_per_s * apart_s) - 1.0) <= _TAIL_WITHIN


def _segment_at(purge: Purge, time_s: float) -> int:
    ends_s = np.cumsum([segment.duration_s for segment in purge.case.segments[:-1]])
    return int(np.searchsorted(ends_s, time_s, side="right"))
