"""The gas space cut into horizontal layers, counted from the side where the purge gas settles.

From the bottom for a gas heavier than air, from the top for a lighter one. That turning-over is the only
difference between the two.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_ROUNDING_FRAC = 1e-12


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
        returned_m3_s [m3/s]: what leaves each layer elsewhere than through the vent, in exchange for air
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
    returned_m3_s: Floats
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
    def through_leak_m3_s(self) -> float:
        """Air that leaks in and drives as much out through the vent.

        Returns:
            [m3/s] air
        """
        in_m3_s, returned_m3_s = float(self.leak_m3_s.sum()), float(self.returned_m3_s.sum())
        # Where as much returns as comes in, their layers add up to it but for rounding, of either sign: an
        # outflow of -1e-21 m3/s has no time in which it changes the volume.
        through_m3_s = in_m3_s - returned_m3_s
        return 0.0 if abs(through_m3_s) <= _ROUNDING_FRAC * in_m3_s else through_m3_s

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


def point_frac(edge_m: Floats, *, height_m: float) -> Floats:
    """Weights over the layers of a point, spread over one layer's depth so that it moves without jumps.

    Args:
        edge_m [m]: heights of the faces of equally deep layers, from 0
        height_m [m]: height of the point
    Returns:
        [-] weight of each layer, 1 together

    Example:
        >>> point_frac(np.array([0.0, 1.0, 2.0, 3.0]), height_m=1.75).tolist()
        [0.0, 0.75, 0.25]

    Reference: own definition.
    """
    (weight,) = points_frac(edge_m, heights_m=np.array([height_m]))
    return np.asarray(weight)


def points_frac(edge_m: Floats, *, heights_m: Floats) -> Floats:
    """The same for several points.

    Args:
        edge_m [m]: heights of the faces of equally deep layers, from 0
        heights_m [m]: heights of the points
    Returns:
        [-] one row for each point, its weight of each layer, 1 together

    Example:
        >>> points_frac(np.array([0.0, 1.0, 2.0]), heights_m=np.array([0.2, 1.25])).tolist()
        [[1.0, 0.0], [0.25, 0.75]]

    Reference: own definition.
    """
    half_depth = edge_m[1] / 2.0
    centre = np.minimum(np.maximum(heights_m, half_depth), edge_m[-1] - half_depth)[:, np.newaxis]
    covered = np.minimum(np.maximum(edge_m, centre - half_depth), centre + half_depth)
    return np.asarray((covered[:, 1:] - covered[:, :-1]) / edge_m[1])


def circle_area_below(diameter_m: float | Floats, *, height_m: Floats) -> Floats:
    """Area of the part of a circle that lies below some heights.

    A = R^2 atan2(half chord, R - h) - (R - h) half chord

    Args:
        diameter_m [m]: 2 R
        height_m [m]: h, above the lowest point
    Returns:
        [m2] areas

    Example:
        >>> circle_area_below(2.0, height_m=np.array([0.0, 1.0, 2.0])).round(4).tolist()
        [0.0, 1.5708, 3.1416]

    Reference: circular segment, Bronshtein and Semendyayev, Handbook of Mathematics.
    """
    radius = diameter_m / 2.0
    below = radius - height_m
    half_chord = np.sqrt(height_m * (diameter_m - height_m))
    # atan2 stays exact at the crown and the bottom, where arccos loses half its digits.
    area: Floats = radius**2 * np.arctan2(half_chord, below) - below * half_chord
    return area
