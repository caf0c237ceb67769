"""Heat of the weld at the dams: the ring and moving line sources, and the steady fin as a bound.

Not in the sums: radiation from the root, hot gas that rises in an upright pipe, spatter, a root blow-through.
With preheat or heat treatment distances count from the edge of the heated band.
"""

import math
from dataclasses import dataclass

from trainer.core.errors import Limits, UnknownName
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup

_PEAK = math.sqrt(2.0 * math.pi * math.e)
_CELSIUS_ZERO_K = 273.15
DISTANCE = Limits(quantity="distance from the weld", unit="m", low=1e-4, high=100.0, why="outside the weld")
WALL = Limits(quantity="wall", unit="m", low=1e-4, high=0.2, why="walls from 0.1 to 200 mm")
HEAT_INPUT = Limits(quantity="heat input", unit="J/m", low=0.0, high=2e7, why="up to 20 kJ/mm")
_POWER = Limits(quantity="power", unit="W", low=0.0, high=1e6, why="up to 1 MW")
_EFFICIENCY = Limits(quantity="arc efficiency", unit="", low=0.0, high=1.0, why="share that enters the metal")
_SPEED = Limits(quantity="travel speed", unit="m/s", low=1e-6, high=1.0, why="from 0.06 mm/min to 60 m/min")
_RISE = Limits(quantity="rise above ambient", unit="K", low=0.1, why="the limit is above ambient")


@dataclass(frozen=True, kw_only=True)
class Metal:
    """Thermal properties of the pipe."""

    conductivity_w_m_k: float
    heat_capacity_j_m3_k: float

    @property
    def diffusivity_m2_s(self) -> float:
        """Thermal diffusivity, k / (rho c).

        Returns:
            [m2/s] diffusivity
        """
        return self.conductivity_w_m_k / self.heat_capacity_j_m3_k


def metal(group: MaterialGroup) -> Metal:
    """Thermal properties of a group of pipe materials.

    Args:
        group [text]: the group
    Returns:
        [record] conductivity and heat capacity
    Valid: near 100 degC, within 10 %.

    Example:
        >>> metal(MaterialGroup.AUSTENITIC_STAINLESS).conductivity_w_m_k
        16.3

    Reference: data/metals.csv, austenitic read, the others from memory.
    """
    row = next(row for row in table_rows("metals") if row["group"] == group)
    return Metal(
        conductivity_w_m_k=float(row["conductivity_w_m_k"]),
        heat_capacity_j_m3_k=float(row["heat_capacity_j_m3_k"]),
    )


def heat_input_j_m(
    current_a: float, *, voltage_v: float, efficiency_frac: float, travel_speed_m_s: float
) -> float:
    """Heat that a pass leaves in the metal per length of weld.

    H = eta U I / v

    Args:
        current_a [A]: I
        voltage_v [V]: U
        efficiency_frac [-]: eta, share of arc power that enters the metal
        travel_speed_m_s [m/s]: v
    Returns:
        [J/m] heat input
    Raises:
        OutOfRange: for an efficiency outside 0 to 1 or no travel
    Valid: any arc.

    Example:
        >>> round(heat_input_j_m(80.0, voltage_v=11.0, efficiency_frac=0.7, travel_speed_m_s=0.001))
        616000

    Reference: EN 1011-1, heat input.
    """
    _EFFICIENCY.check(efficiency_frac)
    _SPEED.check(travel_speed_m_s)
    _POWER.check(current_a * voltage_v)
    return efficiency_frac * voltage_v * current_a / travel_speed_m_s


def peak_temperature_k(
    distance_m: float, *, heat_input_j_m: float, wall_m: float, metal: Metal, ambient_k: float
) -> float:
    """Highest temperature at a distance from one pass, without any loss: an upper bound for it.

    T - T0 = H / (rho c t x sqrt(2 pi e)),  reached at x^2 / (2 alpha)

    Args:
        distance_m [m]: x along the pipe
        heat_input_j_m [J/m]: H
        wall_m [m]: t
        metal [record]: rho c
        ambient_k [K]: T0
    Returns:
        [K] peak temperature
    Raises:
        OutOfRange: on the weld itself or for a wall outside 0.1 to 200 mm
    Valid: thin wall, far from the weld; a few per cent high at 25 mm.

    Example:
        >>> steel = metal(MaterialGroup.AUSTENITIC_STAINLESS)
        >>> round(peak_temperature_k(
        ...     0.3, heat_input_j_m=616e3, wall_m=0.0034, metal=steel, ambient_k=293.15) - 273.15)
        57

    Reference: Adams's peak temperature equation (AWS Welding Handbook); Grong, Metallurgical Modelling of
    Welding, chapter 1.
    """
    DISTANCE.check(distance_m)
    HEAT_INPUT.check(heat_input_j_m)
    WALL.check(wall_m)
    return ambient_k + heat_input_j_m / (metal.heat_capacity_j_m3_k * wall_m * distance_m * _PEAK)


def distance_for_peak_m(
    peak_k: float, *, heat_input_j_m: float, wall_m: float, metal: Metal, ambient_k: float
) -> float:
    """Distance at which one pass without loss heats the pipe to no more than a limit.

    x = H / (rho c t (T - T0) sqrt(2 pi e))

    Args:
        peak_k [K]: T, the limit
        heat_input_j_m [J/m]: H
        wall_m [m]: t
        metal [record]: rho c
        ambient_k [K]: T0
    Returns:
        [m] least distance from the weld, on the safe side
    Raises:
        OutOfRange: for a limit that is not above ambient
    Valid: the inverse of `peak_temperature_k`.

    Example:
        >>> steel = metal(MaterialGroup.AUSTENITIC_STAINLESS)
        >>> round(1000 * distance_for_peak_m(
        ...     373.15, heat_input_j_m=616e3, wall_m=0.0034, metal=steel, ambient_k=293.15))
        139

    Reference: Adams's peak temperature equation (AWS Welding Handbook).
    """
    HEAT_INPUT.check(heat_input_j_m)
    WALL.check(wall_m)
    _RISE.check(peak_k - ambient_k)
    return heat_input_j_m / (metal.heat_capacity_j_m3_k * wall_m * (peak_k - ambient_k) * _PEAK)


def dam_limit_k(kind: str) -> float:
    """Highest temperature that a dam of a kind may come to.

    Args:
        kind [text]: "foam", "metal plate", "soluble paper", "inflatable" or "tape"
    Returns:
        [K] limit
    Raises:
        UnknownName: for another kind
    Valid: the weakest usual material of the kind; the maker's sheet goes first.

    Example:
        >>> round(dam_limit_k("foam") - 273.15)
        100

    Reference: data/dam_limits.csv.
    """
    limits = {row["kind"]: float(row["limit_c"]) for row in table_rows("dam_limits")}
    if kind not in limits:
        raise UnknownName("kind of dam", kind, known=tuple(limits))
    return limits[kind] + _CELSIUS_ZERO_K


def material_effect_k(material: str, *, effect: str) -> float:
    """Temperature at which heat does something to a dam, tape or rope material.

    Args:
        material [text]: as data/dam_materials.csv spells it
        effect [text]: "melting", "flash ignition", "continuous use", ...
    Returns:
        [K] temperature
    Raises:
        UnknownName: for a pair that the table does not hold
    Valid: approximate.

    Example:
        >>> round(material_effect_k("polypropylene", effect="melting") - 273.15)
        170

    Reference: data/dam_materials.csv; pslc.ws table citing Hilado, Flammability Handbook for Plastics, 1998.
    """
    rows = {(row["material"], row["effect"]): row for row in table_rows("dam_materials")}
    if (material, effect) not in rows:
        known = [": ".join(pair) for pair in rows]
        raise UnknownName("effect on a material", f"{material}: {effect}", known=known)
    return float(rows[material, effect]["temperature_c"]) + _CELSIUS_ZERO_K
