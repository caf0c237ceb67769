"""The band of a quantity item from a set-up: key, band factor and the ratio at which the outcome fails."""

from collections.abc import Callable
from math import ceil, exp, floor, isfinite, log

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.domain.core_results import CoreResults, NotKnown
from trainer.domain.items.crossing import Over
from trainer.domain.quantities import Never
from trainer.domain.scenario import QuantityBand, QuantityRule
from trainer.domain.set_up import SetUp

_WIDEST_FAILING_RATIO = 1e4  # an answer this far on the unsafe side that does not fail has no failing ratio
_CLOSE = 1e-6  # how near the expected value the crossing is looked for first, as a logarithm
_NO_ANSWER = (OutOfRange, UnknownName, UnknownSize, NotKnown)
_SHARP = 1e-10  # how sharply it is found


def band_of(set_up: SetUp, *, rule: QuantityRule, core: CoreResults) -> QuantityBand | None:
    """The band that the set-up's own figures give; None where the quantity does not exist for it.

    The key is the conservative end of the core's interval, rounded to the safe side; the failing ratio is
    found by asking the core at less and less safe responses until the outcome crosses its limit.
    """
    interval = core.interval(set_up, rule.result)
    if interval is None or isinstance(interval, Never) or not isfinite(interval.upper):
        return None
    own_ratio = rule.input_uncertainty_ratio
    if rule.more_is_safer:
        conservative = max(interval.upper, interval.expected * own_ratio)
        key = _up(conservative, rule.nearest)
        width = conservative / interval.expected
    else:
        conservative = min(interval.lower, interval.expected / own_ratio)
        key = _down(conservative, rule.nearest)
        width = interval.expected / conservative if conservative > 0.0 else 0.0
    if key <= 0.0 or width <= 0.0:
        return None
    failing = failing_ratio(set_up, rule=rule, key=key, near=interval.expected, core=core)
    if failing <= 1.0:
        return None
    return QuantityBand(
        key=key,
        band_ratio=max(width, 1.0 + rule.nearest / 2.0 / key),
        safe_zero_ratio=rule.safe_zero_ratio,
        unsafe_zero_ratio=failing,
        more_is_safer=rule.more_is_safer,
    )


def failing_ratio(set_up: SetUp, *, rule: QuantityRule, key: float, near: float, core: CoreResults) -> float:
    """How far on the unsafe side of the key the outcome fails; 1 where it fails at the key itself.

    The outcome is asked close to the expected value first, where it usually crosses its limit.
    """
    outcome = core.curve(set_up, sets=rule.sets, result=rule.outcome)
    over = Over(lambda away: _over(outcome, key * exp(-away if rule.more_is_safer else away), rule))
    if over.is_over(0.0):
        return 1.0
    guess = abs(log(key / near)) if near > 0.0 else 0.0
    low, high = guess - _CLOSE, guess + _CLOSE
    if low <= 0.0 or over.is_over(low) or not over.is_over(high):
        low, high = 0.0, log(_WIDEST_FAILING_RATIO)
    return exp(over.first_over(low, high, sharp=_SHARP))


def carried_band(own: SetUp, *, rule: QuantityRule, core: CoreResults) -> QuantityBand | None:
    """The band of a person's own figures; None where those lead to no answer of the core."""
    try:
        return band_of(own, rule=rule, core=core)
    except _NO_ANSWER:
        return None


def trap_values(set_up: SetUp, *, rule: QuantityRule, core: CoreResults) -> list[tuple[float, str]]:
    """The wrong values that people come to for this set-up, each with the belief behind it."""
    values = []
    for trap in rule.traps:
        value = trap.value if trap.value is not None else _number(core, set_up, trap.result)
        if isinstance(value, float):
            values.append((value * trap.times, trap.misconception))
    return values


def _number(core: CoreResults, set_up: SetUp, result: str) -> float | Never | None:
    """None where a person's own set-up lies outside what the core answers: then there is no such trap."""
    try:
        return core.number(set_up, result)
    except _NO_ANSWER:
        return None


def apart(band: QuantityBand, value: float, *, bands: float) -> bool:
    """Whether a wrong value lies further from the key than so many band factors."""
    return value <= 0.0 or abs(log(value / band.key)) > bands * log(band.band_ratio)


def _over(outcome: Callable[[float], float], response: float, rule: QuantityRule) -> float:
    """By how much the outcome fails, below 0 where it does not."""
    value = outcome(response)
    return value - rule.limit if rule.fails_above else rule.limit - value


def _up(value: float, step: float) -> float:
    return ceil(value / step - 1e-9) * step


def _down(value: float, step: float) -> float:
    return floor(value / step + 1e-9) * step
