"""What each step of a diagnosis was worth when it was taken, and the plan that wastes nothing.

A check is worth what it could rule out: of the causes that what was seen before leaves possible, the share
that its answer is expected to strike off, per minute, against the best check to be had at that moment. An
action is worth the share of those causes that it cures. Letting time pass costs nothing here: the limit
charges it.
"""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.domain.diagnosis_parts import SOUND, DiagnosisKey, DiagnosisSheet, Move, MoveKind

_COUNTED = (MoveKind.CHECK, MoveKind.ACTION)


@dataclass(frozen=True, kw_only=True)
class StepWorth:
    """One check or action: what it cost, what share of that was well spent, and the causes still possible
    after it."""

    move_id: str
    cost_s: float
    worth: float
    possible: frozenset[str]
    sure_frac: float | None = None  # of the step that cured it: how sure of the cause one could be by then

    @property
    def wasted_s(self) -> float:
        """The part of its time that brought nothing."""
        return self.cost_s * (1.0 - self.worth)


def informed_frac(key: DiagnosisKey, *, check: str, possible: Iterable[str]) -> Fraction:
    """The share of the possible causes that a check is expected to rule out, each being as likely.

    1 - sum (n_i / N)^2 over the answers that it can give; exact, so that checks of one worth tie whatever
    the order in which the causes are counted.
    """
    answers = Counter(key.seen(check, each) for each in possible)
    return 1 - Fraction(sum(count**2 for count in answers.values()), answers.total() ** 2)


def step_worths(sheet: DiagnosisSheet, *, key: DiagnosisKey, steps: Sequence[str]) -> tuple[StepWorth, ...]:
    """The worth of every check and action among the steps."""
    return tuple(_Weighing(sheet, key).of(steps))


def best_check(sheet: DiagnosisSheet, *, key: DiagnosisKey, possible: frozenset[str]) -> Move | None:
    """The check that rules out most a minute, of equals the soonest done; None where none can tell the
    causes apart any more."""
    checks = [each for each in sheet.moves if each.kind is MoveKind.CHECK]
    ranked = max(checks, key=lambda each: (_rate(key, each, possible), -each.takes_s), default=None)
    return ranked if ranked is not None and _rate(key, ranked, possible) > 0 else None


def _rate(key: DiagnosisKey, check: Move, possible: frozenset[str]) -> Fraction:
    return informed_frac(key, check=check.id, possible=possible) / Fraction(max(check.takes_s, 1.0))


class _Weighing:
    """Goes through the steps and keeps what is still possible."""

    def __init__(self, sheet: DiagnosisSheet, key: DiagnosisKey) -> None:
        self.sheet, self.key = sheet, key
        self.possible = frozenset(each.id for each in key.causes)
        self.cured = False
        self.done: set[str] = set()

    def of(self, steps: Sequence[str]) -> Iterator[StepWorth]:
        for step in steps:
            move = self.sheet.move(step)
            if move.kind in _COUNTED:
                sure_frac = self._sure_frac(step)
                worth = self._check(move) if move.kind is MoveKind.CHECK else self._action(step)
                if self._comes_too_soon(step):
                    worth = 0.0
                yield StepWorth(
                    move_id=step,
                    cost_s=move.takes_s,
                    worth=worth,
                    possible=self.possible,
                    sure_frac=sure_frac,
                )
            self.done.add(step)

    def _comes_too_soon(self, step: str) -> bool:
        """Whether something that has to come before it has not been done yet."""
        place = self.key.move(step).first or math.inf
        return any(0 < each.first < place and each.id not in self.done for each in self.key.moves)

    def _sure_frac(self, step: str) -> float | None:
        """The share of the possible causes that a step cures, where it takes away the one that is there."""
        cures = self.key.move(step).cures
        if self.cured or self.key.cause not in cures:
            return None
        return len(self.possible & set(cures)) / len(self.possible)

    def _check(self, move: Move) -> float:
        best = best_check(self.sheet, key=self.key, possible=self.possible)
        worth = 0.0
        if best is not None and not self.cured:
            worth = float(_rate(self.key, move, self.possible) / _rate(self.key, best, self.possible))
        seen = self.key.seen(move.id, SOUND if self.cured else self.key.cause)
        if not self.cured:
            self.possible = frozenset(each for each in self.possible if self.key.seen(move.id, each) == seen)
        return worth

    def _action(self, step: str) -> float:
        move = self.key.move(step)
        cures = self.possible & set(move.cures)
        worth = 0.0 if self.cured else len(cures) / len(self.possible)
        if move.needed or move.first:
            worth = 1.0 if step not in self.done else 0.0
        if self.key.cause in move.cures:
            self.cured = True
        elif not self.cured:
            self.possible = (self.possible - set(move.cures)) or self.possible
        return worth
