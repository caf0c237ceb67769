"""Liquid supply: what a dewar or bulk tank holds as gas, what boils off, the steady draw and its heat."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from trainer.core.errors import Limits, UnknownName
from trainer.core.gas import Gas, R
from trainer.core.reference_conditions import ReferenceCondition
from trainer.core.tables import table_rows

LIQUID_PRESSURE = Limits(
    quantity="absolute pressure over the liquid",
    unit="Pa",
    low=101_325.0,
    high=25e5,
    why="the table of saturated liquid goes from 1 atm to 25 bar",
)
_VOLUME = Limits(quantity="volume of the vessel", unit="m3", low=1e-4, high=1e4, why="0.1 L to 10 000 m3")
_FILL = Limits(quantity="fill", unit="", low=0.0, high=1.0, why="a share of the vessel")
_LOSS = Limits(quantity="daily loss", unit="", low=0.0, high=1.0, why="a share of the contents")
_GAS = Limits(quantity="gas volume", unit="m3", low=0.0, why="a volume is not negative")
_FLOW = Limits(quantity="mass flow", unit="kg/s", low=0.0, why="a flow is not negative")
_DAY_S = 86_400.0
_CUBIC_FOOT_M3 = 0.028316846592
_USUAL_DRAW_SCFH = 350.0


@dataclass(frozen=True, kw_only=True)
class Dewar:
    """A vessel of liquefied gas, saturated at its absolute pressure."""

    gas: Gas
    volume_m3: float
    fill_frac: float
    pressure_pa: float

    def __post_init__(self) -> None:
        _VOLUME.check(self.volume_m3)
        _FILL.check(self.fill_frac)
        LIQUID_PRESSURE.check(self.pressure_pa)


def liquid_density_kg_m3(gas: Gas, *, pressure_pa: float) -> float:
    """Density of the boiling liquid.

    Args:
        gas [record]: argon or nitrogen
        pressure_pa [Pa]: absolute pressure over it
    Returns:
        [kg/m3] density
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: outside 1 atm to 25 bar
    Valid: saturated liquid; interpolated linearly.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(liquid_density_kg_m3(gas("I1"), pressure_pa=101325.0))
        1395

    Reference: CoolProp 8.0.0, see data/liquids.csv.
    """
    return _saturated(gas, pressure_pa, "density_kg_m3")


def heat_to_gas_w(mass_flow_kg_s: float, *, gas: Gas, pressure_pa: float) -> float:
    """Heat that turns liquid into gas at 20 degC; more draw than the vaporiser has heat for sends cold gas.

    P = m (h_gas - h_liquid)

    Args:
        mass_flow_kg_s [kg/s]: m
        gas [record]: argon or nitrogen
        pressure_pa [Pa]: absolute pressure over the liquid
    Returns:
        [W] heat flow
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: for a negative flow or outside 1 atm to 25 bar
    Valid: steady draw.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(heat_to_gas_w(4.56e-3, gas=gas("I1"), pressure_pa=101325.0))
        1230

    Reference: CoolProp 8.0.0, see data/liquids.csv.
    """
    _FLOW.check(mass_flow_kg_s)
    return mass_flow_kg_s * _saturated(gas, pressure_pa, "heat_to_gas_j_kg")


def _saturated(gas: Gas, pressure_pa: float, column: str) -> float:
    LIQUID_PRESSURE.check(pressure_pa)
    pressures = _saturated_column(gas.symbol, "pressure_bar")
    if not pressures:
        known = sorted({row["gas"] for row in table_rows("liquids")})
        raise UnknownName("gas stored as a liquid", gas.symbol, known=known)
    return float(np.interp(pressure_pa / 1e5, pressures, _saturated_column(gas.symbol, column)))


@lru_cache(maxsize=32)
def _saturated_column(symbol: str, column: str) -> tuple[float, ...]:
    return tuple(float(row[column]) for row in table_rows("liquids") if row["gas"] == symbol)


def gas_per_liquid_ratio(
    gas: Gas, *, pressure_pa: float, reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
) -> float:
    """Volume of gas that a volume of boiling liquid gives.

    ratio = rho_liquid R T_ref / (p_ref M)

    Args:
        gas [record]: argon or nitrogen
        pressure_pa [Pa]: absolute pressure over the liquid; a dewar under pressure holds less
        reference [text]: the condition of the gas
    Returns:
        [-] ratio of volumes
    Raises:
        UnknownName: for a gas that is not stored as a liquid
        OutOfRange: outside 1 atm to 25 bar
    Valid: ideal gas at the reference condition.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(gas_per_liquid_ratio(gas("I1"), pressure_pa=10e5))
        714

    Reference: CoolProp 8.0.0, see data/liquids.csv; International Fire Code 2018, Table G101.2.
    """
    at = reference.state
    gas_kg_m3 = at.pressure_pa * gas.molar_mass_kg_mol / (R * at.temperature_k)
    return liquid_density_kg_m3(gas, pressure_pa=pressure_pa) / gas_kg_m3


def dewar_contents_m3(
    dewar: Dewar, *, reference: ReferenceCondition = ReferenceCondition.AT_15C_1BAR
) -> float:
    """Gas that the liquid in a dewar or tank gives.

    V = V_vessel fill ratio

    Args:
        dewar [record]: the vessel
        reference [text]: the condition of the gas
    Returns:
        [m3] gas
    Raises:
        UnknownName: for a gas that is not stored as a liquid
    Valid: the vapour over the liquid is left out.

    Example:
        >>> from trainer.core.gas import gas
        >>> full = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
        >>> round(dewar_contents_m3(full))
        122

    Reference: CoolProp 8.0.0, see data/liquids.csv.
    """
    ratio = gas_per_liquid_ratio(dewar.gas, pressure_pa=dewar.pressure_pa, reference=reference)
    return dewar.volume_m3 * dewar.fill_frac * ratio


def evaporation_m3_s(contents_m3: float, *, daily_loss_frac: float = 0.03) -> float:
    """Gas that a standing dewar vents, day and night, into wherever it stands.

    R = V f / 24 h

    Args:
        contents_m3 [m3]: its contents as gas
        daily_loss_frac [-]: f, 2 to 3 % a day once it vents
    Returns:
        [m3/s] gas vented, at the reference condition of the contents
    Raises:
        OutOfRange: for a share outside 0 to 1
    Valid: a vessel that stands unused and vents.

    Example:
        >>> round(evaporation_m3_s(127.4) * 60000, 1)
        2.7

    Reference: Lab Manager, January 2010, 2 to 3 % a day, read.
    """
    _GAS.check(contents_m3)
    _LOSS.check(daily_loss_frac)
    return contents_m3 * daily_loss_frac / _DAY_S


def steady_draw_m3_s() -> float:
    """Largest steady flow of a portable liquid cylinder before it sends cold gas.

    350 standard cubic feet an hour

    Returns:
        [m3/s] flow at 21 degC and 1 atm
    Valid: built-in vaporiser; up to 450 in the one manual that was read.

    Example:
        >>> round(steady_draw_m3_s() * 60000)
        165

    Reference: a cryogenic cylinder's operating manual for 450, read; 350 from memory.
    """
    return _USUAL_DRAW_SCFH * _CUBIC_FOOT_M3 / 3600.0
