"""Heat along a pipe after one or more passes around it, with and without loss to the air."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.core.dam_heat import DISTANCE, HEAT_INPUT, WALL, Metal, distance_for_peak_m
from trainer.core.errors import Limits

_LOSS = Limits(
    quantity="surface loss", unit="W/(m2 K)", low=0.0, high=1e4, why="a coefficient of heat transfer"
)
_PASSES = Limits(quantity="number of passes", unit="", low=1, high=1000, why="1 to 1000 passes")
_INTERVAL = Limits(quantity="time between passes", unit="s", low=0.0, high=1e6, why="it is not negative")

# The search for the hottest moment: a first look over all times, then closer looks between its neighbours.
_FIRST_TIMES, _CLOSER_TIMES, _CLOSER_LOOKS = 401, 41, 3
_SOONEST_S = 1e-9
_NO_RISE_K = 1e-290  # far away nothing is left that a logarithm could be taken of
_NEAR = 1e-9  # of ln x
_ROUNDS = 100


@dataclass(frozen=True, kw_only=True)
class Passes:
    """Equal weld passes around the pipe, each at once all round, at equal intervals."""

    heat_input_j_m: float
    count: int = 1
    interval_s: float = 600.0

    def __post_init__(self) -> None:
        HEAT_INPUT.check(self.heat_input_j_m)
        _PASSES.check(self.count)
        _INTERVAL.check(self.interval_s)


@dataclass(frozen=True, kw_only=True)
class CooledWall:
    """A pipe wall that loses heat from its outside; 10 W/(m2 K) is still air."""

    wall_m: float
    metal: Metal
    ambient_k: float
    loss_w_m2_k: float = 10.0

    def __post_init__(self) -> None:
        WALL.check(self.wall_m)
        _LOSS.check(self.loss_w_m2_k)


def peak_with_loss_k(distance_m: float, *, passes: Passes, wall: CooledWall) -> float:
    """Highest temperature at a distance from one or more passes, with loss to the air.

    T - T0 = max over time of the sum over the passes, tau after each, of
    H / (rho c t sqrt(4 pi alpha tau)) exp(-x^2 / (4 alpha tau) - h tau / (rho c t))

    Args:
        distance_m [m]: x along the pipe
        passes [record]: heat input H, number and interval of the passes
        wall [record]: thickness t, metal, ambient T0, loss h
    Returns:
        [K] peak temperature
    Raises:
        OutOfRange: on the weld itself or for a wall outside 0.1 to 200 mm
    Valid: thin wall, each pass at once all round; nothing is lost inside.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> wall = CooledWall(
        ...     wall_m=0.0034, metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> round(peak_with_loss_k(0.1, passes=Passes(heat_input_j_m=616e3), wall=wall) - 273.15)
        81

    Reference: instantaneous plane source in a rod with surface loss (Carslaw and Jaeger, Conduction
    of Heat in Solids, sections 4.2 and 10.3), superposed.
    """
    return float(peaks_with_loss_k(np.array([distance_m]), passes=passes, wall=wall)[0])


def peaks_with_loss_k(distances_m: Floats, *, passes: Passes, wall: CooledWall) -> Floats:
    """Highest temperatures at several distances from one or more passes.

    as `peak_with_loss_k`, whose values these are

    Args:
        distances_m [m]: x along the pipe
        passes [record]: heat input, number and interval of the passes
        wall [record]: thickness, metal, ambient, loss; 0 for the bound without any
    Returns:
        [K] peak temperatures, one for each distance
    Raises:
        OutOfRange: on the weld itself or for a wall outside 0.1 to 200 mm
    Valid: as `peak_with_loss_k`.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> wall = CooledWall(
        ...     wall_m=0.0034, metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> peaks = peaks_with_loss_k(np.array([0.05, 0.3]), passes=Passes(heat_input_j_m=616e3), wall=wall)
        >>> (peaks - 273.15).round().tolist()
        [203.0, 22.0]

    Reference: as `peak_with_loss_k`.
    """
    for distance_m in distances_m.tolist():
        DISTANCE.check(distance_m)
    return np.asarray(wall.ambient_k + _highest_rises_k(distances_m, passes, wall))


def _highest_rises_k(distances_m: Floats, passes: Passes, wall: CooledWall) -> Floats:
    # The last pass has all the others behind it, so none before it comes higher; each peaks no later than
    # x^2/(2 alpha) after its start, so that is where the search ends.
    latest_s = distances_m**2 / (2.0 * wall.metal.diffusivity_m2_s)

    def rises_at(times_s: Floats) -> Floats:
        return _rises_k(distances_m, times_s, passes, wall)

    rises_k, low_s, high_s = _look(rises_at, np.zeros_like(latest_s), latest_s, moments=_FIRST_TIMES)
    for _ in range(_CLOSER_LOOKS):
        rises_k, low_s, high_s = _look(rises_at, low_s, high_s, moments=_CLOSER_TIMES)
    return rises_k


def _look(
    rises_at: Callable[[Floats], Floats], low_s: Floats, high_s: Floats, *, moments: int
) -> tuple[Floats, Floats, Floats]:
    """The highest rises between two times, and the times of their neighbours."""
    shares = np.linspace(0.0, 1.0, moments)
    times = low_s[:, np.newaxis] + (high_s - low_s)[:, np.newaxis] * shares
    rises = rises_at(times)
    best, rows = rises.argmax(axis=1), np.arange(low_s.size)
    before, after = np.maximum(best - 1, 0), np.minimum(best + 1, moments - 1)
    return rises[rows, best], times[rows, before], times[rows, after]


def _rises_k(distances_m: Floats, times_s: Floats, passes: Passes, wall: CooledWall) -> Floats:
    """Rise above ambient at each distance (rows) and time after the last pass (columns)."""
    plate = wall.metal.heat_capacity_j_m3_k * wall.wall_m
    alpha_m2_s = wall.metal.diffusivity_m2_s
    reach = (distances_m**2 / (4.0 * alpha_m2_s))[:, np.newaxis]
    rises = np.zeros_like(times_s)
    for earlier in range(passes.count):
        since = np.maximum(times_s + earlier * passes.interval_s, _SOONEST_S)
        decay = reach / since + wall.loss_w_m2_k * since / plate
        rises += np.exp(-decay) / np.sqrt(4.0 * math.pi * alpha_m2_s * since)
    return np.asarray(passes.heat_input_j_m / plate * rises)


def safe_distance_m(limit_k: float, *, passes: Passes, wall: CooledWall) -> float:
    """Distance at which the passes heat the pipe to no more than a limit.

    T(x) = T_limit, by false position on ln(T - T0) against ln x

    Args:
        limit_k [K]: T_limit
        passes [record]: heat input, number and interval of the passes
        wall [record]: thickness, metal, ambient, loss; 0 for the bound without any
    Returns:
        [m] least distance from the weld
    Raises:
        OutOfRange: for a limit that is not above ambient, or a wall outside 0.1 to 200 mm
    Valid: the inverse of `peak_with_loss_k`; no margin is added.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> wall = CooledWall(
        ...     wall_m=0.0034, metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> round(1000 * safe_distance_m(373.15, passes=Passes(heat_input_j_m=616e3), wall=wall))
        86

    Reference: own definition on `peak_with_loss_k`.
    """
    bare_m = distance_for_peak_m(
        limit_k, heat_input_j_m=passes.heat_input_j_m, wall_m=wall.wall_m, metal=wall.metal,
        ambient_k=wall.ambient_k,
    )  # fmt: skip
    if passes.count == 1 and wall.loss_w_m2_k == 0.0:
        return bare_m

    # All passes at once and no loss are the worst.
    nearest_m, furthest_m = DISTANCE.low or 0.0, bare_m * passes.count
    if furthest_m <= nearest_m:
        return furthest_m

    def over(log_m: float) -> float:
        rise_k = float(_highest_rises_k(np.array([math.exp(log_m)]), passes, wall)[0])
        return math.log(max(rise_k, _NO_RISE_K) / (limit_k - wall.ambient_k))

    return math.exp(_crossing(over, low=math.log(nearest_m), high=math.log(furthest_m)))


def _crossing(falling: Callable[[float], float], *, low: float, high: float) -> float:
    """Where a falling function crosses nothing, where it is not above; Illinois' false position."""
    at_low, at_high = falling(low), falling(high)
    if at_low <= 0.0:
        return low
    was_above = None
    for _ in range(_ROUNDS):
        if high - low <= _NEAR or at_high == 0.0:
            break
        middle = high - at_high * (high - low) / (at_high - at_low)
        at_middle = falling(middle)
        is_above = at_middle > 0.0
        halved = 0.5 if is_above == was_above else 1.0  # the end that stays counts half, or it stays for ever
        if is_above:
            low, at_low, at_high = middle, at_middle, at_high * halved
        else:
            high, at_high, at_low = middle, at_middle, at_low * halved
        was_above = is_above
    return high
