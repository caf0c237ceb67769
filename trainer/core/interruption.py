"""What a section goes through while its purge is interrupted by a line that has fallen out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import AIR, G, Gas, density_kg_m3
from trainer.core.in_leaks import circle_air_inflow_m3_s
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import FlowSegment, InLeak
from trainer.core.sloped_column import height_above_pool_m, vent_above_pool_frac
from trainer.core.vent import DISCHARGE_COEFFICIENT, vent_area_m2

_OPENING = Limits(
    quantity="opening left by the line",
    unit="m",
    low=1e-4,
    high=3.0,
    why="a line leaves a hole when it falls out",
)
_APART = Limits(
    quantity="height between the openings", unit="m", low=0.0, why="counted from the lower opening up"
)


@dataclass(frozen=True, kw_only=True)
class Draining:
    """Two openings of a section full of gas, one above the other.

    Args:
        gas_side_area_m2 [m2]: opening on the side where the gas settles, through which it runs out
        air_side_area_m2 [m2]: opening through which air takes its place
        apart_m [m]: height between the two

    Reference: own definition.
    """

    gas_side_area_m2: float
    air_side_area_m2: float
    apart_m: float


def draining_m3_s(draining: Draining, *, gas: Gas, temperature_k: float) -> float:
    """Flow at which gas runs out of one opening while air enters through another.

    |rho_gas - rho_air| g h = rho_gas/2 (Q / (Cd A_gas))^2 + rho_air/2 (Q / (Cd A_air))^2,  Cd 0.61

    Args:
        draining [record]: the openings
        gas [record]: the gas that fills all between them
        temperature_k [K]: temperature of gas and air
    Returns:
        [m3/s] flow out, and of air in
    Raises:
        OutOfRange: for a negative height between the openings
    Valid: as long as gas fills the section from one opening to the other, the fastest loss there is; it slows
        as the root of the depth that is left.

    Example:
        >>> from trainer.core.gas import gas
        >>> holes = Draining(gas_side_area_m2=3.2e-5, air_side_area_m2=2.8e-5, apart_m=0.134)
        >>> round(60_000.0 * draining_m3_s(holes, gas=gas("I1"), temperature_k=293.15), 2)
        0.71

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201 (displacement ventilation, two openings).
    """
    _APART.check(draining.apart_m)
    inside = density_kg_m3(gas, temperature_k=temperature_k)
    outside = density_kg_m3(AIR, temperature_k=temperature_k)
    head_pa = abs(inside - outside) * G * draining.apart_m
    loss = inside / draining.gas_side_area_m2**2 + outside / draining.air_side_area_m2**2
    return DISCHARGE_COEFFICIENT * math.sqrt(2.0 * head_pa / loss)


def line_fallen_out(case: PurgeCase, *, opening_m: float, duration_s: float) -> FlowSegment:
    """The segment during which the line has fallen out and left its opening at the inlet.

    The gas runs out of the opening on its own side and air comes in through the other; where that flow is too
    small to hold the air out of an opening, gas and air also change places within it.

    Args:
        case [record]: the purge that is interrupted; its own leaks go on
        opening_m [m]: diameter of the opening that the line leaves
        duration_s [s]: how long it takes until somebody sees it
    Returns:
        [record] a segment without flow
    Raises:
        OutOfRange: for no opening or a negative duration
    Valid: the flow of a section full of gas all the while, so that the oxygen comes out high; openings in
        vertical faces.

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> lost = line_fallen_out(BASE_CASE, opening_m=0.00635, duration_s=60.0)
        >>> lost.flow_m3_s, len(lost.air_in)
        (0.0, 3)

    Reference: own definition; flows as `draining_m3_s` and `circle_air_inflow_m3_s`.
    """
    _OPENING.check(opening_m)
    space = case.space
    vent_m2 = space.vent_area_m2 if space else vent_area_m2(case.vent.diameter_m, count=case.vent.count)
    line_m2 = vent_area_m2(opening_m)
    line_frac, vent_frac = _inlet_above_pool_frac(case), _vent_above_pool_frac(case)
    gas_m2, air_m2 = (line_m2, vent_m2) if line_frac < vent_frac else (vent_m2, line_m2)
    holes = Draining(
        gas_side_area_m2=gas_m2,
        air_side_area_m2=air_m2,
        apart_m=abs(vent_frac - line_frac) * (space.height_m if space else case.section.height_m),
    )
    drained_m3_s = draining_m3_s(holes, gas=case.gas, temperature_k=case.temperature_k)
    through = InLeak(
        height_frac=case.above_pool_frac(max(line_frac, vent_frac)),
        flow_m3_s=drained_m3_s,
        leaves_at_frac=case.above_pool_frac(min(line_frac, vent_frac)),
    )
    within = [
        _within(case, drained_m3_s / count, diameter_m=diameter_m, count=count, height_frac=height_frac)
        for diameter_m, count, height_frac in (
            (opening_m, 1, case.above_pool_frac(line_frac)),
            (case.vent.diameter_m, case.vent.count, case.above_pool_frac(vent_frac)),
        )
    ]
    return FlowSegment(flow_m3_s=0.0, duration_s=duration_s, air_in=(*case.leaks, through, *within))


def _within(case: PurgeCase, net_m3_s: float, *, diameter_m: float, count: int, height_frac: float) -> InLeak:
    """Gas and air that change places within an opening, the net flow through it taken into account."""
    each_m3_s = circle_air_inflow_m3_s(net_m3_s, diameter_m=diameter_m, gas=case.gas)
    return InLeak(height_frac=height_frac, flow_m3_s=count * each_m3_s, leaves_at_frac=height_frac)


def _inlet_above_pool_frac(case: PurgeCase) -> float:
    if case.space:
        return case.space.inlet_frac
    tilted = case.section.tilted
    if tilted:
        height_m = height_above_pool_m(
            case, cylinder=tilted, from_inlet_m=0.0, across_frac=case.inlet.height_frac
        )
        return height_m / tilted.height_m
    if case.section.is_upright:
        return 0.0 if case.inlet_is_at_the_pool else 1.0
    return case.above_pool_frac(case.inlet.height_frac)


def _vent_above_pool_frac(case: PurgeCase) -> float:
    if case.space:
        return case.space.vent_frac
    if case.section.is_upright:
        return 1.0 if case.inlet_is_at_the_pool else 0.0
    return vent_above_pool_frac(case)
