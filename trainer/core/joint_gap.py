"""The gap that is left open all round a joint: its area, and the air that comes in through it."""

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import Gas
from trainer.core.in_leaks import SLOPE
from trainer.core.pipe import BORE
from trainer.core.two_layer import Opening, ring
from trainer.core.vent import FLOW

_GAP = Limits(quantity="gap", unit="m", low=0.0, high=0.05, why="root gaps are up to 50 mm")
_TAPED = Limits(quantity="taped share", unit="", low=0.0, high=1.0, why="0 is all open, 1 all taped")


@dataclass(frozen=True, kw_only=True)
class JointGap:
    """The root gap around the joint, the share of its circumference that is taped shut, and how it lies.

    The ring stands square to the pipe's axis: upright in a level pipe, level in an upright one.
    """

    bore_m: float
    gap_m: float
    taped_frac: float
    slope_deg: float = 0.0

    def __post_init__(self) -> None:
        BORE.check(self.bore_m)
        _GAP.check(self.gap_m)
        _TAPED.check(self.taped_frac)
        SLOPE.check(self.slope_deg)


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

    Q = Cd integral of sqrt(2 g' (top - z)) dA around the ring,  top = d cos(slope) + w sin(slope)

    Args:
        gap [record]: the gap, of bore d and width w; in an upright pipe it is as high as it is wide
        gas [record]: the gas inside
    Returns:
        [m3/s] outflow through the gap
    Valid: what is open is taken as spread evenly around the ring. It falls as the pipe is set upright, but
        at first the gap's own width makes the leaning ring a hair higher: by less than 10 (w / d)^2 of it.

    Example:
        >>> from trainer.core.gas import gas
        >>> gaps = [JointGap(bore_m=0.1615, gap_m=0.003, taped_frac=0.0, slope_deg=deg) for deg in (0, 90)]
        >>> [round(60000 * gap_flow_that_holds_air_out_m3_s(gap, gas=gas("I1"))) for gap in gaps]
        [33, 5]

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


def _gap_opening(gap: JointGap) -> Opening:
    return ring(gap.bore_m, width_m=gap.gap_m, open_frac=1.0 - gap.taped_frac, slope_deg=gap.slope_deg)
