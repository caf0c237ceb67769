"""Gas that escapes and does not mix: a layer on the floor or under the ceiling, worst in a still space."""

import math
from enum import StrEnum

from trainer.core.breathing import RELEASE, below_fresh
from trainer.core.errors import Limits
from trainer.core.gas import AIR, O2_IN_ROOM_AIR_FRAC, Gas

# Less difference of density than this and a draught or a few kelvin undo the layering: nitrogen has 3 %.
_LAYERING_RATIO = 0.05
_AREA = Limits(quantity="floor area", unit="m2", low=1e-4, high=1e9, why="a pool needs a floor")
_DEPTH = Limits(quantity="depth of the layer", unit="m", low=0.0, why="a depth is not negative")
_GAS_VOLUME = Limits(quantity="gas volume", unit="m3", low=0.0, why="a volume is not negative")


class PoolSide(StrEnum):
    """Where unmixed gas gathers."""

    FLOOR = "floor"
    CEILING = "ceiling"
    NOWHERE = "nowhere"


def pool_side(gas: Gas) -> PoolSide:
    """Where an unmixed gas gathers: argon on the floor, helium under the ceiling, nitrogen nowhere.

    |M - M_air| / M_air > 5 %

    Args:
        gas [record]: the gas
    Returns:
        [text] floor, ceiling or nowhere
    Valid: gas at the air's temperature; cold gas from liquid sinks whatever it is.

    Example:
        >>> from trainer.core.gas import gas
        >>> pool_side(gas("I1")).value, pool_side(gas("N1")).value
        ('floor', 'nowhere')

    Reference: ideal gas densities; the 5 % from common practice, 10 K of difference being 3 %.
    """
    excess_ratio = gas.molar_mass_kg_mol / AIR.molar_mass_kg_mol - 1.0
    if abs(excess_ratio) <= _LAYERING_RATIO:
        return PoolSide.NOWHERE
    return PoolSide.FLOOR if excess_ratio > 0.0 else PoolSide.CEILING


def pool_depth_m(
    gas_volume_m3: float,
    *,
    gas: Gas,
    floor_area_m2: float,
    layer_o2_frac: float = 0.0,
    fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC,
) -> float | None:
    """Depth of the layer that escaped gas makes when nothing stirs it, from the floor up or the ceiling down.

    h = V_gas / (A (1 - y_layer / y0))

    Args:
        gas_volume_m3 [m3]: gas that escaped, release times time
        gas [record]: the gas
        floor_area_m2 [m2]: A
        layer_o2_frac [-]: y_layer, oxygen in the layer; 0 for pure gas
        fresh_o2_frac [-]: y0
    Returns:
        [m] depth; None for a gas that does not layer
    Raises:
        OutOfRange: for a layer with as much oxygen as fresh air
    Valid: the worst case for a face at the height of the layer; walls on all sides.

    Example:
        >>> from trainer.core.gas import gas
        >>> round(pool_depth_m(0.6, gas=gas("I1"), floor_area_m2=2.7), 3)
        0.222

    Reference: mass balance; no published worked example.
    """
    _GAS_VOLUME.check(gas_volume_m3)
    area_m2 = _gas_area_m2(floor_area_m2, layer_o2_frac, fresh_o2_frac)
    return None if pool_side(gas) is PoolSide.NOWHERE else gas_volume_m3 / area_m2


def pool_time_s(
    depth_m: float,
    *,
    release_m3_s: float,
    floor_area_m2: float,
    layer_o2_frac: float = 0.0,
    fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC,
) -> float:
    """Time until a layer of unmixed gas is as deep as a face is high.

    t = h A (1 - y_layer / y0) / R

    Args:
        depth_m [m]: h
        release_m3_s [m3/s]: R of a gas that layers
        floor_area_m2 [m2]: A
        layer_o2_frac [-]: y_layer, oxygen in the layer; 0 for pure gas
        fresh_o2_frac [-]: y0
    Returns:
        [s] time, infinite without a release
    Raises:
        OutOfRange: for a negative depth, or a layer with as much oxygen as fresh air
    Valid: the inverse of `pool_depth_m`.

    Example:
        >>> round(pool_time_s(0.5, release_m3_s=20 / 60000, floor_area_m2=2.7) / 60, 1)
        67.5

    Reference: mass balance; no published worked example.
    """
    _DEPTH.check(depth_m)
    RELEASE.check(release_m3_s)
    area_m2 = _gas_area_m2(floor_area_m2, layer_o2_frac, fresh_o2_frac)
    return depth_m * area_m2 / release_m3_s if release_m3_s > 0.0 else math.inf


def _gas_area_m2(floor_area_m2: float, layer_o2_frac: float, fresh_o2_frac: float) -> float:
    _AREA.check(floor_area_m2)
    below_fresh(fresh_o2_frac).check(layer_o2_frac)
    return floor_area_m2 * (1.0 - layer_o2_frac / fresh_o2_frac)
