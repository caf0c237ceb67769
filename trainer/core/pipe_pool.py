"""Gas that lies in a pipe, level, sloping or upright: how deep it is above the lowest point of the pipe."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.errors import Limits
from trainer.core.pipe import BORE, bore_area_m2, segment_area_m2
from trainer.core.pool import pipe_pool_depth_m
from trainer.core.tilted_cylinder import LEAST_TILT_DEG, TiltedCylinder

_LENGTH = Limits(quantity="length of the pool", unit="m", low=0.01, high=1e3, why="gas lies along a pipe")
_SLOPE = Limits(quantity="slope", unit="deg", low=-90.0, high=90.0, why="90 is upright")
_GAS_VOLUME = Limits(quantity="gas volume", unit="m3", low=0.0, why="a volume is not negative")
_POINTS_COUNT = 101
_PASSES_COUNT = 5


@dataclass(frozen=True, kw_only=True)
class PipeInside:
    """The inside of a pipe between ends that hold gas; which end is the higher one makes no difference."""

    bore_m: float
    length_m: float
    slope_deg: float = 0.0

    def __post_init__(self) -> None:
        BORE.check(self.bore_m)
        _LENGTH.check(self.length_m)
        _SLOPE.check(self.slope_deg)

    @cached_property
    def volume_m3(self) -> float:
        """All that it holds.

        Returns:
            [m3] volume
        """
        return bore_area_m2(self.bore_m) * self.length_m

    @cached_property
    def height_m(self) -> float:
        """From the lowest point to the highest.

        Returns:
            [m] the bore when level, the length when upright
        """
        tilted = self._tilted
        if tilted is not None:
            return tilted.height_m
        return self.bore_m if self._is_level else self.length_m

    def volume_below_m3(self, height_m: float) -> float:
        """What it holds up to a height.

        Args:
            height_m [m]: above the lowest point
        Returns:
            [m3] volume
        Raises:
            OutOfRange: for a height outside the pipe
        """
        why = "the height is that of a point inside the pipe"
        Limits(quantity="height in the pipe", unit="m", low=0.0, high=self.height_m, why=why).check(height_m)
        if self._tilted is not None:
            return float(self._tilted.volume_below_m3(np.array(height_m)))
        if self._is_level:
            return segment_area_m2(self.bore_m, height_m=height_m) * self.length_m
        return bore_area_m2(self.bore_m) * height_m

    def depth_m(self, gas_volume_m3: float) -> float:
        """Depth of the gas above the lowest point, or below the highest for gas that rises.

        volume below(h) = V_gas

        Args:
            gas_volume_m3 [m3]: gas that lies there; what the pipe cannot hold runs out of it
        Returns:
            [m] depth, at most the height of the pipe
        Raises:
            OutOfRange: for a negative volume
        """
        _GAS_VOLUME.check(gas_volume_m3)
        if self._is_level:
            return pipe_pool_depth_m(gas_volume_m3, bore_m=self.bore_m, length_m=self.length_m)
        if gas_volume_m3 >= self.volume_m3:
            return self.height_m
        tilted = self._tilted
        return (
            gas_volume_m3 / bore_area_m2(self.bore_m) if tilted is None else _depth_m(tilted, gas_volume_m3)
        )

    @property
    def _is_level(self) -> bool:
        return abs(self.slope_deg) < LEAST_TILT_DEG

    @cached_property
    def _tilted(self) -> TiltedCylinder | None:
        tilt_deg = abs(self.slope_deg)
        if not LEAST_TILT_DEG <= tilt_deg <= 90.0 - LEAST_TILT_DEG:
            return None
        return TiltedCylinder(bore_m=self.bore_m, length_m=self.length_m, tilt_deg=tilt_deg)


def _depth_m(tilted: TiltedCylinder, gas_volume_m3: float) -> float:
    """The height below which so much lies: a hundredth of what is left at each pass."""
    low_m, high_m = 0.0, tilted.height_m
    for _ in range(_PASSES_COUNT):
        heights_m = np.linspace(low_m, high_m, _POINTS_COUNT)
        above = int(np.searchsorted(tilted.volume_below_m3(heights_m), gas_volume_m3))
        place = min(max(above, 1), _POINTS_COUNT - 1)
        low_m, high_m = float(heights_m[place - 1]), float(heights_m[place])
    return 0.5 * (low_m + high_m)
