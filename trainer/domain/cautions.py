"""Cautions of a run: the thresholds of the site's policy held against quantities of the set-up and its run.

A quantity is None where it is not known; then its threshold raises nothing.
"""

from trainer.domain.caution_quantities import QUANTITIES
from trainer.domain.judged import Judged
from trainer.domain.policy import Threshold
from trainer.domain.purge_run import Caution


def cautions_of(judged: Judged) -> tuple[Caution, ...]:
    """The cautions that the policy's thresholds raise, in the table's order, each code once."""
    raised: dict[str, Caution] = {}
    for threshold in judged.policy.thresholds:
        if threshold.code not in raised:
            caution = _raised_by(threshold, judged)
            if caution is not None:
                raised[threshold.code] = caution
    return tuple(raised.values())


def _raised_by(threshold: Threshold, judged: Judged) -> Caution | None:
    quantity = QUANTITIES[threshold.quantity]
    value = quantity.value(judged)
    if value is None or not threshold.is_met_by(value):
        return None
    facts = {quantity.fact: value, f"limit_{quantity.fact}": threshold.value, **quantity.facts(judged)}
    return Caution(code=threshold.code, facts=tuple(facts.items()))
