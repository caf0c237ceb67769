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
from trainer.domain.known_parts import BoreAndLength, gas_of, scale_gas_of, section_of, slope_of
from trainer.domain.purge_causes import GAP, LEAK, OLD_FOAM, VENT
from trainer.domain.set_up import Dam, DamAge, DamKind, Leak, SetUp
from trainer.domain.spool_path import vents_of


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
    if is_vent_blocked(set_up):
        return 0.0
    if vent is None or vent.diameter_m is None or is_gap_unknown(set_up):
        return None
    area_m2 = vent_area_m2(vent.diameter_m, count=vent.count or 1)
    open_m2 = area_m2 + (gap_open_area_m2(gap) if gap else 0.0)
    return outflow_through_m3_s(flow_m3_s, area_m2=area_m2, all_open_area_m2=open_m2)


def is_vent_blocked(set_up: SetUp) -> bool:
    """Whether there are vents and none of them lets anything through."""
    vents = vents_of(set_up)
    return bool(vents) and all(each.blocked for each in vents)


def open_gap_area_m2(set_up: SetUp) -> float | None:
    """Area of the joint that is neither welded nor taped; None where it is not known."""
    section = section_of(set_up)
    if is_gap_unknown(set_up):
        return None
    if section is None:
        return 0.0 if set_up.joint is None or set_up.joint.taped_frac in (None, 1.0) else None
    gap = joint_gap_of(set_up, section=section)
    return gap_open_area_m2(gap) if gap else 0.0


def is_shut_in(set_up: SetUp) -> bool:
    """Whether the gas is known to have no way out: vent blocked, joint closed, no leak, no old foam."""
    leaks_out = any(each.area_m2 != 0.0 and each.where not in _supply_side_places() for each in set_up.leaks)
    past_foam = any(each.kind is DamKind.FOAM and each.age is not DamAge.NEW for each in set_up.dams)
    tight = is_vent_blocked(set_up) and open_gap_area_m2(set_up) == 0.0
    return tight and not leaks_out and not past_foam


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
        *(
            air_through_leak(set_up, leak=leak, bore_m=section.bore_m, flow_m3_s=flow_m3_s, used=used)
            for leak in set_up.leaks
        ),
        *(air_past_foam(dam, bore_m=section.bore_m, used=used) for dam in set_up.dams),
    )
    known = [each for each in openings if each is not None]
    return tuple(each for each in known if each.flow_m3_s > 0.0) if len(known) == len(openings) else None


def _through_vent(set_up: SetUp, section: BoreAndLength, flow_m3_s: float, used: Gas) -> AirIn | None:
    vent, place = set_up.vent, vent_place_of(set_up, section=section)
    if is_vent_blocked(set_up):
        return AirIn(cause=VENT, flow_m3_s=0.0)
    out_m3_s = vent_outflow_of(set_up, section=section, flow_m3_s=flow_m3_s)
    if vent is None or vent.diameter_m is None or place is None or out_m3_s is None:
        return None
    inflow_m3_s = vent_air_inflow_m3_s(
        out_m3_s, diameter_m=vent.diameter_m, gas=used, count=vent.count or 1, slope_deg=place.slope_deg
    )
    return AirIn(cause=VENT, flow_m3_s=inflow_m3_s, height_frac=vent_height_frac(place))


def is_gap_unknown(set_up: SetUp) -> bool:
    """Whether gap and tape are told of in part only."""
    joint = set_up.joint
    if joint is None or (joint.gap_m is None and joint.taped_frac is None):
        return False  # no word of a gap: the joint is tight
    return joint.taped_frac is None or (joint.gap_m is None and joint.taped_frac < 1.0)


def _through_gap(set_up: SetUp, section: BoreAndLength, flow_m3_s: float, used: Gas) -> AirIn | None:
    if is_gap_unknown(set_up):
        return None
    gap = joint_gap_of(set_up, section=section)
    vent_m3_s = vent_outflow_of(set_up, section=section, flow_m3_s=flow_m3_s)
    if gap is None or gap_open_area_m2(gap) == 0.0 or vent_m3_s is None:
        return AirIn(cause=GAP, flow_m3_s=0.0)
    inflow_m3_s = gap_air_inflow_m3_s(max(0.0, flow_m3_s - vent_m3_s), gap=gap, gas=used)
    return AirIn(cause=GAP, flow_m3_s=inflow_m3_s)


def air_through_leak(
    set_up: SetUp, *, leak: Leak, bore_m: float, flow_m3_s: float, used: Gas
) -> AirIn | None:
    """Air that a leak draws in, into the gas or into a section of some bore; None where it is not known."""
    if leak.where is None or leak.area_m2 is None:
        return None
    is_supply_side = _leak_kinds()[leak.where] == "entrains"
    # Only what the passing gas draws in rests on the hose's bore.
    hose_bore_m = _hose_bore_m(set_up) if is_supply_side else bore_m
    if hose_bore_m is None:
        return None
    inflow_m3_s = leak_air_inflow_m3_s(
        flow_m3_s, where=leak.where, area_m2=leak.area_m2, hose_bore_m=hose_bore_m, gas=used
    )
    # In the section the worst place counts, far from where the gas settles; the joint leaks all round.
    height_frac = None if leak.where == "joint tape" else _far_from_pool(used)
    return AirIn(cause=LEAK, flow_m3_s=inflow_m3_s, height_frac=height_frac, before_inlet=is_supply_side)


def _hose_bore_m(set_up: SetUp) -> float | None:
    """Bore of the hose, or of the inlet that it ends in."""
    hose_bore_m = set_up.hose.bore_m if set_up.hose else None
    return hose_bore_m or (set_up.inlet.bore_m if set_up.inlet else None)


def air_past_foam(dam: Dam, *, bore_m: float, used: Gas) -> AirIn | None:
    """Air that comes in along the edge of an old foam dam; None where its thickness is not known."""
    if dam.kind is not DamKind.FOAM or dam.age is not DamAge.OLD:
        return AirIn(cause=OLD_FOAM, flow_m3_s=0.0)
    if dam.thickness_m is None:
        return None
    inflow_m3_s = foam_edge_air_inflow_m3_s(
        bore_m, edge_gap_m=foam_edge_gap_m(dam.age), thickness_m=dam.thickness_m, gas=used
    )
    return AirIn(cause=OLD_FOAM, flow_m3_s=inflow_m3_s, height_frac=_far_from_pool(used))


def _far_from_pool(used: Gas) -> float:
    return 1.0 if sinks_in_air(used) else 0.0


def _supply_side_places() -> set[str]:
    return {where for where, kind in _leak_kinds().items() if kind == "entrains"}


def _leak_kinds() -> dict[str, str]:
    return {row["where"]: row["kind"] for row in table_rows("leak_places")}
