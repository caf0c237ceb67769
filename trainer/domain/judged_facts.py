"""Figures and facts about a judged run that several quantities share."""

from collections.abc import Mapping
from math import isfinite

from trainer.core.gas import G as GRAVITY_M_S2
from trainer.core.gas import reduced_gravity_m_s2
from trainer.domain.judged import Judged
from trainer.domain.known_parts import gas_of, temperature_of


def quotient(value: float | None, by: float | None) -> float | None:
    """One figure over another; None where either is not known, or the other is nothing beside it."""
    if value is None or by is None or by <= 0.0:
        return None
    ratio = value / by
    return ratio if isfinite(ratio) else None


def place_facts(judged: Judged) -> Mapping[str, float | str]:
    """The space and the gas, for the words of a caution."""
    around, used = judged.set_up.surroundings, gas_of(judged.set_up)
    return {"place": str(around.kind or "") if around else "", "gas": used.name if used else ""}


def density_difference_frac(judged: Judged) -> float | None:
    """How much the gas differs from air in weight, as a share of the air's."""
    used = gas_of(judged.set_up)
    if used is None:
        return None
    return reduced_gravity_m_s2(used, temperature_k=temperature_of(judged.set_up)) / GRAVITY_M_S2
