"""The openings of a spool: what each vent lets out, and the air that comes in, each at its own place."""

from collections.abc import Iterator

from trainer.core.gas import Gas, sinks_in_air
from trainer.core.in_leaks import vent_air_inflow_m3_s, vent_flow_that_holds_air_out_m3_s
from trainer.core.joint_gap import JointGap, gap_air_inflow_m3_s, gap_open_area_m2
from trainer.core.several_vents import PlacedVent, flow_that_holds_all_m3_s, vent_flows_m3_s
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_places import body_of, facing_up_deg, height_in_body_frac
from trainer.core.vent import vent_area_m2
from trainer.domain.flows import AirIn, air_past_foam, air_through_leak, is_gap_unknown
from trainer.domain.known_parts import temperature_of
from trainer.domain.purge_causes import GAP, VENT
from trainer.domain.set_up import SetUp, Side


def open_area_m2(spool: Spool) -> float:
    """Area of all vents together."""
    return sum(vent_area_m2(vent.diameter_m, count=vent.count) for vent in spool.vents)


def spool_vent_outflow_of(set_up: SetUp, *, spool: Spool, flow_m3_s: float) -> float | None:
    """What leaves by all vents together and not by the open joint: holes at one pressure share by area."""
    gap = spool_gap_of(set_up, spool=spool)
    if is_gap_unknown(set_up) or (gap is None and _is_gap_open(set_up)):
        return None
    vents_m2 = open_area_m2(spool)
    return flow_m3_s * vents_m2 / (vents_m2 + (gap_open_area_m2(gap) if gap else 0.0))


def spool_gap_of(set_up: SetUp, *, spool: Spool) -> JointGap | None:
    """The joint's gap as it stands in the spool; None where there is none, or its place is not told."""
    joint = set_up.joint
    if joint is None or joint.gap_m is None or joint.taped_frac is None or spool.joint_at is None:
        return None
    piece = spool.pieces[spool.piece_at(spool.joint_at)]
    return JointGap(
        bore_m=piece.bore_m, gap_m=joint.gap_m, taped_frac=joint.taped_frac, slope_deg=piece.slope_deg
    )


def spool_flow_that_holds_air_out_m3_s(set_up: SetUp, *, spool: Spool, used: Gas) -> float:
    """Outflow through all vents at which even the worst placed of them lets no air in."""
    return flow_that_holds_all_m3_s(
        [_holding_m3_s(spool, vent, used) for vent in spool.vents],
        vents=_placed(spool, used),
        gas=used,
        temperature_k=temperature_of(set_up),
    )


def vent_shares_of(set_up: SetUp, *, spool: Spool, used: Gas, flow_m3_s: float) -> tuple[float, ...] | None:
    """Share of each vent in what leaves; None where it is not known what the joint lets out."""
    out_m3_s = spool_vent_outflow_of(set_up, spool=spool, flow_m3_s=flow_m3_s)
    if out_m3_s is None:
        return None
    out = [max(0.0, each) for each in _through_each_m3_s(set_up, spool, used, out_m3_s)]
    return tuple(each / sum(out) for each in out) if sum(out) > 0.0 else None


def air_in_of_spool(set_up: SetUp, *, spool: Spool, used: Gas, flow_m3_s: float) -> tuple[AirIn, ...] | None:
    """Every way by which air comes into a spool at a flow; None where one of them is not known."""
    out_m3_s = spool_vent_outflow_of(set_up, spool=spool, flow_m3_s=flow_m3_s)
    if out_m3_s is None:
        return None
    openings = (
        *_through_vents(set_up, spool, used, out_m3_s),
        _through_gap(set_up, spool, used, max(0.0, flow_m3_s - out_m3_s)),
        *_through_leaks(set_up, spool, used, flow_m3_s),
        *(air_past_foam(dam, bore_m=_end_bore_m(spool, dam.side), used=used) for dam in set_up.dams),
    )
    known = [each for each in openings if each is not None]
    return tuple(each for each in known if each.flow_m3_s > 0.0) if len(known) == len(openings) else None


def _through_vents(set_up: SetUp, spool: Spool, used: Gas, out_m3_s: float) -> Iterator[AirIn]:
    """Air that a vent draws in, or that changes places with the gas in one that lets it out."""
    body = body_of(spool, gas_sinks=sinks_in_air(used))
    flows = _through_each_m3_s(set_up, spool, used, out_m3_s)
    for vent, flow_m3_s in zip(spool.vents, flows, strict=True):
        inflow_m3_s = -flow_m3_s
        if flow_m3_s >= 0.0:
            inflow_m3_s = vent_air_inflow_m3_s(
                flow_m3_s,
                diameter_m=vent.diameter_m,
                gas=used,
                count=vent.count,
                slope_deg=facing_up_deg(spool, point=vent.at),
            )
        height_frac = height_in_body_frac(spool, point=vent.at, body=body)
        yield AirIn(cause=VENT, flow_m3_s=inflow_m3_s, height_frac=height_frac)


def _through_each_m3_s(set_up: SetUp, spool: Spool, used: Gas, out_m3_s: float) -> tuple[float, ...]:
    return vent_flows_m3_s(
        out_m3_s, vents=_placed(spool, used), gas=used, temperature_k=temperature_of(set_up)
    )


def _placed(spool: Spool, used: Gas) -> list[PlacedVent]:
    sign = 1.0 if sinks_in_air(used) else -1.0
    return [
        PlacedVent(
            area_m2=vent_area_m2(vent.diameter_m, count=vent.count),
            above_pool_m=sign * spool.height_m(vent.at),
        )
        for vent in spool.vents
    ]


def _through_gap(set_up: SetUp, spool: Spool, used: Gas, out_m3_s: float) -> AirIn:
    gap = spool_gap_of(set_up, spool=spool)
    if gap is None or gap_open_area_m2(gap) == 0.0:
        return AirIn(cause=GAP, flow_m3_s=0.0)
    return AirIn(cause=GAP, flow_m3_s=gap_air_inflow_m3_s(out_m3_s, gap=gap, gas=used))


def _through_leaks(set_up: SetUp, spool: Spool, used: Gas, flow_m3_s: float) -> Iterator[AirIn | None]:
    """Leaks; one at a joint of which the place is not told counts where it does most harm."""
    bore_m = spool.pieces[0].bore_m
    for leak in set_up.leaks:
        found = air_through_leak(set_up, leak=leak, bore_m=bore_m, flow_m3_s=flow_m3_s, used=used)
        if found is not None and found.height_frac is None and not found.before_inlet and not spool.joint_at:
            far_frac = 1.0 if sinks_in_air(used) else 0.0
            found = AirIn(cause=found.cause, flow_m3_s=found.flow_m3_s, height_frac=far_frac)
        yield found


def _holding_m3_s(spool: Spool, vent: SpoolVent, used: Gas) -> float:
    return vent_flow_that_holds_air_out_m3_s(
        vent.diameter_m, gas=used, count=vent.count, slope_deg=facing_up_deg(spool, point=vent.at)
    )


def _end_bore_m(spool: Spool, side: Side | None) -> float:
    """Bore at a dam: the left one stands where the path begins, the right one where it ends."""
    if side is Side.RIGHT:
        return spool.pieces[spool.piece_at(Point(part=spool.path[-1].name, along_frac=1.0))].bore_m
    return spool.pieces[0].bore_m


def _is_gap_open(set_up: SetUp) -> bool:
    joint = set_up.joint
    return joint is not None and bool(joint.gap_m) and joint.taped_frac != 1.0
