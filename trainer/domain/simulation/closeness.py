"""How near the wrong options of a drawn choice come to the right one, through the core's own results."""

from collections.abc import Mapping
from math import inf, log

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.domain.core_results import NotKnown
from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import ChoiceTemplate, Condition, OptionTemplate, ResultOf
from trainer.domain.family_conditions import holds
from trainer.domain.quantities import Dimension, Never
from trainer.domain.result_kinds import RESULTS

_SHOP_K = 293.15
_BREATHED_ABOVE_FRAC = 0.1
_READS_TO_FRAC = 0.001  # what a personal meter shows
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
    return _apart(second, best, result=choice.least)


def _of_conditions(offered: list[OptionTemplate], drawn: Drawn) -> float:
    """How far the nearest of the wrong options is from being right, by what it fails most."""
    failed = [[one for one in each.when if not holds(one, drawn)] for each in offered]
    return min((max(_missed(one, drawn) for one in each) for each in failed if each), default=inf)


def _missed(condition: Condition, drawn: Drawn) -> float:
    if condition.relation not in ("above", "below"):
        return inf
    left = _number(drawn.result(condition.left))
    right = condition.right
    limit = _number(drawn.result(right)) if isinstance(right, ResultOf) else drawn.amount(right)
    return _apart(left, limit, result=condition.left.result)


def _number(found: float | str | Never) -> float:
    return found if isinstance(found, float) else inf


def _apart(one: float, other: float, *, result: str) -> float:
    """The log of the ratio of two values, each taken from where it stands when nothing acts."""
    one, other = _acts(one, result), _acts(other, result)
    return abs(log(one / other)) if 0.0 < one < inf and 0.0 < other < inf else inf


def _acts(value: float, result: str) -> float:
    """Heat counts from the shop's temperature, and oxygen that people breathe from that of fresh air."""
    dimension = RESULTS[result].dimension
    if dimension is Dimension.TEMPERATURE:
        return abs(value - _SHOP_K)
    if dimension is Dimension.FRACTION and value > _BREATHED_ABOVE_FRAC:
        return max(abs(O2_IN_DRY_AIR_FRAC - value), _READS_TO_FRAC)
    return value
