"""PurgeRun: what the core makes of a set-up, in SI; what its inputs do not allow is left out (None).

`NEVER` stands for a time that does not come. Each field names its key in files, whose ending is the unit,
and what an SI value is multiplied by to be written there.
"""

from dataclasses import dataclass, field, fields
from typing import Any

from trainer.core.terms import RootGrade
from trainer.domain.quantities import Never

PPM = 1e6
PERCENT = 100.0
MM = 1e3
LITRES = 1e3
L_MIN = 60_000.0
BAR = 1e-5
M3_H = 3600.0

_WRITTEN = "written"


@dataclass(frozen=True)
class Written:
    """How a result is written to a file: its key and the factor from SI."""

    key: str
    factor: float = 1.0


def written(key: str, factor: float = 1.0) -> Any:
    """A result that is None until its inputs are known."""
    return field(default=None, metadata={_WRITTEN: Written(key, factor)})


def written_as(part_class: type[Any]) -> dict[str, Written]:
    """How each attribute of a result is written, by attribute, in order."""
    return {each.name: each.metadata[_WRITTEN] for each in fields(part_class) if _WRITTEN in each.metadata}


@dataclass(frozen=True, kw_only=True)
class Expected:
    """An expected value with the ends of the interval that holds nine cases in ten."""

    expected: float = field(metadata={_WRITTEN: Written("expected")})
    lower: float = field(metadata={_WRITTEN: Written("lower")})
    upper: float = field(metadata={_WRITTEN: Written("upper")})


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


@dataclass(frozen=True, kw_only=True)
class InletResult:
    """How the gas enters."""

    velocity_m_s: float | None = written("velocity_m_s")
    froude_ratio: float | None = written("froude")
    jet_length_ratio: float | None = written("jet_length_ratio")


@dataclass(frozen=True, kw_only=True)
class PurgeResult:
    """Oxygen at the root against time; `never_because` codes what keeps the floor above the target."""

    time_to_target_s: Expected | Never | None = written("time_to_target_s")
    volume_changes_to_target: Expected | Never | None = written("volume_changes_to_target")
    never_because: tuple[str, ...] = ()
    floor_frac: float | None = written("floor_ppm", PPM)
    oxygen_after_wait_frac: Expected | None = written("oxygen_after_wait_ppm", PPM)
    # rows of time_s, then root, mean and vent oxygen as mole fractions
    trace: tuple[tuple[float, float, float, float], ...] = ()


@dataclass(frozen=True, kw_only=True)
class VentResult:
    """What leaves by the vent and what holds air out of it."""

    velocity_m_s: float | None = written("velocity_m_s")
    pressure_rise_pa: float | None = written("pressure_rise_pa")
    flow_that_holds_air_out_m3_s: float | None = written("flow_that_holds_air_out_l_min", L_MIN)


@dataclass(frozen=True, kw_only=True)
class HoseResult:
    """Whether the hose can carry the flow."""

    pressure_drop_pa: float | None = written("pressure_drop_bar", BAR)
    largest_flow_m3_s: float | None = written("largest_flow_l_min", L_MIN)
    choked: bool | None = written("choked")


@dataclass(frozen=True, kw_only=True)
class SupplyResult:
    """What the supply holds, in gas at the stated reference condition."""

    contents_m3: float | None = written("contents_l", LITRES)
    usable_m3: float | None = written("usable_l", LITRES)
    runs_for_s: float | None = written("runs_for_min", 1 / 60)
    joints: int | None = written("joints")
    stop_pressure_pa: float | None = written("stop_pressure_bar", BAR)
    reference: str | None = written("reference")


@dataclass(frozen=True, kw_only=True)
class GasUsed:
    """Gas used until the arc is struck, and in all."""

    before_arc_m3: float | None = written("before_arc_l", LITRES)
    total_m3: float | None = written("total_l", LITRES)


@dataclass(frozen=True, kw_only=True)
class RootResult:
    """How the root comes out if the arc is struck after the wait."""

    grade: RootGrade | None = written("grade")
    colour: str | None = written("colour")


@dataclass(frozen=True, kw_only=True)
class DamResult:
    """Peak temperature of one dam and what its material stands, in degrees Celsius as read on site."""

    temperature_c: float | None = None
    limit_c: float | None = None


@dataclass(frozen=True, kw_only=True)
class FlowResult:
    """The flow that a meter made for another gas really passes."""

    true_m3_s: float | None = written("true_l_min", L_MIN)


@dataclass(frozen=True, kw_only=True)
class BreathingResult:
    """Oxygen where people stand; times are NEVER where the level is not reached."""

    oxygen_mixed_frac: float | None = written("oxygen_mixed_percent", PERCENT)
    steady_frac: float | None = written("steady_percent", PERCENT)
    time_to_19_5_s: float | Never | None = written("time_to_19_5_s")
    time_to_18_s: float | Never | None = written("time_to_18_s")
    time_to_16_s: float | Never | None = written("time_to_16_s")
    time_to_10_s: float | Never | None = written("time_to_10_s")
    time_to_6_s: float | Never | None = written("time_to_6_s")
    pool_depth_m: float | None = written("pool_depth_m")
    ventilation_needed_m3_s: float | Never | None = written("ventilation_needed_m3_h", M3_H)


@dataclass(frozen=True, kw_only=True)
class Caution:
    """A caution by its stable code, with the figures that raised it, in SI."""

    code: str
    facts: tuple[tuple[str, float | str], ...] = ()


@dataclass(frozen=True, kw_only=True)
class PurgeRun:
    """Everything that the core answers for one set-up."""

    pipe: PipeResult | None = None
    section: SectionResult | None = None
    inlet: InletResult | None = None
    purge: PurgeResult | None = None
    vent: VentResult | None = None
    hose: HoseResult | None = None
    supply: SupplyResult | None = None
    gas_used: GasUsed | None = None
    root: RootResult | None = None
    dams: tuple[DamResult, ...] = ()
    flow: FlowResult | None = None
    breathing: BreathingResult | None = None
    cautions: tuple[Caution, ...] = ()
