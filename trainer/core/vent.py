"""The vent: velocity, pressure that it puts on the bead, and the flow below which air comes in through it."""

import math

import numpy as np

from trainer.core.errors import Limits
from trainer.core.gas import ATMOSPHERE_PA, G

DISCHARGE_COEFFICIENT = 0.61  # sharp edge; between 0.60 and 0.65 at a vent's Reynolds numbers, so +-10 %
FLOW = Limits(quantity="flow", unit="m3/s", low=0.0, high=10.0, why="a flow is not negative")
HOLE = Limits(quantity="hole diameter", unit="m", low=1e-5, high=3.0, why="holes from 0.01 mm to 3 m")
_COUNT = Limits(quantity="number of holes", unit="", low=1, high=10_000, why="there has to be a way out")
DENSITY = Limits(quantity="gas density", unit="kg/m3", low=0.01, high=50.0, why="it is that of a gas")
_PRESSURE = Limits(quantity="pressure rise", unit="Pa", low=1e-6, high=1e4, why="incompressible formula")
GRAVITY = Limits(quantity="reduced gravity", unit="m/s2", low=0.0, high=100.0, why="it is not negative")
# 0.3 of the speed of sound in argon (319 m/s); air, nitrogen and helium are faster.
_JET_SPEED = Limits(
    quantity="vent velocity", unit="m/s", high=96.0, why="faster gas is compressible; open the vent further"
)
_SECTION = Limits(quantity="volume", unit="m3", low=1e-9, high=1e6, why="it is that of a section")
_LIQUID = Limits(quantity="density of the pool", unit="kg/m3", low=1e3, high=3e4, why="liquid metal")
_SIZE = Limits(quantity="pool depth or gap", unit="m", low=1e-6, high=1.0, why="from 1 um to 1 m")
_TENSION = Limits(quantity="surface tension", unit="N/m", low=0.01, high=5.0, why="liquid metal")


def vent_area_m2(diameter_m: float, *, count: int = 1) -> float:
    """Open area of equal round vent holes.

    A = n pi d^2 / 4

    Args:
        diameter_m [m]: d
        count [-]: n
    Returns:
        [m2] area
    Raises:
        OutOfRange: for no hole at all
    Valid: round holes.

    Example:
        >>> round(vent_area_m2(0.006) * 1e6, 2)
        28.27

    Reference: geometry.
    """
    HOLE.check(diameter_m)
    _COUNT.check(count)
    return count * math.pi / 4.0 * diameter_m * diameter_m


def vent_velocity_m_s(flow_m3_s: float, *, diameter_m: float, count: int = 1) -> float:
    """Mean velocity of the gas that leaves through the vent.

    u = Q / A

    Args:
        flow_m3_s [m3/s]: Q through all holes
        diameter_m [m]: of each hole
        count [-]: number of holes
    Returns:
        [m/s] velocity
    Raises:
        OutOfRange: for a negative flow or no hole
    Valid: all the gas leaves through these holes.

    Example:
        >>> round(vent_velocity_m_s(15 / 60000, diameter_m=0.006), 2)
        8.84

    Reference: continuity.
    """
    FLOW.check(flow_m3_s)
    return flow_m3_s / vent_area_m2(diameter_m, count=count)


def vent_pressure_pa(
    flow_m3_s: float, *, gas_density_kg_m3: float, diameter_m: float, count: int = 1
) -> float:
    """Pressure rise in the section that pushes the gas out through the vent.

    dp = rho/2 (Q / (Cd n A))^2,  Cd 0.61

    Args:
        flow_m3_s [m3/s]: Q through all holes
        gas_density_kg_m3 [kg/m3]: rho
        diameter_m [m]: of each hole
        count [-]: n
    Returns:
        [Pa] pressure above the surroundings
    Raises:
        OutOfRange: for a vent velocity over 96 m/s, 0.3 of the speed of sound
    Valid: sharp-edged holes, within 10 % at Reynolds numbers of a few thousand.

    Example:
        >>> round(vent_pressure_pa(15 / 60000, gas_density_kg_m3=1.66182, diameter_m=0.006))
        175

    Reference: ISO 5167-2:2003, orifice equation at small diameter ratio; Cd from memory.
    """
    DENSITY.check(gas_density_kg_m3)
    velocity_m_s = vent_velocity_m_s(flow_m3_s, diameter_m=diameter_m, count=count)
    _JET_SPEED.check(velocity_m_s)
    return gas_density_kg_m3 / 2.0 * (velocity_m_s / DISCHARGE_COEFFICIENT) ** 2


def vent_diameter_for_pressure_m(
    flow_m3_s: float, *, gas_density_kg_m3: float, pressure_pa: float, count: int = 1
) -> float:
    """Diameter of vent hole that keeps the pressure rise to a wanted value.

    d = sqrt(4 Q / (pi n Cd) sqrt(rho / (2 dp)))

    Args:
        flow_m3_s [m3/s]: Q through all holes
        gas_density_kg_m3 [kg/m3]: rho
        pressure_pa [Pa]: dp
        count [-]: n
    Returns:
        [m] diameter of each hole
    Raises:
        OutOfRange: for a pressure outside 1e-6 Pa to 10 kPa, or a velocity over 96 m/s
    Valid: as `vent_pressure_pa`, whose inverse it is.

    Example:
        >>> round(1000 * vent_diameter_for_pressure_m(
        ...     20 / 60000, gas_density_kg_m3=1.66182, pressure_pa=100.0), 2)
        7.96

    Reference: ISO 5167-2:2003, orifice equation at small diameter ratio; Cd from memory.
    """
    FLOW.check(flow_m3_s)
    DENSITY.check(gas_density_kg_m3)
    _PRESSURE.check(pressure_pa)
    _COUNT.check(count)
    jet_m_s = math.sqrt(2.0 * pressure_pa / gas_density_kg_m3)
    _JET_SPEED.check(jet_m_s * DISCHARGE_COEFFICIENT)
    return math.sqrt(4.0 * flow_m3_s / (math.pi * count * DISCHARGE_COEFFICIENT * jet_m_s))


def flow_that_holds_air_out_m3_s(diameter_m: float, *, reduced_gravity_m_s2: float) -> float:
    """Outflow below which air flows in through a round hole in a vertical face, by the square of equal area.

    Q = (2/3) Cd W sqrt(2 g') h^(3/2),  W = h = d sqrt(pi) / 2

    Args:
        diameter_m [m]: d
        reduced_gravity_m_s2 [m/s2]: g' over the density of the gas that leaves, 2.70 for argon
    Returns:
        [m3/s] outflow through this one hole
    Raises:
        OutOfRange: for a negative reduced gravity or no hole
    Valid: vertical face, two still layers, the inside full of gas.

    Example:
        >>> round(60000 * flow_that_holds_air_out_m3_s(0.025, reduced_gravity_m_s2=2.70), 2)
        4.14

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201, exchange through a doorway.
    """
    HOLE.check(diameter_m)
    GRAVITY.check(reduced_gravity_m_s2)
    side_m = diameter_m * math.sqrt(math.pi) / 2.0
    speed_m_s = math.sqrt(2.0 * reduced_gravity_m_s2 * side_m)
    return 2.0 / 3.0 * DISCHARGE_COEFFICIENT * side_m * side_m * speed_m_s


def flow_that_holds_air_out_of_circle_m3_s(diameter_m: float, *, reduced_gravity_m_s2: float) -> float:
    """Outflow below which air flows in through a round hole in a vertical face, integrated over the circle.

    Q = Cd integral from 0 to d of w(z) sqrt(2 g' (d - z)) dz,  w = 2 sqrt(z (d - z))

    Args:
        diameter_m [m]: d
        reduced_gravity_m_s2 [m/s2]: g' over the density of the gas that leaves, 2.70 for argon
    Returns:
        [m3/s] outflow through this one hole
    Raises:
        OutOfRange: for a negative reduced gravity or no hole
    Valid: as `flow_that_holds_air_out_m3_s`, which is 8 % lower.

    Example:
        >>> round(60000 * flow_that_holds_air_out_of_circle_m3_s(0.025, reduced_gravity_m_s2=2.70), 2)
        4.48

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201; Gauss-Legendre after z = d (1 - cos phi) / 2.
    """
    HOLE.check(diameter_m)
    GRAVITY.check(reduced_gravity_m_s2)
    nodes, weights = np.polynomial.legendre.leggauss(32)
    phi = math.pi / 2.0 * (nodes + 1.0)
    mean_head = float(np.sum(weights * np.sin(phi) ** 2 * np.sqrt((1.0 + np.cos(phi)) / 2.0))) * math.pi / 2.0
    speed_m_s = math.sqrt(2.0 * reduced_gravity_m_s2 * diameter_m)
    return DISCHARGE_COEFFICIENT * diameter_m * diameter_m / 2.0 * speed_m_s * mean_head


def pressure_build_up_s(
    pressure_pa: float, *, volume_m3: float, flow_m3_s: float, ambient_pa: float = ATMOSPHERE_PA
) -> float:
    """Time in which a section whose openings are all shut comes to a pressure above the surroundings.

    t = V dp / (p0 Q)

    Args:
        pressure_pa [Pa]: dp
        volume_m3 [m3]: V of the section
        flow_m3_s [m3/s]: Q, which does not slacken as long as the hose's pressure is far above dp
        ambient_pa [Pa]: p0
    Returns:
        [s] time; half a second to 1 kPa in a small section
    Raises:
        OutOfRange: without flow, or for a pressure outside 1e-6 Pa to 10 kPa
    Valid: constant temperature, no leak.

    Example:
        >>> round(pressure_build_up_s(1000.0, volume_m3=0.0123, flow_m3_s=15 / 60000), 2)
        0.49

    Reference: ideal gas law.
    """
    _PRESSURE.check(pressure_pa)
    _SECTION.check(volume_m3)
    Limits(quantity="flow", unit="m3/s", low=1e-12, why="without flow no pressure builds up").check(flow_m3_s)
    return volume_m3 * pressure_pa / (ambient_pa * flow_m3_s)


def pool_head_pa(depth_m: float, *, density_kg_m3: float) -> float:
    """Head of the molten pool, the yardstick for the pressure that pushes a root up.

    p = rho g t

    Args:
        depth_m [m]: t
        density_kg_m3 [kg/m3]: rho of the liquid metal, about 6900 for steel and 4110 for titanium
    Returns:
        [Pa] pressure
    Raises:
        OutOfRange: for a depth outside 1 um to 1 m
    Valid: an upper yardstick; there is no published limit.

    Example:
        >>> round(pool_head_pa(0.003, density_kg_m3=6900.0))
        203

    Reference: hydrostatics; densities of the liquid metals from memory.
    """
    _SIZE.check(depth_m)
    _LIQUID.check(density_kg_m3)
    return density_kg_m3 * G * depth_m


def capillary_pa(gap_m: float, *, surface_tension_n_m: float = 1.6) -> float:
    """Pressure that the surface of the pool bridging an open root gap can carry.

    p = 2 gamma / w

    Args:
        gap_m [m]: w
        surface_tension_n_m [N/m]: gamma, 1.6 for steel; sulphur lowers it
    Returns:
        [Pa] pressure
    Raises:
        OutOfRange: for a gap outside 1 um to 1 m
    Valid: a yardstick.

    Example:
        >>> round(capillary_pa(0.003))
        1067

    Reference: Young-Laplace for a trough; surface tension from memory.
    """
    _SIZE.check(gap_m)
    _TENSION.check(surface_tension_n_m)
    return 2.0 * surface_tension_n_m / gap_m
