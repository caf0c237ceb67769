"""A narrow place as a nozzle: what gets through it, and when it is choked."""

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import REFERENCE_TEMPERATURE_K, Gas, R, density_kg_m3

DISCHARGE_COEFFICIENT = 0.8
_AREA = Limits(quantity="open area", unit="m2", low=0.0, high=1.0, why="an area is not negative")
_UPSTREAM = Limits(
    quantity="absolute upstream pressure", unit="Pa", low=1e3, high=5e6, why="ideal gas, up to 50 bar"
)


@dataclass(frozen=True, kw_only=True)
class Nozzle:
    """A narrow place, and the gas and temperature before it."""

    open_area_m2: float
    gas: Gas
    temperature_k: float = REFERENCE_TEMPERATURE_K

    def __post_init__(self) -> None:
        _AREA.check(self.open_area_m2)


def critical_pressure_ratio(gas: Gas) -> float:
    """Pressure behind a nozzle, over that before it, below which it is choked.

    r = (2 / (k + 1))^(k / (k - 1))

    Args:
        gas [record]: the gas, for its heat capacity ratio k
    Returns:
        [-] ratio
    Valid: ideal gas.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(critical_pressure_ratio(gas("I1")), 3)
        0.487

    Reference: isentropic flow (White, Fluid Mechanics, section 9.3).
    """
    k = gas.heat_capacity_ratio
    return math.pow(2.0 / (k + 1.0), k / (k - 1.0))


def nozzle_flow_m3_s(nozzle: Nozzle, *, upstream_pa: float, downstream_pa: float) -> float:
    """Flow through a narrow place, choked below the critical pressure ratio.

    m = Cd A P0 sqrt(2 k / (k - 1) M / (R T) (r^(2/k) - r^((k+1)/k))),  r = max(P / P0, critical),  Cd 0.8

    Args:
        nozzle [record]: open area, gas and temperature
        upstream_pa [Pa]: P0, absolute
        downstream_pa [Pa]: P, absolute
    Returns:
        [m3/s] flow at the gas's temperature and one atmosphere
    Raises:
        OutOfRange: for a pressure behind that is higher than the one before
    Valid: ideal gas, isentropic up to the throat.

    Example:
        >>> from trainer.core.gas import gas
        >>> kink = Nozzle(open_area_m2=0.05 * math.pi / 4 * 0.00635**2, gas=gas("I1"))
        >>> round(nozzle_flow_m3_s(kink, upstream_pa=301325.0, downstream_pa=0.0) * 60000, 1)
        40.5

    Reference: isentropic nozzle (White, Fluid Mechanics, section 9.4); Cd from memory.
    """
    _UPSTREAM.check(upstream_pa)
    why = "gas flows from the higher pressure to the lower"
    Limits(quantity="downstream pressure", unit="Pa", low=0.0, high=upstream_pa, why=why).check(downstream_pa)
    k = nozzle.gas.heat_capacity_ratio
    ratio = max(downstream_pa / upstream_pa, critical_pressure_ratio(nozzle.gas))
    drive = math.pow(ratio, 2.0 / k) - math.pow(ratio, (k + 1.0) / k)
    specific_j_kg = R * nozzle.temperature_k / nozzle.gas.molar_mass_kg_mol
    flux = upstream_pa * math.sqrt(2.0 * k / (k - 1.0) / specific_j_kg * drive)
    density = density_kg_m3(nozzle.gas, temperature_k=nozzle.temperature_k)
    return DISCHARGE_COEFFICIENT * nozzle.open_area_m2 * flux / density
