"""A short straight cylinder of a spool at its height, and its slices."""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.column import Floats, circle_area_below
from trainer.core.tilted_cylinder import LEAST_TILT_DEG, slices_m2, volumes_m3


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
        return np.asarray(PieceSlices([self]).volume_below_m3(height_m))

    def slice_area_m2(self, height_m: Floats) -> Floats:
        """Areas of the horizontal slices through the piece at some heights.

        Args:
            height_m [m]: heights
        Returns:
            [m2] areas, 0 above and below it

        Reference: as `TiltedCylinder`; chords when level, discs when upright.
        """
        return np.asarray(PieceSlices([self]).slice_area_m2(height_m))


class PieceSlices:
    """The slices of some pieces together, each kind of piece at once.

    Args:
        pieces [record]: the pieces

    Reference: as `TiltedCylinder`; chords and segments when level, discs when upright.
    """

    def __init__(self, pieces: Sequence[Piece]) -> None:
        tilt_deg = np.array([abs(piece.slope_deg) for piece in pieces])
        upright = tilt_deg > 90.0 - LEAST_TILT_DEG
        level = tilt_deg < LEAST_TILT_DEG
        self._whole_m3 = sum(piece.volume_m3 for piece in pieces)
        self._kinds = [
            made([piece for piece, is_one in zip(pieces, chosen, strict=True) if is_one])
            for made, chosen in ((_Tilted, ~(upright | level)), (_Upright, upright), (_Level, level))
            if chosen.any()
        ]

    def volume_below_m3(self, height_m: Floats) -> Floats:
        """Volume of all pieces below some heights.

        Args:
            height_m [m]: heights
        Returns:
            [m3] volumes

        Reference: as the class.
        """
        heights = np.asarray(height_m, dtype=np.float64)
        found = sum(kind.volume_below_m3(np.ravel(heights)).sum(axis=0) for kind in self._kinds)
        return np.asarray(found).reshape(heights.shape)

    def volume_above_m3(self, height_m: Floats) -> Floats:
        """Volume of all pieces above some heights.

        Args:
            height_m [m]: heights
        Returns:
            [m3] volumes

        Reference: as the class.
        """
        return np.asarray(self._whole_m3 - self.volume_below_m3(height_m))

    def slice_area_m2(self, height_m: Floats) -> Floats:
        """Areas of the horizontal slices through all pieces at some heights.

        Args:
            height_m [m]: heights
        Returns:
            [m2] areas, 0 above and below them

        Reference: as the class.
        """
        heights = np.asarray(height_m, dtype=np.float64)
        found = sum(kind.slice_area_m2(np.ravel(heights)).sum(axis=0) for kind in self._kinds)
        return np.asarray(found).reshape(heights.shape)


class _Kind:
    """Pieces of one kind, one row each."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        def column(name: str) -> Floats:
            return np.array([getattr(piece, name) for piece in pieces], dtype=np.float64)[:, np.newaxis]

        self.bore_m, self.length_m, self.slope_deg = map(column, ("bore_m", "length_m", "slope_deg"))
        self.lowest_m, self.highest_m, self.middle_m = map(column, ("lowest_m", "highest_m", "middle_m"))

    def above_m(self, height_m: Floats) -> Floats:
        """Heights above the lowest point, kept to the piece."""
        return np.asarray(
            np.minimum(np.maximum(height_m - self.lowest_m, 0.0), self.highest_m - self.lowest_m)
        )

    def inside(self, height_m: Floats, area_m2: Floats) -> Floats:
        """The areas where the heights lie in the piece, 0 elsewhere."""
        return np.where((height_m > self.lowest_m) & (height_m < self.highest_m), area_m2, 0.0)

    @abstractmethod
    def volume_below_m3(self, height_m: Floats) -> Floats:
        """Volumes by piece and height."""

    @abstractmethod
    def slice_area_m2(self, height_m: Floats) -> Floats:
        """Areas by piece and height."""


class _Tilted(_Kind):
    """Sloping cylinders, as `TiltedCylinder`."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        super().__init__(pieces)
        tilt = np.radians(np.abs(self.slope_deg))
        self._sine, self._cosine = np.sin(tilt), np.cos(tilt)
        self._shape = {
            "radius_m": self.bore_m / 2.0,
            "drop_m": self.length_m * self._sine / self._cosine,
        }

    def volume_below_m3(self, height_m: Floats) -> Floats:
        return volumes_m3(self._across_m(height_m), **self._shape) * self._cosine / self._sine

    def slice_area_m2(self, height_m: Floats) -> Floats:
        return self.inside(height_m, slices_m2(self._across_m(height_m), **self._shape) / self._sine)

    def _across_m(self, height_m: Floats) -> Floats:
        return np.asarray(self.above_m(height_m) / self._cosine - self.bore_m / 2.0)


class _Upright(_Kind):
    """Discs."""

    def volume_below_m3(self, height_m: Floats) -> Floats:
        return np.asarray(self.above_m(height_m) * (math.pi / 4.0 * self.bore_m**2))

    def slice_area_m2(self, height_m: Floats) -> Floats:
        return self.inside(height_m, math.pi / 4.0 * self.bore_m**2)


class _Level(_Kind):
    """Segments of a circle and its chords."""

    def volume_below_m3(self, height_m: Floats) -> Floats:
        return np.asarray(circle_area_below(self.bore_m, height_m=self._across_m(height_m)) * self.length_m)

    def slice_area_m2(self, height_m: Floats) -> Floats:
        across_m = self._across_m(height_m)
        chord_m = 2.0 * np.sqrt(np.maximum(across_m * (self.bore_m - across_m), 0.0))
        return self.inside(height_m, chord_m * self.length_m)

    def _across_m(self, height_m: Floats) -> Floats:
        """Heights across the bore of a piece taken as level, by its middle, so neither end counts more."""
        return np.asarray(
            np.minimum(np.maximum(height_m - self.middle_m + self.bore_m / 2.0, 0.0), self.bore_m)
        )
