"""Many purges in one call: the layers of all set-ups solved as one stack, with the answers of `purge`."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trainer.core.dilution import LOWEST_TESTED_O2_FRAC, purge
from trainer.core.errors import Limits
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.interval import Interval
from trainer.core.layer_solution import MODES_UP_TO
from trainer.core.layer_stack import Indices
from trainer.core.layers import Mixing
from trainer.core.level_stack import BalanceStack, level_balances, level_columns
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_courses import mixing_of
from trainer.core.purge_groups import beyond_tested_range, situation
from trainer.core.root_stack import RootStack
from trainer.core.stirring import closure
from trainer.core.terms import PurgeModel

# Large enough to spread the cost of a call, small enough that a stack stays within some tens of megabytes.
_STACK_SIZE = 512
_BEYOND_RANGE_WIDENING_RATIO = 2.0
_WAIT = Limits(quantity="wait", unit="s", low=0.0, why="count from when the gas was turned on")


@dataclass(frozen=True, kw_only=True)
class PurgeQuestion:
    """A purge, the oxygen wanted and how long was waited."""

    case: PurgeCase
    target_o2_frac: float
    wait_s: float

    def __post_init__(self) -> None:
        _WAIT.check(self.wait_s)


@dataclass(frozen=True, kw_only=True)
class PurgeAnswer:
    """Time to the oxygen wanted, None when never, and oxygen after the wait: worst point of the root."""

    time_to_target_s: Interval | None
    oxygen_after_wait_frac: Interval


def purge_many(questions: Sequence[PurgeQuestion]) -> tuple[PurgeAnswer, ...]:
    """Time to target and oxygen after the wait of many purges.

    level sections with one endless flow are solved as stacks of eigenproblems; any other one by one

    Args:
        questions [record]: the purges and what is asked of each
    Returns:
        [record] one answer for each question, in their order
    Raises:
        OutOfRange: for a wait that is longer than a purge's last flow
    Valid: as `purge`, whose answers these are to 1e-9.

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> question = PurgeQuestion(case=BASE_CASE, target_o2_frac=0.01, wait_s=120.0)
        >>> one, other = purge_many([question, question])
        >>> one == other, one.time_to_target_s.lower < 107 < one.time_to_target_s.upper
        (True, True)

    Reference: own definition; the equations are those of `purge`.
    """
    answers: list[PurgeAnswer] = []
    for start in range(0, len(questions), _STACK_SIZE):
        answers += _answered(questions[start : start + _STACK_SIZE])
    return tuple(answers)


@dataclass(frozen=True)
class _Job:
    """One question with its stirrings: the expected one first, then those at the ends of its interval."""

    question: PurgeQuestion
    mixings: tuple[Mixing, ...]
    time_ratios: tuple[tuple[float, float], ...]
    end_numbers: tuple[int, ...]
    base_widening_ratio: float

    @property
    def level_frac(self) -> float:
        """Air fraction of the root at the oxygen wanted."""
        source = self.question.case.source_o2_frac
        return (self.question.target_o2_frac - source) / (O2_IN_DRY_AIR_FRAC - source)

    def o2_frac(self, air_frac: float) -> float:
        """Oxygen that goes with an air fraction."""
        source = self.question.case.source_o2_frac
        return source + (O2_IN_DRY_AIR_FRAC - source) * air_frac


def _answered(questions: Sequence[PurgeQuestion]) -> list[PurgeAnswer]:
    jobs = [_job(question) if _is_stackable(question.case) else None for question in questions]
    stacked = iter(_stacked_answers([job for job in jobs if job]))
    return [
        (next(stacked) if job else None) or _answered_alone(question)
        for question, job in zip(questions, jobs, strict=True)
    ]


def _is_stackable(case: PurgeCase) -> bool:
    return (
        case.model is PurgeModel.LAYERED
        and case.section.slope_deg == 0.0
        and len(case.segments) == 1
        and math.isinf(case.segments[0].duration_s)
        and case.segments[0].air_in is None
        and all(leak.leaves_at_frac is None for leak in case.leaks)
    )


def _answered_alone(question: PurgeQuestion) -> PurgeAnswer:
    course = purge(question.case)
    return PurgeAnswer(
        time_to_target_s=course.time_to(question.target_o2_frac),
        oxygen_after_wait_frac=course.oxygen_at(question.wait_s),
    )


def _job(question: PurgeQuestion) -> _Job:
    case = question.case
    flow_m3_s = case.segments[0].flow_m3_s
    closing = closure(situation(case, flow_m3_s=flow_m3_s))
    stirrings = (closing.expected, *(end for end in closing.ends if end != closing.expected))
    mixings = tuple(mixing_of(case, flow_m3_s=flow_m3_s, stirring=stirring) for stirring in stirrings)
    ratios = tuple((stirring.lower_ratio, stirring.upper_ratio) for stirring in stirrings)
    ends = tuple(stirrings.index(end) for end in closing.ends)
    widening = _BEYOND_RANGE_WIDENING_RATIO if beyond_tested_range(case) else 1.0
    return _Job(question, mixings, ratios, ends, widening)


def _stacked_answers(jobs: Sequence[_Job]) -> list[PurgeAnswer | None]:
    """None for a set-up whose front stays too sharp for eigenmodes."""
    if not jobs:
        return []
    rows = np.repeat(np.arange(len(jobs)), [len(job.mixings) for job in jobs])
    waits = _Waits(jobs, rows)
    stack = RootStack(
        _balances(jobs, rows),
        level_frac=np.array([job.level_frac for job in jobs])[rows],
        earliest_s=waits.earliest_s,
    )
    first = np.searchsorted(rows, np.arange(len(jobs))).tolist()
    oxygen = _Oxygen(stack, waits, first)
    times_s, sharp = stack.last_time_above_s.tolist(), (stack.log_spread > MODES_UP_TO).tolist()
    return [
        None
        if any(sharp[start : start + len(job.mixings)])
        else PurgeAnswer(
            time_to_target_s=_time_interval(job, times_s[start : start + len(job.mixings)]),
            oxygen_after_wait_frac=oxygen.interval(number, job),
        )
        for number, (job, start) in enumerate(zip(jobs, first, strict=True))
    ]


def _balances(jobs: Sequence[_Job], rows: Indices) -> BalanceStack:
    flows_m3_s = np.array([job.question.case.segments[0].flow_m3_s for job in jobs])
    return level_balances(
        level_columns([job.question.case for job in jobs]),
        rows=rows.tolist(),
        flows_m3_s=flows_m3_s[rows].tolist(),
        mixings=[mixing for job in jobs for mixing in job.mixings],
    )


def _time_interval(job: _Job, times_s: Sequence[float]) -> Interval | None:
    expected = times_s[0]
    if math.isinf(expected):
        return None
    below_tested = job.question.target_o2_frac < LOWEST_TESTED_O2_FRAC
    widening = _BEYOND_RANGE_WIDENING_RATIO if below_tested else job.base_widening_ratio
    ends = [
        times_s[number] * ratio**widening for number in job.end_numbers for ratio in job.time_ratios[number]
    ]
    return Interval(expected, min(expected, *ends), max(expected, *ends))


class _Waits:
    """Modelled times of each balance at the end of its wait: as expected, and as fast and slow as may be."""

    def __init__(self, jobs: Sequence[_Job], rows: Indices) -> None:
        wait_s = np.array([job.question.wait_s for job in jobs])[rows, np.newaxis]
        time_ratio = np.array([ratios for job in jobs for ratios in job.time_ratios])
        widening = np.array([job.base_widening_ratio for job in jobs])[rows, np.newaxis]
        self.narrow_s = np.hstack((wait_s, wait_s / time_ratio**widening))
        self.wide_s = np.hstack((wait_s, wait_s / time_ratio**_BEYOND_RANGE_WIDENING_RATIO))
        self.earliest_s = np.minimum(self.narrow_s, self.wide_s).min(axis=1)


class _Oxygen:
    """Oxygen after the waits: expected, and at both ends of each balance's interval."""

    def __init__(self, stack: RootStack, waits: _Waits, first: Sequence[int]) -> None:
        self._first = first
        self._narrow: list[list[float]] = stack.root_air_frac(waits.narrow_s).tolist()
        # Below what was tested the interval is twice as wide, whether or not it was already.
        self._wide: list[list[float]] = stack.root_air_frac(waits.wide_s).tolist()

    def interval(self, number: int, job: _Job) -> Interval:
        expected = job.o2_frac(self._narrow[self._first[number]][0])
        lower, upper = self._range(number, job, self._narrow)
        if lower >= LOWEST_TESTED_O2_FRAC:
            return Interval(expected, lower, upper)
        wide_lower, wide_upper = self._range(number, job, self._wide)
        if upper < LOWEST_TESTED_O2_FRAC:
            upper = min(LOWEST_TESTED_O2_FRAC, wide_upper)
        return Interval(expected, wide_lower, upper)

    def _range(self, number: int, job: _Job, air_frac: Sequence[Sequence[float]]) -> tuple[float, float]:
        start = self._first[number]
        known = [air_frac[start][0]]
        for balance in job.end_numbers:
            known += air_frac[start + balance][1:]
        return job.o2_frac(min(known)), job.o2_frac(max(known))
