"""How near the wrong options of a drawn choice come to the right one, through the core's own results."""

from collections.abc import Mapping
from math import inf, log

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.domain.core_results import NotKnown
from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import ChoiceTemplate, Condition, OptionTemplate, ResultOf
from trainer.domain.family_conditions import holds
from trainer.domain.quantities import Never

_NO_ANSWER = (OutOfRange, UnknownName, UnknownSize, NotKnown, Rejected)


def margins_of(drawn: Drawn) -> Mapping[str, float]:
    """By item: the log of the ratio by which its right option is right; infinite where no number decides."""
    choices = ((each.id, each.choice) for each in drawn.family.items if each.span.holds(drawn.difficulty))
    return {item_id: _margin(choice, drawn) for item_id, choice in choices if choice is not None}


def _margin(choice: ChoiceTemplate, drawn: Drawn) -> float:
    offered = [each for each in choice.options if each.span.holds(drawn.difficulty)]
    try:
        return _of_least(choice, offered, drawn) if choice.least else _of_conditions(offered, drawn)
    except _NO_ANSWER:
        return inf


def _of_least(choice: ChoiceTemplate, offered: list[OptionTemplate], drawn: Drawn) -> float:
    found = [_number(drawn.result(ResultOf(of=each.of, result=choice.least))) for each in offered]
    best, second = sorted(found)[:2]
    return _apart(second, best)


def _of_conditions(offered: list[OptionTemplate], drawn: Drawn) -> float:
    """What the right option's conditions clear; right is the one whose conditions all hold."""
    right = (each for each in offered if each.when and all(holds(one, drawn) for one in each.when))
    conditions = next((each.when for each in right), ())
    return min((_cleared(each, drawn) for each in conditions), default=inf)


def _cleared(condition: Condition, drawn: Drawn) -> float:
    if condition.relation not in ("above", "below"):
        return inf
    left = _number(drawn.result(condition.left))
    right = condition.right
    limit = drawn.result(right) if isinstance(right, ResultOf) else drawn.amount(right)
    return _apart(left, _number(limit))


def _number(found: float | str | Never) -> float:
    return found if isinstance(found, float) else inf


def _apart(one: float, other: float) -> float:
    return abs(log(one / other)) if 0.0 < one < inf and 0.0 < other < inf else inf
