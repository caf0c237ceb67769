"""Order items: steps in an order that keeps every required precedence; there are several right ones."""

from collections.abc import Collection, Sequence

from trainer.domain.items import why as words
from trainer.domain.scenario import Answer, Item, ItemOutcome, LeftOut, Precedence


def covers(precedences: Collection[tuple[str, str]]) -> frozenset[tuple[str, str]]:
    """The cover relations of a partial order: those that do not follow from two others.

    A chain of three steps has two cover relations, so that its one slip is not counted twice.
    """
    pairs = set(precedences)
    steps = {step for pair in pairs for step in pair}
    reached: dict[str, set[str]] = {step: _after(step, pairs) for step in steps}
    return frozenset(
        (first, then)
        for first, then in pairs
        if not any((first, between) in pairs and then in reached[between] for between in steps - {then})
    )


def score_order(order: Sequence[str], *, precedences: Collection[tuple[str, str]], wrongly_in: int) -> float:
    """max(0, 2q - 1), q = cover relations kept / required; a step that does not belong is one not kept.

    A random order keeps half of them on average, and so earns about 0 before the floor.
    """
    required = covers(precedences)
    place = {step: number for number, step in enumerate(order)}
    kept = sum(first in place and then in place and place[first] < place[then] for first, then in required)
    return max(0.0, 2.0 * kept / (len(required) + wrongly_in) - 1.0)


def order_outcome(item: Item, *, answer: Answer, order: Sequence[str] | None) -> ItemOutcome:
    """The outcome of one order; a critical precedence not kept, or a critical step taken in, fails it."""
    if order is None:
        return ItemOutcome(
            item_id=item.id,
            score=0.0,
            correct=False,
            answered=False,
            why=(words.UNANSWERED,),
            critical_missed=any(each.critical for each in answer.precedences),
        )
    place = {step: number for number, step in enumerate(order)}
    broken = [each for each in answer.precedences if not _keeps(place, each)]
    taken_in = [each for each in answer.left_out if each.step_id in place]
    score = score_order(
        order,
        precedences=[(each.before, each.after) for each in answer.precedences],
        wrongly_in=len(taken_in),
    )
    return ItemOutcome(
        item_id=item.id,
        score=score,
        correct=not broken and not taken_in,
        answered=True,
        why=_why(item, broken, taken_in),
        misconceptions=tuple(each.misconception for each in taken_in),
        critical_missed=any(each.critical for each in broken) or any(each.critical for each in taken_in),
    )


def _after(step: str, pairs: set[tuple[str, str]]) -> set[str]:
    """Every step that has to come after one, near or far."""
    found: set[str] = set()
    waiting = [then for first, then in pairs if first == step]
    while waiting:
        each = waiting.pop()
        if each not in found:
            found.add(each)
            waiting.extend(then for first, then in pairs if first == each)
    return found


def _keeps(place: dict[str, int], each: Precedence) -> bool:
    return each.before in place and each.after in place and place[each.before] < place[each.after]


def _why(item: Item, broken: Sequence[Precedence], taken_in: Sequence[LeftOut]) -> tuple[str, ...]:
    texts = {each.id: each.text for each in item.steps}
    lines = [
        words.OUT_OF_ORDER % {"before": texts[each.before], "after": texts[each.after], "why": each.why}
        for each in broken
    ]
    lines += [words.LEAVE_OUT % {"step": texts[each.step_id]} for each in taken_in]
    return tuple(lines) or (words.IN_ORDER,)
