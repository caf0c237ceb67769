"""The supply: what it holds, what of it is usable, how far that goes, and when it is changed."""

from dataclasses import dataclass, replace

from trainer.core.changeover import SMALLEST_SUPPLY_M3, SupplyPlan, change_below_pa, supply_plan
from trainer.core.dewar import dewar_contents_m3
from trainer.core.gas import ATMOSPHERE_PA
from trainer.core.liquid_supply import (
    boil_off_m3_s,
    change_below_fill_frac,
    liquid_lasts_s,
    usable_liquid_m3,
)
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.supply import Cylinders, contents_m3, joints_count, runs_for_s, usable_m3
from trainer.domain.flows import hold_flow_of, purge_flow_of
from trainer.domain.known_parts import joint_time_of
from trainer.domain.purge_run import GasUsed, SupplyResult
from trainer.domain.set_up import SetUp
from trainer.domain.supply_stock import (
    Vessels,
    at_reference,
    cylinders_of,
    deliverable_of,
    stop_pressure_of,
    vessels_of,
)
from trainer.domain.time_line import stages_of


@dataclass(frozen=True, kw_only=True)
class _Asked:
    """What is asked of a supply, all at its reference condition; None where it is not known."""

    set_up: SetUp
    reference: ReferenceCondition
    flow_m3_s: float | None
    joint_m3: float | None

    @property
    def joint_every_s(self) -> float | None:
        """From one joint to the next: as stated, else the joints follow each other without a pause."""
        supply = self.set_up.supply
        stated_s = supply.joint_every_s if supply else None
        return joint_time_of(self.set_up) if stated_s is None else stated_s


def supply_result(
    set_up: SetUp, *, used: GasUsed | None, reference: ReferenceCondition
) -> SupplyResult | None:
    """What the supply holds, for how long the purge flow can be drawn, and for how many joints."""
    if set_up.supply is None:
        return None
    asked = _asked(set_up, used, reference)
    cylinders, vessels = cylinders_of(set_up), vessels_of(set_up)
    if cylinders is not None:
        found = _of_cylinders(cylinders, asked)
    elif vessels is not None:
        found = _of_vessels(vessels, asked)
    else:
        return None
    return replace(
        found,
        reference=str(reference),
        deliverable_m3_s=deliverable_of(set_up, reference=reference),
        joints_last_s=_joints_last_s(set_up, found.joints),
    )


def _asked(set_up: SetUp, used: GasUsed | None, reference: ReferenceCondition) -> _Asked:
    flow_m3_s, total_m3 = purge_flow_of(set_up), used.total_m3 if used else None
    return _Asked(
        set_up=set_up,
        reference=reference,
        flow_m3_s=None if flow_m3_s is None else at_reference(flow_m3_s, set_up=set_up, reference=reference),
        # A joint without any flow takes nothing, and a supply is enough for no number of them.
        joint_m3=at_reference(total_m3, set_up=set_up, reference=reference) or None
        if total_m3 is not None
        else None,
    )


def _of_cylinders(cylinders: Cylinders, asked: _Asked) -> SupplyResult:
    supply, reference = asked.set_up.supply, asked.reference
    assert supply is not None  # the cylinders were made of it
    stop_pa = stop_pressure_of(supply)
    left_pa = stop_pa + ATMOSPHERE_PA
    usable = usable_m3(cylinders, stop_pressure_pa=left_pa, reference=reference)
    change_pa = None
    if asked.joint_m3 is not None:
        change_pa = change_below_pa(
            cylinders, stop_pressure_pa=left_pa, gas_per_joint_m3=asked.joint_m3, reference=reference
        )
    plan = _plan(supply.joints_wanted, usable, asked.joint_m3)
    return SupplyResult(
        contents_m3=contents_m3(cylinders, reference=reference),
        usable_m3=usable,
        runs_for_s=None if asked.flow_m3_s is None else runs_for_s(usable, flow_m3_s=asked.flow_m3_s),
        joints=None if asked.joint_m3 is None else joints_count(usable, gas_per_joint_m3=asked.joint_m3),
        stop_pressure_pa=stop_pa,
        supplies_needed=plan.supplies_count if plan else None,
        left_over_m3=plan.left_over_m3 if plan else None,
        change_below_pa=None if change_pa is None else change_pa - ATMOSPHERE_PA,
    )


def _of_vessels(vessels: Vessels, asked: _Asked) -> SupplyResult:
    """Vessels on one line empty evenly, so that each gives its share of the flow and of a joint."""
    supply, reference, each, count = asked.set_up.supply, asked.reference, vessels.each, vessels.count
    assert supply is not None  # the vessels were made of it
    usable = count * usable_liquid_m3(each, reference=reference)
    lost_m3_s = count * boil_off_m3_s(each, reference=reference)
    between_m3 = None if asked.joint_every_s is None else lost_m3_s * asked.joint_every_s
    # What is drawn is boil-off first, so that of the two the larger leaves the vessel from joint to joint.
    leaving_m3 = None
    if asked.joint_m3 is not None and between_m3 is not None:
        leaving_m3 = max(asked.joint_m3, between_m3)
    plan = _plan(supply.joints_wanted, usable, leaving_m3)
    lasts_s = change_fill_frac = None
    if asked.flow_m3_s is not None:
        lasts_s = liquid_lasts_s(each, flow_m3_s=asked.flow_m3_s / count, reference=reference)
    if asked.joint_m3 is not None:
        change_fill_frac = change_below_fill_frac(
            each, gas_per_joint_m3=asked.joint_m3 / count, reference=reference
        )
    return SupplyResult(
        contents_m3=count * dewar_contents_m3(each.vessel, reference=reference),
        usable_m3=usable,
        runs_for_s=lasts_s,
        joints=None if leaving_m3 is None else joints_count(usable, gas_per_joint_m3=leaving_m3),
        residual_frac=each.residual_frac,
        daily_loss_frac=each.daily_loss_frac,
        evaporates_m3_s=lost_m3_s,
        evaporates_between_joints_m3=between_m3,
        supplies_needed=plan.supplies_count if plan else None,
        left_over_m3=plan.left_over_m3 if plan else None,
        change_below_fill_frac=change_fill_frac,
    )


def _plan(wanted: int | None, usable_gas_m3: float, joint_m3: float | None) -> SupplyPlan | None:
    """How many supplies as full as this one the job takes; an empty one is never enough."""
    if wanted is None or joint_m3 is None or usable_gas_m3 < SMALLEST_SUPPLY_M3:
        return None
    return supply_plan(usable_gas_m3, gas_per_joint_m3=joint_m3, joints_count=wanted)


def _joints_last_s(set_up: SetUp, joints: int | None) -> float | None:
    every_s = set_up.supply.joint_every_s if set_up.supply else None
    return None if joints is None or every_s is None else joints * every_s


def largest_draw_m3_s(set_up: SetUp, *, reference: ReferenceCondition) -> float | None:
    """The largest flow that the supply has to keep up, of purge, hold and stages, at its condition."""
    in_stages = (stage.flow_m3_s for stage in stages_of(set_up))
    flows = (purge_flow_of(set_up), hold_flow_of(set_up), *in_stages)
    known = [each for each in flows if each is not None]
    return at_reference(max(known), set_up=set_up, reference=reference) if known else None
