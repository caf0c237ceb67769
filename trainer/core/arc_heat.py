"""The arc as a moving line source, and as a steady one that never stops: the two bounds of heat at a dam."""

import math
from dataclasses import dataclass

import numpy as np

from trainer.core.dam_heat import Metal
from trainer.core.errors import Limits

_POWER = Limits(quantity="power into the metal", unit="W", low=0.0, high=1e6, why="up to 1 MW")
_SPEED = Limits(quantity="travel speed", unit="m/s", low=1e-6, high=1.0, why="from 0.06 mm/min to 60 m/min")
_WALL = Limits(quantity="wall", unit="m", low=1e-4, high=0.2, why="walls from 0.1 to 200 mm")
_ASIDE = Limits(quantity="distance from the line", unit="m", low=1e-4, high=100.0, why="off the weld itself")
_DISTANCE = Limits(quantity="distance from the arc", unit="m", low=1e-4, high=100.0, why="off the arc itself")
_DIAMETER = Limits(quantity="outside diameter", unit="m", low=1e-3, high=5.0, why="pipes from 1 mm to 5 m")
_LOSS = Limits(quantity="surface loss", unit="W/(m2 K)", low=0.1, high=1e4, why="else no steady state")


@dataclass(frozen=True, kw_only=True)
class MovingArc:
    """An arc that moves along a thin plate of a metal at ambient temperature."""

    power_w: float
    speed_m_s: float
    wall_m: float
    metal: Metal
    ambient_k: float

    def __post_init__(self) -> None:
        _POWER.check(self.power_w)
        _SPEED.check(self.speed_m_s)
        _WALL.check(self.wall_m)


def moving_source_temperature_k(arc: MovingArc, *, ahead_m: float, aside_m: float) -> float:
    """Temperature near a moving arc once it is steady.

    T - T0 = q / (2 pi k t) exp(-v (xi + r) / (2 alpha)) K0e(v r / (2 alpha))

    Args:
        arc [record]: power q, speed v, wall t, metal, ambient T0
        ahead_m [m]: xi, positive ahead of the arc
        aside_m [m]: distance from the weld line
    Returns:
        [K] temperature
    Raises:
        OutOfRange: at the arc itself
    Valid: thin plate, no loss, properties constant; meaningless in the pool.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> arc = MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034,
        ...                 metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> round(moving_source_temperature_k(arc, ahead_m=-0.1, aside_m=0.02) - 273.15)
        511

    Reference: Rosenthal, Trans. ASME 68 (1946) 849, thin plate; K0e the scaled Bessel function of scipy.
    """
    _DISTANCE.check(math.hypot(ahead_m, aside_m))
    return float(_rises_k(arc, np.array([ahead_m]), aside_m)[0]) + arc.ambient_k


def _rises_k(arc: MovingArc, ahead_m: np.ndarray, aside_m: float) -> np.ndarray:
    from scipy.special import k0e  # noqa: PLC0415 - keeps importing the core quick

    inverse_m = arc.speed_m_s / (2.0 * arc.metal.diffusivity_m2_s)
    away_m = np.hypot(ahead_m, aside_m)
    # xi + r loses all its digits far behind the arc, where it is aside^2 / (r - xi).
    path_m = np.where(ahead_m > 0.0, ahead_m + away_m, aside_m**2 / (away_m - np.minimum(ahead_m, 0.0)))
    scale = arc.power_w / (2.0 * math.pi * arc.metal.conductivity_w_m_k * arc.wall_m)
    rises: np.ndarray = scale * np.exp(-inverse_m * path_m) * k0e(inverse_m * away_m)
    return rises


def moving_source_peak_k(arc: MovingArc, *, aside_m: float) -> float:
    """Highest temperature at a distance from the line of a moving arc.

    max over xi of the moving source

    Args:
        arc [record]: power, speed, wall, metal, ambient
        aside_m [m]: distance from the weld line
    Returns:
        [K] peak temperature
    Raises:
        OutOfRange: on the line itself
    Valid: thin plate, no loss; the arc has come a way longer than the place is distant.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> arc = MovingArc(power_w=616.0, speed_m_s=1e-3, wall_m=0.0034,
        ...                 metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> round(moving_source_peak_k(arc, aside_m=0.05) - 273.15)
        241

    Reference: Rosenthal, Trans. ASME 68 (1946) 849, thin plate.
    """
    _ASIDE.check(aside_m)
    # Far from the weld the peak lies v x^2 / (2 alpha) behind the arc, and never farther.
    far_m = arc.speed_m_s * aside_m**2 / (2.0 * arc.metal.diffusivity_m2_s) + aside_m
    low_m, high_m, best_k = -far_m, aside_m, 0.0
    for _ in range(4):
        places = np.linspace(low_m, high_m, 2001)
        rises = _rises_k(arc, places, aside_m)
        best = int(np.argmax(rises))
        best_k = float(rises[best])
        low_m, high_m = float(places[max(best - 1, 0)]), float(places[min(best + 1, 2000)])
    return arc.ambient_k + best_k


@dataclass(frozen=True, kw_only=True)
class SteadyFin:
    """A pipe that is heated at one place without end and loses heat from its outside."""

    power_w: float
    outside_diameter_m: float
    wall_m: float
    metal: Metal
    ambient_k: float
    loss_w_m2_k: float = 10.0

    def __post_init__(self) -> None:
        _POWER.check(self.power_w)
        _DIAMETER.check(self.outside_diameter_m)
        _WALL.check(self.wall_m)
        _LOSS.check(self.loss_w_m2_k)


def steady_fin_temperature_k(fin: SteadyFin, *, distance_m: float) -> float:
    """Temperature of a pipe whose arc never stops: an upper bound for slow or repeated passes.

    T - T0 = (q / 2) / sqrt(h P k A) exp(-m x),  m = sqrt(h P / (k A)),  P = pi D,  A = pi (D - t) t

    Args:
        fin [record]: power q, size, metal, ambient T0 and surface loss h
        distance_m [m]: x from the weld
    Returns:
        [K] temperature
    Raises:
        OutOfRange: at the weld itself
    Valid: half of the power goes each way, the outside alone loses heat.

    Example:
        >>> fin = SteadyFin(power_w=616.0, outside_diameter_m=0.1683, wall_m=0.0034, ambient_k=293.15,
        ...                 metal=Metal(conductivity_w_m_k=16.0, heat_capacity_j_m3_k=3.95e6))
        >>> round(steady_fin_temperature_k(fin, distance_m=0.3) - 273.15)
        33

    Reference: infinite fin (Incropera, Fundamentals of Heat and Mass Transfer, section 3.6).
    """
    _DISTANCE.check(distance_m)
    around_m = math.pi * fin.outside_diameter_m
    section_m2 = math.pi * (fin.outside_diameter_m - fin.wall_m) * fin.wall_m
    conducts = fin.metal.conductivity_w_m_k * section_m2
    loses = fin.loss_w_m2_k * around_m
    return fin.ambient_k + fin.power_w / 2.0 / math.sqrt(loses * conducts) * math.exp(
        -math.sqrt(loses / conducts) * distance_m
    )
