"""The air left for people: oxygen where the gas escapes to, mixed and as a layer."""

from typing import Any

from trainer.core.breathing import (
    Space,
    oxygen_mixed_frac,
    steady_frac,
    time_to_frac_s,
    ventilation_needed_m3_s,
)
from trainer.core.gas import O2_IN_ROOM_AIR_FRAC
from trainer.core.pool import pool_depth_m
from trainer.core.terms import Fan
from trainer.domain.flows import purge_flow_of
from trainer.domain.known_parts import gas_of
from trainer.domain.purge_run import BreathingResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.set_up import SetUp

LEAST_TO_BREATHE_FRAC = 0.195  # 29 CFR 1910.146(b)


def breathing_result(set_up: SetUp) -> BreathingResult | None:
    """Oxygen after the release has gone on for a while; the release is the purge flow, the while the wait."""
    around = set_up.surroundings
    release_m3_s = None if around is None else _known_or(around.release_m3_s, purge_flow_of(set_up))
    if around is None or release_m3_s is None:
        return None
    fresh_frac = _known_or(around.fresh_oxygen_frac, O2_IN_ROOM_AIR_FRAC) or O2_IN_ROOM_AIR_FRAC
    after_s = _known_or(around.after_s, set_up.wait_s)
    space = _space(set_up, release_m3_s, fresh_frac)
    times: dict[str, Any] = (
        {} if space is None else {name: _time_to(space, level) for name, level in _LEVELS.items()}
    )
    return BreathingResult(
        oxygen_mixed_frac=None
        if space is None or after_s is None
        else oxygen_mixed_frac(space, time_s=after_s),
        steady_frac=None if space is None else steady_frac(space),
        **times,
        pool_depth_m=_pool_depth_m(set_up, release_m3_s, after_s, fresh_frac),
        ventilation_needed_m3_s=None if around.fan is None else _needed(around.fan, release_m3_s, fresh_frac),
    )


_LEVELS = {
    "time_to_19_5_s": LEAST_TO_BREATHE_FRAC,
    "time_to_18_s": 0.18,
    "time_to_16_s": 0.16,
    "time_to_10_s": 0.10,
    "time_to_6_s": 0.06,
}


def _known_or(value: float | None, other: float | None) -> float | None:
    return other if value is None else value


def _space(set_up: SetUp, release_m3_s: float, fresh_frac: float) -> Space | None:
    around = set_up.surroundings
    if around is None or around.volume_m3 is None or around.fan is None:
        return None
    if around.fan is not Fan.NONE and around.fan_flow_m3_s is None:
        return None
    return Space(
        volume_m3=around.volume_m3,
        release_m3_s=release_m3_s,
        fan=around.fan,
        fan_flow_m3_s=around.fan_flow_m3_s or 0.0,
        fresh_o2_frac=fresh_frac,
    )


def _time_to(space: Space, level_frac: float) -> float | Never:
    if level_frac >= space.fresh_o2_frac:
        return 0.0  # the air that comes in has no more to start with
    time_s = time_to_frac_s(space, o2_frac=level_frac)
    return NEVER if time_s is None else time_s


def _pool_depth_m(
    set_up: SetUp, release_m3_s: float, after_s: float | None, fresh_frac: float
) -> float | None:
    around, used = set_up.surroundings, gas_of(set_up)
    if around is None or around.floor_area_m2 is None or after_s is None or used is None:
        return None
    return pool_depth_m(
        release_m3_s * after_s, gas=used, floor_area_m2=around.floor_area_m2, fresh_o2_frac=fresh_frac
    )


def _needed(fan: Fan, release_m3_s: float, fresh_frac: float) -> float | Never:
    if fresh_frac <= LEAST_TO_BREATHE_FRAC:
        return NEVER
    needed_m3_s = ventilation_needed_m3_s(
        release_m3_s, o2_frac=LEAST_TO_BREATHE_FRAC, fan=fan, fresh_o2_frac=fresh_frac
    )
    return NEVER if needed_m3_s is None else needed_m3_s
