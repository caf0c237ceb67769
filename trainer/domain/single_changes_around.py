"""Single changes of what surrounds a purge: hose and supply, the foam, and the air that people breathe."""

import math

from trainer.core.terms import Fan
from trainer.domain.change_kinds import ChangeKind, Changes
from trainer.domain.escaping_gas import is_supply_inside
from trainer.domain.purge_run import PurgeRun
from trainer.domain.set_up import DamAge, Place, SetUp, SupplyKind

_FAN_STEP_M3_S = 10.0 / 3600.0
_CHANGES_PER_H = 10.0  # tried beside what the core asks for
_CYLINDERS = (SupplyKind.SINGLE_CYLINDER, SupplyKind.CYLINDER_PACK)


def around_changes(set_up: SetUp, run: PurgeRun) -> Changes:
    """The changes, each as its kind and the new values by path."""
    yield from _hose(set_up)
    yield from _foam(set_up)
    yield from _fan(set_up, run)
    yield from _led_away(set_up)
    yield from _cylinders(set_up)


def _hose(set_up: SetUp) -> Changes:
    hose = set_up.hose
    if hose is None:
        return
    if hose.open_frac is not None and hose.open_frac < 1.0:
        yield ChangeKind.SOUND_HOSE, {"hose.open_fraction": 1.0}
    for share in (1.5, 2.0) if hose.bore_m is not None else ():
        wider_m = min(round(1000.0 * (hose.bore_m or 0.0) * share) / 1000.0, 0.1)
        yield ChangeKind.WIDER_HOSE, {"hose.bore": wider_m}


def _foam(set_up: SetUp) -> Changes:
    old = {f"dams.{place}.age": DamAge.NEW for place, dam in enumerate(set_up.dams) if dam.age is DamAge.OLD}
    if old:
        yield ChangeKind.NEW_FOAM, old


def _fan(set_up: SetUp, run: PurgeRun) -> Changes:
    """What the core asks for by its own figure, and a good many air changes."""
    around = set_up.surroundings
    if around is None or around.kind in (None, Place.OPEN_AIR) or around.volume_m3 is None:
        return
    needed = run.breathing.ventilation_needed_m3_s if run.breathing else None
    flows_m3_s = {around.volume_m3 * _CHANGES_PER_H / 3600.0}
    if isinstance(needed, float) and math.isfinite(needed):
        flows_m3_s |= {needed, 2.0 * needed}
    for flow_m3_s in sorted(flows_m3_s):
        rounded_m3_s = _FAN_STEP_M3_S * math.ceil(round(flow_m3_s / _FAN_STEP_M3_S, 6))
        if rounded_m3_s > (around.fan_flow_m3_s or 0.0):
            fan = around.fan if around.fan not in (None, Fan.NONE) else Fan.BLOWS_IN
            values = {"surroundings.fan": fan, "surroundings.fan_flow": rounded_m3_s}
            drops = {} if around.air_changes_per_h is None else {"surroundings.air_changes_per_h": None}
            yield ChangeKind.VENTILATE, {**values, **drops}


def _led_away(set_up: SetUp) -> Changes:
    around, leads_to = set_up.surroundings, set_up.scene.vent_leads_to if set_up.scene else None
    if around is not None and around.kind not in (None, Place.OPEN_AIR) and leads_to is not Place.OPEN_AIR:
        yield ChangeKind.VENT_OUTSIDE, {"scene.vent_leads_to": Place.OPEN_AIR}
    if is_supply_inside(set_up):
        yield ChangeKind.SUPPLY_OUTSIDE, {"surroundings.supply_inside": False}


def _cylinders(set_up: SetUp) -> Changes:
    supply = set_up.supply
    if supply is None or supply.kind not in _CYLINDERS:
        return
    for count in range((supply.count or 1) + 1, (supply.count or 1) + 4):
        yield ChangeKind.MORE_CYLINDERS, {"supply.count": min(count, 100)}
