"""Conditions on core results: they hold clearly, fail clearly, or lie too near their limit to decide."""

from trainer.domain.drawn import Drawn, Rejected, rounded
from trainer.domain.family import Condition, ResultOf, Value
from trainer.domain.quantities import Never


def holds(condition: Condition, drawn: Drawn) -> bool | None:
    """True or false where the result clears its limit, None where it lies too near."""
    left = drawn.result(condition.left)
    if condition.relation == "is":
        return str(left) == str(condition.right)
    if condition.relation == "is never":
        return isinstance(left, Never)
    right = _limit(condition.right, drawn)
    if isinstance(left, Never) or isinstance(right, Never):
        return _beyond_all(left, right, condition.relation)
    if isinstance(left, str):
        raise TypeError(f"{condition.left.result} is a word and can only be compared by 'is'")
    is_above = left > right * condition.clear_ratio
    is_below = left * condition.clear_ratio < right
    if not is_above and not is_below:
        return None
    return is_above if condition.relation == "above" else is_below


def require(drawn: Drawn) -> None:
    """Raises Rejected for what this draw does not meet: the core's tested range, then the constraints."""
    course = drawn.core.course(drawn.right)
    beyond = course.purge.beyond_tested_range if course is not None else ()
    if beyond:
        raise Rejected(f"no scored key beyond the tested range: {beyond[0]}")
    for each in drawn.family.constraints:
        if each.span.holds(drawn.difficulty) and not holds(each, drawn):
            raise Rejected(
                f"{each.left.of or 'right'}: {each.left.result} {each.relation} {_words(each.right)}"
            )


def _limit(right: Value, drawn: Drawn) -> float | Never:
    if isinstance(right, ResultOf):
        found = drawn.result(right)
        if isinstance(found, str):
            raise TypeError(f"{right.result} is a word and can only be compared by 'is'")
        return found
    return rounded(drawn.amount(right))


def _beyond_all(left: object, right: object, relation: str) -> bool | None:
    """A time that never comes is above every time; two of them can't be compared."""
    if isinstance(left, Never) and isinstance(right, Never):
        return None
    return isinstance(left, Never) == (relation == "above")


def _words(right: Value) -> str:
    return f"{right.of}: {right.result}" if isinstance(right, ResultOf) else str(right)
