"""Hose and supply: whether the flow gets through, what the cylinder holds, and how far that goes."""

from dataclasses import dataclass

from trainer.core import hose as hoses
from trainer.core.dilution import FlowSegment
from trainer.core.gas import ATMOSPHERE_PA, Gas
from trainer.core.purge_time import gas_used_m3
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3
from trainer.core.supply import Cylinders, contents_m3, joints_count, runs_for_s, usable_m3
from trainer.domain.flows import hold_flow_of, purge_flow_of
from trainer.domain.known_parts import DEFAULT_STOP_PRESSURE_PA, gas_of, temperature_of
from trainer.domain.purge_run import GasUsed, HoseResult, SupplyResult
from trainer.domain.set_up import SetUp, SupplyKind


@dataclass(frozen=True, kw_only=True)
class _Stored:
    """Gas in cylinders, and what of it can be drawn, at the reference condition."""

    contents_m3: float
    usable_m3: float
    stop_pressure_pa: float


def hose_result(set_up: SetUp) -> HoseResult | None:
    """Pressure drop at the purge flow, and the largest flow at the regulator's gauge pressure."""
    part, used = set_up.hose, gas_of(set_up)
    if part is None or part.bore_m is None or part.length_m is None or used is None:
        return None
    hose = hoses.Hose(
        bore_m=part.bore_m,
        length_m=part.length_m,
        open_frac=1.0 if part.open_frac is None else part.open_frac,
    )
    temperature_k, flow_m3_s = temperature_of(set_up), purge_flow_of(set_up)
    drop_pa = (
        None
        if flow_m3_s is None
        else hoses.pressure_drop_pa(flow_m3_s, hose=hose, gas=used, temperature_k=temperature_k)
    )
    if part.inlet_pressure_pa is None:
        return None if drop_pa is None else HoseResult(pressure_drop_pa=drop_pa)
    before_pa = part.inlet_pressure_pa + ATMOSPHERE_PA
    return HoseResult(
        pressure_drop_pa=drop_pa,
        largest_flow_m3_s=hoses.largest_flow_m3_s(
            before_pa, hose=hose, gas=used, temperature_k=temperature_k
        ),
        choked=hoses.is_choked(before_pa, hose=hose, gas=used, temperature_k=temperature_k),
    )


def gas_used_result(set_up: SetUp) -> GasUsed | None:
    """Gas until the arc and with the hold after it, at the pipe's temperature and one atmosphere."""
    flow_m3_s, wait_s = purge_flow_of(set_up), set_up.wait_s
    if flow_m3_s is None or wait_s is None:
        return None
    before = FlowSegment(flow_m3_s=flow_m3_s, duration_s=wait_s)
    hold_m3_s, hold_s = hold_flow_of(set_up), set_up.flow.hold_for_s if set_up.flow else None
    if hold_m3_s is None or hold_s is None:
        return GasUsed(before_arc_m3=gas_used_m3((before,)))
    held_m3 = hold_m3_s * hold_s
    return GasUsed(before_arc_m3=gas_used_m3((before,)), total_m3=gas_used_m3((before,)) + held_m3)


def gas_needed_m3(set_up: SetUp, *, used: GasUsed | None, reference: ReferenceCondition) -> float | None:
    """Gas of one joint at the reference condition: with the hold where it is known, else until the arc."""
    if used is None or used.before_arc_m3 is None:
        return None
    needed_m3 = used.before_arc_m3 if used.total_m3 is None else used.total_m3
    return _at_reference(needed_m3, set_up, reference)


def supply_result(
    set_up: SetUp, *, used: GasUsed | None, reference: ReferenceCondition
) -> SupplyResult | None:
    """What the cylinders hold, for how long the purge flow can be drawn, and for how many joints."""
    gas, flow_m3_s = gas_of(set_up), purge_flow_of(set_up)
    stored = _stored(set_up, gas, reference) if gas else None
    if stored is None:
        return None
    drawn_m3_s = None if flow_m3_s is None else _at_reference(flow_m3_s, set_up, reference)
    joint_m3 = _at_reference(used.total_m3, set_up, reference) if used and used.total_m3 is not None else None
    return SupplyResult(
        contents_m3=stored.contents_m3,
        usable_m3=stored.usable_m3,
        runs_for_s=None if drawn_m3_s is None else runs_for_s(stored.usable_m3, flow_m3_s=drawn_m3_s),
        joints=joints_count(stored.usable_m3, gas_per_joint_m3=joint_m3) if joint_m3 else None,
        stop_pressure_pa=stored.stop_pressure_pa,
        reference=str(reference),
    )


def _stored(set_up: SetUp, gas: Gas, reference: ReferenceCondition) -> _Stored | None:
    supply = set_up.supply
    if supply is None or supply.water_volume_m3 is None or supply.pressure_pa is None:
        return None
    counted = supply.count or (1 if supply.kind is SupplyKind.SINGLE_CYLINDER else None)
    if supply.kind not in (SupplyKind.SINGLE_CYLINDER, SupplyKind.CYLINDER_PACK) or counted is None:
        return None
    cylinders = Cylinders(
        gas=gas,
        water_volume_m3=supply.water_volume_m3,
        pressure_pa=supply.pressure_pa + ATMOSPHERE_PA,
        temperature_k=temperature_of(set_up),
        count=counted,
    )
    stop_pa = DEFAULT_STOP_PRESSURE_PA if supply.stop_pressure_pa is None else supply.stop_pressure_pa
    return _Stored(
        contents_m3=contents_m3(cylinders, reference=reference),
        usable_m3=usable_m3(cylinders, stop_pressure_pa=stop_pa + ATMOSPHERE_PA, reference=reference),
        stop_pressure_pa=stop_pa,
    )


def _at_reference(volume_m3: float, set_up: SetUp, reference: ReferenceCondition) -> float:
    flowing = GasState(temperature_k=temperature_of(set_up), pressure_pa=ATMOSPHERE_PA)
    return converted_volume_m3(volume_m3, stated_at=flowing, wanted_at=reference.state)
