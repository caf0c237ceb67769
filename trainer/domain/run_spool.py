"""The purge of a spool: its body, its dead legs, and the place that comes down to the target last."""

import math
from dataclasses import replace

from trainer.core.dilution import FlowSegment, Inlet, PurgeModel
from trainer.core.gas import O2_IN_DRY_AIR_FRAC, Gas, sinks_in_air
from trainer.core.interval import Interval
from trainer.core.spool import SpoolPurge, purge_spool
from trainer.core.spool_case import Spool, SpoolCase
from trainer.core.spool_parts import Cap, Elbow, Reducer, Run, SpoolPart, Tee
from trainer.core.spool_places import beyond_vents_frac
from trainer.domain.flows import AirIn
from trainer.domain.known_parts import gas_of, source_oxygen_of, temperature_of
from trainer.domain.purge_run import DeadLegResult, SectionResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.set_up import SetUp
from trainer.domain.spool_openings import air_in_of_spool, vent_shares_of
from trainer.domain.spool_path import all_parts, core_parts_of, path_of, spool_of, vents_of
from trainer.domain.time_line import leaks_of


def spool_purge_of(set_up: SetUp, flow_m3_s: float | None) -> tuple[SpoolPurge, tuple[AirIn, ...]] | None:
    """The purge of a spool at one flow, and the air that comes in; None where it is not known."""
    spool, inlet, used = spool_of(set_up), inlet_of(set_up), gas_of(set_up)
    source_frac = source_oxygen_of(set_up)
    if spool is None or inlet is None or used is None or source_frac is None or flow_m3_s is None:
        return None
    air_in = air_in_of_spool(set_up, spool=spool, used=used, flow_m3_s=flow_m3_s)
    if air_in is None:
        return None
    entrained_m3_s = sum(each.flow_m3_s for each in air_in if each.before_inlet)
    entering_m3_s = flow_m3_s + entrained_m3_s
    case = SpoolCase(
        spool=spool,
        inlet=inlet,
        gas=used,
        source_o2_frac=(flow_m3_s * source_frac + entrained_m3_s * O2_IN_DRY_AIR_FRAC) / entering_m3_s,
        segments=(FlowSegment(flow_m3_s=entering_m3_s, duration_s=math.inf),),
        temperature_k=temperature_of(set_up),
        leaks=leaks_of(air_in),
        model=set_up.model or PurgeModel.LAYERED,
        vent_shares=vent_shares_of(set_up, spool=spool, used=used, flow_m3_s=flow_m3_s),
    )
    return purge_spool(case), air_in


def inlet_of(set_up: SetUp) -> Inlet | None:
    """What the gas enters through, as far as it is known."""
    inlet = set_up.inlet
    if inlet is None or inlet.end is None or inlet.height_frac is None:
        return None
    return Inlet(
        height_frac=inlet.height_frac, end=inlet.end, bore_m=inlet.bore_m, face_area_m2=inlet.face_area_m2
    )


def spool_section_result(set_up: SetUp) -> SectionResult | None:
    """Length along the path and volume of all parts of a spool; None where sizes are not known."""
    parts = core_parts_of(set_up)
    if parts is None:
        return None
    return SectionResult(
        length_m=sum(_length_m(part) for part in parts),
        volume_m3=spool_volume_m3(parts),
        pocket_beyond_vent_frac=_pocket_frac(spool_of(set_up), gas_of(set_up)),
        parts_count=len(all_parts(path_of(set_up))),
    )


def spool_volume_m3(parts: tuple[SpoolPart, ...]) -> float:
    """Volume of some parts with what stands on their outlets."""
    on_outlets = sum(spool_volume_m3(part.branch) for part in parts if isinstance(part, Tee))
    return sum(part.volume_m3 for part in parts) + on_outlets


def _pocket_frac(spool: Spool | None, used: Gas | None) -> float | None:
    if spool is None or used is None:
        return None
    return beyond_vents_frac(spool, gas_sinks=sinks_in_air(used))


def _length_m(part: SpoolPart) -> float:
    """Along the centre line from end to end."""
    match part:
        case Run() | Reducer():
            return part.length_m
        case Tee():
            return part.run_length_m
        case Elbow():
            return part.bend_radius_m * math.radians(part.angle_deg)
        case Cap():
            return part.straight_flange_m + part.bore_m / 4.0


def high_point_results(
    set_up: SetUp, *, spool: SpoolPurge, with_vents_s: float | None = None
) -> tuple[DeadLegResult, ...]:
    """Each high point without a vent: where it is, and the time that it alone needs.

    Those that only diffusion clears come first, then those that the gas crosses.
    """
    return (*_dead_leg_results(set_up, spool), *_crossed_results(set_up, spool, with_vents_s))


def with_vents_where_air_lingers(set_up: SetUp, *, spool: SpoolPurge) -> SetUp:
    """The set-up with a vent at each high point that the gas crosses, instead of those that lie beyond."""
    placed = [vent for vent in vents_of(set_up) if not vent.blocked]
    beyond = {number for high in spool.crossed for number in high.vents_beyond}
    across_frac = 1.0 if sinks_in_air(spool.case.gas) else 0.0
    moved = [
        replace(
            placed[high.vents_beyond[0]],
            at=high.place,
            along_frac=spool.case.spool.pieces[high.top].part_frac,
            height_frac=across_frac,
        )
        for high in spool.crossed
    ]
    kept = [vent for number, vent in enumerate(placed) if number not in beyond]
    return replace(set_up, vent=None, vents=(*kept, *moved))


def _crossed_results(
    set_up: SetUp, spool: SpoolPurge, with_vents_s: float | None
) -> tuple[DeadLegResult, ...]:
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    oxygen: tuple[float | None, ...] = (None,) * len(spool.crossed)
    if set_up.wait_s is not None:
        oxygen = spool.crossed_oxygen_at(set_up.wait_s)
    return tuple(
        DeadLegResult(
            place=high.place,
            mouth=high.mouth,
            volume_m3=high.volume_m3,
            length_m=high.length_m,
            crossed=True,
            time_to_target_s=None if target_frac is None else _expected_s(high.time_to(target_frac)),
            oxygen_after_wait_frac=oxygen_frac,
            time_with_vent_there_s=with_vents_s,
        )
        for high, oxygen_frac in zip(spool.crossed, oxygen, strict=True)
    )


def _dead_leg_results(set_up: SetUp, spool: SpoolPurge) -> tuple[DeadLegResult, ...]:
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    wait_s = set_up.wait_s
    oxygen: tuple[float | None, ...] = (None,) * len(spool.dead_legs)
    if wait_s is not None:
        oxygen = spool.leg_oxygen_at(wait_s)
    return tuple(
        DeadLegResult(
            place=leg.place,
            mouth=leg.mouth,
            volume_m3=leg.volume_m3,
            length_m=leg.length_m,
            crossed=False,
            time_to_target_s=None if target_frac is None else _or_never(leg.time_to(target_frac)),
            oxygen_after_wait_frac=oxygen_frac,
        )
        for leg, oxygen_frac in zip(spool.dead_legs, oxygen, strict=True)
    )


def worst_place_of(set_up: SetUp, *, spool: SpoolPurge) -> str | None:
    """The place that comes down to the target last: a part by its name, or the body."""
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    return None if target_frac is None else spool.worst(target_frac).place


def _expected_s(time_s: Interval | None) -> float | Never:
    return NEVER if time_s is None else time_s.expected


def _or_never(time_s: float | None) -> float | Never:
    return NEVER if time_s is None else time_s
