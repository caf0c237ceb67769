"""Several vents at different heights: the gas between them runs out of one and draws air in by another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.core.errors import Limits
from trainer.core.gas import AIR, G, Gas, density_kg_m3
from trainer.core.vent import DISCHARGE_COEFFICIENT, FLOW

_AREA = Limits(quantity="area of a vent", unit="m2", low=1e-10, high=10.0, why="gas needs a way out")
_HALVINGS = 60


@dataclass(frozen=True, kw_only=True)
class PlacedVent:
    """A vent by its area and its height above the side where the gas settles.

    Args:
        area_m2 [m2]: area of its holes
        above_pool_m [m]: height, counted downwards for a gas that rises
    Raises:
        OutOfRange: for no area

    Reference: own definition.
    """

    area_m2: float
    above_pool_m: float

    def __post_init__(self) -> None:
        _AREA.check(self.area_m2)


def vent_flows_m3_s(
    flow_m3_s: float, *, vents: Sequence[PlacedVent], gas: Gas, temperature_k: float
) -> tuple[float, ...]:
    """What goes out through each of several vents of a space full of gas, negative where air comes in.

    p_i = p_0 - |rho_gas - rho_air| g z_i,  Q_i = Cd A_i sqrt(2 p_i / rho_gas) out or
    -Cd A_i sqrt(-2 p_i / rho_air) in,  sum Q_i = Q,  Cd 0.61

    Args:
        flow_m3_s [m3/s]: Q, what has to leave by all of them together
        vents [record]: the vents
        gas [record]: the gas inside
        temperature_k [K]: temperature of gas and air
    Returns:
        [m3/s] flows, in the order of the vents
    Raises:
        OutOfRange: for a negative flow
    Valid: as long as gas fills all between the vents.

    Example:
        >>> from trainer.core.gas import gas
        >>> vents = [PlacedVent(area_m2=2.8e-4, above_pool_m=height) for height in (0.0, 0.5)]
        >>> flows = vent_flows_m3_s(15 / 60000, vents=vents, gas=gas("I1"), temperature_k=293.15)
        >>> [round(60000 * flow, 1) for flow in flows]
        [16.8, -1.8]

    Reference: Linden, Annu. Rev. Fluid Mech. 31 (1999) 201 (displacement ventilation, several openings).
    """
    FLOW.check(flow_m3_s)
    inside, outside, head_pa_m = _densities(gas, temperature_k)

    def flows(bottom_pa: float) -> tuple[float, ...]:
        return tuple(
            _through_m3_s(vent, bottom_pa - head_pa_m * vent.above_pool_m, inside, outside) for vent in vents
        )

    heights = [vent.above_pool_m for vent in vents]
    whole_m2 = sum(vent.area_m2 for vent in vents)
    low_pa = head_pa_m * min(heights)
    high_pa = head_pa_m * max(heights) + inside / 2.0 * (flow_m3_s / (DISCHARGE_COEFFICIENT * whole_m2)) ** 2
    for _ in range(_HALVINGS):
        middle_pa = (low_pa + high_pa) / 2.0
        if sum(flows(middle_pa)) < flow_m3_s:
            low_pa = middle_pa
        else:
            high_pa = middle_pa
    return flows(high_pa)


def flow_that_holds_all_m3_s(
    holding_m3_s: Sequence[float], *, vents: Sequence[PlacedVent], gas: Gas, temperature_k: float
) -> float:
    """Outflow through several vents together at which none of them lets air in.

    p_0 = max [rho/2 (q_i / (Cd A_i))^2 + |rho_gas - rho_air| g z_i],
    Q = sum Cd A_i sqrt[2 (p_0 - |rho_gas - rho_air| g z_i) / rho]

    Args:
        holding_m3_s [m3/s]: q_i, what holds air out of each by itself
        vents [record]: the vents
        gas [record]: the gas inside
        temperature_k [K]: temperature of gas and air
    Returns:
        [m3/s] flow
    Valid: as `vent_flows_m3_s`.

    Example:
        >>> from trainer.core.gas import gas
        >>> vents = [PlacedVent(area_m2=2.8e-4, above_pool_m=height) for height in (0.0, 0.5)]
        >>> held = flow_that_holds_all_m3_s([0.0, 0.0], vents=vents, gas=gas("I1"), temperature_k=293.15)
        >>> round(60000 * held, 1)
        16.8

    Reference: as `vent_flows_m3_s`.
    """
    inside, outside, head_pa_m = _densities(gas, temperature_k)
    bottom_pa = max(
        inside / 2.0 * (held / (DISCHARGE_COEFFICIENT * vent.area_m2)) ** 2 + head_pa_m * vent.above_pool_m
        for held, vent in zip(holding_m3_s, vents, strict=True)
    )
    return sum(
        _through_m3_s(vent, bottom_pa - head_pa_m * vent.above_pool_m, inside, outside) for vent in vents
    )


def _densities(gas: Gas, temperature_k: float) -> tuple[float, float, float]:
    inside = density_kg_m3(gas, temperature_k=temperature_k)
    outside = density_kg_m3(AIR, temperature_k=temperature_k)
    return inside, outside, abs(inside - outside) * G


def _through_m3_s(vent: PlacedVent, pressure_pa: float, inside: float, outside: float) -> float:
    if pressure_pa >= 0.0:
        return DISCHARGE_COEFFICIENT * vent.area_m2 * math.sqrt(2.0 * pressure_pa / inside)
    return -DISCHARGE_COEFFICIENT * vent.area_m2 * math.sqrt(-2.0 * pressure_pa / outside)
