"""The gas space cut into horizontal layers: where gas enters, air leaves or leaks in, and the root lies.

Layers are counted from the side where the purge gas settles: from the bottom for a gas heavier than air, from
the top for a lighter one. That turning-over is the only difference between the two.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from trainer.core.gas import sinks_in_air
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import VentHole

Floats = NDArray[np.float64]

# 32 layers lie within 1 % of 128 for a level section; the sharp front of an upright fill needs more.
LEVEL_LAYERS_COUNT = 32
UPRIGHT_LAYERS_COUNT = 128
# The gas collects in a pool this deep at its inlet in the simulated sections; a third of the bore where the
# pipe is too small for that.
POOL_DEPTH_M = 0.015


@dataclass(frozen=True, kw_only=True)
class Column:
    """Layers of the gas space, from the side where the purge gas settles.

    Args:
        edge_m [m]: heights of the N + 1 faces above the settling side
        volume_m3 [m3]: volumes of the N layers
        exchange_length_m [m]: area over distance of centres, at the N - 1 faces between layers
        supply_frac [-]: share of the purge gas that each layer receives
        exit_frac [-]: share of the outflow that leaves from each layer
        leak_m3_s [m3/s]: air that leaks into each layer
        root_weight_frac [-]: one row for each height of the root, its weights over the layers
        is_turned_over [bool]: true when layer 0 is the highest one

    Reference: own definition.
    """

    edge_m: Floats
    volume_m3: Floats
    exchange_length_m: Floats
    supply_frac: Floats
    exit_frac: Floats
    leak_m3_s: Floats
    root_weight_frac: Floats | None
    is_turned_over: bool

    @cached_property
    def total_volume_m3(self) -> float:
        """Volume of all layers.

        Returns:
            [m3] volume
        """
        return float(self.volume_m3.sum())

    @cached_property
    def total_leak_m3_s(self) -> float:
        """Air that leaks in, everywhere together.

        Returns:
            [m3/s] air
        """
        return float(self.leak_m3_s.sum())

    def root_air_frac(self, air_frac: Floats) -> Floats:
        """The worst air fraction of the root: of all heights when level, at the joint when upright.

        Args:
            air_frac [-]: air fraction by layer (rows) and time (columns)
        Returns:
            [-] worst air fraction for each time

        Reference: own definition.
        """
        at_root = air_frac if self.root_weight_frac is None else self.root_weight_frac @ air_frac
        return np.asarray(at_root.max(axis=0))


def gas_column(case: PurgeCase, *, layers_count: int | None = None) -> Column:
    """The layers of a purge: circle segments of a level section, discs of an upright one.

    Args:
        case [record]: the purge
        layers_count [-]: number of layers; what is needed for 1 % when left out
    Returns:
        [record] its layers

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> round(gas_column(BASE_CASE).total_volume_m3 * 1000.0, 2)
        12.21

    Reference: own definition; the segment area is the textbook one.
    """
    if case.section.is_upright:
        return _upright_column(case, layers_count or UPRIGHT_LAYERS_COUNT)
    return _level_column(case, layers_count or LEVEL_LAYERS_COUNT)


def one_layer(case: PurgeCase) -> Column:
    """The whole section as a single, perfectly mixed layer.

    Args:
        case [record]: the purge
    Returns:
        [record] a column of one layer

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> one_layer(BASE_CASE).volume_m3.size
        1

    Reference: own definition.
    """
    whole = np.ones(1)
    return Column(
        edge_m=np.array([0.0, case.section.height_m]),
        volume_m3=whole * case.section.volume_m3,
        exchange_length_m=np.empty(0),
        supply_frac=whole,
        exit_frac=whole,
        leak_m3_s=whole * case.leak_m3_s,
        root_weight_frac=None,
        is_turned_over=not sinks_in_air(case.gas),
    )


def _level_column(case: PurgeCase, count: int) -> Column:
    bore_m, length_m = case.section.bore_m, case.section.length_m
    edge = np.linspace(0.0, bore_m, count + 1)
    inner = edge[1:-1]
    chord = 2.0 * np.sqrt(inner * (bore_m - inner))
    pool = min(POOL_DEPTH_M, bore_m / 3.0)
    supply = np.diff(_circle_area_below(bore_m, np.minimum(edge, pool)))
    return Column(
        edge_m=edge,
        volume_m3=np.diff(_circle_area_below(bore_m, edge)) * length_m,
        exchange_length_m=chord * length_m / edge[1],
        supply_frac=supply / supply.sum(),
        exit_frac=_hole_frac(edge, case.vent, case.above_pool_frac(case.vent.height_frac)),
        leak_m3_s=_leak_m3_s(case, edge),
        root_weight_frac=None,
        is_turned_over=not sinks_in_air(case.gas),
    )


def _upright_column(case: PurgeCase, count: int) -> Column:
    length_m, area_m2 = case.section.length_m, case.section.area_m2
    edge = np.linspace(0.0, length_m, count + 1)
    supply = np.zeros(count)
    supply[0] = 1.0
    return Column(
        edge_m=edge,
        volume_m3=np.full(count, area_m2 * length_m / count),
        exchange_length_m=np.full(count - 1, area_m2 / edge[1]),
        supply_frac=supply,
        exit_frac=supply[::-1].copy() if case.inlet_is_at_the_pool else supply,
        leak_m3_s=_leak_m3_s(case, edge),
        root_weight_frac=_point_frac(edge, _joint_above_pool_frac(case) * length_m)[np.newaxis, :],
        is_turned_over=not sinks_in_air(case.gas),
    )


def _joint_above_pool_frac(case: PurgeCase) -> float:
    return case.above_pool_frac(case.section.joint_height_frac)


def _leak_m3_s(case: PurgeCase, edge_m: Floats) -> Floats:
    leaks = np.zeros(edge_m.size - 1)
    for leak in case.leaks:
        if leak.height_frac is not None:
            height_m = case.above_pool_frac(leak.height_frac) * edge_m[-1]
            leaks += leak.flow_m3_s * _point_frac(edge_m, height_m)
        elif case.section.is_upright:
            leaks += leak.flow_m3_s * _point_frac(edge_m, _joint_above_pool_frac(case) * edge_m[-1])
        else:
            angle = np.arccos(np.clip(1.0 - 2.0 * edge_m / edge_m[-1], -1.0, 1.0))
            leaks += leak.flow_m3_s * np.diff(angle) / math.pi
    return leaks


def _point_frac(edge_m: Floats, height_m: float) -> Floats:
    """Weights over the layers of a point, spread over one layer's depth so that it moves without jumps."""
    depth = edge_m[1]
    centre = min(max(height_m, depth / 2.0), edge_m[-1] - depth / 2.0)
    weight: Floats = np.diff(np.clip(edge_m, centre - depth / 2.0, centre + depth / 2.0)) / depth
    return weight


def _hole_frac(edge_m: Floats, vent: VentHole, height_frac: float) -> Floats:
    above_hole = edge_m - (height_frac * edge_m[-1] - vent.diameter_m / 2.0)
    area = np.diff(_circle_area_below(vent.diameter_m, np.clip(above_hole, 0.0, vent.diameter_m)))
    return np.asarray(area / area.sum())


def _circle_area_below(diameter_m: float, height_m: Floats) -> Floats:
    radius = diameter_m / 2.0
    below = radius - height_m
    half_chord = np.sqrt(height_m * (diameter_m - height_m))
    # atan2 stays exact at the crown and the bottom, where arccos loses half its digits.
    area: Floats = radius**2 * np.arctan2(half_chord, below) - below * half_chord
    return area
