"""The time line of a purge: its stages chained through the core, and the times of its trace."""

import math
from collections.abc import Callable

import numpy as np

from trainer.core.column import Floats
from trainer.core.dilution import FlowSegment, Purge, PurgeCase, PurgeModel
from trainer.core.interval import Interval
from trainer.domain.flows import AirIn
from trainer.domain.purge_causes import FALLEN_LINE, VENT
from trainer.domain.purge_run import Expected
from trainer.domain.quantities import Never
from trainer.domain.set_up import SetUp, StageKind
from trainer.domain.time_line import KnownStage, segment_of

AirInAt = Callable[[float], tuple[AirIn, ...] | None]

_TRACE_COUNT = 120
_TRACE_COUNT_OF_ALL = 180  # shared by several stages, twice where each is long
_BEYOND_TARGET_RATIO = 1.2  # how far past the time to target a trace goes on
_TRACE_VOLUME_CHANGES = 10.0  # how long it is where neither a wait nor a time to target is known


def chained(
    stages: tuple[KnownStage, ...], *, case: PurgeCase, air_in_at: AirInAt
) -> tuple[FlowSegment, ...] | None:
    """The stages as segments, each with the air that comes in at its own flow; None where that is unknown."""
    segments = []
    for stage in stages:
        air_in = air_in_at(stage.flow_m3_s)
        if air_in is None:
            return None
        segments.append(segment_of(stage, case=case, air_in=air_in))
    return tuple(segments)


def last_air_in(
    stages: tuple[KnownStage, ...], *, segments: tuple[FlowSegment, ...], air_in_at: AirInAt
) -> tuple[AirIn, ...]:
    """What lets air in during the last stage, for the causes of what it ends at."""
    last, segment = stages[-1], segments[-1]
    if last.kind is not StageKind.LINE_OUT:
        return air_in_at(last.flow_m3_s) or ()
    through_m3_s = sum(each.flow_m3_s for each in segment.air_in or () if each.leaves_at_frac is not None)
    others = tuple(each for each in air_in_at(0.0) or () if each.cause != VENT)
    return (AirIn(cause=FALLEN_LINE, flow_m3_s=through_m3_s), *others)


def only_falls(case: PurgeCase) -> bool:
    """Whether the root, without air coming in, can see no more oxygen than before: it spans every height."""
    level = not case.section.is_upright and case.section.tilted is None
    return level and case.model is not PurgeModel.DISPLACEMENT


def wait_on(purge: Purge, *, wait_s: float) -> float:
    """The wait, which another unit may have put a last digit past the end of the line."""
    return min(wait_s, sum(segment.duration_s for segment in purge.case.segments))


def volume_changes_by(purge: Purge, *, time_s: float) -> float:
    """How many times what has flowed by some time could have filled the section."""
    if math.isinf(time_s):
        return math.inf
    starts_s, flowed_m3 = 0.0, 0.0
    for segment in purge.case.segments:
        if starts_s < time_s and segment.flow_m3_s:
            flowed_m3 += segment.flow_m3_s * (min(starts_s + segment.duration_s, time_s) - starts_s)
        starts_s += segment.duration_s
    return flowed_m3 / purge.case.section.volume_m3


def trace_times_s(set_up: SetUp, *, purge: Purge, time_s: Expected | Never | None) -> Floats:
    """The times of a trace: close together where the oxygen falls, at every change, at wait and readings."""
    end_s = _trace_end_s(set_up, purge, time_s)
    starts_s = np.cumsum([0.0, *(segment.duration_s for segment in purge.case.segments[:-1])]).tolist()
    spans = [
        (begins_s, min(ends_s, end_s))
        for begins_s, ends_s in zip(starts_s, [*starts_s[1:], end_s], strict=True)
        if begins_s < end_s or begins_s == 0.0
    ]
    count = min(_TRACE_COUNT, max(4, _TRACE_COUNT_OF_ALL // len(spans)))
    falls_s = _TRACE_VOLUME_CHANGES * purge.volume_change_s
    times = [_span_times_s(begins_s, ends_s, falls_s, count) for begins_s, ends_s in spans]
    marks = [each.after_s for each in set_up.readings if each.after_s is not None and each.after_s <= end_s]
    if set_up.wait_s:
        marks.append(wait_on(purge, wait_s=set_up.wait_s))
    return np.unique(np.concatenate([*times, np.array(marks, dtype=np.float64)]))


def _trace_end_s(set_up: SetUp, purge: Purge, time_s: Expected | Never | None) -> float:
    last = purge.case.segments[-1]
    begins_s = sum(segment.duration_s for segment in purge.case.segments[:-1])
    if not math.isinf(last.duration_s):
        return begins_s + last.duration_s
    ends = [set_up.wait_s or 0.0]
    if isinstance(time_s, Expected):
        ends.append(_BEYOND_TARGET_RATIO * time_s.expected)
    if begins_s:
        ends.append(begins_s + purge.volume_change_s)
    if begins_s and not isinstance(time_s, Expected):
        ends.append(begins_s + _TRACE_VOLUME_CHANGES * purge.volume_change_s)
    return max(ends) or _TRACE_VOLUME_CHANGES * purge.volume_change_s


def _span_times_s(begins_s: float, ends_s: float, falls_s: float, count: int) -> Floats:
    # Most of the fall lies in the first volume changes; a wait of days must not leave them between points.
    falling_s = min(ends_s, begins_s + falls_s)
    times = np.linspace(begins_s, falling_s, count)
    if ends_s > falling_s:
        times = np.concatenate([times, np.linspace(falling_s, ends_s, count)[1:]])
    return times


def expected_of(interval: Interval) -> Expected:
    """An interval of the core as a result."""
    return Expected(expected=interval.expected, lower=interval.lower, upper=interval.upper)
