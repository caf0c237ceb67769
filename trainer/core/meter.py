"""Float meters: the true flow behind the reading, with another gas or at another pressure in the tube."""

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import ATMOSPHERE_PA, REFERENCE_TEMPERATURE_K, Gas

_DENSITY = Limits(quantity="gas density", unit="kg/m3", low=0.01, high=50.0, why="at the standard state")
_PRESSURE = Limits(
    quantity="absolute pressure at the float", unit="Pa", low=1e4, high=5e6, why="meters run up to 50 bar"
)
_TEMPERATURE = Limits(quantity="temperature at the float", unit="K", low=200.0, high=500.0, why="gas in use")
_READING = Limits(quantity="reading", unit="m3/s", low=0.0, why="a float shows no negative flow")


@dataclass(frozen=True, kw_only=True)
class FloatState:
    """Gas at the float: density at the standard state, absolute pressure and temperature in the tube."""

    standard_density_kg_m3: float
    pressure_pa: float = ATMOSPHERE_PA
    temperature_k: float = REFERENCE_TEMPERATURE_K


def true_flow_ratio(scale: FloatState, *, used: FloatState) -> float:
    """What the true standard flow is, over what the scale shows.

    Q_true / Q_read = sqrt(rho_scale / rho_used * p_used / p_scale * T_scale / T_used)

    Args:
        scale [record]: the gas, pressure and temperature that the scale was made for
        used [record]: those at the float now
    Returns:
        [-] factor on the reading
    Raises:
        OutOfRange: for a density, pressure or temperature that no meter sees
    Valid: flows at one standard state; welding meters have balls, so take it as within 10 %.

    Example:
        >>> air = FloatState(standard_density_kg_m3=1.293, pressure_pa=301325.0)
        >>> used = FloatState(standard_density_kg_m3=1.977, pressure_pa=501325.0, temperature_k=323.15)
        >>> round(true_flow_ratio(air, used=used), 3)
        0.994

    Reference: float balance, buoyancy neglected; worked example of note F-0007 on variable-area meters.
    """
    for state in (scale, used):
        _DENSITY.check(state.standard_density_kg_m3)
        _PRESSURE.check(state.pressure_pa)
        _TEMPERATURE.check(state.temperature_k)
    return math.sqrt(
        scale.standard_density_kg_m3
        / used.standard_density_kg_m3
        * used.pressure_pa
        / scale.pressure_pa
        * scale.temperature_k
        / used.temperature_k
    )


def true_flow_m3_s(reading_m3_s: float, *, scale_gas: Gas, used_gas: Gas) -> float:
    """True flow of one gas through a meter whose scale was made for another, at equal pressure.

    Q_true = Q_read sqrt(M_scale / M_used)

    Args:
        reading_m3_s [m3/s]: what the scale shows
        scale_gas [record]: the gas that the scale was made for
        used_gas [record]: the gas that flows
    Returns:
        [m3/s] true flow
    Raises:
        OutOfRange: for a negative reading
    Valid: the float's tube at the pressure that the scale was made for; within 10 % with a ball.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(true_flow_m3_s(1.0, scale_gas=gas("I1"), used_gas=gas("N1")), 3)
        1.194

    Reference: float balance, buoyancy neglected; equal molar volumes.
    """
    _READING.check(reading_m3_s)
    return reading_m3_s * math.sqrt(scale_gas.molar_mass_kg_mol / used_gas.molar_mass_kg_mol)


def reading_to_set_m3_s(true_flow_m3_s: float, *, scale_gas: Gas, used_gas: Gas) -> float:
    """What a meter made for another gas has to show for a wanted true flow.

    Q_read = Q_true sqrt(M_used / M_scale)

    Args:
        true_flow_m3_s [m3/s]: wanted flow
        scale_gas [record]: the gas that the scale was made for
        used_gas [record]: the gas that flows
    Returns:
        [m3/s] reading
    Raises:
        OutOfRange: for a negative flow
    Valid: as `true_flow_m3_s`.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(reading_to_set_m3_s(20.0, scale_gas=gas("I1"), used_gas=gas("I2")), 2)
        6.33

    Reference: float balance, buoyancy neglected; equal molar volumes.
    """
    _READING.check(true_flow_m3_s)
    return true_flow_m3_s * math.sqrt(used_gas.molar_mass_kg_mol / scale_gas.molar_mass_kg_mol)
