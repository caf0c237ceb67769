"""The layers of a sloping section: slices of a tilted cylinder, with every opening at its true height."""

from __future__ import annotations

import numpy as np

from trainer.core.column import Column, Floats, point_frac, points_frac
from trainer.core.gas import sinks_in_air
from trainer.core.openings import hole_frac, ring_frac
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import InLeak
from trainer.core.tilted_cylinder import TiltedCylinder

# 32 layers lie within 1 % of 128 for a level section; the sharp front of an upright fill needs more.
LEVEL_LAYERS_COUNT = 32
UPRIGHT_LAYERS_COUNT = 128
# The gas collects in a pool this deep at its inlet in the simulated sections; a third of the bore where the
# pipe is too small for that.
POOL_DEPTH_M = 0.015
_RING_POINTS_COUNT = 33


def pool_depth_m(bore_m: float) -> float:
    """Depth of the pool that the purge gas makes below its inlet in a level section.

    Args:
        bore_m [m]: bore
    Returns:
        [m] 15 mm, or a third of the bore where the pipe is too small for that

    Example:
        >>> pool_depth_m(0.161)
        0.015

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    return min(POOL_DEPTH_M, bore_m / 3.0)


def sloped_layers_count(cylinder: TiltedCylinder) -> int:
    """Number of layers of a sloping section: few when nearly level, many when its front stays sharp.

    N = 32 + 96 sin theta

    Args:
        cylinder [record]: the section
    Returns:
        [-] number of layers

    Example:
        >>> sloped_layers_count(TiltedCylinder(bore_m=0.161, length_m=0.6, tilt_deg=10.0))
        49

    Reference: own definition; it grows by ones, so that no slope brings a jump.
    """
    more = UPRIGHT_LAYERS_COUNT - LEVEL_LAYERS_COUNT
    return LEVEL_LAYERS_COUNT + round(more * cylinder.sine)


def sloped_column(case: PurgeCase, *, cylinder: TiltedCylinder, layers_count: int) -> Column:
    """The layers of a sloping section.

    V_k = V(z_(k+1)) - V(z_k),  exchange A(z_k) / dz; vent, joint and leaks at the heights that they span

    Args:
        case [record]: the purge
        cylinder [record]: its section, sloping
        layers_count [-]: number of layers
    Returns:
        [record] its layers

    Example:
        >>> from dataclasses import replace
        >>> from trainer.core.purge_case import BASE_CASE
        >>> case = replace(BASE_CASE, section=replace(BASE_CASE.section, slope_deg=10.0))
        >>> column = sloped_column(case, cylinder=case.section.tilted, layers_count=49)
        >>> round(column.total_volume_m3 * 1000.0, 2)
        12.21

    Reference: own definition; volumes and areas are exact.
    """
    edge = np.linspace(0.0, cylinder.height_m, layers_count + 1)
    volume = np.diff(cylinder.volume_below_m3(edge))
    pool = np.diff(cylinder.volume_below_m3(np.minimum(edge, _pool_m(cylinder, edge))))
    return Column(
        edge_m=edge,
        volume_m3=volume,
        exchange_length_m=cylinder.slice_area_m2(edge[1:-1]) / edge[1],
        supply_frac=pool / pool.sum(),
        exit_frac=_hole_frac(case, cylinder, edge),
        leak_m3_s=sum(
            (_leak_m3_s(case, cylinder, edge, leak) for leak in case.leaks), np.zeros(layers_count)
        ),
        returned_m3_s=returned_by_layer_m3_s(case, edge_m=edge),
        root_weight_frac=_ring_weight_frac(case, cylinder, edge),
        is_turned_over=not sinks_in_air(case.gas),
    )


def height_above_pool_m(
    case: PurgeCase, *, cylinder: TiltedCylinder, from_inlet_m: float, across_frac: float
) -> float:
    """Height of a point of a sloping section above the side where the gas settles.

    Args:
        case [record]: the purge
        cylinder [record]: its section, sloping
        from_inlet_m [m]: distance from the inlet's dam
        across_frac [-]: place on the cross-section, 0 lowest, 1 highest
    Returns:
        [m] height

    Example:
        >>> from dataclasses import replace
        >>> from trainer.core.purge_case import BASE_CASE
        >>> case = replace(BASE_CASE, section=replace(BASE_CASE.section, slope_deg=30.0))
        >>> round(height_above_pool_m(
        ...     case, cylinder=case.section.tilted, from_inlet_m=0.6, across_frac=0.0), 3)
        0.3

    Reference: geometry.
    """
    along_m = from_inlet_m if case.rise_deg > 0.0 else cylinder.length_m - from_inlet_m
    return cylinder.height_of_m(along_m, across_frac=case.above_pool_frac(across_frac))


def returned_by_layer_m3_s(case: PurgeCase, *, edge_m: Floats) -> Floats:
    """What leaves each layer elsewhere than through the vent, in exchange for air that leaks in.

    Args:
        case [record]: the purge
        edge_m [m]: heights of the faces of the layers
    Returns:
        [m3/s] gas

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> returned_by_layer_m3_s(BASE_CASE, edge_m=np.array([0.0, 0.1, 0.2])).tolist()
        [0.0, 0.0]

    Reference: own definition.
    """
    returned = np.zeros(edge_m.size - 1)
    for leak in case.leaks:
        if leak.leaves_at_frac is not None:
            height_m = case.above_pool_frac(leak.leaves_at_frac) * float(edge_m[-1])
            returned += leak.flow_m3_s * point_frac(edge_m, height_m=height_m)
    return returned


def vent_above_pool_frac(case: PurgeCase) -> float:
    """Height of the vent's centre above the side where the gas settles.

    Args:
        case [record]: the purge, level or sloping
    Returns:
        [-] fraction of the height of the gas space

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> vent_above_pool_frac(BASE_CASE)
        0.925

    Reference: geometry.
    """
    tilted = case.section.tilted
    if tilted is None:
        return case.above_pool_frac(case.vent.height_frac)
    height_m = height_above_pool_m(
        case, cylinder=tilted, from_inlet_m=tilted.length_m, across_frac=case.vent.height_frac
    )
    return height_m / tilted.height_m


def _pool_m(cylinder: TiltedCylinder, edge_m: Floats) -> float:
    """Depth of the pool: as when level, passing over to the lowest layer, as when upright."""
    return pool_depth_m(cylinder.bore_m) * cylinder.cosine + float(edge_m[1]) * cylinder.sine


def _hole_frac(case: PurgeCase, cylinder: TiltedCylinder, edge_m: Floats) -> Floats:
    centre_m = height_above_pool_m(
        case, cylinder=cylinder, from_inlet_m=cylinder.length_m, across_frac=case.vent.height_frac
    )
    return hole_frac(
        edge_m,
        centre_m=centre_m,
        # No smaller than a layer, as when level.
        half_height_m=max(case.vent.diameter_m, float(edge_m[1])) / 2.0 * cylinder.cosine,
        smooth_m=float(edge_m[1]) * cylinder.sine,
    )


def _leak_m3_s(case: PurgeCase, cylinder: TiltedCylinder, edge_m: Floats, leak: InLeak) -> Floats:
    if leak.height_frac is not None:
        height_m = case.above_pool_frac(leak.height_frac) * float(edge_m[-1])
        return leak.flow_m3_s * point_frac(edge_m, height_m=height_m)
    centre_m = height_above_pool_m(
        case, cylinder=cylinder, from_inlet_m=case.section.joint_m, across_frac=0.5
    )
    return leak.flow_m3_s * ring_frac(
        edge_m,
        centre_m=centre_m,
        half_height_m=cylinder.bore_m / 2.0 * cylinder.cosine,
        smooth_m=float(edge_m[1]) * cylinder.sine,
    )


def _ring_weight_frac(case: PurgeCase, cylinder: TiltedCylinder, edge_m: Floats) -> Floats:
    """Weights of points all round the joint, whose ring leans with the pipe."""
    low_m, high_m = (
        height_above_pool_m(
            case, cylinder=cylinder, from_inlet_m=case.section.joint_m, across_frac=across_frac
        )
        for across_frac in (0.0, 1.0)
    )
    heights = np.linspace(low_m, high_m, _RING_POINTS_COUNT)
    return points_frac(edge_m, heights_m=heights)
