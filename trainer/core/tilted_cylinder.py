"""Areas and volumes of horizontal slices through a sloping cylinder between two flat ends."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.column import Floats
from trainer.core.errors import Limits

# Nearer than this to level or upright, differences of large numbers would lose more than the tilt changes.
LEAST_TILT_DEG = 1e-6
_TILT = Limits(
    quantity="tilt",
    unit="deg",
    low=LEAST_TILT_DEG,
    high=90.0 - LEAST_TILT_DEG,
    why="level and upright cylinders have slices of their own",
)


@dataclass(frozen=True, kw_only=True)
class TiltedCylinder:
    """A cylinder whose axis rises at an angle, closed by ends at right angles to it.

    Args:
        bore_m [m]: 2 R
        length_m [m]: L, between the ends
        tilt_deg [deg]: theta, between level and upright
    Raises:
        OutOfRange: for any other tilt

    Reference: own definition; heights are above the lowest point.
    """

    bore_m: float
    length_m: float
    tilt_deg: float

    def __post_init__(self) -> None:
        _TILT.check(self.tilt_deg)

    @cached_property
    def sine(self) -> float:
        """Rise for each metre along the axis.

        Returns:
            [-] sin theta
        """
        return math.sin(math.radians(self.tilt_deg))

    @cached_property
    def cosine(self) -> float:
        """Way from above for each metre along the axis.

        Returns:
            [-] cos theta
        """
        return math.cos(math.radians(self.tilt_deg))

    @property
    def height_m(self) -> float:
        """From the lowest point to the highest.

        Returns:
            [m] D cos theta + L sin theta
        """
        return self.bore_m * self.cosine + self.length_m * self.sine

    @property
    def plan_area_m2(self) -> float:
        """Area as seen from above.

        Returns:
            [m2] D L cos theta + (pi/4) D^2 sin theta
        """
        return self.bore_m * (self.length_m * self.cosine + math.pi / 4.0 * self.bore_m * self.sine)

    def height_of_m(self, along_m: float, *, across_frac: float) -> float:
        """Height of a point of the cross-section at some distance from the lower end.

        z = s sin theta + h D cos theta

        Args:
            along_m [m]: s, along the axis from the lower end
            across_frac [-]: h, place on the face there, 0 lowest, 1 highest
        Returns:
            [m] z, above the lowest point of the cylinder

        Reference: geometry.
        """
        return along_m * self.sine + across_frac * self.bore_m * self.cosine

    def slice_area_m2(self, height_m: Floats) -> Floats:
        """Areas of the horizontal slices at some heights.

        A(z) = [S(v) - S(v - L tan theta)] / sin theta,  v = z / cos theta - R,  S(v) the segment below v

        Args:
            height_m [m]: z, above the lowest point
        Returns:
            [m2] areas

        Reference: geometry; the slice is cut along lines that lie level across the pipe.
        """
        across_m = self._across_m(height_m)
        return slices_m2(across_m, radius_m=self.bore_m / 2.0, drop_m=self._drop_m) / self.sine

    def volume_below_m3(self, height_m: Floats) -> Floats:
        """Volume below some heights.

        V(z) = cot theta [P(v) - P(v - L tan theta)],  P the integral of S

        Args:
            height_m [m]: z, above the lowest point
        Returns:
            [m3] volumes

        Reference: integral of the slices.
        """
        across_m = self._across_m(height_m)
        below = volumes_m3(across_m, radius_m=self.bore_m / 2.0, drop_m=self._drop_m)
        return np.asarray(below * self.cosine / self.sine)

    @property
    def _drop_m(self) -> float:
        return self.length_m * self.sine / self.cosine

    def _across_m(self, height_m: Floats) -> Floats:
        return np.asarray(height_m / self.cosine - self.bore_m / 2.0)


def slices_m2(across_m: Floats, *, radius_m: Floats | float, drop_m: Floats | float) -> Floats:
    """Areas of the slices of sloping cylinders, as seen along their axes.

    S(v) - S(v - L tan theta),  S the segment of the circle below v

    Args:
        across_m [m]: v, above the axis of the lower end, across the cylinder
        radius_m [m]: R
        drop_m [m]: L tan theta
    Returns:
        [m2] areas

    Example:
        >>> slices_m2(np.array([-1.0, 0.0, 3.0]), radius_m=1.0, drop_m=2.0).round(4).tolist()
        [0.0, 1.5708, 0.0]

    Reference: geometry.
    """
    below, behind = (_segment_m2(v, radius_m) for v in (across_m, across_m - drop_m))
    # At the very ends rounding may leave a hair below nothing.
    return np.asarray(np.maximum(below - behind, 0.0))


def volumes_m3(across_m: Floats, *, radius_m: Floats | float, drop_m: Floats | float) -> Floats:
    """Integrals of the slices of sloping cylinders, as seen along their axes.

    P(v) - P(v - L tan theta),  P the integral of the segment from far below up to v

    Args:
        across_m [m]: v, above the axis of the lower end, across the cylinder
        radius_m [m]: R
        drop_m [m]: L tan theta
    Returns:
        [m3] integrals

    Example:
        >>> volumes_m3(np.array([-1.0, 1.0, 3.0]), radius_m=1.0, drop_m=2.0).round(4).tolist()
        [0.0, 3.1416, 6.2832]

    Reference: integral of the slices.
    """
    below, behind = (_segments_m3(v, radius_m) for v in (across_m, across_m - drop_m))
    return np.asarray(below - behind)


def _on_the_circle(across_m: Floats, radius_m: Floats | float) -> tuple[Floats, Floats]:
    """v kept to the circle, and half the chord there."""
    v = np.minimum(np.maximum(across_m, -radius_m), radius_m)
    # a product of sums, since the difference of the squares may round below 0
    return v, np.sqrt((radius_m - v) * (radius_m + v))


def _segment_m2(across_m: Floats, radius_m: Floats | float) -> Floats:
    """Area of the circle below v."""
    v, root = _on_the_circle(across_m, radius_m)
    return np.asarray(v * root + radius_m**2 * (np.arctan2(v, root) + math.pi / 2.0))


def _segments_m3(across_m: Floats, radius_m: Floats | float) -> Floats:
    """Integral of the segment from far below up to v."""
    v, root = _on_the_circle(across_m, radius_m)
    inside = radius_m**2 * (v * (np.arctan2(v, root) + math.pi / 2.0) + root) - root**3 / 3.0
    return np.asarray(inside + math.pi * radius_m**2 * np.maximum(across_m - radius_m, 0.0))


def tilted_pocket_frac(cylinder: TiltedCylinder, *, vent_above_m: float) -> float:
    """Share of a sloping section that lies beyond the vent, on the side where the air stays.

    V_beyond / V = 1 - V(z_vent) / V

    Args:
        cylinder [record]: the section, from the side where the gas settles
        vent_above_m [m]: z_vent, height of the vent's centre above the settling side
    Returns:
        [-] share of the volume
    Raises:
        OutOfRange: for a vent outside the section

    Example:
        >>> section = TiltedCylinder(bore_m=0.161, length_m=0.6, tilt_deg=10.0)
        >>> round(tilted_pocket_frac(section, vent_above_m=section.height_m / 2.0), 6)
        0.5

    Reference: geometry.
    """
    Limits(
        quantity="height of the vent", unit="m", low=0.0, high=cylinder.height_m, why="it lies in the section"
    ).check(vent_above_m)
    heights = np.array([vent_above_m, cylinder.height_m])
    below, whole = cylinder.volume_below_m3(heights)
    return float(1.0 - below / whole)
