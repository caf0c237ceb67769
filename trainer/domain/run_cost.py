"""What a joint costs: gas, the wait for it, and the root where it is lost, in the money of the prices."""

from trainer.core.changeover import gas_cost
from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.policy import Policy
from trainer.domain.purge_run import CostResult, GasUsed, PurgeResult
from trainer.domain.set_up import SetUp
from trainer.domain.supply_stock import at_reference

_HOUR_S = 3600.0


def cost_result(
    set_up: SetUp,
    *,
    used: GasUsed | None,
    purge: PurgeResult | None,
    policy: Policy,
    reference: ReferenceCondition,
) -> CostResult | None:
    """Each cost of which the price is given; the total only where none of those is unknown."""
    prices = set_up.prices
    if prices is None:
        return None
    gas = _gas_money(set_up, used.total_m3 if used else None, reference)
    wasted = _gas_money(set_up, used.wasted_m3 if used else None, reference)
    waiting = _waiting_money(set_up)
    is_lost = policy.is_root_lost(set_up.material, oxygen_frac=_oxygen_at_strike(purge))
    lost = prices.lost_joint if is_lost else None
    unknown = (
        (prices.gas_per_m3 is not None and gas is None)
        or (prices.labour_per_h is not None and waiting is None)
        or (prices.lost_joint is not None and is_lost is None)
    )
    parts = [each for each in (gas, waiting, lost) if each is not None]
    none_priced = (prices.gas_per_m3, prices.labour_per_h, prices.lost_joint) == (None, None, None)
    return CostResult(
        gas=gas,
        wasted_gas=wasted,
        waiting=waiting,
        lost_joint=lost,
        total=None if unknown or none_priced else sum(parts),
    )


def _gas_money(set_up: SetUp, volume_m3: float | None, reference: ReferenceCondition) -> float | None:
    price = set_up.prices.gas_per_m3 if set_up.prices else None
    if price is None or volume_m3 is None:
        return None
    stated_m3 = at_reference(volume_m3, set_up=set_up, reference=reference)
    return gas_cost(stated_m3, price_per_m3=price)


def _waiting_money(set_up: SetUp) -> float | None:
    price = set_up.prices.labour_per_h if set_up.prices else None
    return None if price is None or set_up.wait_s is None else price * set_up.wait_s / _HOUR_S


def _oxygen_at_strike(purge: PurgeResult | None) -> float | None:
    after = purge.oxygen_after_wait_frac if purge else None
    return after.expected if after else None
