"""Air that diffuses in through a small vent against the gas that flows out; it hardly ever decides."""

import math

from trainer.core.errors import Limits
from trainer.core.vent import HOLE

_VELOCITY = Limits(quantity="vent velocity", unit="m/s", low=0.0, high=96.0, why="gas that flows out")
_THICKNESS = Limits(quantity="thickness of the wall", unit="m", low=0.0, high=10.0, why="it is not negative")
_DIFFUSIVITY = Limits(quantity="diffusivity", unit="m2/s", low=1e-7, high=1e-3, why="it is that of a gas")
_RATIO = Limits(quantity="ratio", unit="", low=1e-30, high=1.0, why="inside is never above outside")


def back_diffusion_ratio(
    velocity_m_s: float, *, diameter_m: float, thickness_m: float, diffusivity_m2_s: float
) -> float:
    """Air inside a hole over air outside, when diffusion works against the outflow.

    c / c0 = exp(-u (l + pi d / 4) / D)

    Args:
        velocity_m_s [m/s]: u in the hole
        diameter_m [m]: d
        thickness_m [m]: l of the wall or tape
        diffusivity_m2_s [m2/s]: D of the gas in air
    Returns:
        [-] ratio, 1 without flow
    Raises:
        OutOfRange: for a negative velocity or thickness
    Valid: still surroundings; each end of a thin hole adds pi d / 8.

    Example:
        >>> round(back_diffusion_ratio(
        ...     0.0681, diameter_m=0.003, thickness_m=0.0002, diffusivity_m2_s=1.89e-5), 6)
        0.0001

    Reference: Monteith and Unsworth, Principles of Environmental Physics, 3rd ed. 2008, ends of pores.
    """
    _VELOCITY.check(velocity_m_s)
    return math.exp(-velocity_m_s * _path_m(diameter_m, thickness_m, diffusivity_m2_s) / diffusivity_m2_s)


def velocity_for_back_diffusion_m_s(
    ratio_frac: float, *, diameter_m: float, thickness_m: float, diffusivity_m2_s: float
) -> float:
    """Velocity in a hole that holds back-diffusion to a wanted ratio.

    u = D ln(c0 / c) / (l + pi d / 4)

    Args:
        ratio_frac [-]: c / c0
        diameter_m [m]: d
        thickness_m [m]: l
        diffusivity_m2_s [m2/s]: D
    Returns:
        [m/s] velocity
    Raises:
        OutOfRange: for a ratio outside 1e-30 to 1
    Valid: the inverse of `back_diffusion_ratio`.

    Example:
        >>> round(velocity_for_back_diffusion_m_s(
        ...     1e-4, diameter_m=0.003, thickness_m=0.0002, diffusivity_m2_s=1.89e-5), 4)
        0.0681

    Reference: Monteith and Unsworth, Principles of Environmental Physics, 3rd ed. 2008, ends of pores.
    """
    _RATIO.check(ratio_frac)
    return -math.log(ratio_frac) * diffusivity_m2_s / _path_m(diameter_m, thickness_m, diffusivity_m2_s)


def _path_m(diameter_m: float, thickness_m: float, diffusivity_m2_s: float) -> float:
    HOLE.check(diameter_m)
    _THICKNESS.check(thickness_m)
    _DIFFUSIVITY.check(diffusivity_m2_s)
    return thickness_m + math.pi / 4.0 * diameter_m
