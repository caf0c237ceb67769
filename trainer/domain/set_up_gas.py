"""The purge gas, its flows and stages, the meter and the analyser, hose, supply and prices."""

from dataclasses import dataclass

from trainer.domain.quantities import Dimension, choice, measured, number, parts, text, whole_number
from trainer.domain.set_up_terms import StageKind, SupplyKind


@dataclass(frozen=True, kw_only=True)
class PurgeGas:
    """The purge gas by its ISO 14175 symbol, and the oxygen that it carries."""

    symbol: str | None = text("symbol", why="groups I, R and N of ISO 14175")
    composition: str | None = text(
        "composition", why="needed where the symbol is a range: a designation, or shares in percent"
    )
    oxygen_frac: float | None = measured(
        "oxygen", Dimension.FRACTION, 0.0, 0.01, why="a purge gas with over 1 % oxygen is no purge gas"
    )
    purity_frac: float | None = measured(
        "purity", Dimension.FRACTION, 0.99, 1.0, why="purge gas is bought from 99 % to 100 % pure"
    )
    frost_point_k: float | None = measured(
        "frost_point",
        Dimension.TEMPERATURE,
        173.15,
        273.15,
        why="dry gas freezes out between -100 and 0 degC",
    )


@dataclass(frozen=True, kw_only=True)
class Stage:
    """One stretch of the purge's time line: what happens, at which flow, for how long.

    The flow of a purge, a hold or a recovery is that of `flow` unless said otherwise; a line that
    is out brings none and leaves its hole open.
    """

    kind: StageKind | None = choice("kind", StageKind)
    flow_m3_s: float | None = measured("flow", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min")
    lasts_s: float | None = measured(
        "for", Dimension.DURATION, 0.0, 7 * 86400.0, why="up to a week", low_is_open=True
    )
    opening_m: float | None = measured(
        "opening", Dimension.LENGTH, 0.0, 0.3, why="hole in the dam that a fallen line leaves, as a diameter"
    )
    open_frac: float | None = number("open_fraction", 0.0, 1.0, why="what a pinch leaves of the hose's area")


@dataclass(frozen=True, kw_only=True)
class Flow:
    """Purge flow until the arc is struck, hold flow after it."""

    purge_m3_s: float | None = measured(
        "purge", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min", low_is_open=True
    )
    hold_m3_s: float | None = measured("hold", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min")
    hold_for_s: float | None = measured("hold_for", Dimension.DURATION, 0.0, 7 * 86400.0, why="up to a week")
    after_for_s: float | None = measured(
        "after_for", Dimension.DURATION, 0.0, 86400.0, why="the hold goes on after the weld for up to a day"
    )
    stages: tuple[Stage, ...] = parts("stages", Stage)


@dataclass(frozen=True, kw_only=True)
class FlowMeter:
    """What a float meter shows, and the gas that its scale was made for."""

    reads_m3_s: float | None = measured(
        "reads", Dimension.VOLUME_FLOW, 0.0, 0.01, why="up to 600 L/min", low_is_open=True
    )
    calibrated_for: str | None = text(
        "calibrated_for", why="the gas of the scale: a symbol, a designation, or AIR"
    )


@dataclass(frozen=True, kw_only=True)
class Reading:
    """What the oxygen analyser showed, and when after the gas was turned on."""

    after_s: float | None = measured("after", Dimension.DURATION, 0.0, 7 * 86400.0, why="up to a week")
    oxygen_frac: float | None = measured(
        "oxygen", Dimension.FRACTION, 1e-7, 0.2095, why="from 0.1 ppm to dry air"
    )


@dataclass(frozen=True, kw_only=True)
class Analyser:
    """The oxygen analyser: how far its readings may be off, as a share of the reading."""

    uncertainty_frac: float | None = measured(
        "uncertainty", Dimension.FRACTION, 0.0, 0.5, why="an analyser off by half tells nothing"
    )


@dataclass(frozen=True, kw_only=True)
class Hose:
    """The hose from the regulator to the inlet; open_fraction below 1 is a kink."""

    bore_m: float | None = measured(
        "bore", Dimension.LENGTH, 0.001, 0.1, why="hoses from 1 mm to 100 mm bore"
    )
    length_m: float | None = measured(
        "length", Dimension.LENGTH, 0.0, 500.0, why="hoses up to 500 m", low_is_open=True
    )
    inlet_pressure_pa: float | None = measured(
        "inlet_pressure", Dimension.PRESSURE, 0.0, 2e6, why="regulators give up to 20 bar", low_is_open=True
    )
    open_frac: float | None = number("open_fraction", 0.0, 1.0, why="0 is pinched shut, 1 sound")


@dataclass(frozen=True, kw_only=True)
class Supply:
    """The gas supply; pressures are gauge, water volume is that of one vessel, fill that of its liquid."""

    kind: SupplyKind | None = choice("kind", SupplyKind)
    water_volume_m3: float | None = measured(
        "water_volume", Dimension.VOLUME, 0.0001, 100.0, why="from a 0.1 L lecture bottle to a 100 m3 tank"
    )
    pressure_pa: float | None = measured(
        "pressure", Dimension.PRESSURE, 0.0, 3.2e7, why="cylinders are filled to 300 bar at the most"
    )
    stop_pressure_pa: float | None = measured(
        "stop_pressure",
        Dimension.PRESSURE,
        0.0,
        3.2e7,
        why="what is left in the cylinder keeps air out of it",
    )
    count: int | None = whole_number("count", 1, 100, why="1 to 100 cylinders")
    fill_frac: float | None = number("fill", 0.0, 1.0, why="share of the vessel that is full of liquid")
    residual_frac: float | None = number("residual", 0.0, 0.5, why="share of the liquid that cannot be drawn")
    daily_loss_frac: float | None = measured(
        "daily_loss", Dimension.FRACTION, 0.0, 0.2, why="a vessel that loses over 20 % a day is broken"
    )
    largest_draw_m3_s: float | None = measured(
        "largest_draw",
        Dimension.VOLUME_FLOW,
        0.0,
        0.1,
        why="what regulator and vaporiser give",
        low_is_open=True,
    )
    joints_wanted: int | None = whole_number("joints_wanted", 1, 10_000, why="1 to 10000 joints")
    joint_every_s: float | None = measured(
        "joint_every", Dimension.DURATION, 60.0, 7 * 86400.0, why="from one joint to the next, up to a week"
    )


@dataclass(frozen=True, kw_only=True)
class Prices:
    """What things cost, in the reader's own money; gas by the cubic metre at the reference condition."""

    gas_per_m3: float | None = number("gas_per_m3", 0.0, 10_000.0, why="money for a cubic metre of gas")
    labour_per_h: float | None = number("labour_per_h", 0.0, 10_000.0, why="money for an hour of waiting")
    lost_joint: float | None = number("lost_joint", 0.0, 10_000_000.0, why="money for a root that is cut out")
