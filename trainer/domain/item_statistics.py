"""How the items of families behave over many answers: difficulty, discrimination, answers chosen, what to do.

Difficulty is the mean score; discrimination the correlation of an item with the mean of the rest of the same
attempt (the item itself left out, which would inflate it). Where to look twice (below 0.2, above 0.95, below
0.15) is common practice, no source; a negative discrimination points at the key first.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import atanh, sqrt
from statistics import StatisticsError, correlation, fmean
from uuid import UUID

LEAST_FOR_DIFFICULTY = 10
LEAST_FOR_DISCRIMINATION = 30  # smaller groups give nonsense
TOO_HARD_BELOW, TOO_EASY_ABOVE = 0.2, 0.95
WEAK_BELOW = 0.15
_RIGHT_FROM = 1.0 - 1e-9
_SURE = 1.645  # standard errors of a one-sided test at 5 %


class Advice(StrEnum):
    """What the figures ask for, the gravest first; the last three ask for nothing now."""

    CHECK_KEY = "check the key"
    TOO_HARD = "too hard"
    WEAK = "hardly tells"
    TOO_EASY = "too easy"
    FINE = "fine"
    WAIT = "not enough answers yet"

    @property
    def asks(self) -> bool:
        """Whether somebody should look at the item."""
        return self in (Advice.CHECK_KEY, Advice.TOO_HARD, Advice.WEAK)


@dataclass(frozen=True, kw_only=True)
class ItemScore:
    """What one item scored in one marking; beliefs are what its answer showed."""

    marking_id: UUID
    family: str
    item_id: str
    skill: int
    weight: float
    score: float
    answered: bool
    beliefs: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class ItemStatistics:
    """One item of a family over all its answers; figures that too few answers stand behind are None."""

    family: str
    item_id: str
    skill: int
    answers_count: int
    right_count: int
    unanswered_count: int
    other_count: int  # answered, not right, and no belief shown
    beliefs: tuple[tuple[str, int], ...]  # with how often each showed, the most frequent first
    difficulty_frac: float | None
    discrimination: float | None
    advice: Advice


def item_statistics(scores: Sequence[ItemScore]) -> tuple[ItemStatistics, ...]:
    """The statistics of every item, those that ask for something first, then by family and item."""
    by_marking: dict[UUID, list[ItemScore]] = {}
    by_item: dict[tuple[str, str], list[ItemScore]] = {}
    for each in scores:
        by_marking.setdefault(each.marking_id, []).append(each)
        by_item.setdefault((each.family, each.item_id), []).append(each)
    found = [_of_item(own, by_marking) for own in by_item.values()]
    order = list(Advice)
    return tuple(sorted(found, key=lambda each: (order.index(each.advice), each.family, each.item_id)))


def _of_item(own: Sequence[ItemScore], by_marking: Mapping[UUID, Sequence[ItemScore]]) -> ItemStatistics:
    first, count = own[0], len(own)
    difficulty = fmean(each.score for each in own) if count >= LEAST_FOR_DIFFICULTY else None
    pairs = [
        (each.score, rest) for each in own if (rest := _rest(each, by_marking[each.marking_id])) is not None
    ]
    tells = discrimination(pairs)
    beliefs = Counter(belief for each in own for belief in each.beliefs)
    return ItemStatistics(
        family=first.family,
        item_id=first.item_id,
        skill=first.skill,
        answers_count=count,
        right_count=sum(each.score >= _RIGHT_FROM for each in own),
        unanswered_count=sum(not each.answered for each in own),
        other_count=sum(each.answered and each.score < _RIGHT_FROM and not each.beliefs for each in own),
        beliefs=tuple(sorted(beliefs.items(), key=lambda each: (-each[1], each[0]))),
        difficulty_frac=difficulty,
        discrimination=tells,
        advice=advice(difficulty, tells, pairs_count=len(pairs)),
    )


def _rest(item: ItemScore, attempt: Sequence[ItemScore]) -> float | None:
    """The weighted mean of the rest of the attempt; None where there is no rest."""
    others = [each for each in attempt if each is not item]
    if not others:
        return None
    return fmean([each.score for each in others], [each.weight for each in others])


def discrimination(pairs: Sequence[tuple[float, float]]) -> float | None:
    """The correlation of an item with the rest; None for too few pairs, or where either never changes."""
    if len(pairs) < LEAST_FOR_DISCRIMINATION:
        return None
    return item_rest_correlation([item for item, _ in pairs], [rest for _, rest in pairs])


def item_rest_correlation(items: Sequence[float], rests: Sequence[float]) -> float | None:
    """Pearson's correlation of an item with the rest; None where either never changes.

    >>> round(item_rest_correlation([1, 1, 0, 0], [0.9, 0.8, 0.3, 0.1]), 2)
    0.97
    """
    try:
        return correlation(items, rests)
    except StatisticsError:
        return None


def advice(difficulty_frac: float | None, discrimination_ratio: float | None, *, pairs_count: int) -> Advice:
    """What the figures ask for; one wrong answer in forty makes no key suspect, so chance is allowed for."""
    if difficulty_frac is None:
        return Advice.WAIT
    if discrimination_ratio is not None and _is_surely_negative(discrimination_ratio, pairs_count):
        return Advice.CHECK_KEY
    if difficulty_frac < TOO_HARD_BELOW:
        return Advice.TOO_HARD
    if difficulty_frac > TOO_EASY_ABOVE:
        return Advice.TOO_EASY
    if discrimination_ratio is not None and discrimination_ratio < WEAK_BELOW:
        return Advice.WEAK
    return Advice.FINE


def _is_surely_negative(ratio: float, pairs_count: int) -> bool:
    """Whether it lies below zero by more than chance: by Fisher, with a standard error of 1 / sqrt(n - 3)."""
    if ratio >= 0.0:
        return False
    return ratio <= -1.0 or atanh(ratio) + _SURE / sqrt(pairs_count - 3) < 0.0
