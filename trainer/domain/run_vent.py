"""What leaves by the vent, what holds air out of it, and how hard the gas presses on bead and pool."""

from dataclasses import astuple

from trainer.core.bead_pressure import liquid_metal, openings_pressure_pa
from trainer.core.gas import density_kg_m3
from trainer.core.in_leaks import vent_flow_that_holds_air_out_m3_s
from trainer.core.vent import (
    capillary_pa,
    pool_head_pa,
    pressure_build_up_s,
    vent_area_m2,
    vent_pressure_pa,
)
from trainer.domain.flows import (
    hold_flow_of,
    is_shut_in,
    is_vent_blocked,
    open_gap_area_m2,
    purge_flow_of,
    vent_outflow_of,
)
from trainer.domain.known_parts import gas_of, section_of, slope_of, temperature_of
from trainer.domain.purge_causes import VENT_BLOCKED
from trainer.domain.purge_run import PurgeResult, VentResult
from trainer.domain.quantities import NEVER
from trainer.domain.run_section import section_result
from trainer.domain.set_up import SetUp, StageKind
from trainer.domain.spool_openings import spool_flow_that_holds_air_out_m3_s, spool_vent_outflow_of
from trainer.domain.spool_path import path_of, spool_of, vents_of
from trainer.domain.time_line import stages_of


def vent_result(set_up: SetUp) -> VentResult | None:
    """Everything about the vent that the set-up tells; None where it tells nothing.

    A blocked vent lets nothing out and nothing in: the gas leaves where the joint is open, or presses on
    without end.
    """
    welding_m3_s = _welding_flow_m3_s(set_up)
    found = VentResult(
        velocity_m_s=_velocity_m_s(set_up),
        pressure_rise_pa=_pressure_pa(set_up, purge_flow_of(set_up)),
        flow_that_holds_air_out_m3_s=_holding_m3_s(set_up),
        pressure_while_welding_pa=_pressure_pa(set_up, welding_m3_s),
        pressure_at_last_of_joint_pa=_last_pressure_pa(set_up, welding_m3_s),
        pool_head_pa=_pool_head_pa(set_up),
        bridging_pressure_pa=_bridging_pa(set_up),
        reaches_pool_head_s=_reaches_pool_head_s(set_up, welding_m3_s),
    )
    return None if all(each is None for each in astuple(found)) else found


def shut_in_purge(set_up: SetUp) -> PurgeResult | None:
    """The purge of a section without any way out: no time to any target; None for every other set-up."""
    if not purge_flow_of(set_up) or not is_shut_in(set_up):
        return None
    if set_up.target is None or set_up.target.oxygen_frac is None:
        return None
    return PurgeResult(time_to_target_s=NEVER, volume_changes_to_target=NEVER, never_because=(VENT_BLOCKED,))


def vent_outflow_m3_s(set_up: SetUp, flow_m3_s: float | None) -> float | None:
    """What leaves by the vent of a flow: all of it where the joint is tight, whatever the bore."""
    section, joint, spool = section_of(set_up), set_up.joint, spool_of(set_up)
    if flow_m3_s is None or is_vent_blocked(set_up):
        return None
    if spool is not None:
        return spool_vent_outflow_of(set_up, spool=spool, flow_m3_s=flow_m3_s)
    if section is None:
        return flow_m3_s if joint is None or joint.taped_frac == 1.0 else None
    return vent_outflow_of(set_up, section=section, flow_m3_s=flow_m3_s)


def _welding_flow_m3_s(set_up: SetUp) -> float | None:
    """The hold flow, the largest of several, or the purge flow where nobody turns it down."""
    holds = [each.flow_m3_s for each in stages_of(set_up) if each.kind is StageKind.HOLD]
    hold_m3_s = max(holds, default=hold_flow_of(set_up))
    return purge_flow_of(set_up) if hold_m3_s is None else hold_m3_s


def _velocity_m_s(set_up: SetUp) -> float | None:
    area_m2, out_m3_s = _open_area_m2(set_up), vent_outflow_m3_s(set_up, purge_flow_of(set_up))
    return None if area_m2 is None or out_m3_s is None else out_m3_s / area_m2


def _open_area_m2(set_up: SetUp) -> float | None:
    """Area of all open vents, which stand under one pressure; None where it is not known."""
    known = [
        None if vent.diameter_m is None else vent_area_m2(vent.diameter_m, count=vent.count or 1)
        for vent in vents_of(set_up)
        if not vent.blocked
    ]
    return None if None in known or not known else sum(each for each in known if each is not None)


def _holding_m3_s(set_up: SetUp) -> float | None:
    vent, used, spool = set_up.vent, gas_of(set_up), spool_of(set_up)
    if spool is not None and used is not None:
        return spool_flow_that_holds_air_out_m3_s(set_up, spool=spool, used=used)
    if vent is None or vent.diameter_m is None or used is None or vent.blocked or path_of(set_up):
        return None
    return vent_flow_that_holds_air_out_m3_s(
        vent.diameter_m, gas=used, count=vent.count or 1, slope_deg=slope_of(set_up)
    )


def _gas_density_kg_m3(set_up: SetUp) -> float | None:
    used = gas_of(set_up)
    return None if used is None else density_kg_m3(used, temperature_k=temperature_of(set_up))


def _pressure_pa(set_up: SetUp, flow_m3_s: float | None) -> float | None:
    """Pressure in the section at a flow, its openings as they are while the purge runs."""
    density, vents = _gas_density_kg_m3(set_up), [each for each in vents_of(set_up) if not each.blocked]
    if flow_m3_s is None or density is None:
        return None
    if is_vent_blocked(set_up):
        gap_m2 = open_gap_area_m2(set_up)
        return openings_pressure_pa(flow_m3_s, gas_density_kg_m3=density, area_m2=gap_m2) if gap_m2 else None
    out_m3_s, open_m2 = vent_outflow_m3_s(set_up, flow_m3_s), _open_area_m2(set_up)
    if out_m3_s is None or open_m2 is None or vents[0].diameter_m is None:
        return None
    diameter_m, count = vents[0].diameter_m, vents[0].count or 1
    # The same at each vent, so that one of them tells it.
    share_frac = vent_area_m2(diameter_m, count=count) / open_m2
    return vent_pressure_pa(
        out_m3_s * share_frac, gas_density_kg_m3=density, diameter_m=diameter_m, count=count
    )


def _last_pressure_pa(set_up: SetUp, flow_m3_s: float | None) -> float | None:
    """Pressure when only the last piece of root is open: through it and the vent, or through it alone."""
    area_m2, density = _last_area_m2(set_up), _gas_density_kg_m3(set_up)
    if flow_m3_s is None or density is None or not area_m2:
        return None
    return openings_pressure_pa(flow_m3_s, gas_density_kg_m3=density, area_m2=area_m2)


def _last_area_m2(set_up: SetUp) -> float | None:
    """What is open when the last of the joint closes: nothing with the vent blocked and no root left."""
    joint, open_m2 = set_up.joint, _open_area_m2(set_up)
    if joint is None or joint.left_open_m is None or joint.gap_m is None:
        return None
    last_m2 = joint.left_open_m * joint.gap_m
    if is_vent_blocked(set_up):
        return last_m2
    return None if open_m2 is None else last_m2 + open_m2


def _pool_head_pa(set_up: SetUp) -> float | None:
    depth_m = set_up.joint.pool_depth_m if set_up.joint else None
    if depth_m is None or set_up.material is None:
        return None
    return pool_head_pa(depth_m, density_kg_m3=liquid_metal(set_up.material).density_kg_m3)


def _bridging_pa(set_up: SetUp) -> float | None:
    """What the pool's surface carries where it bridges the gap; nothing to bridge in a closed one."""
    gap_m = set_up.joint.gap_m if set_up.joint else None
    if not gap_m or set_up.material is None:
        return None
    return capillary_pa(gap_m, surface_tension_n_m=liquid_metal(set_up.material).surface_tension_n_m)


def _reaches_pool_head_s(set_up: SetUp, flow_m3_s: float | None) -> float | None:
    """Time from the last opening shut until the gas presses with the pool's head; it never stops there."""
    section, head_pa = section_result(set_up), _pool_head_pa(set_up)
    if section is None or head_pa is None or not flow_m3_s or _last_area_m2(set_up) != 0.0:
        return None
    volume_m3 = section.volume_m3 or 0.0
    return pressure_build_up_s(head_pa, volume_m3=volume_m3, flow_m3_s=flow_m3_s)
