"""How an opening that spans some heights is shared out over the layers."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from trainer.core.column import Floats, circle_area_below

# Places within a layer's depth over which the edge of an opening is smoothed.
_SMOOTHING = (np.arange(16) + 0.5) / 16 - 0.5


def hole_frac(edge_m: Floats, *, centre_m: float, half_height_m: float, smooth_m: float) -> Floats:
    """Share of a round hole by layer.

    Args:
        edge_m [m]: heights of the faces of the layers
        centre_m [m]: height of the hole's centre
        half_height_m [m]: half the height that it spans as it leans
        smooth_m [m]: depth over which its centre is spread
    Returns:
        [-] shares, 1 together

    Example:
        >>> edge = np.array([0.0, 1.0, 2.0])
        >>> hole_frac(edge, centre_m=1.0, half_height_m=0.2, smooth_m=0.0).round(6).tolist()
        [0.5, 0.5]

    Reference: circular segment.
    """
    half_m = max(half_height_m, 1e-12)

    def below_frac(height_m: Floats) -> Floats:
        in_hole = np.clip((height_m + half_m) / (2.0 * half_m), 0.0, 1.0)
        return circle_area_below(1.0, height_m=in_hole) * 4.0 / math.pi

    return _share_by_layer(edge_m, below_frac, centre_m=centre_m, smooth_m=smooth_m)


def ring_frac(edge_m: Floats, *, centre_m: float, half_height_m: float, smooth_m: float) -> Floats:
    """Share of a gap all round a joint by layer.

    Args:
        edge_m [m]: heights of the faces of the layers
        centre_m [m]: height of the ring's centre
        half_height_m [m]: half the height that it spans as it leans
        smooth_m [m]: depth over which its centre is spread
    Returns:
        [-] shares, 1 together

    Example:
        >>> edge = np.array([0.0, 0.5, 1.0, 2.0])
        >>> ring_frac(edge, centre_m=1.0, half_height_m=1.0, smooth_m=0.0).round(4).tolist()
        [0.3333, 0.1667, 0.5]

    Reference: arc of a circle by height.
    """
    half_m = max(half_height_m, 1e-12)

    def below_frac(height_m: Floats) -> Floats:
        return np.asarray(np.arccos(np.clip(-height_m / half_m, -1.0, 1.0)) / math.pi)

    return _share_by_layer(edge_m, below_frac, centre_m=centre_m, smooth_m=smooth_m)


def _share_by_layer(
    edge_m: Floats, below_frac: Callable[[Floats], Floats], *, centre_m: float, smooth_m: float
) -> Floats:
    """Shares of an opening by layer, its centre smoothed so that it moves over the layers without jumps."""
    above_m = (edge_m - centre_m)[:, np.newaxis] + smooth_m * _SMOOTHING
    below = below_frac(above_m).mean(axis=1)
    # What smoothing carries past an end belongs to the layer there.
    below[0], below[-1] = 0.0, 1.0
    return np.asarray(np.diff(below))
