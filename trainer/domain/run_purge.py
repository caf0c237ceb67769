"""The purge itself: oxygen at the root against time, what it can never fall below, and why."""

import math
from dataclasses import dataclass, replace
from functools import cache, partial

from trainer.core.dilution import (
    FlowSegment,
    Purge,
    PurgeCase,
    PurgeSection,
    VentHole,
    purge,
)
from trainer.core.gas import O2_IN_DRY_AIR_FRAC, Gas
from trainer.core.interval import Interval
from trainer.core.purge_watch import highest_o2_frac
from trainer.core.spool import SpoolPurge, purge_spool
from trainer.core.spool_case import Spool
from trainer.core.terms import PurgeModel
from trainer.domain.flows import AirIn, air_in_of, hold_flow_of, purge_flow_of
from trainer.domain.known_parts import (
    BoreAndLength,
    gas_of,
    section_of,
    slope_of,
    source_oxygen_of,
    temperature_of,
)
from trainer.domain.purge_causes import GAS, NO_FLOW, STAGES_END
from trainer.domain.purge_run import DeadLegResult, Expected, InletResult, PurgeResult, StageResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.run_spool import (
    high_point_results,
    inlet_of,
    spool_purge_of,
    with_vents_where_air_lingers,
    worst_place_of,
)
from trainer.domain.run_time_line import (
    AirInAt,
    chained,
    expected_of,
    last_air_in,
    only_falls,
    stage_results,
    trace_times_s,
    volume_changes_by,
    wait_on,
)
from trainer.domain.set_up import SetUp, StageKind
from trainer.domain.spool_openings import air_in_of_spool
from trainer.domain.spool_path import path_of, spool_of
from trainer.domain.time_line import KnownStage, hold_stage_of, leaks_of, segment_of, stages_of

_CAUSE_SHARE = 0.1  # a cause is named when it makes a tenth of the floor


@dataclass(frozen=True, kw_only=True)
class PurgeCourse:
    """A purge through the core, at one flow or in stages, with the air that comes in at its last flow."""

    purge: Purge
    air_in: tuple[AirIn, ...]
    air_in_at: AirInAt
    stages: tuple[KnownStage, ...] = ()
    spool: SpoolPurge | None = None

    def through(self, segments: tuple[FlowSegment, ...]) -> "PurgeCourse":
        """The same section through other flows."""
        if self.spool is None:
            return replace(self, purge=purge(replace(self.purge.case, segments=segments)))
        spool = purge_spool(replace(self.spool.case, segments=segments))
        return replace(self, spool=spool, purge=spool.root)


def purge_course_of(set_up: SetUp) -> PurgeCourse | None:
    """The purge at its purge flow, or in its stages; None where something that decides it is not known."""
    if set_up.flow is None or not set_up.flow.stages:
        return _course(set_up, purge_flow_of(set_up))
    stages = stages_of(set_up)
    course = _course(set_up, stages[0].flow_m3_s) if stages else None
    if course is None:
        return None
    segments = chained(stages, case=course.purge.case, air_in_at=course.air_in_at)
    if segments is None:
        return None
    return replace(
        course.through(segments),
        air_in=last_air_in(stages, segments=segments, air_in_at=course.air_in_at),
        stages=stages,
    )


def hold_floor_frac(set_up: SetUp, *, course: PurgeCourse) -> float | None:
    """Oxygen that the hold flow ends at, were it to last; None without a hold flow."""
    hold_m3_s = hold_flow_of(set_up)
    air_in = course.air_in_at(hold_m3_s) if hold_m3_s else None
    if not hold_m3_s or air_in is None:
        return None
    hold = KnownStage(kind=StageKind.HOLD, flow_m3_s=hold_m3_s, starts_s=0.0, lasts_s=math.inf)
    segment = segment_of(hold, case=course.purge.case, air_in=air_in)
    return course.through((segment,)).purge.floor_o2_frac


def _course(set_up: SetUp, flow_m3_s: float | None) -> PurgeCourse | None:
    if path_of(set_up):
        return _spool_course(set_up, flow_m3_s)
    section, inlet, vent = section_of(set_up), inlet_of(set_up), _vent_of(set_up)
    used, source_frac = gas_of(set_up), source_oxygen_of(set_up)
    if flow_m3_s is None or section is None or inlet is None or vent is None:
        return None
    if used is None or source_frac is None:
        return None
    air_in_at = air_in_at_of(set_up)
    air_in = air_in_at(flow_m3_s)
    if air_in is None:
        return None
    entrained_m3_s = sum(each.flow_m3_s for each in air_in if each.before_inlet)
    entering_m3_s = flow_m3_s + entrained_m3_s
    if entering_m3_s <= 0.0:  # a flow tube that is read as 0 sets such a flow: nothing purges
        return None
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
        leaks=leaks_of(air_in),
        model=set_up.model or PurgeModel.LAYERED,
    )
    return PurgeCourse(purge=purge(case), air_in=air_in, air_in_at=air_in_at)


def _spool_course(set_up: SetUp, flow_m3_s: float | None) -> PurgeCourse | None:
    found = spool_purge_of(set_up, flow_m3_s)
    if found is None:
        return None
    spool, air_in = found
    return PurgeCourse(purge=spool.root, air_in=air_in, air_in_at=air_in_at_of(set_up), spool=spool)


def _vent_of(set_up: SetUp) -> VentHole | None:
    vent = set_up.vent
    if vent is None or vent.height_frac is None or vent.diameter_m is None or vent.blocked:
        return None  # without a vent the core does not follow the purge
    return VentHole(height_frac=vent.height_frac, diameter_m=vent.diameter_m, count=vent.count or 1)


def inlet_result(course: PurgeCourse) -> InletResult:
    """How the gas enters."""
    return InletResult(
        velocity_m_s=course.purge.inlet_velocity_m_s,
        froude_ratio=course.purge.inlet_froude,
        jet_length_ratio=course.purge.jet_length_ratio,
    )


def purge_result(set_up: SetUp, *, course: PurgeCourse) -> PurgeResult:
    """Time to the target, the floor and its causes, oxygen after the wait, the stages, and the trace."""
    asked = course.purge
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    time_s = None if target_frac is None else _expected_or_never(asked.time_to(target_frac))
    wait_s = None if set_up.wait_s is None else wait_on(asked, wait_s=set_up.wait_s)
    after = None if wait_s is None else asked.oxygen_at(wait_s)
    stages = stage_results(asked, stages=course.stages)
    return PurgeResult(
        time_to_target_s=time_s,
        volume_changes_to_target=_volume_changes(asked, time_s),
        never_because=causes_of_floor(set_up, course=course) if time_s is NEVER else (),
        floor_frac=asked.floors_o2_frac[-1],
        oxygen_after_wait_frac=None if after is None else expected_of(after),
        highest_in_hold_frac=_highest_in_hold_frac(set_up, course, stages, after),
        highest_after_wait_frac=(
            highest_o2_frac(asked, from_s=wait_s, until_s=math.inf) if stages and wait_s is not None else None
        ),
        stages=stages,
        dead_legs=_high_points(set_up, course, target_frac),
        body_time_to_target_s=_body_time(course, target_frac),
        worst_place=worst_place_of(set_up, spool=course.spool) if course.spool else None,
        trace=_trace(set_up, asked=asked, time_s=time_s),
    )


def _high_points(set_up: SetUp, course: PurgeCourse, target_frac: float | None) -> tuple[DeadLegResult, ...]:
    """The high points without a vent, and what a vent at those that the gas crosses would save."""
    if course.spool is None:
        return ()
    with_vents_s = None
    if course.spool.crossed and target_frac is not None:
        vented = purge_course_of(with_vents_where_air_lingers(set_up, spool=course.spool))
        time_s = None if vented is None else vented.purge.time_to(target_frac)
        with_vents_s = None if time_s is None else time_s.expected
    return high_point_results(set_up, spool=course.spool, with_vents_s=with_vents_s)


def _body_time(course: PurgeCourse, target_frac: float | None) -> Expected | Never | None:
    """What the body alone would need where dead legs hold the root up."""
    if course.spool is None or not course.spool.dead_legs or target_frac is None:
        return None
    return _expected_or_never(course.spool.body.time_to(target_frac))


def _highest_in_hold_frac(
    set_up: SetUp, course: PurgeCourse, stages: tuple[StageResult, ...], after: Interval | None
) -> float | None:
    if stages:
        return max(
            (each.highest_oxygen_frac or 0.0 for each in stages if each.kind == StageKind.HOLD), default=None
        )
    hold = hold_stage_of(set_up)
    air_in = course.air_in_at(hold.flow_m3_s) if hold else None
    if hold is None or air_in is None or after is None:
        return None
    if not air_in and course.spool is None and only_falls(course.purge.case):
        return after.expected  # nothing is higher than the start, and no second course is needed
    until = replace(course.purge.case.segments[0], duration_s=hold.starts_s)
    held = course.through((until, segment_of(hold, case=course.purge.case, air_in=air_in)))
    return highest_o2_frac(held.purge, from_s=hold.starts_s, until_s=hold.ends_s)


def air_in_at_of(set_up: SetUp) -> AirInAt:
    """What lets air in, as a function of the flow, each flow reckoned once."""
    used, section, spool = gas_of(set_up), section_of(set_up), spool_of(set_up)
    assert used is not None  # asked of a purge of which all is known
    if spool is not None:
        return cache(partial(_spool_air_in, set_up, spool, used))
    assert section is not None
    return cache(partial(_air_in, set_up, section, used))


def _air_in(set_up: SetUp, section: BoreAndLength, used: Gas, flow_m3_s: float) -> tuple[AirIn, ...] | None:
    return air_in_of(set_up, used=used, section=section, flow_m3_s=flow_m3_s)


def _spool_air_in(set_up: SetUp, spool: Spool, used: Gas, flow_m3_s: float) -> tuple[AirIn, ...] | None:
    return air_in_of_spool(set_up, spool=spool, used=used, flow_m3_s=flow_m3_s)


def causes_of_floor(set_up: SetUp, *, course: PurgeCourse) -> tuple[str, ...]:
    """What keeps the oxygen up, the largest first: the gas itself, and each way by which air comes in, alone.

    A line of stages that ends above the target although its floor lies below it ends too early.
    """
    if _ends_too_early(set_up, course):
        return (STAGES_END,)
    segment = course.purge.case.segments[-1]
    if segment.flow_m3_s == 0.0:
        return (NO_FLOW, *dict.fromkeys(each.cause for each in course.air_in if each.flow_m3_s > 0.0))
    shares = {GAS: source_oxygen_of(set_up) or 0.0}
    # A purge starts with a flow, and what a pinched hose still passes may be next to none.
    start = replace(course.purge.case.segments[0], duration_s=0.0)
    for cause in dict.fromkeys(each.cause for each in course.air_in):
        alone = tuple(each for each in course.air_in if each.cause == cause)
        entrained_m3_s = sum(each.flow_m3_s for each in alone if each.before_inlet)
        inside = course.through((start, replace(segment, air_in=leaks_of(alone)))).purge
        shares[cause] = (
            O2_IN_DRY_AIR_FRAC * entrained_m3_s / segment.flow_m3_s
            + inside.floors_o2_frac[-1]
            - course.purge.case.source_o2_frac
        )
    total_frac = sum(shares.values())
    ranked = sorted(shares, key=lambda cause: -shares[cause])
    return tuple(cause for cause in ranked if shares[cause] >= _CAUSE_SHARE * total_frac)


def _ends_too_early(set_up: SetUp, course: PurgeCourse) -> bool:
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    if target_frac is None or not course.stages or math.isinf(course.stages[-1].ends_s):
        return False
    return course.purge.floors_o2_frac[-1] < target_frac


def _trace(
    set_up: SetUp, *, asked: Purge, time_s: Expected | Never | None
) -> tuple[tuple[float, float, float, float], ...]:
    times = trace_times_s(set_up, purge=asked, time_s=time_s)
    return tuple(zip(times.tolist(), *asked.trace(times).T.tolist(), strict=True))


def _expected_or_never(interval: Interval | None) -> Expected | Never:
    return NEVER if interval is None else expected_of(interval)


def _volume_changes(asked: Purge, time_s: Expected | Never | None) -> Expected | Never | None:
    if not isinstance(time_s, Expected):
        return time_s
    counts = (volume_changes_by(asked, time_s=each) for each in (time_s.expected, time_s.lower, time_s.upper))
    expected, lower, upper = counts
    return Expected(expected=expected, lower=lower, upper=upper)
