"""Single changes that somebody at the joint could make to a set-up; what each does is weighed elsewhere.

A kind may come in several sizes. How far each goes is common practice or our own step, no source: the core
says what comes of it, and nothing is offered here that it does not bear out.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import chain
from typing import Any

from trainer.core.gas import sinks_in_air
from trainer.core.terms import InletEnd
from trainer.domain.change_kinds import ChangeKind, Changes
from trainer.domain.flows import hold_flow_of
from trainer.domain.known_parts import gas_of, size_of, slope_of, source_oxygen_of
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.set_up import SetUp
from trainer.domain.single_changes_around import around_changes
from trainer.domain.spool_path import path_of, vents_of

_L_MIN = 1e-3 / 60.0
_LOW, _HIGH = 0.1, 0.9
_ONE_FOOT_M = 0.3  # the trade's usual distance of a dam
_GOOD_GAS_FRAC = 5e-6  # 99.999 % argon holds about that much oxygen
_DIFFUSER_M2 = 15e-4
_HALF_MINUTE_S = 30.0
_STEEP_DEG = 10.0


@dataclass(frozen=True, kw_only=True)
class SingleChange:
    """One change: its kind, and the new values by path."""

    kind: ChangeKind
    values: Mapping[str, Any]


def single_changes(set_up: SetUp, *, run: PurgeRun) -> tuple[SingleChange, ...]:
    """Every change that there is to try on a set-up, whose run tells how far some of them go."""
    found = chain.from_iterable(each(set_up, run) for each in _MAKERS)
    return tuple(SingleChange(kind=kind, values=values) for kind, values in found)


def _sinks(set_up: SetUp) -> bool:
    used = gas_of(set_up)
    return used is None or sinks_in_air(used)


def _vent_height(set_up: SetUp, _: PurgeRun) -> Changes:
    """As near to the wall as the holes fit, where the air gathers."""
    vent, size = set_up.vent, size_of(set_up.pipe)
    if vent is None or vent.diameter_m is None or size is None or path_of(set_up):
        return
    aside_m = ((vent.count or 1) - 1) * vent.diameter_m / 2.0
    reach_m = (size.bore_m - vent.diameter_m) / 2.0
    if aside_m >= reach_m:
        return
    play = math.floor(100.0 * math.sqrt(reach_m**2 - aside_m**2) / size.bore_m) / 100.0
    height = round(0.5 + play if _sinks(set_up) else 0.5 - play, 2)
    if vent.height_frac is None or abs(height - 0.5) > abs(vent.height_frac - 0.5) or _is_wrong_side(set_up):
        yield ChangeKind.VENT_TO_POOL_END, {"vent.height": height}


def _is_wrong_side(set_up: SetUp) -> bool:
    height = set_up.vent.height_frac if set_up.vent else None
    return height is not None and (height < 0.5 if _sinks(set_up) else height > 0.5)


def _inlet_height(set_up: SetUp, _: PurgeRun) -> Changes:
    height, wanted = set_up.inlet.height_frac if set_up.inlet else None, _LOW if _sinks(set_up) else _HIGH
    if height is not None and (height > wanted if _sinks(set_up) else height < wanted):
        yield ChangeKind.INLET_TO_GAS_SIDE, {"inlet.height": wanted}


def _diffuser(set_up: SetUp, _: PurgeRun) -> Changes:
    size = size_of(set_up.pipe)
    if set_up.inlet is None or set_up.inlet.end in (None, InletEnd.DIFFUSER) or size is None:
        return
    face_m2 = min(_DIFFUSER_M2, math.pi / 8.0 * size.bore_m**2)
    yield ChangeKind.DIFFUSER, {"inlet.end": InletEnd.DIFFUSER, "inlet.face_area": face_m2}


def _dams(set_up: SetUp, run: PurgeRun) -> Changes:
    section = set_up.section
    if section is None or section.left_dam_m is None or section.right_dam_m is None:
        return
    left_m, right_m = section.left_dam_m, section.right_dam_m
    safe = [each.safe_distance_m for each in run.dams if each.safe_distance_m is not None]
    farthest_m = max(safe, default=0.0)
    safe_m = math.ceil(100.0 * farthest_m) / 100.0 if math.isfinite(farthest_m) else 0.0
    for wanted_m in sorted({_ONE_FOOT_M, max(_ONE_FOOT_M, safe_m), 1.0}):
        if wanted_m < max(left_m, right_m):
            nearer = {
                "section.left_dam": min(left_m, wanted_m),
                "section.right_dam": min(right_m, wanted_m),
            }
            yield ChangeKind.DAMS_NEARER, nearer
    if safe_m > min(left_m, right_m):
        farther = {"section.left_dam": max(left_m, safe_m), "section.right_dam": max(right_m, safe_m)}
        yield ChangeKind.DAMS_FARTHER, farther


def _slope(set_up: SetUp, _: PurgeRun) -> Changes:
    slope_deg = slope_of(set_up)
    if set_up.section is None or path_of(set_up) or abs(slope_deg) > _STEEP_DEG:
        return
    sign = 1.0 if _sinks(set_up) else -1.0
    for by_deg in (2.0, 5.0):
        yield ChangeKind.LIFT_VENT_END, {"section.slope": slope_deg + sign * by_deg}


def _purge_flow(set_up: SetUp, _: PurgeRun) -> Changes:
    if set_up.flow is None or set_up.flow.stages:
        return
    reads_m3_s = set_up.meter.reads_m3_s if set_up.meter else None
    path = "flow.purge" if reads_m3_s is None else "meter.reads"
    yield from _scaled(
        path,
        set_up.flow.purge_m3_s if reads_m3_s is None else reads_m3_s,
        less=ChangeKind.LESS_FLOW,
        more=ChangeKind.MORE_FLOW,
    )


def _hold_flow(set_up: SetUp, _: PurgeRun) -> Changes:
    yield from _scaled(
        "flow.hold", hold_flow_of(set_up), less=ChangeKind.LESS_HOLD, more=ChangeKind.MORE_HOLD
    )


def _scaled(path: str, flow_m3_s: float | None, *, less: ChangeKind, more: ChangeKind) -> Changes:
    """The flow in whole litres a minute, by shares of what it is."""
    for share in (0.5, 0.75, 1.25, 1.5, 2.0) if flow_m3_s else ():
        scaled = max(round((flow_m3_s or 0.0) * share / _L_MIN), 1) * _L_MIN
        yield less if share < 1.0 else more, {path: scaled}


def _joint(set_up: SetUp, _: PurgeRun) -> Changes:
    joint = set_up.joint
    if joint is not None and joint.gap_m and joint.taped_frac is not None and joint.taped_frac < 1.0:
        yield ChangeKind.TAPE_JOINT, {"joint.taped": 1.0}


def _leaks(set_up: SetUp, _: PurgeRun) -> Changes:
    closed = {f"leaks.{place}.area": 0.0 for place, leak in enumerate(set_up.leaks) if leak.area_m2 != 0.0}
    if closed:
        yield ChangeKind.CLOSE_LEAKS, closed


def _gas(set_up: SetUp, run: PurgeRun) -> Changes:
    source_frac = source_oxygen_of(set_up)
    if source_frac is not None and source_frac > _GOOD_GAS_FRAC:
        yield ChangeKind.PURER_GAS, {"gas.oxygen": _GOOD_GAS_FRAC}
    if any(each.code == "gas-not-for-material" for each in run.cautions):
        yield ChangeKind.ARGON, {"gas.symbol": "I1", "gas.composition": None}


def _wait(set_up: SetUp, run: PurgeRun) -> Changes:
    """Until nine runs in ten are there; gas goes on escaping for as much longer."""
    needed, wait_s = run.purge.time_to_target_s if run.purge else None, set_up.wait_s
    if not isinstance(needed, Expected) or not math.isfinite(needed.upper):
        return
    if wait_s is None or wait_s >= needed.upper:
        return
    longer_s = _HALF_MINUTE_S * math.ceil(needed.upper / _HALF_MINUTE_S)
    values = {"wait": longer_s}
    if set_up.surroundings is not None and set_up.surroundings.after_s is not None:
        values["surroundings.after"] = set_up.surroundings.after_s + longer_s - wait_s
    yield ChangeKind.WAIT_LONGER, values


def _vent_size(set_up: SetUp, _: PurgeRun) -> Changes:
    vent = set_up.vent
    if vent is None or vent.diameter_m is None or set_up.vents:
        return
    for share in (0.5, 0.75, 1.5, 2.0):
        kind = ChangeKind.SMALLER_VENT if share < 1.0 else ChangeKind.LARGER_VENT
        yield kind, {"vent.diameter": max(round(2000.0 * vent.diameter_m * share), 1) / 2000.0}


def _vent_state(set_up: SetUp, _: PurgeRun) -> Changes:
    blocked = [place for place, each in enumerate(set_up.vents) if each.blocked]
    if blocked:
        yield ChangeKind.CLEAR_VENT, {f"vents.{place}.blocked": False for place in blocked}
    elif not set_up.vents and set_up.vent is not None and set_up.vent.blocked:
        yield ChangeKind.CLEAR_VENT, {"vent.blocked": False}


def _high_points(set_up: SetUp, run: PurgeRun) -> Changes:
    """A further vent of the same size where air stays, or lingers while the gas goes by."""
    vents = vents_of(set_up)
    for leg in run.purge.dead_legs if run.purge else ():
        if not vents or leg.place is None:
            return
        height = _HIGH if _sinks(set_up) else _LOW
        further = _with_place(vents[0], at=leg.place, along=0.5 if leg.crossed else 1.0, height=height)
        yield ChangeKind.VENT_AT_HIGH_POINT, {"vent": None, "vents": (*vents, further)}


def _with_place(vent: Any, *, at: str, along: float, height: float) -> Any:
    return type(vent)(
        diameter_m=vent.diameter_m, count=vent.count, height_frac=height, at=at, along_frac=along
    )


_MAKERS: tuple[Callable[[SetUp, PurgeRun], Changes], ...] = (
    _vent_height, _inlet_height, _diffuser, _dams, _slope, _purge_flow, _hold_flow, _joint, _leaks, _gas,
    _wait, _vent_size, _vent_state, _high_points, around_changes,
)  # fmt: skip
