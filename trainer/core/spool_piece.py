"""A short straight cylinder of a spool at its height, and its slices."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.column import Floats, circle_area_below
from trainer.core.tilted_cylinder import LEAST_TILT_DEG, TiltedCylinder


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A short straight cylinder of a spool.

    Args:
        part [text]: name of the part that it is cut from
        bore_m [m]: inside diameter
        length_m [m]: length
        slope_deg [deg]: how steeply it climbs
        start_m [m]: height of its axis where it begins, above that of the spool's beginning
        part_frac [-]: where its middle lies along its part
        before [-]: number of the piece that it joins on to; -1 for the first

    Reference: own definition.
    """

    part: str
    bore_m: float
    length_m: float
    slope_deg: float
    start_m: float
    part_frac: float
    before: int

    @cached_property
    def climb_m(self) -> float:
        """How much higher its axis ends than it begins.

        Returns:
            [m] climb, negative when falling
        """
        return self.length_m * math.sin(math.radians(self.slope_deg))

    @cached_property
    def leaning_m(self) -> float:
        """Height of its cross-section as it leans.

        Returns:
            [m] D cos(slope)
        """
        return self.bore_m * math.cos(math.radians(self.slope_deg))

    @cached_property
    def middle_m(self) -> float:
        """Height of the middle of its axis.

        Returns:
            [m] height
        """
        return self.start_m + self.climb_m / 2.0

    @cached_property
    def volume_m3(self) -> float:
        """Volume of the piece.

        Returns:
            [m3] volume
        """
        return math.pi / 4.0 * self.bore_m**2 * self.length_m

    @cached_property
    def lowest_m(self) -> float:
        """Height of its lowest point.

        Returns:
            [m] height
        """
        return self.middle_m - (abs(self.climb_m) + self.leaning_m) / 2.0

    @cached_property
    def highest_m(self) -> float:
        """Height of its highest point.

        Returns:
            [m] height
        """
        return self.middle_m + (abs(self.climb_m) + self.leaning_m) / 2.0

    def volume_below_m3(self, height_m: Floats) -> Floats:
        """Volume of the piece below some heights.

        Args:
            height_m [m]: heights
        Returns:
            [m3] volumes

        Reference: as `TiltedCylinder`; segments when level, discs when upright.
        """
        above_m = np.clip(height_m - self.lowest_m, 0.0, self.highest_m - self.lowest_m)
        if self._tilted:
            return self._tilted.volume_below_m3(above_m)
        if self._is_upright:
            return np.asarray(above_m / self.length_m * self.volume_m3)
        return circle_area_below(self.bore_m, height_m=self._across_m(height_m)) * self.length_m

    def slice_area_m2(self, height_m: Floats) -> Floats:
        """Areas of the horizontal slices through the piece at some heights.

        Args:
            height_m [m]: heights
        Returns:
            [m2] areas, 0 above and below it

        Reference: as `TiltedCylinder`; chords when level, discs when upright.
        """
        inside = (height_m > self.lowest_m) & (height_m < self.highest_m)
        above_m = np.clip(height_m - self.lowest_m, 0.0, self.highest_m - self.lowest_m)
        if self._tilted:
            return np.where(inside, self._tilted.slice_area_m2(above_m), 0.0)
        if self._is_upright:
            return np.where(inside, math.pi / 4.0 * self.bore_m**2, 0.0)
        across_m = self._across_m(height_m)
        chord_m = 2.0 * np.sqrt(np.maximum(across_m * (self.bore_m - across_m), 0.0))
        return np.where(inside, chord_m * self.length_m, 0.0)

    def _across_m(self, height_m: Floats) -> Floats:
        """Heights across the bore of a piece taken as level, by its middle, so neither end counts more."""
        return np.asarray(np.clip(height_m - self.middle_m + self.bore_m / 2.0, 0.0, self.bore_m))

    @cached_property
    def _tilted(self) -> TiltedCylinder | None:
        tilt_deg = abs(self.slope_deg)
        if self._is_upright or tilt_deg < LEAST_TILT_DEG:
            return None
        return TiltedCylinder(bore_m=self.bore_m, length_m=self.length_m, tilt_deg=tilt_deg)

    @property
    def _is_upright(self) -> bool:
        return abs(self.slope_deg) > 90.0 - LEAST_TILT_DEG
