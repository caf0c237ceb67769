"""Results of a run about the gas: what it is, whether it gets there, what is left and what it costs."""

from dataclasses import dataclass

from trainer.domain.written import BAR, L_DAY, L_MIN, LITRES, PERCENT, PPM, written


@dataclass(frozen=True, kw_only=True)
class GasResult:
    """The purge gas as used: what it is made of, how heavy it is, where it lies in air, what it carries.

    `oxygen_at_most` is the whole impurity that the purity leaves room for, `verdict` how the gas suits the
    material, and `verdict_by` who says so.
    """

    name: str | None = written("name")
    composition: str | None = written("composition")
    density_kg_m3: float | None = written("density_kg_m3")
    density_over_air_ratio: float | None = written("density_over_air")
    lies: str | None = written("lies")
    oxygen_frac: float | None = written("oxygen_ppm", PPM)
    oxygen_at_most_frac: float | None = written("oxygen_at_most_ppm", PPM)
    moisture_frac: float | None = written("moisture_ppm", PPM)
    verdict: str | None = written("verdict")
    verdict_because: str | None = written("verdict_because")
    verdict_by: str | None = written("verdict_by")


@dataclass(frozen=True, kw_only=True)
class FlowResult:
    """The flow that a meter made for another gas really passes."""

    true_m3_s: float | None = written("true_l_min", L_MIN)


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
    deliverable_m3_s: float | None = written("deliverable_l_min", L_MIN)
    evaporates_m3_s: float | None = written("evaporates_l_per_day", L_DAY)
    supplies_needed: int | None = written("supplies_needed")
    left_over_m3: float | None = written("left_over_l", LITRES)
    change_below_pa: float | None = written("change_below_bar", BAR)
    change_below_fill_frac: float | None = written("change_below_fill")
    residual_frac: float | None = written("residual_fraction")
    daily_loss_frac: float | None = written("daily_loss_percent", PERCENT)
    evaporates_between_joints_m3: float | None = written("evaporates_between_joints_l", LITRES)
    joints_last_s: float | None = written("joints_last_h", 1 / 3600)


@dataclass(frozen=True, kw_only=True)
class GasUsed:
    """Gas used until the arc is struck, and in all."""

    before_arc_m3: float | None = written("before_arc_l", LITRES)
    total_m3: float | None = written("total_l", LITRES)
    during_arc_m3: float | None = written("during_arc_l", LITRES)
    after_arc_m3: float | None = written("after_arc_l", LITRES)
    wasted_m3: float | None = written("wasted_l", LITRES)


@dataclass(frozen=True, kw_only=True)
class CostResult:
    """What a joint costs, in the money of the prices; the waste is part of the gas."""

    gas: float | None = written("gas")
    wasted_gas: float | None = written("wasted_gas")
    waiting: float | None = written("waiting")
    lost_joint: float | None = written("lost_joint")
    total: float | None = written("total")
