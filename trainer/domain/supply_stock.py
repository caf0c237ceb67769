"""The gas supply of a set-up as the core takes it: cylinders of gas, or vessels of boiling liquid."""

from dataclasses import dataclass

from trainer.core.dewar import Dewar, steady_draw_m3_s
from trainer.core.gas import ATMOSPHERE_PA
from trainer.core.liquid_supply import LiquidSupply
from trainer.core.reference_conditions import GasState, ReferenceCondition, converted_volume_m3
from trainer.core.supply import Cylinders
from trainer.domain.known_parts import DEFAULT_STOP_PRESSURE_PA, gas_of, temperature_of
from trainer.domain.set_up import SetUp, Supply, SupplyKind

# Stated and echoed where they are left out, like the stop pressure of a cylinder.
DEFAULT_RESIDUAL_FRAC = 0.05  # common practice, no source
DEFAULT_DAILY_LOSS_FRAC = 0.03  # Lab Manager, January 2010: 2 to 3 % a day, read

LIQUID_KINDS = (SupplyKind.LIQUID_DEWAR, SupplyKind.BULK_TANK)
CYLINDER_KINDS = (SupplyKind.SINGLE_CYLINDER, SupplyKind.CYLINDER_PACK)


@dataclass(frozen=True, kw_only=True)
class Vessels:
    """Equal vessels of boiling liquid on one line."""

    each: LiquidSupply
    count: int


def stop_pressure_of(supply: Supply) -> float:
    """Gauge pressure that stays in a cylinder, 2 bar when left out."""
    return DEFAULT_STOP_PRESSURE_PA if supply.stop_pressure_pa is None else supply.stop_pressure_pa


def cylinders_of(set_up: SetUp) -> Cylinders | None:
    """Cylinder or pack; None for liquid, and where size, pressure, gas or the pack's number is not known."""
    supply, used = set_up.supply, gas_of(set_up)
    if supply is None or supply.kind not in CYLINDER_KINDS or used is None:
        return None
    counted = supply.count or (1 if supply.kind is SupplyKind.SINGLE_CYLINDER else None)
    if supply.water_volume_m3 is None or supply.pressure_pa is None or counted is None:
        return None
    return Cylinders(
        gas=used,
        water_volume_m3=supply.water_volume_m3,
        pressure_pa=supply.pressure_pa + ATMOSPHERE_PA,
        temperature_k=temperature_of(set_up),
        count=counted,
    )


def vessels_of(set_up: SetUp) -> Vessels | None:
    """Dewars or tanks; None for gas, and where size, pressure, fill or gas is not known."""
    supply, used = set_up.supply, gas_of(set_up)
    if supply is None or supply.kind not in LIQUID_KINDS or used is None:
        return None
    if supply.water_volume_m3 is None or supply.pressure_pa is None or supply.fill_frac is None:
        return None
    vessel = Dewar(
        gas=used,
        volume_m3=supply.water_volume_m3,
        fill_frac=supply.fill_frac,
        pressure_pa=supply.pressure_pa + ATMOSPHERE_PA,
    )
    each = LiquidSupply(
        vessel=vessel,
        residual_frac=DEFAULT_RESIDUAL_FRAC if supply.residual_frac is None else supply.residual_frac,
        daily_loss_frac=DEFAULT_DAILY_LOSS_FRAC if supply.daily_loss_frac is None else supply.daily_loss_frac,
    )
    return Vessels(each=each, count=supply.count or 1)


def deliverable_of(set_up: SetUp, *, reference: ReferenceCondition) -> float | None:
    """The largest flow that the supply keeps up, at the reference condition; None where nothing limits it.

    It is that of one regulator or vaporiser as stated, of a portable vessel's own vaporiser where nothing is
    stated, and so many times as much from so many vessels on one line.
    """
    supply = set_up.supply
    if supply is None:
        return None
    outlets = (supply.count or 1) if supply.kind in LIQUID_KINDS else 1
    if supply.largest_draw_m3_s is not None:
        return outlets * at_reference(supply.largest_draw_m3_s, set_up=set_up, reference=reference)
    if supply.kind is not SupplyKind.LIQUID_DEWAR:
        return None
    stated_at = ReferenceCondition.AT_21C_1ATM.state
    return outlets * converted_volume_m3(steady_draw_m3_s(), stated_at=stated_at, wanted_at=reference.state)


def at_reference(volume_m3: float, *, set_up: SetUp, reference: ReferenceCondition) -> float:
    """A volume or flow at the pipe's temperature and one atmosphere, restated at the reference condition."""
    flowing = GasState(temperature_k=temperature_of(set_up), pressure_pa=ATMOSPHERE_PA)
    return converted_volume_m3(volume_m3, stated_at=flowing, wanted_at=reference.state)
