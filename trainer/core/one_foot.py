"""Where "keep the dam about one foot away" holds, and where it stops holding: curves and maps to plot.

The rule of the trade is 12 in, about 300 mm. It says nothing of heat input, wall and material, which decide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from trainer.core.column import Floats
from trainer.core.dam_heat import DISTANCE, HEAT_INPUT, WALL, Metal, distance_for_peak_m
from trainer.core.errors import Limits
from trainer.core.pass_heat import CooledWall, Passes, peaks_with_loss_k, safe_distance_m

ONE_FOOT_M = 0.3
_LIMIT = Limits(quantity="rise above ambient", unit="K", low=0.1, why="the limit is above ambient")


@dataclass(frozen=True, kw_only=True)
class PeakCurves:
    """Peak temperatures along the pipe: a row for each number of passes from 1, a column for each distance.

    Args:
        distances_m [m]: from the weld
        without_loss_k [K]: upper bounds, as if the pipe lost no heat
        with_loss_k [K]: with the wall's loss to the air

    Reference: own definition.
    """

    distances_m: Floats
    without_loss_k: Floats
    with_loss_k: Floats


def peak_curves(distances_m: Floats, *, passes: Passes, wall: CooledWall) -> PeakCurves:
    """Peak temperatures against the distance from the weld after 1, 2 ... n passes.

    as `peak_with_loss_k`, with the loss of the wall and with none

    Args:
        distances_m [m]: from the weld
        passes [record]: heat input, the largest number of passes n, and their interval
        wall [record]: thickness, metal, ambient and loss
    Returns:
        [record] the curves
    Raises:
        OutOfRange: on the weld itself or for a wall outside 0.1 to 200 mm
    Valid: thin wall, each pass at once all round; a root blow-through or spatter is not in it.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> wall = CooledWall(
        ...     wall_m=0.0034, metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> passes = Passes(heat_input_j_m=616e3, count=3)
        >>> curves = peak_curves(np.array([0.1, 0.3]), passes=passes, wall=wall)
        >>> (curves.with_loss_k - 273.15).round().tolist()
        [[81.0, 22.0], [127.0, 24.0], [158.0, 26.0]]

    Reference: Carslaw and Jaeger, Conduction of Heat in Solids, sections 4.2 and 10.3, superposed.
    """
    some = [replace(passes, count=count) for count in range(1, passes.count + 1)]
    bare = replace(wall, loss_w_m2_k=0.0)
    return PeakCurves(
        distances_m=distances_m,
        without_loss_k=np.array([peaks_with_loss_k(distances_m, passes=each, wall=bare) for each in some]),
        with_loss_k=np.array([peaks_with_loss_k(distances_m, passes=each, wall=wall) for each in some]),
    )


def distances_to_limit_m(
    limit_k: float, *, heat_inputs_j_m: Floats, walls_m: Floats, metal: Metal, ambient_k: float
) -> Floats:
    """Distances at which one pass without loss meets a material's limit, over heat inputs and walls.

    x = H / (rho c t (T - T0) sqrt(2 pi e))

    Args:
        limit_k [K]: T, such as `dam_limit_k` or `material_limit_k` gives
        heat_inputs_j_m [J/m]: H, one for each column
        walls_m [m]: t, one for each row
        metal [record]: rho c
        ambient_k [K]: T0
    Returns:
        [m] least distances from the weld, one row for each wall
    Raises:
        OutOfRange: for a limit that is not above ambient
    Valid: an upper bound for one pass; "about one foot" holds where it is no more than 0.3 m.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> steel = metal(MaterialGroup.AUSTENITIC_STAINLESS)
        >>> found = distances_to_limit_m(373.15, heat_inputs_j_m=np.array([616e3, 1500e3]),
        ...                              walls_m=np.array([0.0034, 0.011]), metal=steel, ambient_k=293.15)
        >>> (1000 * found).round().tolist()
        [[139.0, 338.0], [43.0, 104.0]]

    Reference: Adams's peak temperature equation (AWS Welding Handbook).
    """
    for heat_input in heat_inputs_j_m.tolist():
        HEAT_INPUT.check(heat_input)
    for wall in walls_m.tolist():
        WALL.check(wall)
    one_m = distance_for_peak_m(limit_k, heat_input_j_m=1.0, wall_m=0.01, metal=metal, ambient_k=ambient_k)
    return np.asarray(one_m * 0.01 * heat_inputs_j_m / walls_m[:, np.newaxis])


def distances_to_limit_after_passes_m(limit_k: float, *, passes: Passes, wall: CooledWall) -> Floats:
    """Distances at which 1, 2 ... n passes meet a material's limit, without loss and with it.

    as `safe_distance_m`

    Args:
        limit_k [K]: of the material
        passes [record]: heat input, the largest number of passes n, and their interval
        wall [record]: thickness, metal, ambient and loss
    Returns:
        [m] least distances from the weld: two rows, without loss and with it; one column a number of passes
    Raises:
        OutOfRange: for a limit that is not above ambient
    Valid: as `peak_with_loss_k`.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> wall = CooledWall(
        ...     wall_m=0.0034, metal=metal(MaterialGroup.AUSTENITIC_STAINLESS), ambient_k=293.15)
        >>> found = distances_to_limit_after_passes_m(
        ...     373.15, passes=Passes(heat_input_j_m=616e3, count=2), wall=wall)
        >>> bool((found[1] < found[0]).all())
        True

    Reference: own definition on `peak_with_loss_k`.
    """
    some = [replace(passes, count=count) for count in range(1, passes.count + 1)]
    bare = replace(wall, loss_w_m2_k=0.0)
    return np.array(
        [[safe_distance_m(limit_k, passes=each, wall=one) for each in some] for one in (bare, wall)]
    )


def largest_heat_input_j_m(
    distance_m: float, *, limit_k: float, wall_m: float, metal: Metal, ambient_k: float
) -> float:
    """Heat input up to which a distance is far enough for one pass: the line where "about one foot" ends.

    H = rho c t x (T - T0) sqrt(2 pi e)

    Args:
        distance_m [m]: x, such as `ONE_FOOT_M`
        limit_k [K]: T of the material
        wall_m [m]: t
        metal [record]: rho c
        ambient_k [K]: T0
    Returns:
        [J/m] heat input
    Raises:
        OutOfRange: on the weld itself, or for a limit that is not above ambient
    Valid: one pass without loss, on the safe side; the inverse of `peak_temperature_k`.

    Example:
        >>> from trainer.core.dam_heat import metal
        >>> from trainer.core.terms import MaterialGroup
        >>> steel = metal(MaterialGroup.AUSTENITIC_STAINLESS)
        >>> round(largest_heat_input_j_m(
        ...     ONE_FOOT_M, limit_k=373.15, wall_m=0.0034, metal=steel, ambient_k=293.15) / 1000.0)
        1332

    Reference: Adams's peak temperature equation (AWS Welding Handbook).
    """
    DISTANCE.check(distance_m)
    WALL.check(wall_m)
    _LIMIT.check(limit_k - ambient_k)
    root = math.sqrt(2.0 * math.pi * math.e)
    return metal.heat_capacity_j_m3_k * wall_m * distance_m * (limit_k - ambient_k) * root
