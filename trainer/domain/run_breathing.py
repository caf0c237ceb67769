"""The air left for people: oxygen where gas escapes to, mixed and layered, and what the supply could do."""

from typing import Any

from trainer.core.breathing import (
    Space,
    oxygen_mixed_frac,
    steady_frac,
    time_to_frac_s,
    ventilation_needed_m3_s,
)
from trainer.core.pool import PoolSide
from trainer.core.release import slow_release_frac, whole_release_frac
from trainer.core.terms import Fan
from trainer.domain.air_space import Shape, fan_of, fresh_oxygen_of, pool_side_of, shape_of, space_of
from trainer.domain.escaping_gas import boil_off_of, release_of, supply_contents_of
from trainer.domain.purge_run import BreathingResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.run_people_air import LEAST_TO_BREATHE_FRAC, Air, people_results, ventilated_s
from trainer.domain.set_up import Place, SetUp, Surroundings


def breathing_result(set_up: SetUp) -> BreathingResult | None:
    """Oxygen after the release went on for a while: the purge flow and the wait where nothing else is said.

    `escaping_gas` says what counts as the release where the vent is led away or a liquid supply stands there.
    """
    around = set_up.surroundings
    if around is None:
        return None
    release_m3_s = release_of(set_up)
    result = BreathingResult(
        pool_side=_side_words(set_up),
        **_of_supply(set_up, around),
        **({} if release_m3_s is None else _of_release(set_up, around, release_m3_s)),
    )
    return None if result == BreathingResult() else result


def escaped_for_s(set_up: SetUp, around: Surroundings) -> float | None:
    """How long gas has escaped when the figures hold [s]: as told, or for the wait."""
    return set_up.wait_s if around.after_s is None else around.after_s


def _side_words(set_up: SetUp) -> str | None:
    side = pool_side_of(set_up)
    return None if side is None else str(side)


def _of_release(set_up: SetUp, around: Surroundings, release_m3_s: float) -> dict[str, Any]:
    after_s = escaped_for_s(set_up, around)
    space, shape = space_of(set_up, release_m3_s=release_m3_s), shape_of(set_up)
    fresh_frac, fan = fresh_oxygen_of(around), fan_of(around)
    depth_m = None if after_s is None else _depth_m(set_up, shape, release_m3_s * after_s, fresh_frac)
    air = Air(fresh_frac=fresh_frac, space=space, shape=shape, after_s=after_s, layer_depth_m=depth_m)
    return {
        "release_m3_s": release_m3_s,
        **({} if space is None else _of_mixed(space, after_s)),
        "pool_depth_m": depth_m,
        "pipe_pool_depth_m": depth_m if around.kind is Place.PIPE else None,
        "ventilation_needed_m3_s": None if fan is None else _needed(fan, release_m3_s, fresh_frac),
        "air_changes_needed_per_h": _changes_needed(around, release_m3_s, fresh_frac),
        "people": people_results(set_up, air=air),
        "ventilated_s": ventilated_s(set_up, air=air),
    }


_LEVELS = {
    "time_to_19_5_s": LEAST_TO_BREATHE_FRAC,
    "time_to_18_s": 0.18,
    "time_to_16_s": 0.16,
    "time_to_10_s": 0.10,
    "time_to_6_s": 0.06,
}


def _of_mixed(space: Space, after_s: float | None) -> dict[str, Any]:
    return {
        "oxygen_mixed_frac": None if after_s is None else oxygen_mixed_frac(space, time_s=after_s),
        "steady_frac": steady_frac(space),
        **{name: _time_to(space, level_frac) for name, level_frac in _LEVELS.items()},
    }


def _time_to(space: Space, level_frac: float) -> float | Never:
    if level_frac >= space.fresh_o2_frac:
        return 0.0  # the air that comes in has no more to start with
    time_s = time_to_frac_s(space, o2_frac=level_frac)
    return NEVER if time_s is None else time_s


def _depth_m(set_up: SetUp, shape: Shape | None, gas_m3: float, fresh_frac: float) -> float | None:
    side = pool_side_of(set_up)
    if shape is None or side is None or side is PoolSide.NOWHERE:
        return None
    return shape.depth_m(gas_m3, fresh_frac=fresh_frac)


def _needed(fan: Fan, release_m3_s: float, fresh_frac: float) -> float | Never:
    if fresh_frac <= LEAST_TO_BREATHE_FRAC:
        return NEVER
    needed_m3_s = ventilation_needed_m3_s(
        release_m3_s, o2_frac=LEAST_TO_BREATHE_FRAC, fan=fan, fresh_o2_frac=fresh_frac
    )
    return NEVER if needed_m3_s is None else needed_m3_s


def _changes_needed(around: Surroundings, release_m3_s: float, fresh_frac: float) -> float | Never | None:
    """Air changes an hour that hold 19.5 %, whatever makes them."""
    if around.volume_m3 is None:
        return None
    needed_m3_s = _needed(Fan.DRAWS_OUT, release_m3_s, fresh_frac)
    return needed_m3_s if isinstance(needed_m3_s, Never) else 3600.0 * needed_m3_s / around.volume_m3


def _of_supply(set_up: SetUp, around: Surroundings) -> dict[str, Any]:
    """What a liquid supply inside does by itself, and the oxygen left when all of a supply gets out."""
    boil_off_m3_s = boil_off_of(set_up)
    alone = None if boil_off_m3_s is None else space_of(set_up, release_m3_s=boil_off_m3_s)
    found: dict[str, Any] = {
        "boil_off_m3_s": boil_off_m3_s,
        "boil_off_steady_frac": None if alone is None else steady_frac(alone),
    }
    if around.volume_m3 is None or around.kind is Place.OPEN_AIR:
        return found
    held_m3 = supply_contents_of(set_up)
    if held_m3 is None:
        return found
    volume_m3, fresh_frac = around.volume_m3, fresh_oxygen_of(around)
    return {
        **found,
        "supply_emptied_frac": whole_release_frac(held_m3, volume_m3=volume_m3, fresh_o2_frac=fresh_frac),
        "supply_leaked_frac": slow_release_frac(held_m3, volume_m3=volume_m3, fresh_o2_frac=fresh_frac),
    }
