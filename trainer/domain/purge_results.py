"""Results of a run about the section, the purge in it, its openings and the root."""

from dataclasses import dataclass

from trainer.core.terms import RootGrade
from trainer.domain.quantities import Never
from trainer.domain.written import L_MIN, LITRES, MM, PPM, Expected, listed, written


@dataclass(frozen=True, kw_only=True)
class PipeResult:
    """Sizes of the pipe."""

    outside_diameter_m: float | None = written("outside_diameter_mm", MM)
    wall_m: float | None = written("wall_mm", MM)
    bore_m: float | None = written("bore_mm", MM)


@dataclass(frozen=True, kw_only=True)
class SectionResult:
    """The dammed section; the pocket is the share of its volume beyond the vent, away from the pool."""

    length_m: float | None = written("length_mm", MM)
    volume_m3: float | None = written("volume_l", LITRES)
    pocket_beyond_vent_frac: float | None = written("pocket_beyond_vent_fraction")
    parts_count: int | None = written("parts")


@dataclass(frozen=True, kw_only=True)
class InletResult:
    """How the gas enters."""

    velocity_m_s: float | None = written("velocity_m_s")
    froude_ratio: float | None = written("froude")
    jet_length_ratio: float | None = written("jet_length_ratio")


@dataclass(frozen=True, kw_only=True)
class StageResult:
    """One stretch of the time line: oxygen at the worst point of the root at its end, and its highest."""

    kind: str | None = written("kind")
    starts_s: float | None = written("starts_s")
    ends_s: float | None = written("ends_s")
    flow_m3_s: float | None = written("flow_l_min", L_MIN)
    oxygen_at_end_frac: Expected | None = written("oxygen_at_end_ppm", PPM)
    highest_oxygen_frac: float | None = written("highest_oxygen_ppm", PPM)


@dataclass(frozen=True, kw_only=True)
class DeadLegResult:
    """A high point (for a gas that rises: a low point) without a vent, and the time that it alone needs.

    One that the gas crosses on its way to a vent is told with the time that all of the spool needs with the
    vent there.
    """

    place: str | None = written("place")
    mouth: str | None = written("mouth")
    volume_m3: float | None = written("volume_l", LITRES)
    length_m: float | None = written("length_mm", MM)
    crossed: bool | None = written("crossed")
    time_to_target_s: float | Never | None = written("time_to_target_s")
    oxygen_after_wait_frac: float | None = written("oxygen_after_wait_ppm", PPM)
    time_with_vent_there_s: float | None = written("time_with_vent_there_s")


@dataclass(frozen=True, kw_only=True)
class PurgeResult:
    """Oxygen at the root against time; `never_because` codes what keeps the floor above the target."""

    time_to_target_s: Expected | Never | None = written("time_to_target_s")
    volume_changes_to_target: Expected | Never | None = written("volume_changes_to_target")
    never_because: tuple[str, ...] = ()
    floor_frac: float | None = written("floor_ppm", PPM)
    oxygen_after_wait_frac: Expected | None = written("oxygen_after_wait_ppm", PPM)
    highest_in_hold_frac: float | None = written("highest_in_hold_ppm", PPM)
    highest_after_wait_frac: float | None = written("highest_after_wait_ppm", PPM)
    stages: tuple[StageResult, ...] = listed("stages")
    dead_legs: tuple[DeadLegResult, ...] = listed("dead_legs")
    body_time_to_target_s: Expected | Never | None = written("body_time_to_target_s")  # without its dead legs
    worst_place: str | None = written("worst_place")
    # rows of time_s, then root, mean and vent oxygen as mole fractions
    trace: tuple[tuple[float, float, float, float], ...] = ()


@dataclass(frozen=True, kw_only=True)
class ReadingsResult:
    """What two readings of the analyser say: how long to wait still, and whether a floor has been reached."""

    wait_still_s: Expected | Never | None = written("wait_still_s")
    floor_reached: bool | None = written("floor_reached")
    floor_frac: float | None = written("floor_ppm", PPM)


@dataclass(frozen=True, kw_only=True)
class VentResult:
    """What leaves by the vent, what holds air out of it, and how hard the gas presses on the bead.

    The pool's head and what its surface carries over the gap are yardsticks beside the pressures. With no way
    out at all the pressure never stops rising: `reaches_pool_head_s` says how soon it lifts the pool.
    """

    velocity_m_s: float | None = written("velocity_m_s")
    pressure_rise_pa: float | None = written("pressure_rise_pa")
    flow_that_holds_air_out_m3_s: float | None = written("flow_that_holds_air_out_l_min", L_MIN)
    pressure_while_welding_pa: float | None = written("pressure_while_welding_pa")
    pressure_at_last_of_joint_pa: float | None = written("pressure_at_last_of_joint_pa")
    pool_head_pa: float | None = written("pool_head_pa")
    bridging_pressure_pa: float | None = written("bridging_pressure_pa")
    reaches_pool_head_s: float | None = written("reaches_pool_head_s")


@dataclass(frozen=True, kw_only=True)
class RootResult:
    """How the root comes out if the arc is struck after the wait."""

    grade: RootGrade | None = written("grade")
    colour: str | None = written("colour")
