"""Gas that a joint takes: before, during and after the arc, and what of it did no good."""

import math

from trainer.core.changeover import JointTimes, gas_use
from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.flows import hold_flow_of, purge_flow_of
from trainer.domain.purge_run import Expected, GasUsed, PurgeResult
from trainer.domain.set_up import SetUp
from trainer.domain.supply_stock import at_reference
from trainer.domain.time_line import gas_until_m3, stages_of


def gas_used_result(set_up: SetUp, *, purge: PurgeResult | None = None) -> GasUsed | None:
    """Gas of a joint at the pipe's temperature and one atmosphere.

    What is wasted is what flows after the root is expected to have reached its target; it is part of what is
    used before the arc. The hold that is not known leaves all but that unanswered.
    """
    if set_up.flow is not None and set_up.flow.stages:
        return _used_in_stages(set_up, purge)
    flow_m3_s, wait_s = purge_flow_of(set_up), set_up.wait_s
    if flow_m3_s is None or wait_s is None:
        return None
    needed = purge.time_to_target_s if purge else None
    hold_m3_s, hold_s = hold_flow_of(set_up), set_up.flow.hold_for_s if set_up.flow else None
    after_s = set_up.flow.after_for_s if set_up.flow else None
    used = gas_use(
        JointTimes(
            purge_flow_m3_s=flow_m3_s,
            purge_s=wait_s,
            hold_flow_m3_s=hold_m3_s or 0.0,
            arc_s=hold_s or 0.0,
            after_s=after_s or 0.0,
            needed_s=needed.expected if isinstance(needed, Expected) else None,
        )
    )
    is_hold_known = hold_m3_s is not None and hold_s is not None
    return GasUsed(
        before_arc_m3=used.before_m3,
        during_arc_m3=used.during_m3 if is_hold_known else None,
        after_arc_m3=used.after_m3 if hold_m3_s is not None and after_s is not None else None,
        total_m3=used.total_m3 if is_hold_known else None,
        wasted_m3=used.wasted_m3 if isinstance(needed, Expected) else None,
    )


def _used_in_stages(set_up: SetUp, purge: PurgeResult | None) -> GasUsed | None:
    """What the stages bring until the arc is struck, and after it where they end."""
    stages, wait_s = stages_of(set_up), set_up.wait_s
    if not stages or wait_s is None:
        return None
    before_m3, total_m3 = (gas_until_m3(stages, time_s=each) for each in (wait_s, math.inf))
    needed = purge.time_to_target_s if purge else None
    needed_s = needed.expected if isinstance(needed, Expected) else None
    return GasUsed(
        before_arc_m3=before_m3,
        during_arc_m3=None if math.isinf(total_m3) else total_m3 - before_m3,
        total_m3=None if math.isinf(total_m3) else total_m3,
        wasted_m3=(
            None if needed_s is None else before_m3 - gas_until_m3(stages, time_s=min(needed_s, wait_s))
        ),
    )


def gas_needed_m3(set_up: SetUp, *, used: GasUsed | None, reference: ReferenceCondition) -> float | None:
    """Gas of one joint at the reference condition: with the hold where it is known, else until the arc."""
    if used is None or used.before_arc_m3 is None:
        return None
    needed_m3 = used.before_arc_m3 if used.total_m3 is None else used.total_m3
    return at_reference(needed_m3, set_up=set_up, reference=reference)
