"""Gas that escapes and does not mix: a layer on the floor or under the ceiling, worst in a still space."""

import math
from enum import StrEnum

from trainer.core.breathing import RELEASE, below_fresh
from trainer.core.errors import Limits
from trainer.core.gas import AIR, O2_IN_ROOM_AIR_FRAC, Gas
from trainer.core.pipe import segment_area_m2

# Less difference of density than this and a draught or a few kelvin undo the layering: nitrogen has 3 %.
_LAYERING_RATIO = 0.05
_AREA = Limits(quantity="floor area", unit="m2", low=1e-4, high=1e9, why="a pool needs a floor")
_DEPTH = Limits(quantity="depth of the layer", unit="m", low=0.0, why="a depth is not negative")
_TEMPERATURE = Limits(
    quantity="temperature", unit="K", low=70.0, high=400.0, why="from boiling nitrogen to hot gas"
)
_PIPE_LENGTH = Limits(
    quantity="length of the pool", unit="m", low=0.01, high=1e3, why="gas lies along a pipe"
)
_ROOM_K = 293.15
_BISECTIONS_COUNT = 60
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
    return pool_side_at(gas, gas_temperature_k=_ROOM_K, air_temperature_k=_ROOM_K)


def pool_side_at(gas: Gas, *, gas_temperature_k: float, air_temperature_k: float) -> PoolSide:
    """Where an unmixed gas of its own temperature gathers: boil-off is cold, and sinks whatever it is.

    |M T_air / (M_air T_gas) - 1| > 5 %

    Args:
        gas [record]: the gas
        gas_temperature_k [K]: its temperature as it escapes
        air_temperature_k [K]: that of the air around
    Returns:
        [text] floor, ceiling or nowhere
    Raises:
        OutOfRange: for a temperature below 70 or above 400 K
    Valid: near the release; gas that has warmed up again goes by `pool_side`.

    Example:
        >>> from trainer.core.gas import gas
        >>> pool_side_at(gas("N1"), gas_temperature_k=80.0, air_temperature_k=293.15).value
        'floor'

    Reference: ideal gas densities; the 5 % from common practice, 10 K of difference being 3 %.
    """
    _TEMPERATURE.check(gas_temperature_k)
    _TEMPERATURE.check(air_temperature_k)
    mass_ratio = gas.molar_mass_kg_mol / AIR.molar_mass_kg_mol
    excess_ratio = mass_ratio * air_temperature_k / gas_temperature_k - 1.0
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
    depth_m = layer_depth_m(
        gas_volume_m3, floor_area_m2=floor_area_m2, layer_o2_frac=layer_o2_frac, fresh_o2_frac=fresh_o2_frac
    )
    return None if pool_side(gas) is PoolSide.NOWHERE else depth_m


def layer_depth_m(
    gas_volume_m3: float,
    *,
    floor_area_m2: float,
    layer_o2_frac: float = 0.0,
    fresh_o2_frac: float = O2_IN_ROOM_AIR_FRAC,
) -> float:
    """Depth of a layer of gas that is known to layer, whatever it is.

    h = V_gas / (A (1 - y_layer / y0))

    Args:
        gas_volume_m3 [m3]: gas that escaped
        floor_area_m2 [m2]: A
        layer_o2_frac [-]: y_layer, oxygen in the layer; 0 for pure gas
        fresh_o2_frac [-]: y0
    Returns:
        [m] depth
    Raises:
        OutOfRange: for a layer with as much oxygen as fresh air
    Valid: walls on all sides.

    Example:
        >>> round(layer_depth_m(0.6, floor_area_m2=2.7), 3)
        0.222

    Reference: mass balance; no published worked example.
    """
    _GAS_VOLUME.check(gas_volume_m3)
    return gas_volume_m3 / _gas_area_m2(floor_area_m2, layer_o2_frac, fresh_o2_frac)


def pipe_pool_depth_m(gas_volume_m3: float, *, bore_m: float, length_m: float) -> float:
    """Depth of the gas that lies along the bottom of a level pipe or vessel, or under its crown.

    segment area(h) = V_gas / L

    Args:
        gas_volume_m3 [m3]: gas that lies there; what the pipe cannot hold runs out of it
        bore_m [m]: inside diameter
        length_m [m]: L, the length that the gas lies along, between ends that hold it
    Returns:
        [m] depth, at most the bore
    Raises:
        OutOfRange: for a negative volume or a length outside 0.01 to 1000 m
    Valid: gas that layers, in a pipe left to itself; it stays there for hours until it is blown out.

    Example:
        >>> round(pipe_pool_depth_m(0.5, bore_m=0.6, length_m=6.0), 3)
        0.201

    Reference: circular segment; mass balance.
    """
    _GAS_VOLUME.check(gas_volume_m3)
    _PIPE_LENGTH.check(length_m)
    area_m2 = gas_volume_m3 / length_m
    if area_m2 >= segment_area_m2(bore_m, height_m=bore_m):
        return bore_m
    low_m, high_m = 0.0, bore_m
    for _ in range(_BISECTIONS_COUNT):
        middle_m = 0.5 * (low_m + high_m)
        filled = segment_area_m2(bore_m, height_m=middle_m) >= area_m2
        low_m, high_m = (low_m, middle_m) if filled else (middle_m, high_m)
    return 0.5 * (low_m + high_m)


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
