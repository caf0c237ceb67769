"""Volumes of the same gas at different reference conditions: 'standard' means three things in the trade."""

from dataclasses import dataclass
from enum import StrEnum

from trainer.core.errors import Limits
from trainer.core.gas import ATMOSPHERE_PA

_TEMPERATURE = Limits(quantity="temperature", unit="K", low=150.0, high=1000.0, why="ideal gas")
_PRESSURE = Limits(quantity="pressure", unit="Pa", low=1.0, high=5e6, why="ideal gas, absolute pressure")
_VOLUME = Limits(quantity="gas volume", unit="m3", low=0.0, why="a volume is not negative")


@dataclass(frozen=True, kw_only=True)
class GasState:
    """Temperature and absolute pressure at which a volume is stated."""

    temperature_k: float
    pressure_pa: float


class ReferenceCondition(StrEnum):
    """The condition that a stated gas volume is meant at."""

    AT_15C_1BAR = "15C-1bar"
    AT_21C_1ATM = "21C-1atm"
    AT_0C_1ATM = "0C-1atm"
    AT_60F_1ATM = "60F-1atm"

    @property
    def state(self) -> GasState:
        """Temperature and pressure of the condition; 21C is the 70 degF of the gas trade.

        Returns:
            [record] the state
        """
        return _STATES[self]


_STATES = {
    ReferenceCondition.AT_15C_1BAR: GasState(temperature_k=288.15, pressure_pa=1e5),
    ReferenceCondition.AT_21C_1ATM: GasState(temperature_k=294.2611111111111, pressure_pa=ATMOSPHERE_PA),
    ReferenceCondition.AT_0C_1ATM: GasState(temperature_k=273.15, pressure_pa=ATMOSPHERE_PA),
    ReferenceCondition.AT_60F_1ATM: GasState(temperature_k=288.7055555555556, pressure_pa=ATMOSPHERE_PA),
}


def converted_volume_m3(volume_m3: float, *, stated_at: GasState, wanted_at: GasState) -> float:
    """The volume that the same gas takes up at another condition; it serves for flows too.

    V2 = V1 (p1 / p2) (T2 / T1)

    Args:
        volume_m3 [m3]: V1, or a flow
        stated_at [record]: temperature and absolute pressure of V1
        wanted_at [record]: those of V2
    Returns:
        [m3] V2, or the flow
    Raises:
        OutOfRange: for a negative volume or a state outside 150 to 1000 K, 1 Pa to 5 MPa
    Valid: ideal gas, so low pressure; cylinders need `supply`.

    Example:
        >>> normal = ReferenceCondition.AT_0C_1ATM.state
        >>> round(converted_volume_m3(
        ...     1.0, stated_at=normal, wanted_at=ReferenceCondition.AT_15C_1BAR.state), 4)
        1.0689

    Reference: ideal gas law; 70 degF and 1 atm for cylinder gas as NCWM's Uniform Regulation on the method of
    sale of commodities states it; 15 degC and 1 bar from memory.
    """
    _VOLUME.check(volume_m3)
    for state in (stated_at, wanted_at):
        _TEMPERATURE.check(state.temperature_k)
        _PRESSURE.check(state.pressure_pa)
    pressure_ratio = stated_at.pressure_pa / wanted_at.pressure_pa
    return volume_m3 * pressure_ratio * wanted_at.temperature_k / stated_at.temperature_k
