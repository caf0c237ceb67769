"""The gas space cut into horizontal layers: where gas enters, air leaves or leaks in, and the root lies.

Layers are counted from the side where the purge gas settles: from the bottom for a gas heavier than air, from
the top for a lighter one. That turning-over is the only difference between the two.
"""

from __future__ import annotations

import math

import numpy as np

from trainer.core.column import Column, Floats, circle_area_below, point_frac
from trainer.core.gas import sinks_in_air
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import VentHole
from trainer.core.sloped_column import (
    LEVEL_LAYERS_COUNT,
    UPRIGHT_LAYERS_COUNT,
    pool_depth_m,
    returned_by_layer_m3_s,
    sloped_column,
    sloped_layers_count,
)


def gas_column(case: PurgeCase, *, layers_count: int | None = None) -> Column:
    """The layers of a purge: segments of a level section, discs of an upright one, slices of a sloping one.

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
    tilted = case.section.tilted
    if tilted:
        return sloped_column(case, cylinder=tilted, layers_count=layers_count or sloped_layers_count(tilted))
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
        returned_m3_s=whole * case.returned_m3_s,
        root_weight_frac=None,
        is_turned_over=not sinks_in_air(case.gas),
    )


def _level_column(case: PurgeCase, count: int) -> Column:
    bore_m, length_m = case.section.bore_m, case.section.length_m
    edge = np.linspace(0.0, bore_m, count + 1)
    inner = edge[1:-1]
    chord = 2.0 * np.sqrt(inner * (bore_m - inner))
    pool = pool_depth_m(bore_m)
    supply = np.diff(circle_area_below(bore_m, height_m=np.minimum(edge, pool)))
    return Column(
        edge_m=edge,
        volume_m3=np.diff(circle_area_below(bore_m, height_m=edge)) * length_m,
        exchange_length_m=chord * length_m / edge[1],
        supply_frac=supply / supply.sum(),
        exit_frac=_hole_frac(edge, case.vent, case.above_pool_frac(case.vent.height_frac)),
        leak_m3_s=_leak_m3_s(case, edge),
        returned_m3_s=returned_by_layer_m3_s(case, edge_m=edge),
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
        returned_m3_s=returned_by_layer_m3_s(case, edge_m=edge),
        root_weight_frac=point_frac(edge, height_m=_joint_above_pool_frac(case) * length_m)[np.newaxis, :],
        is_turned_over=not sinks_in_air(case.gas),
    )


def _joint_above_pool_frac(case: PurgeCase) -> float:
    return case.above_pool_frac(case.section.joint_height_frac)


def _leak_m3_s(case: PurgeCase, edge_m: Floats) -> Floats:
    leaks = np.zeros(edge_m.size - 1)
    for leak in case.leaks:
        if leak.height_frac is not None:
            height_m = case.above_pool_frac(leak.height_frac) * edge_m[-1]
            leaks += leak.flow_m3_s * point_frac(edge_m, height_m=height_m)
        elif case.section.is_upright:
            leaks += leak.flow_m3_s * point_frac(edge_m, height_m=_joint_above_pool_frac(case) * edge_m[-1])
        else:
            angle = np.arccos(np.clip(1.0 - 2.0 * edge_m / edge_m[-1], -1.0, 1.0))
            leaks += leak.flow_m3_s * np.diff(angle) / math.pi
    return leaks


def _hole_frac(edge_m: Floats, vent: VentHole, height_frac: float) -> Floats:
    # A hole smaller than a layer is taken as large as one, so that it moves over the layers without jumps.
    across_m = max(vent.diameter_m, float(edge_m[1]))
    above_hole = edge_m - (height_frac * edge_m[-1] - across_m / 2.0)
    area = np.diff(circle_area_below(across_m, height_m=np.clip(above_hole, 0.0, across_m)))
    return np.asarray(area / area.sum())
