"""Two-layer exchange through an opening that spans some height.

Gas flows out below the opening's neutral level and air in above it (the other way up for a gas that rises,
which changes nothing in the sums). The neutral level lies where out - in equals the flow that has to leave.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trainer.core.gas import (
    REFERENCE_TEMPERATURE_K,
    Gas,
    outflow_reduced_gravity_m_s2,
    reduced_gravity_m_s2,
)
from trainer.core.vent import DISCHARGE_COEFFICIENT

# Strips equal in angle crowd at both ends, where the velocity starts as a square root: 400 are good to 1e-5.
_STRIPS = 400
_ANGLES = (np.arange(_STRIPS) + 0.5) * math.pi / _STRIPS
_NO_HEAD_M = 1e-300  # keeps a strip without any head out of a division by nothing


@dataclass(frozen=True, eq=False)
class Opening:
    """Strips of an opening: their areas and lower edges, above the end from which the gas flows out.

    Each strip spans `strip_m` of height, 0 where it lies level, and is open evenly over it.
    """

    heights_m: NDArray[np.float64]
    areas_m2: NDArray[np.float64]
    top_m: float
    strip_m: float = 0.0

    def flow_that_holds_air_out_m3_s(self, gas: Gas) -> float:
        """Outflow at which the neutral level reaches the far end of the opening.

        Q = Cd integral of sqrt(2 g' (top - z)) dA,  g' over the density of the gas

        Args:
            gas [record]: the gas inside
        Returns:
            [m3/s] outflow through this opening
        """
        return self._outflow_m3_s(self.top_m, gas)

    def air_inflow_m3_s(self, flow_m3_s: float, *, gas: Gas) -> float:
        """Air that comes in while `flow_m3_s` more goes out than comes in.

        Args:
            flow_m3_s [m3/s]: net outflow through this opening
            gas [record]: the gas inside
        Returns:
            [m3/s] air in, 0 from the flow that holds it out
        """
        if flow_m3_s >= self.flow_that_holds_air_out_m3_s(gas):
            return 0.0
        from scipy.optimize import brentq  # noqa: PLC0415 (slow to import, and few commands need it)

        def to_spare_m3_s(neutral_m: float) -> float:
            return self._outflow_m3_s(neutral_m, gas) - self._inflow_m3_s(neutral_m, gas) - flow_m3_s

        neutral_m = float(brentq(to_spare_m3_s, 0.0, self.top_m, xtol=1e-16 * self.top_m, rtol=1e-15))
        return self._inflow_m3_s(neutral_m, gas)

    def _outflow_m3_s(self, neutral_m: float, gas: Gas) -> float:
        gravity = outflow_reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
        return self._flow_m3_s(neutral_m - self.heights_m, gravity)

    def _inflow_m3_s(self, neutral_m: float, gas: Gas) -> float:
        gravity = reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
        return self._flow_m3_s(self.heights_m + self.strip_m - neutral_m, gravity)

    def _flow_m3_s(self, most_m: NDArray[np.float64], gravity_m_s2: float) -> float:
        """Flow on the side of the neutral level where the head of each strip goes up to `most_m`."""
        speeds = math.sqrt(2.0 * gravity_m_s2) * self._mean_roots(most_m)
        return DISCHARGE_COEFFICIENT * float(self.areas_m2 @ speeds)

    def _mean_roots(self, most_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Mean over each strip of the root of its head; only what is positive flows in this direction.

        (2/3) (x^1.5 - y^1.5) / s from y to x, written so that it does not cancel for a thin strip.
        """
        most = np.maximum(most_m, 0.0)
        if self.strip_m == 0.0:
            return np.asarray(np.sqrt(most))
        flowing = np.minimum(most, self.strip_m) / self.strip_m
        root, least_root = np.sqrt(most), np.sqrt(np.maximum(most_m - self.strip_m, 0.0))
        summed = np.maximum(root + least_root, _NO_HEAD_M)
        return np.asarray(2.0 / 3.0 * flowing * (root**2 + root * least_root + least_root**2) / summed)


def slot(height_m: float, *, area_m2: float) -> Opening:
    """An opening as wide at each height: upright, or leaning so that it spans that height.

    dA = A dz / h

    Args:
        height_m [m]: h, from its lowest point to its highest
        area_m2 [m2]: A, the open area itself
    Returns:
        [record] the opening
    Valid: positive sizes; its callers check them.

    Example:
        >>> slot(0.02, area_m2=0.0002).top_m
        0.02

    Reference: geometry.
    """
    return Opening(np.zeros(1), np.array([area_m2]), height_m, strip_m=height_m)


def circle(diameter_m: float) -> Opening:
    """A round opening in a vertical face.

    dA = 2 sqrt(z (d - z)) dz

    Args:
        diameter_m [m]: d
    Returns:
        [record] the opening
    Valid: positive sizes; its callers check them.

    Example:
        >>> round(float(circle(0.02).areas_m2.sum()), 8)
        0.00031416

    Reference: geometry.
    """
    areas = diameter_m * diameter_m / 2.0 * np.sin(_ANGLES) ** 2 * (math.pi / _STRIPS)
    return Opening(diameter_m / 2.0 * (1.0 - np.cos(_ANGLES)), areas, diameter_m)


def ring(bore_m: float, *, width_m: float, open_frac: float, slope_deg: float) -> Opening:
    """A slot all round a pipe, open evenly: an upright circle when level, a low band when upright.

    dA = w f D dtheta ds,  z = D cos(slope) (1 - cos theta) / 2 + s w sin(slope),  s from 0 to 1

    Args:
        bore_m [m]: D
        width_m [m]: w, along the pipe
        open_frac [-]: f, share of the way round that is open
        slope_deg [deg]: of the pipe, either way
    Returns:
        [record] the opening
    Valid: positive sizes; its callers check them.

    Example:
        >>> level = ring(0.1615, width_m=0.003, open_frac=1.0, slope_deg=0.0)
        >>> round(float(level.areas_m2.sum()) * 1e6, 1), level.top_m
        (1522.1, 0.1615)

    Reference: geometry.
    """
    high_m = bore_m * math.cos(math.radians(slope_deg))
    strip_m = width_m * abs(math.sin(math.radians(slope_deg)))
    areas = np.full(_STRIPS, width_m * open_frac * bore_m * math.pi / _STRIPS)
    return Opening(high_m / 2.0 * (1.0 - np.cos(_ANGLES)), areas, high_m + strip_m, strip_m=strip_m)
