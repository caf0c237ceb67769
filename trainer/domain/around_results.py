"""Results of a run about what surrounds the purge: dams and ropes in the heat, people and their air."""

from dataclasses import dataclass

from trainer.domain.quantities import Never
from trainer.domain.written import L_MIN, M3_H, MM, PERCENT, listed, written


@dataclass(frozen=True, kw_only=True)
class DamResult:
    """What one dam stands: its peak temperature, in degrees Celsius as read on site, and pressure across it.

    `steady_c` bounds what repeated passes build up to; `safe_distance_m` is where the peak meets the limit.
    Foam of one density is soft or hard: up to `surely_holds_pa` it stays, from `surely_slips_pa` on it goes.
    """

    temperature_c: float | None = None
    limit_c: float | None = None
    steady_c: float | None = None
    safe_distance_m: float | None = None
    rope_long_enough: bool | None = None
    surely_holds_pa: float | None = None
    surely_slips_pa: float | None = None


@dataclass(frozen=True, kw_only=True)
class HotPartResult:
    """Peak temperature of a rope, tape or hose near the weld, and what its material stands."""

    what: str | None = written("what")
    temperature_c: float | None = written("temperature_c")
    limit_c: float | None = written("limit_c")
    safe_distance_m: float | None = written("safe_distance_mm", MM)


@dataclass(frozen=True, kw_only=True)
class PersonResult:
    """What one person breathes at the height of the face, the worse of mixed and layered.

    Times count from the start of the release, and promise nobody any minutes. Of somebody who is in another
    space than the surroundings only that much is told.
    """

    where: str | None = written("where")
    face_height_m: float | None = written("face_height_m")
    oxygen_frac: float | None = written("oxygen_percent", PERCENT)
    in_layer: bool | None = written("in_layer")
    effect: str | None = written("effect")
    effect_source: str | None = written("effect_source")
    time_to_19_5_s: float | Never | None = written("time_to_19_5_s")
    time_to_10_s: float | Never | None = written("time_to_10_s")
    time_to_6_s: float | Never | None = written("time_to_6_s")


@dataclass(frozen=True, kw_only=True)
class BreathingResult:
    """Oxygen where people stand; times are NEVER where the level is not reached.

    The pool is what lies there when nothing stirs it. `supply_emptied_frac` is the oxygen left when all that
    the supply holds gets out at once, `supply_leaked_frac` when it leaks away slowly; `ventilated_s` counts
    from the gas shut off and the blower on.
    """

    release_m3_s: float | None = written("release_l_min", L_MIN)

    oxygen_mixed_frac: float | None = written("oxygen_mixed_percent", PERCENT)
    steady_frac: float | None = written("steady_percent", PERCENT)
    time_to_19_5_s: float | Never | None = written("time_to_19_5_s")
    time_to_18_s: float | Never | None = written("time_to_18_s")
    time_to_16_s: float | Never | None = written("time_to_16_s")
    time_to_10_s: float | Never | None = written("time_to_10_s")
    time_to_6_s: float | Never | None = written("time_to_6_s")
    pool_depth_m: float | None = written("pool_depth_m")
    ventilation_needed_m3_s: float | Never | None = written("ventilation_needed_m3_h", M3_H)
    pool_side: str | None = written("pool_side")
    pipe_pool_depth_m: float | None = written("pipe_pool_depth_m")
    supply_emptied_frac: float | None = written("supply_emptied_percent", PERCENT)
    supply_leaked_frac: float | None = written("supply_leaked_percent", PERCENT)
    boil_off_m3_s: float | None = written("boil_off_l_min", L_MIN)
    boil_off_steady_frac: float | None = written("boil_off_steady_percent", PERCENT)
    air_changes_needed_per_h: float | Never | None = written("air_changes_needed_per_h")
    ventilated_s: float | Never | None = written("ventilated_s")
    people: tuple[PersonResult, ...] = listed("people")
