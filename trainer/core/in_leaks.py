"""Air that comes into the section: through a vent, an untaped joint gap, a leak, an old foam dam's edge."""

import math
from dataclasses import dataclass
from enum import StrEnum

from trainer.core.errors import Limits
from trainer.core.gas import (
    O2_IN_DRY_AIR_FRAC,
    REFERENCE_TEMPERATURE_K,
    Gas,
    outflow_reduced_gravity_m_s2,
    sinks_in_air,
)
from trainer.core.pipe import BORE
from trainer.core.two_layer import Opening, circle, rectangle, ring
from trainer.core.vent import FLOW, HOLE, flow_that_holds_air_out_m3_s, vent_area_m2

_GAP = Limits(quantity="gap", unit="m", low=0.0, high=0.05, why="root gaps are up to 50 mm")
_TAPED = Limits(quantity="taped share", unit="", low=0.0, high=1.0, why="0 is all open, 1 all taped")

_SOURCE = Limits(
    quantity="oxygen in the gas", unit="", low=0.0, high=O2_IN_DRY_AIR_FRAC, why="a purge gas is not air"
)


class Facing(StrEnum):
    """Which way a hole faces: to the side in a level pipe's dam, up or down in an upright one's."""

    SIDE = "side"
    UP = "up"
    DOWN = "down"


class PipeAxis(StrEnum):
    """How the pipe lies at the joint."""

    LEVEL = "level"
    UPRIGHT = "upright"


@dataclass(frozen=True, kw_only=True)
class JointGap:
    """The root gap around the joint, and the share of its circumference that is taped shut."""

    bore_m: float
    gap_m: float
    taped_frac: float
    axis: PipeAxis = PipeAxis.LEVEL

    def __post_init__(self) -> None:
        BORE.check(self.bore_m)
        _GAP.check(self.gap_m)
        _TAPED.check(self.taped_frac)


def vent_flow_that_holds_air_out_m3_s(
    diameter_m: float, *, gas: Gas, count: int = 1, facing: Facing = Facing.SIDE
) -> float:
    """Outflow below which air comes in through round vent holes.

    side: the square of equal area; down for a gas that sinks: Q = n A sqrt(g' d); up for it: 0

    Args:
        diameter_m [m]: d of each hole
        gas [record]: the gas inside
        count [-]: n
        facing [text]: which way the holes face
    Returns:
        [m3/s] outflow through all holes
    Raises:
        OutOfRange: for no hole
    Valid: still layers; a gas that rises turns up and down over.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(60000 * vent_flow_that_holds_air_out_m3_s(0.025, gas=gas("I1")), 1)
        4.1

    Reference: Linden 1999 for the side; unstable layering: densimetric Froude number 1 at the hole,
    Epstein and Kenton, J. Heat Transfer 111 (1989) 980, from memory.
    """
    area_m2 = vent_area_m2(diameter_m, count=count)
    gravity = outflow_reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
    if facing is Facing.SIDE:
        return count * flow_that_holds_air_out_m3_s(diameter_m, reduced_gravity_m_s2=gravity)
    return area_m2 * math.sqrt(gravity * diameter_m) if _is_unstable(gas, facing) else 0.0


def vent_air_inflow_m3_s(
    flow_m3_s: float, *, diameter_m: float, gas: Gas, count: int = 1, facing: Facing = Facing.SIDE
) -> float:
    """Air that comes in through round vent holes.

    side: two-layer exchange through the square of equal area, out - in = Q;
    unstable: the larger of that and 0.055 n sqrt(g' d^5) (1 - Q / Q_hold)^2.3;  stable: 0

    Args:
        flow_m3_s [m3/s]: gas that leaves through all holes, net
        diameter_m [m]: d of each hole
        gas [record]: the gas inside
        count [-]: n
        facing [text]: which way the holes face
    Returns:
        [m3/s] air in
    Raises:
        OutOfRange: for a negative flow or no hole
    Valid: still layers; a hole that faces up over argon does not exchange, one that faces down is the worst.

    Example:
        >>> from trainer.core.gas import gas
        >>> vent_air_inflow_m3_s(15 / 60000, diameter_m=0.006, gas=gas("I1"))
        0.0

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201; Epstein, J. Heat Transfer 110 (1988) 885, and
    Epstein and Kenton, 111 (1989) 980, for a horizontal opening, constants from memory.
    """
    FLOW.check(flow_m3_s)
    hold_m3_s = vent_flow_that_holds_air_out_m3_s(diameter_m, gas=gas, count=count, facing=facing)
    if flow_m3_s >= hold_m3_s:
        return 0.0
    side_m = diameter_m * math.sqrt(math.pi) / 2.0
    side_in = count * rectangle(side_m, width_m=side_m).air_inflow_m3_s(flow_m3_s / count, gas=gas)
    if facing is Facing.SIDE:
        return side_in
    gravity = outflow_reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
    plumes = 0.055 * count * math.sqrt(gravity * diameter_m**5)
    return max(side_in, plumes * math.pow(1.0 - flow_m3_s / hold_m3_s, 2.3))


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


def gap_open_area_m2(gap: JointGap) -> float:
    """Open area of a joint gap.

    A = pi d w (1 - taped)

    Args:
        gap [record]: bore d, width w and taped share
    Returns:
        [m2] area
    Valid: w much smaller than d.

    Example:
        >>> round(gap_open_area_m2(JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=0.9)) * 1e6, 1)
        152.2

    Reference: geometry.
    """
    return math.pi * gap.bore_m * gap.gap_m * (1.0 - gap.taped_frac)


def gap_flow_that_holds_air_out_m3_s(gap: JointGap, *, gas: Gas) -> float:
    """Outflow through a joint gap below which air comes in.

    Q = Cd integral of sqrt(2 g' (top - z)) dA around the ring

    Args:
        gap [record]: the gap; in an upright pipe it is as high as it is wide
        gas [record]: the gas inside
    Returns:
        [m3/s] outflow through the gap
    Valid: what is open is taken as spread evenly around the ring.

    Example:
        >>> from trainer.core.gas import gas
        >>> open_gap = JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=0.0)
        >>> round(60000 * gap_flow_that_holds_air_out_m3_s(open_gap, gas=gas("I1")))
        33

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201, per strip of the ring.
    """
    opening = _gap_opening(gap)
    return opening.flow_that_holds_air_out_m3_s(gas)


def gap_air_inflow_m3_s(flow_m3_s: float, *, gap: JointGap, gas: Gas) -> float:
    """Air that comes in through a joint gap.

    out - in = Q, both integrated around the ring about the neutral level

    Args:
        flow_m3_s [m3/s]: gas that leaves through the gap, net
        gap [record]: the gap
        gas [record]: the gas inside
    Returns:
        [m3/s] air in, at the heights above the neutral level for a gas that sinks
    Raises:
        OutOfRange: for a negative flow
    Valid: what is open is taken as spread evenly around the ring.

    Example:
        >>> from trainer.core.gas import gas
        >>> taped = JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=1.0)
        >>> gap_air_inflow_m3_s(0.0, gap=taped, gas=gas("I1"))
        0.0

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201, per strip of the ring.
    """
    FLOW.check(flow_m3_s)
    return _gap_opening(gap).air_inflow_m3_s(flow_m3_s, gas=gas)


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


def _is_unstable(gas: Gas, facing: Facing) -> bool:
    return facing is (Facing.DOWN if sinks_in_air(gas) else Facing.UP)


def _gap_opening(gap: JointGap) -> Opening:
    open_frac = 1.0 - gap.taped_frac
    if gap.axis is PipeAxis.UPRIGHT:
        return rectangle(gap.gap_m, width_m=math.pi * gap.bore_m * open_frac)
    return ring(gap.bore_m, width_m=gap.gap_m * open_frac)
