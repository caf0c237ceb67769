"""The purge of a set-up through the core, what it can never fall below, and why."""

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
from trainer.domain.purge_run import InletResult
from trainer.domain.run_spool import inlet_of, spool_purge_of
from trainer.domain.run_time_line import AirInAt, chained, last_air_in
from trainer.domain.set_up import SetUp, StageKind
from trainer.domain.spool_openings import air_in_of_spool
from trainer.domain.spool_path import path_of, spool_of
from trainer.domain.time_line import KnownStage, leaks_of, segment_of, stages_of

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
