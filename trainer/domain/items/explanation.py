"""Explanations: a few sentences, graded by a person against the item's rubric, never by machine."""

from collections.abc import Mapping

from trainer.domain.item_parts import Criterion
from trainer.domain.items import why as words
from trainer.domain.scenario import Item, ItemOutcome

HIGHEST_LEVEL = 3
FEWEST_CRITERIA, MOST_CRITERIA = 3, 5
LONGEST_TEXT = 2000  # characters: a few sentences, not an essay


def explanation_outcome(item: Item, *, response: str | None) -> ItemOutcome:
    """Without a score until somebody has graded it; one that was not written stands at 0 in everything."""
    answered = response is not None
    return ItemOutcome(
        item_id=item.id,
        score=None if answered else 0.0,
        correct=False,
        answered=answered,
        why=() if answered else (words.UNANSWERED,),
        critical_missed=not answered and any(each.critical for each in item.rubric),
    )


def graded_score(rubric: tuple[Criterion, ...], *, levels: Mapping[str, int]) -> float:
    """The weighted share of points: sum of weight times level over the most that could be had."""
    most = sum(each.weight * HIGHEST_LEVEL for each in rubric)
    return sum(each.weight * levels[each.id] for each in rubric) / most


def fails_critically(rubric: tuple[Criterion, ...], *, levels: Mapping[str, int]) -> bool:
    """Whether a critical criterion stands at level 0."""
    return any(each.critical and levels[each.id] == 0 for each in rubric)
