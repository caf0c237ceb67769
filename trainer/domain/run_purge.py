"""The purge itself: oxygen at the root against time, what it can never fall below, and why."""

import math
from dataclasses import dataclass

import numpy as np

from trainer.core.dilution import (
    FlowSegment,
    InLeak,
    Inlet,
    Purge,
    PurgeCase,
    PurgeSection,
    VentHole,
    purge,
)
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.interval import Interval
from trainer.core.terms import PurgeModel
from trainer.domain.flows import AirIn, air_in_of, hold_flow_of, purge_flow_of
from trainer.domain.known_parts import gas_of, section_of, slope_of, source_oxygen_of, temperature_of
from trainer.domain.purge_run import Expected, InletResult, PurgeResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.set_up import SetUp

_TRACE_COUNT = 120
_BEYOND_TARGET_RATIO = 1.2  # how far past the time to target a trace goes on
_TRACE_VOLUME_CHANGES = 10.0  # how long it is where neither a wait nor a time to target is known
_CAUSE_SHARE = 0.1  # a cause is named when it makes a tenth of the floor


@dataclass(frozen=True, kw_only=True)
class PurgeCourse:
    """A purge through the core at one flow, with the air that comes in at that flow."""

    purge: Purge
    air_in: tuple[AirIn, ...]


def purge_course_of(set_up: SetUp) -> PurgeCourse | None:
    """The purge at its purge flow; None where something that decides it is not known."""
    return _course(set_up, purge_flow_of(set_up))


def hold_course_of(set_up: SetUp) -> PurgeCourse | None:
    """The same section at the hold flow, for the oxygen that it ends at; None without a hold flow."""
    return _course(set_up, hold_flow_of(set_up) or None)


def _course(set_up: SetUp, flow_m3_s: float | None) -> PurgeCourse | None:
    section, inlet, vent = section_of(set_up), _inlet_of(set_up), _vent_of(set_up)
    used, source_frac = gas_of(set_up), source_oxygen_of(set_up)
    if flow_m3_s is None or section is None or inlet is None or vent is None:
        return None
    if used is None or source_frac is None:
        return None
    air_in = air_in_of(set_up, used=used, section=section, flow_m3_s=flow_m3_s)
    if air_in is None:
        return None
    entrained_m3_s = sum(each.flow_m3_s for each in air_in if each.before_inlet)
    entering_m3_s = flow_m3_s + entrained_m3_s
    case = PurgeCase(
        section=PurgeSection(
            bore_m=section.bore_m,
            length_m=section.length_m,
            slope_deg=slope_of(set_up),
            joint_from_inlet_dam_m=section.left_dam_m,
        ),
        inlet=inlet,
        vent=vent,
        gas=used,
        source_o2_frac=(flow_m3_s * source_frac + entrained_m3_s * O2_IN_DRY_AIR_FRAC) / entering_m3_s,
        temperature_k=temperature_of(set_up),
        segments=(FlowSegment(flow_m3_s=entering_m3_s, duration_s=math.inf),),
        leaks=tuple(
            InLeak(height_frac=each.height_frac, flow_m3_s=each.flow_m3_s)
            for each in air_in
            if not each.before_inlet
        ),
        model=set_up.model or PurgeModel.LAYERED,
    )
    return PurgeCourse(purge=purge(case), air_in=air_in)


def _inlet_of(set_up: SetUp) -> Inlet | None:
    inlet = set_up.inlet
    if inlet is None or inlet.end is None or inlet.height_frac is None:
        return None
    return Inlet(
        height_frac=inlet.height_frac, end=inlet.end, bore_m=inlet.bore_m, face_area_m2=inlet.face_area_m2
    )


def _vent_of(set_up: SetUp) -> VentHole | None:
    vent = set_up.vent
    if vent is None or vent.height_frac is None or vent.diameter_m is None:
        return None
    return VentHole(height_frac=vent.height_frac, diameter_m=vent.diameter_m, count=vent.count or 1)


def inlet_result(course: PurgeCourse) -> InletResult:
    """How the gas enters."""
    return InletResult(
        velocity_m_s=course.purge.inlet_velocity_m_s,
        froude_ratio=course.purge.inlet_froude,
        jet_length_ratio=course.purge.jet_length_ratio,
    )


def purge_result(set_up: SetUp, *, course: PurgeCourse) -> PurgeResult:
    """Time to the target, the floor and its causes, oxygen after the wait, and the trace."""
    asked = course.purge
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    time_s = None if target_frac is None else _expected_or_never(asked.time_to(target_frac))
    after = None if set_up.wait_s is None else asked.oxygen_at(set_up.wait_s)
    return PurgeResult(
        time_to_target_s=time_s,
        volume_changes_to_target=_times(time_s, 1.0 / asked.volume_change_s),
        never_because=causes_of_floor(set_up, course=course) if time_s is NEVER else (),
        floor_frac=asked.floor_o2_frac,
        oxygen_after_wait_frac=None if after is None else _expected(after),
        trace=_trace(set_up, asked=asked, time_s=time_s),
    )


def causes_of_floor(set_up: SetUp, *, course: PurgeCourse) -> tuple[str, ...]:
    """What keeps the oxygen up, the largest first: the gas itself, and each way by which air comes in."""
    flow_m3_s = course.purge.case.segments[0].flow_m3_s
    shares = {"gas-carries-oxygen": source_oxygen_of(set_up) or 0.0}
    for each in course.air_in:
        mixed_frac = O2_IN_DRY_AIR_FRAC * each.flow_m3_s / (flow_m3_s + each.flow_m3_s)
        shares[each.cause] = shares.get(each.cause, 0.0) + mixed_frac
    total_frac = sum(shares.values())
    ranked = sorted(shares, key=lambda cause: -shares[cause])
    return tuple(cause for cause in ranked if shares[cause] >= _CAUSE_SHARE * total_frac)


def _trace(
    set_up: SetUp, *, asked: Purge, time_s: Expected | Never | None
) -> tuple[tuple[float, float, float, float], ...]:
    ends = [set_up.wait_s or 0.0]
    if isinstance(time_s, Expected):
        ends.append(_BEYOND_TARGET_RATIO * time_s.expected)
    end_s = max(ends) or _TRACE_VOLUME_CHANGES * asked.volume_change_s
    # Most of the fall lies in the first volume changes; a wait of days must not leave them between points.
    falling_s = min(end_s, _TRACE_VOLUME_CHANGES * asked.volume_change_s)
    times = np.linspace(0.0, falling_s, _TRACE_COUNT)
    if end_s > falling_s:
        times = np.concatenate([times, np.linspace(falling_s, end_s, _TRACE_COUNT)[1:]])
    if set_up.wait_s:
        times = np.unique(np.append(times, set_up.wait_s))
    rows = np.column_stack([times, asked.trace(times)])
    return tuple((row[0], row[1], row[2], row[3]) for row in rows.tolist())


def _expected(interval: Interval) -> Expected:
    return Expected(expected=interval.expected, lower=interval.lower, upper=interval.upper)


def _expected_or_never(interval: Interval | None) -> Expected | Never:
    return NEVER if interval is None else _expected(interval)


def _times(value: Expected | Never | None, factor: float) -> Expected | Never | None:
    if not isinstance(value, Expected):
        return value
    return Expected(expected=value.expected * factor, lower=value.lower * factor, upper=value.upper * factor)
