"""Two-layer exchange through an opening in a vertical face.

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
_HALVINGS = 60


@dataclass(frozen=True, eq=False)
class Opening:
    """Strips of an opening: their areas at heights above the end from which the gas flows out."""

    heights_m: NDArray[np.float64]
    areas_m2: NDArray[np.float64]
    top_m: float

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
        low_m, high_m = 0.0, self.top_m
        for _ in range(_HALVINGS):
            neutral_m = (low_m + high_m) / 2.0
            net_m3_s = self._outflow_m3_s(neutral_m, gas) - self._inflow_m3_s(neutral_m, gas)
            low_m, high_m = (neutral_m, high_m) if net_m3_s < flow_m3_s else (low_m, neutral_m)
        return self._inflow_m3_s(high_m, gas)

    def _outflow_m3_s(self, neutral_m: float, gas: Gas) -> float:
        gravity = outflow_reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
        return self._flow_m3_s(neutral_m - self.heights_m, gravity)

    def _inflow_m3_s(self, neutral_m: float, gas: Gas) -> float:
        gravity = reduced_gravity_m_s2(gas, temperature_k=REFERENCE_TEMPERATURE_K)
        return self._flow_m3_s(self.heights_m - neutral_m, gravity)

    def _flow_m3_s(self, heads_m: NDArray[np.float64], gravity_m_s2: float) -> float:
        # Only the side of the neutral level that faces this way carries flow in this direction.
        speeds = np.sqrt(2.0 * gravity_m_s2 * np.maximum(heads_m, 0.0))
        return DISCHARGE_COEFFICIENT * float(self.areas_m2 @ speeds)


def rectangle(height_m: float, *, width_m: float) -> Opening:
    """An upright rectangular opening.

    dA = W dz

    Args:
        height_m [m]: from bottom to top
        width_m [m]: W
    Returns:
        [record] the opening
    Valid: positive sizes; its callers check them.

    Example:
        >>> round(float(rectangle(0.02, width_m=0.01).areas_m2.sum()), 6)
        0.0002

    Reference: geometry.
    """
    areas = width_m * height_m / 2.0 * np.sin(_ANGLES) * (math.pi / _STRIPS)
    return Opening(height_m / 2.0 * (1.0 - np.cos(_ANGLES)), areas, height_m)


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


def ring(bore_m: float, *, width_m: float) -> Opening:
    """A slot all round a level pipe, open evenly.

    dA = w D dtheta,  z = D (1 - cos theta) / 2

    Args:
        bore_m [m]: D
        width_m [m]: w, along the pipe
    Returns:
        [record] the opening
    Valid: positive sizes; its callers check them.

    Example:
        >>> round(float(ring(0.1615, width_m=0.003).areas_m2.sum()) * 1e6, 1)
        1522.1

    Reference: geometry.
    """
    areas = np.full(_STRIPS, width_m * bore_m * math.pi / _STRIPS)
    return Opening(bore_m / 2.0 * (1.0 - np.cos(_ANGLES)), areas, bore_m)
