"""A purge whose set-up changes on the way: stretch after stretch through the core, in one course of oxygen.

What flows, and what lets air in, may change from one stretch to the next. Where the section itself is another
one, or has been opened in between, the purge begins anew with a section full of air.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from trainer.core.dilution import FlowSegment, InLeak, Purge, PurgeCase, purge
from trainer.core.gas import ATMOSPHERE_PA, O2_IN_DRY_AIR_FRAC
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.supply import contents_m3, pressure_for_contents_pa, usable_m3
from trainer.domain.flows import purge_flow_of
from trainer.domain.known_parts import source_oxygen_of
from trainer.domain.run_purge import purge_course_of
from trainer.domain.set_up import SetUp, Stage, StageKind
from trainer.domain.set_up_paths import with_values
from trainer.domain.supply_stock import at_reference, cylinders_of, stop_pressure_of
from trainer.domain.time_line import leaks_of, stage_flow_of

_REFERENCE = ReferenceCondition.AT_15C_1BAR


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """A set-up for some time; `opens` where the section was opened before it."""

    set_up: SetUp
    lasts_s: float
    opens: bool = False


@dataclass(frozen=True, kw_only=True)
class Flowing:
    """What entered in a piece of time, and what its supply could still give at its end (m3, None: no end)."""

    stretch: Stretch
    flow_m3_s: float
    starts_s: float
    lasts_s: float
    left_m3: float | None
    opens: bool = False

    @property
    def ends_s(self) -> float:
        """When the next piece begins."""
        return self.starts_s + self.lasts_s


@dataclass(frozen=True, kw_only=True)
class _Run:
    """Pieces that one course of the core holds: from opening to opening of the section."""

    starts_s: float
    course: Purge | None


@dataclass(frozen=True, kw_only=True)
class StretchedPurge:
    """The whole course: oxygen, gas used and the gauge at any time of it."""

    pieces: tuple[Flowing, ...]
    runs: tuple[_Run, ...]

    def oxygen_at(self, time_s: float) -> tuple[float, float]:
        """Oxygen at the worst point of the root and in what leaves by the vent."""
        _, root, _, vent = self.row_at(time_s)
        return root, vent

    def row_at(self, time_s: float) -> tuple[float, float, float, float]:
        """The time, with oxygen at the worst point of the root, on average and at the vent."""
        run = next(each for each in reversed(self.runs) if each.starts_s <= time_s)
        if run.course is None:
            return time_s, O2_IN_DRY_AIR_FRAC, O2_IN_DRY_AIR_FRAC, O2_IN_DRY_AIR_FRAC
        row = run.course.trace(np.array([time_s - run.starts_s]))[0]
        return time_s, float(row[0]), float(row[1]), float(row[2])

    def gas_until_m3(self, time_s: float) -> float:
        """Gas that has flowed, at the pipe's temperature and one atmosphere."""
        return math.fsum(
            each.flow_m3_s * (min(each.ends_s, time_s) - each.starts_s)
            for each in self.pieces
            if each.starts_s < time_s
        )

    def left_at_m3(self, time_s: float) -> float | None:
        """What the supply can still give, at the pipe's condition; None where nothing limits it."""
        piece = next((each for each in self.pieces if time_s <= each.ends_s), self.pieces[-1])
        if piece.left_m3 is None:
            return None
        return piece.left_m3 + piece.flow_m3_s * max(0.0, piece.ends_s - time_s)


def stretched_purge(stretches: Sequence[Stretch]) -> StretchedPurge:
    """The course of a purge through its stretches."""
    return _stretched(tuple(_merged(stretches)))


# Marks, the set-up left behind and the trace of one answer ask for the same course.
@lru_cache(maxsize=64)
def _stretched(stretches: tuple[Stretch, ...]) -> StretchedPurge:
    pieces = _pieces(stretches)
    return StretchedPurge(pieces=pieces, runs=_runs(pieces))


def flow_through(set_up: SetUp) -> float:
    """What enters: the purge flow, or what the hose lets through of it where more is told of it."""
    flow_m3_s = stage_flow_of(set_up, Stage(kind=StageKind.PINCHED_HOSE, open_frac=1.0))
    return (purge_flow_of(set_up) or 0.0) if flow_m3_s is None else flow_m3_s


def gauge_of(set_up: SetUp, *, left_m3: float) -> float | None:
    """Gauge pressure of a cylinder that can still give so much, at the pipe's condition; None without one."""
    cylinders = cylinders_of(set_up)
    if cylinders is None or set_up.supply is None:
        return None
    stop_pa = stop_pressure_of(set_up.supply) + ATMOSPHERE_PA
    at_stop = replace(cylinders, pressure_pa=min(stop_pa, cylinders.pressure_pa))
    kept_m3 = contents_m3(at_stop, reference=_REFERENCE)
    held_m3 = kept_m3 + at_reference(left_m3, set_up=set_up, reference=_REFERENCE)
    return pressure_for_contents_pa(held_m3, cylinders=cylinders, reference=_REFERENCE) - ATMOSPHERE_PA


def _merged(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Neighbours alike as one, so that the core solves each flow once; what lasts no time is left out."""
    merged: list[Stretch] = []
    opens = False
    for each in stretches:
        opens = opens or each.opens
        if merged and not opens and merged[-1].set_up == each.set_up:
            merged[-1] = replace(merged[-1], lasts_s=merged[-1].lasts_s + each.lasts_s)
        elif each.lasts_s > 0.0 or opens:
            merged.append(replace(each, opens=opens))
            opens = False
    return merged


def _pieces(stretches: Sequence[Stretch]) -> tuple[Flowing, ...]:
    """The stretches with what flows in each, cut where the supply has no more to give."""
    pieces: list[Flowing] = []
    supply, left_m3 = None, math.inf
    for each in stretches:
        if each.set_up.supply != supply or not pieces:
            supply, left_m3 = each.set_up.supply, _deliverable_m3(each.set_up)
        flow_m3_s = flow_through(each.set_up)
        flows_s = min(each.lasts_s, left_m3 / flow_m3_s if flow_m3_s else 0.0)
        starts_s = pieces[-1].ends_s if pieces else 0.0
        left_m3 = max(0.0, left_m3 - flow_m3_s * flows_s)
        opens = each.opens
        for flow, lasts_s in ((flow_m3_s, flows_s), (0.0, each.lasts_s - flows_s)):
            if lasts_s > 0.0 or (opens and flow):
                pieces.append(
                    Flowing(
                        stretch=each,
                        flow_m3_s=flow,
                        starts_s=starts_s,
                        lasts_s=lasts_s,
                        left_m3=None if math.isinf(left_m3) else left_m3,
                        opens=opens,
                    )
                )
                starts_s, opens = pieces[-1].ends_s, False
    return tuple(pieces)


def _deliverable_m3(set_up: SetUp) -> float:
    """What the cylinders give until they are changed, at the pipe's condition; endless for anything else."""
    cylinders = cylinders_of(set_up)
    if cylinders is None or set_up.supply is None:
        return math.inf
    stop_pa = stop_pressure_of(set_up.supply) + ATMOSPHERE_PA
    usable = usable_m3(cylinders, stop_pressure_pa=stop_pa, reference=_REFERENCE)
    return usable / at_reference(1.0, set_up=set_up, reference=_REFERENCE)


def _runs(pieces: Sequence[Flowing]) -> tuple[_Run, ...]:
    groups: list[tuple[PurgeCase | None, list[Flowing]]] = []
    for each in pieces:
        case = _case(each.stretch.set_up)
        if groups and not each.opens and groups[-1][0] == case:
            groups[-1][1].append(each)
        else:
            groups.append((case, [each]))
    return tuple(_run(case, group) for case, group in groups)


def _run(case: PurgeCase | None, pieces: list[Flowing]) -> _Run:
    if case is None:
        return _Run(starts_s=pieces[0].starts_s, course=None)
    segments = [_segment(each) for each in pieces]
    segments[-1] = replace(segments[-1], duration_s=math.inf)
    if segments[0].flow_m3_s < case.segments[0].flow_m3_s:  # a purge starts with a flow
        segments.insert(0, replace(case.segments[0], duration_s=0.0))
    return _Run(starts_s=pieces[0].starts_s, course=purge(replace(case, segments=tuple(segments))))


def _case(set_up: SetUp) -> PurgeCase | None:
    """The section, its openings and its gas, as they are without a fault of the flow; None if unknown."""
    course = purge_course_of(with_values(set_up, {"leaks": (), "wait": None}))
    if course is None:
        return None
    case = course.purge.case
    source_frac = source_oxygen_of(set_up)
    return replace(
        case,
        source_o2_frac=case.source_o2_frac if source_frac is None else source_frac,
        segments=(FlowSegment(flow_m3_s=1e-6, duration_s=math.inf),),
        leaks=(),
    )


def _segment(piece: Flowing) -> FlowSegment:
    """A piece as the core's segment. Air that a leak mixes into the gas comes in beside it, at the inlet."""
    set_up = piece.stretch.set_up
    course = purge_course_of(with_values(set_up, {"wait": None}))
    assert course is not None  # the case was made of the same set-up
    air_in = course.air_in_at(piece.flow_m3_s) or ()
    entrained_m3_s = sum(each.flow_m3_s for each in air_in if each.before_inlet)
    inlet_frac = course.purge.case.inlet.height_frac
    beside = (InLeak(height_frac=inlet_frac, flow_m3_s=entrained_m3_s),) if entrained_m3_s else ()
    return FlowSegment(
        flow_m3_s=piece.flow_m3_s, duration_s=piece.lasts_s, air_in=(*leaks_of(air_in), *beside)
    )
