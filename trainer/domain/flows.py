"""The flows of a set-up: what enters, what each opening lets out, and the air that comes in against it."""

from dataclasses import dataclass

from trainer.core.entrainment import foam_edge_air_inflow_m3_s, foam_edge_gap_m, leak_air_inflow_m3_s
from trainer.core.gas import Gas, sinks_in_air
from trainer.core.in_leaks import outflow_through_m3_s, vent_air_inflow_m3_s
from trainer.core.joint_gap import JointGap, gap_air_inflow_m3_s, gap_open_area_m2
from trainer.core.meter import true_flow_m3_s
from trainer.core.tables import table_rows
from trainer.core.vent import vent_area_m2
from trainer.core.vent_place import VentPlace, vent_height_frac
from trainer.domain.known_parts import BoreAndLength, gas_of, scale_gas_of, slope_of
from trainer.domain.set_up import Dam, DamAge, DamKind, Leak, SetUp


@dataclass(frozen=True, kw_only=True)
class AirIn:
    """Air that one fault lets in; mixed into the gas before the inlet, or at a height in the section.

    `height_frac` None stands for all round the joint.
    """

    cause: str
    flow_m3_s: float
    height_frac: float | None = None
    before_inlet: bool = False


def true_meter_flow_of(set_up: SetUp) -> float | None:
    """What really passes a float meter whose scale was made for another gas."""
    meter, used = set_up.meter, gas_of(set_up)
    if meter is None or meter.reads_m3_s is None or meter.calibrated_for is None or used is None:
        return None
    return true_flow_m3_s(meter.reads_m3_s, scale_gas=scale_gas_of(meter.calibrated_for), used_gas=used)


def purge_flow_of(set_up: SetUp) -> float | None:
    """The purge flow that enters: the meter's true flow where there is a meter, else the flow as given."""
    if set_up.meter is not None and set_up.meter.reads_m3_s is not None:
        return true_meter_flow_of(set_up)
    return set_up.flow.purge_m3_s if set_up.flow else None


def hold_flow_of(set_up: SetUp) -> float | None:
    """The hold flow that enters, as given: a meter's reading only stands for the purge flow."""
    return set_up.flow.hold_m3_s if set_up.flow else None


def vent_outflow_of(set_up: SetUp, *, section: BoreAndLength, flow_m3_s: float) -> float | None:
    """The part of a flow that leaves by the vent and not by the open joint; None where one is unknown."""
    vent, gap = set_up.vent, joint_gap_of(set_up, section=section)
    if vent is None or vent.diameter_m is None or _is_gap_unknown(set_up):
        return None
    area_m2 = vent_area_m2(vent.diameter_m, count=vent.count or 1)
    open_m2 = area_m2 + (gap_open_area_m2(gap) if gap else 0.0)
    return outflow_through_m3_s(flow_m3_s, area_m2=area_m2, all_open_area_m2=open_m2)


def joint_gap_of(set_up: SetUp, *, section: BoreAndLength) -> JointGap | None:
    """The joint's gap, None where there is none or it is not fully known."""
    joint = set_up.joint
    if joint is None or joint.gap_m is None or joint.taped_frac is None:
        return None
    return JointGap(
        bore_m=section.bore_m, gap_m=joint.gap_m, taped_frac=joint.taped_frac, slope_deg=slope_of(set_up)
    )


def vent_place_of(set_up: SetUp, *, section: BoreAndLength) -> VentPlace | None:
    """Where the vent lies in the section; None where its height is not known."""
    vent = set_up.vent
    if vent is None or vent.height_frac is None:
        return None
    return VentPlace(
        bore_m=section.bore_m,
        length_m=section.length_m,
        slope_deg=slope_of(set_up),
        across_frac=vent.height_frac,
    )


def air_in_of(
    set_up: SetUp, *, used: Gas, section: BoreAndLength, flow_m3_s: float
) -> tuple[AirIn, ...] | None:
    """Every way by which air comes in at a flow; None where one of them is not known well enough."""
    openings = (
        _through_vent(set_up, section, flow_m3_s, used),
        _through_gap(set_up, section, flow_m3_s, used),
        *(_through_leak(set_up, leak, section, flow_m3_s, used) for leak in set_up.leaks),
        *(_past_foam(dam, section, used) for dam in set_up.dams),
    )
    known = [each for each in openings if each is not None]
    return tuple(each for each in known if each.flow_m3_s > 0.0) if len(known) == len(openings) else None


def _through_vent(set_up: SetUp, section: BoreAndLength, flow_m3_s: float, used: Gas) -> AirIn | None:
    vent, place = set_up.vent, vent_place_of(set_up, section=section)
    out_m3_s = vent_outflow_of(set_up, section=section, flow_m3_s=flow_m3_s)
    if vent is None or vent.diameter_m is None or place is None or out_m3_s is None:
        return None
    inflow_m3_s = vent_air_inflow_m3_s(
        out_m3_s, diameter_m=vent.diameter_m, gas=used, count=vent.count or 1, slope_deg=place.slope_deg
    )
    return AirIn(cause="vent-lets-air-in", flow_m3_s=inflow_m3_s, height_frac=vent_height_frac(place))


def _is_gap_unknown(set_up: SetUp) -> bool:
    joint = set_up.joint
    if joint is None or (joint.gap_m is None and joint.taped_frac is None):
        return False  # no word of a gap: the joint is tight
    return joint.taped_frac is None or (joint.gap_m is None and joint.taped_frac < 1.0)


def _through_gap(set_up: SetUp, section: BoreAndLength, flow_m3_s: float, used: Gas) -> AirIn | None:
    if _is_gap_unknown(set_up):
        return None
    gap = joint_gap_of(set_up, section=section)
    vent_m3_s = vent_outflow_of(set_up, section=section, flow_m3_s=flow_m3_s)
    if gap is None or gap_open_area_m2(gap) == 0.0 or vent_m3_s is None:
        return AirIn(cause="gap-lets-air-in", flow_m3_s=0.0)
    inflow_m3_s = gap_air_inflow_m3_s(max(0.0, flow_m3_s - vent_m3_s), gap=gap, gas=used)
    return AirIn(cause="gap-lets-air-in", flow_m3_s=inflow_m3_s)


def _through_leak(  # noqa: PLR0913 (what a leak lets in rests on all of them)
    set_up: SetUp, leak: Leak, section: BoreAndLength, flow_m3_s: float, used: Gas
) -> AirIn | None:
    if leak.where is None or leak.area_m2 is None:
        return None
    is_supply_side = _leak_kinds()[leak.where] == "entrains"
    # Only what the passing gas draws in rests on the hose's bore.
    bore_m = _hose_bore_m(set_up) if is_supply_side else section.bore_m
    if bore_m is None:
        return None
    inflow_m3_s = leak_air_inflow_m3_s(
        flow_m3_s, where=leak.where, area_m2=leak.area_m2, hose_bore_m=bore_m, gas=used
    )
    # In the section the worst place counts, far from where the gas settles; the joint leaks all round.
    height_frac = None if leak.where == "joint tape" else _far_from_pool(used)
    return AirIn(
        cause="leak-lets-air-in", flow_m3_s=inflow_m3_s, height_frac=height_frac, before_inlet=is_supply_side
    )


def _hose_bore_m(set_up: SetUp) -> float | None:
    """Bore of the hose, or of the inlet that it ends in."""
    hose_bore_m = set_up.hose.bore_m if set_up.hose else None
    return hose_bore_m or (set_up.inlet.bore_m if set_up.inlet else None)


def _past_foam(dam: Dam, section: BoreAndLength, used: Gas) -> AirIn | None:
    if dam.kind is not DamKind.FOAM or dam.age is not DamAge.OLD:
        return AirIn(cause="old-foam-lets-air-in", flow_m3_s=0.0)
    if dam.thickness_m is None:
        return None
    inflow_m3_s = foam_edge_air_inflow_m3_s(
        section.bore_m, edge_gap_m=foam_edge_gap_m(dam.age), thickness_m=dam.thickness_m, gas=used
    )
    return AirIn(cause="old-foam-lets-air-in", flow_m3_s=inflow_m3_s, height_frac=_far_from_pool(used))


def _far_from_pool(used: Gas) -> float:
    return 1.0 if sinks_in_air(used) else 0.0


def _leak_kinds() -> dict[str, str]:
    return {row["where"]: row["kind"] for row in table_rows("leak_places")}
