"""Many purges in one call: the layers of all set-ups solved as one stack, with the answers of `purge`."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
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
    mixings: Sequence[Mixing]
    time_ratios: Sequence[tuple[float, float]]
    are_ends: Sequence[bool]
    base_widening_ratio: float


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
    other_ends = [end for end in closing.ends if end is not closing.expected]
    stirrings = [closing.expected, *other_ends]
    return _Job(
        question=question,
        mixings=[mixing_of(case, flow_m3_s=flow_m3_s, stirring=stirring) for stirring in stirrings],
        time_ratios=[(stirring.lower_ratio, stirring.upper_ratio) for stirring in stirrings],
        are_ends=[len(other_ends) < len(closing.ends), *[True] * len(other_ends)],
        base_widening_ratio=_BEYOND_RANGE_WIDENING_RATIO if beyond_tested_range(case) else 1.0,
    )


def _stacked_answers(jobs: Sequence[_Job]) -> list[PurgeAnswer | None]:
    """None for a set-up whose front stays too sharp for eigenmodes."""
    if not jobs:
        return []
    asked = _Asked(jobs)
    waits_s = asked.waits_s(asked.base_widening_ratio), asked.waits_s(_BEYOND_RANGE_WIDENING_RATIO)
    stack = RootStack(
        _balances(jobs, asked.rows),
        level_frac=asked.level_frac[asked.rows],
        earliest_s=np.minimum(*(each.min(axis=1) for each in waits_s)),
    )
    is_sharp = np.logical_or.reduceat(stack.log_spread > MODES_UP_TO, asked.first)
    times_s = asked.times_s(stack.last_time_above_s)
    oxygen = asked.oxygen_frac(*(stack.root_air_frac(each) for each in waits_s))
    return [
        None if sharp else PurgeAnswer(
            time_to_target_s=None if math.isinf(time_s[0]) else Interval(*time_s),
            oxygen_after_wait_frac=Interval(*o2_frac),
        )
        for sharp, time_s, o2_frac in zip(is_sharp.tolist(), times_s.tolist(), oxygen.tolist(), strict=True)
    ]  # fmt: skip


def _balances(jobs: Sequence[_Job], rows: Indices) -> BalanceStack:
    flows_m3_s = np.array([job.question.case.segments[0].flow_m3_s for job in jobs])
    return level_balances(
        level_columns([job.question.case for job in jobs]),
        rows=rows.tolist(),
        flows_m3_s=flows_m3_s[rows].tolist(),
        mixings=[mixing for job in jobs for mixing in job.mixings],
    )


class _Asked:
    """What is asked of all jobs, as arrays: one row for each job, or for each of its balances."""

    def __init__(self, jobs: Sequence[_Job]) -> None:
        counts = [len(job.mixings) for job in jobs]
        self.rows: Indices = np.repeat(np.arange(len(jobs)), counts)
        self.first: Indices = np.cumsum([0, *counts[:-1]])
        self._target_frac, self._wait_s, self._source_frac, self.base_widening_ratio = np.array(
            [
                (job.question.target_o2_frac, job.question.wait_s, job.question.case.source_o2_frac,
                 job.base_widening_ratio)
                for job in jobs
            ]
        ).T  # fmt: skip
        source_frac = self._source_frac
        self.level_frac: Floats = (self._target_frac - source_frac) / (O2_IN_DRY_AIR_FRAC - source_frac)
        self._time_ratio = np.array([ratios for job in jobs for ratios in job.time_ratios])
        self._is_end = np.array([is_end for job in jobs for is_end in job.are_ends])

    def waits_s(self, widening_ratio: Floats | float) -> Floats:
        """Modelled times of each balance when its wait ends: as expected, as fast and as slow as may be."""
        widening = np.broadcast_to(widening_ratio, len(self._wait_s))[self.rows, np.newaxis]
        wait_s = self._wait_s[self.rows, np.newaxis]
        return np.hstack((wait_s, wait_s / self._time_ratio**widening))

    def times_s(self, modelled_s: Floats) -> Floats:
        """Expected, least and largest time to the target of each job."""
        below_tested = self._target_frac < LOWEST_TESTED_O2_FRAC
        widening = np.where(below_tested, _BEYOND_RANGE_WIDENING_RATIO, self.base_widening_ratio)
        ends_s = modelled_s[:, np.newaxis] * self._time_ratio ** widening[self.rows, np.newaxis]
        return self._spanned(modelled_s, ends_s)

    def oxygen_frac(self, air_frac: Floats, wide_air_frac: Floats) -> Floats:
        """Expected, least and largest oxygen of each job; an end below what was tested is the wider one's."""
        expected, lower, upper = self._o2_frac(air_frac).T
        _, wide_lower, wide_upper = self._o2_frac(wide_air_frac).T
        lowest = LOWEST_TESTED_O2_FRAC
        return np.column_stack(
            (
                expected,
                np.where(lower < lowest, wide_lower, lower),
                np.where(upper < lowest, np.minimum(lowest, wide_upper), upper),
            )
        )

    def _o2_frac(self, air_frac: Floats) -> Floats:
        source = self._source_frac[:, np.newaxis]
        air = self._spanned(air_frac[:, 0], air_frac[:, 1:])
        return np.asarray(source + (O2_IN_DRY_AIR_FRAC - source) * air)

    def _spanned(self, modelled: Floats, ends: Floats) -> Floats:
        """What each job expects, with the least and the largest of it and of the ends that count."""
        expected, counts = modelled[self.first], self._is_end
        least = np.minimum.reduceat(np.where(counts, ends.min(axis=1), np.inf), self.first)
        largest = np.maximum.reduceat(np.where(counts, ends.max(axis=1), -np.inf), self.first)
        return np.column_stack((expected, np.minimum(expected, least), np.maximum(expected, largest)))
