"""The answers of a batch by stepping the same layers in time with scipy's `solve_ivp`, at equal accuracy.

The solver is given its best: the right side as one product of a matrix, the Jacobian, banded where it takes bands, no
step after it knows what was asked, and the loosest tolerance that is accurate enough for nine set-ups in ten. Its time
counts the stepping alone; that of a batch counts everything from the set-up to the answer.
"""

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import expm

from trainer.core.batch import PurgeAnswer, PurgeQuestion
from trainer.core.column import Floats
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.gas_column import gas_column
from trainer.core.layers import layer_balance
from trainer.core.purge_courses import mixing_of
from trainer.core.purge_groups import beyond_tested_range, situation
from trainer.core.stirring import closure

METHODS = ("LSODA", "BDF", "Radau")
WANTED_ACCURACY = 1e-4
TOLERANCES = (1e-3, 7e-4, 5e-4, 3e-4, 2e-4, 1e-4, 7e-5, 5e-5, 3e-5, 2e-5, 1e-5, 5e-6, 2e-6, 1e-6)
_FAR_S = 1e9


@dataclass(frozen=True, kw_only=True)
class Asked:
    """One balance of a set-up: dc/dt = J c, its level to be timed, and the times at which it is looked at."""

    matrix_per_s: Floats
    level_frac: float
    look_s: Floats

    @cached_property
    def banded_per_s(self) -> Floats:
        """The matrix by its three bands, as LSODA takes it."""
        bands = np.zeros((3, len(self.matrix_per_s)))
        bands[0, 1:] = np.diag(self.matrix_per_s, 1)
        bands[1] = np.diag(self.matrix_per_s)
        bands[2, :-1] = np.diag(self.matrix_per_s, -1)
        return bands


@dataclass(frozen=True, kw_only=True)
class Stepped:
    """How long stepping took for a set-up, with which tolerance, and how far off it was."""

    each_ms: float
    tolerance: float
    error_frac: float


def loosest_stepping(
    questions: Sequence[PurgeQuestion], answers: Sequence[PurgeAnswer], method: str
) -> Stepped:
    """Time for each set-up with the loosest tolerance that is accurate enough nine times in ten."""
    balances = [balances_of(question) for question in questions]
    for tolerance in TOLERANCES:
        start = time.process_time()
        found = [[by_solve_ivp(asked, method, tolerance) for asked in each] for each in balances]
        each_ms = (time.process_time() - start) * 1e3 / len(questions)
        errors = [
            _error_frac(each[0], one[0], question, answer)
            for each, one, question, answer in zip(found, balances, questions, answers, strict=True)
        ]
        error_frac = float(np.quantile(errors, 0.9))
        if error_frac <= WANTED_ACCURACY:
            return Stepped(each_ms=each_ms, tolerance=tolerance, error_frac=error_frac)
    raise SystemExit(f"{method} does not get to {WANTED_ACCURACY}")


def exact_error(questions: Sequence[PurgeQuestion], answers: Sequence[PurgeAnswer]) -> float:
    """How far the batch's times and air are from those of the same layers by the exponential of their matrix."""
    return max(
        _error_frac(_exact(asked, answer), asked, question, answer)
        for question, answer in zip(questions, answers, strict=True)
        for asked in balances_of(question)[:1]
    )


def balances_of(question: PurgeQuestion) -> list[Asked]:
    """The different balances that the answer takes: the expected one and those at the ends of the interval."""
    case = question.case
    flow = case.segments[0].flow_m3_s
    closing = closure(situation(case, flow_m3_s=flow))
    column = gas_column(case)
    widening = 2.0 if beyond_tested_range(case) else 1.0
    level = (question.target_o2_frac - case.source_o2_frac) / (O2_IN_DRY_AIR_FRAC - case.source_o2_frac)
    asked = []
    for stirring in dict.fromkeys((closing.expected, *closing.ends)):
        mixing = mixing_of(case, flow_m3_s=flow, stirring=stirring)
        balance = layer_balance(column, flow_m3_s=flow, mixing=mixing)
        matrix = np.diag(balance.rise_m3_s, -1) + np.diag(balance.fall_m3_s, 1) - np.diag(balance.loss_m3_s)
        ratios = np.array([1.0, stirring.lower_ratio**widening, stirring.upper_ratio**widening])
        asked.append(
            Asked(
                matrix_per_s=matrix / balance.volume_m3[:, np.newaxis],
                level_frac=level,
                look_s=question.wait_s / ratios,
            )
        )
    return asked


def by_solve_ivp(asked: Asked, method: str, tolerance: float) -> tuple[float, float]:
    """Time to the level, and the air after the wait as expected; both ends of it are looked at on the way."""
    matrix = asked.matrix_per_s

    def reached(_: float, air_frac: Floats) -> float:
        return math.log(max(float(air_frac.max()), 1e-300) / asked.level_frac)

    given: dict[str, Any] = {"method": method, "rtol": tolerance, "atol": tolerance * asked.level_frac}
    banded = {"lband": 1, "uband": 1, "jac": lambda _, __: asked.banded_per_s}
    given |= banded if method == "LSODA" else {"jac": matrix}
    order = np.argsort(asked.look_s)
    looked = solve_ivp(
        lambda _, air_frac: matrix @ air_frac, (0.0, float(asked.look_s.max())), np.ones(len(matrix)),
        t_eval=asked.look_s[order], events=reached, **given,
    )  # fmt: skip
    air_frac = float(looked.y[:, int(np.flatnonzero(order == 0)[0])].max())
    if looked.t_events[0].size:
        return float(looked.t_events[0][0]), air_frac
    reached.terminal = True  # type: ignore[attr-defined] (how solve_ivp is told)
    further = solve_ivp(
        lambda _, air_frac: matrix @ air_frac, (float(looked.t[-1]), _FAR_S), looked.y[:, -1], events=reached, **given
    )  # fmt: skip
    return float(further.t_events[0][0]), air_frac


def _exact(asked: Asked, answer: PurgeAnswer) -> tuple[float, float]:
    """The time put right by what the root holds at it, and the air after the wait."""
    if answer.time_to_target_s is None:
        raise SystemExit("a random purge without leaks gets to any level")
    time_s = answer.time_to_target_s.expected
    air = expm(asked.matrix_per_s * time_s) @ np.ones(len(asked.matrix_per_s))
    worst = int(air.argmax())
    rate_per_s = float((asked.matrix_per_s @ air)[worst] / air[worst])
    waited = expm(asked.matrix_per_s * asked.look_s[0]) @ np.ones(len(asked.matrix_per_s))
    return time_s + math.log(asked.level_frac / float(air[worst])) / rate_per_s, float(waited.max())


def _error_frac(
    found: tuple[float, float], asked: Asked, question: PurgeQuestion, answer: PurgeAnswer
) -> float:
    """Of the time as a part of it; of the air after the wait as a part of itself, or of the level where it is less."""
    time_s, air_frac = found
    source = question.case.source_o2_frac
    expected_frac = (answer.oxygen_after_wait_frac.expected - source) / (O2_IN_DRY_AIR_FRAC - source)
    expected_s = answer.time_to_target_s.expected if answer.time_to_target_s else math.inf
    return max(
        abs(time_s / expected_s - 1.0),
        abs(air_frac - expected_frac) / max(expected_frac, asked.level_frac),
    )
