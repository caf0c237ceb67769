"""Air that comes into the section through the vent or another hole; what several openings share."""

import math

from trainer.core.errors import Limits
from trainer.core.gas import (
    O2_IN_DRY_AIR_FRAC,
    REFERENCE_TEMPERATURE_K,
    Gas,
    outflow_reduced_gravity_m_s2,
    sinks_in_air,
)
from trainer.core.two_layer import circle, slot
from trainer.core.vent import FLOW, HOLE, flow_that_holds_air_out_m3_s, vent_area_m2

UPRIGHT_DEG = 90.0
SLOPE = Limits(
    quantity="slope", unit="deg", low=-UPRIGHT_DEG, high=UPRIGHT_DEG, why="a pipe is at most upright"
)
_SOURCE = Limits(
    quantity="oxygen in the gas", unit="", low=0.0, high=O2_IN_DRY_AIR_FRAC, why="a purge gas is not air"
)


def vent_flow_that_holds_air_out_m3_s(
    diameter_m: float, *, gas: Gas, count: int = 1, slope_deg: float = 0.0
) -> float:
    """Outflow below which air comes in through round vent holes in the dam at one end of a pipe.

    level: Q = Cd (2/3) n A sqrt(2 g' h), the square of equal area, h its side;
    leaning towards where the layers lie still (up for a gas that sinks): that with h cos(slope), 0 upright;
    leaning over: the larger of the level one and n A |sin(slope)| sqrt(g' d)

    Args:
        diameter_m [m]: d of each hole
        gas [record]: the gas inside
        count [-]: n
        slope_deg [deg]: by how much the holes face up: 0 to the side, 90 up, -90 down
    Returns:
        [m3/s] outflow through all holes
    Raises:
        OutOfRange: for no hole, or a slope beyond upright
    Valid: still layers; a gas that rises turns up and down over. Between level and upright our own model:
        the exchange by the height that the hole still spans, and by its area as seen from below, the worse
        of the two; never less for a hole that leans over further.

    Example:
        >>> from trainer.core.gas import gas
        >>> [round(60000 * vent_flow_that_holds_air_out_m3_s(0.025, gas=gas("I1"), slope_deg=slope), 1)
        ...  for slope in (-90.0, -30.0, 0.0, 60.0, 90.0)]
        [7.6, 4.1, 4.1, 2.9, 0.0]

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201, for the side; unstable layering: densimetric
    Froude number 1 at the hole, Epstein and Kenton, J. Heat Transfer 111 (1989) 980, from memory.
    """
    rise = _faces_up_ratio(gas, slope_deg)
    gravity = outflow_reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
    level_m3_s = count * flow_that_holds_air_out_m3_s(diameter_m, reduced_gravity_m_s2=gravity)
    if rise > 0.0:
        return level_m3_s * math.sqrt(_level_share(slope_deg))
    over_m2 = -rise * vent_area_m2(diameter_m, count=count)
    return max(level_m3_s, over_m2 * math.sqrt(gravity * diameter_m))


def vent_air_inflow_m3_s(
    flow_m3_s: float, *, diameter_m: float, gas: Gas, count: int = 1, slope_deg: float = 0.0
) -> float:
    """Air that comes in through round vent holes in the dam at one end of a pipe.

    level: two-layer exchange through the square of equal area, out - in = Q;
    leaning towards where the layers lie still: that over the height h cos(slope) that it still spans;
    leaning over: the larger of the level one and
    0.055 n |sin(slope)| sqrt(g' d^5) (1 - Q / Q_hold)^2.3

    Args:
        flow_m3_s [m3/s]: gas that leaves through all holes, net
        diameter_m [m]: d of each hole
        gas [record]: the gas inside
        count [-]: n
        slope_deg [deg]: by how much the holes face up: 0 to the side, 90 up, -90 down
    Returns:
        [m3/s] air in
    Raises:
        OutOfRange: for a negative flow, no hole, or a slope beyond upright
    Valid: still layers; a hole that faces up over argon does not exchange, one that faces down is the worst.
        Between level and upright our own model, as `vent_flow_that_holds_air_out_m3_s`.

    Example:
        >>> from trainer.core.gas import gas
        >>> vent_air_inflow_m3_s(15 / 60000, diameter_m=0.006, gas=gas("I1"))
        0.0

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201; Epstein, J. Heat Transfer 110 (1988) 885, and
    Epstein and Kenton, 111 (1989) 980, for a horizontal opening, constants from memory.
    """
    FLOW.check(flow_m3_s)
    hold_m3_s = vent_flow_that_holds_air_out_m3_s(diameter_m, gas=gas, count=count, slope_deg=slope_deg)
    if flow_m3_s >= hold_m3_s:
        return 0.0
    rise, side_m = _faces_up_ratio(gas, slope_deg), diameter_m * math.sqrt(math.pi) / 2.0
    spans_m = side_m * (_level_share(slope_deg) if rise > 0.0 else 1.0)
    layers = count * slot(spans_m, area_m2=side_m * side_m).air_inflow_m3_s(flow_m3_s / count, gas=gas)
    if rise >= 0.0:
        return layers
    gravity = outflow_reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
    plumes = -rise * 0.055 * count * math.sqrt(gravity * diameter_m**5)
    return max(layers, plumes * math.pow(1.0 - flow_m3_s / hold_m3_s, 2.3))


def circle_air_inflow_m3_s(flow_m3_s: float, *, diameter_m: float, gas: Gas) -> float:
    """Air that comes in through one round hole in a vertical face, integrated over the circle.

    out - in = Q, each Cd integral of sqrt(2 g' |z - z_neutral|) w(z) dz

    Args:
        flow_m3_s [m3/s]: gas that leaves through the hole, net
        diameter_m [m]: its diameter
        gas [record]: the gas inside
    Returns:
        [m3/s] air in
    Raises:
        OutOfRange: for a negative flow or no hole
    Valid: still layers; the check on the square of equal area.

    Example:
        >>> from trainer.core.gas import gas
        >>> circle_air_inflow_m3_s(4.5 / 60000, diameter_m=0.025, gas=gas("I1"))
        0.0

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201.
    """
    FLOW.check(flow_m3_s)
    HOLE.check(diameter_m)
    return circle(diameter_m).air_inflow_m3_s(flow_m3_s, gas=gas)


def outflow_through_m3_s(flow_m3_s: float, *, area_m2: float, all_open_area_m2: float) -> float:
    """Share of the flow that leaves through one of several openings.

    Q_i = Q A_i / sum A

    Args:
        flow_m3_s [m3/s]: Q into the section
        area_m2 [m2]: A_i of this opening
        all_open_area_m2 [m2]: sum A of all openings, this one included
    Returns:
        [m3/s] outflow through this one
    Raises:
        OutOfRange: when this opening is larger than all of them
    Valid: openings of one discharge coefficient at one pressure.

    Example:
        >>> outflow_through_m3_s(1.0, area_m2=0.02, all_open_area_m2=0.08)
        0.25

    Reference: orifice equation at equal pressure difference.
    """
    FLOW.check(flow_m3_s)
    Limits(quantity="area of all openings", unit="m2", low=1e-12, why="gas needs a way out").check(
        all_open_area_m2
    )
    why = "it is one of the openings"
    Limits(quantity="area of one opening", unit="m2", low=0.0, high=all_open_area_m2, why=why).check(area_m2)
    return flow_m3_s * area_m2 / all_open_area_m2


def mixed_floor_frac(air_in_m3_s: float, *, flow_m3_s: float, source_o2_frac: float) -> float:
    """Oxygen that time cannot remove if all were mixed: a check on the layered floor, which may be worse.

    x = (Q x_source + Q_in x_air) / (Q + Q_in)

    Args:
        air_in_m3_s [m3/s]: Q_in, air that comes in
        flow_m3_s [m3/s]: Q, purge flow
        source_o2_frac [-]: x_source, oxygen in the purge gas
    Returns:
        [-] mole fraction of oxygen
    Raises:
        OutOfRange: without any flow, or for a source with more oxygen than air
    Valid: perfect mixing; a leak beyond a low vent stays there and needs the layers.

    Example:
        >>> round(mixed_floor_frac(1e-7, flow_m3_s=1e-4, source_o2_frac=5e-6) * 1e6)
        214

    Reference: mass balance.
    """
    FLOW.check(air_in_m3_s)
    FLOW.check(flow_m3_s)
    _SOURCE.check(source_o2_frac)
    both_m3_s = flow_m3_s + air_in_m3_s
    Limits(quantity="flow and air together", unit="m3/s", low=1e-15, why="nothing flows").check(both_m3_s)
    return (flow_m3_s * source_o2_frac + air_in_m3_s * O2_IN_DRY_AIR_FRAC) / both_m3_s


def _faces_up_ratio(gas: Gas, slope_deg: float) -> float:
    """How far a hole faces up, 1 right up; counted from the side where the gas settles."""
    SLOPE.check(slope_deg)
    up = math.sin(math.radians(slope_deg))
    return up if sinks_in_air(gas) else -up


def _level_share(slope_deg: float) -> float:
    """What is left of a height across the pipe: nothing when upright, not what rounding leaves."""
    return 0.0 if abs(slope_deg) == UPRIGHT_DEG else math.cos(math.radians(slope_deg))
