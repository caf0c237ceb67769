"""Placement items: judged by what the placement does, through the core; the worst effect counts."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from trainer.domain.items import why as words
from trainer.domain.quantities import NEVER, Never
from trainer.domain.scenario import EffectScale, Item, ItemOutcome, PlacementTest


@dataclass(frozen=True, kw_only=True)
class Effect:
    """What the core makes of a placement for one test; `fault` says why it can't tell."""

    test: PlacementTest
    value: float | Never
    fault: str = ""


def effect_score(test: PlacementTest, value: float | Never) -> float:
    """1 on the good side of `good`, 0 beyond `bad`; what never comes scores 0."""
    if value is NEVER or isinstance(value, Never):
        return 0.0
    if _is_good(test, value):
        return 1.0
    if test.scale is EffectScale.DIFFERENCE:
        lost = (value - test.good) / (test.bad - test.good)
    elif value <= 0.0:
        return 0.0
    else:
        lost = log(value / test.good) / log(test.bad / test.good)
    return max(0.0, 1.0 - lost)


def _is_good(test: PlacementTest, value: float) -> bool:
    return value <= test.good if test.good < test.bad else value >= test.good


def placement_outcome(item: Item, *, effects: Sequence[Effect] | None) -> ItemOutcome:
    """The outcome of one placement from its effects; None where nothing, or not every handle, was placed."""
    if effects is None:
        return ItemOutcome(item_id=item.id, score=0.0, correct=False, answered=False, why=(words.UNANSWERED,))
    scores = [(0.0 if each.fault else effect_score(each.test, each.value), each) for each in effects]
    score = min((each[0] for each in scores), default=1.0)
    lost = [each for points, each in scores if points < 1.0]
    why = tuple(each.fault or each.test.misconception for each in lost)
    return ItemOutcome(
        item_id=item.id,
        score=score,
        correct=score >= 1.0,
        answered=True,
        why=why or (words.PLACED_WELL,),
        misconceptions=tuple(each.test.misconception for each in lost if not each.fault),
    )
