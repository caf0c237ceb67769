"""The space that gas escapes into, as far as a set-up tells it: shape, ventilation, where gas lies."""

import math
from dataclasses import dataclass

from trainer.core.breathing import Space
from trainer.core.gas import O2_IN_ROOM_AIR_FRAC
from trainer.core.pipe import bore_area_m2
from trainer.core.pool import PoolSide, layer_depth_m, pipe_pool_depth_m, pool_side_at
from trainer.core.terms import Fan
from trainer.domain.escaping_gas import gas_temperature_of
from trainer.domain.known_parts import gas_of, section_of, size_of, slope_of, temperature_of
from trainer.domain.set_up import Place, SetUp, Surroundings

_UPRIGHT_DEG = 90.0


@dataclass(frozen=True, kw_only=True)
class Shape:
    """What a layer lies on: a floor of that area, or a pipe that lies level, by bore and length."""

    floor_area_m2: float | None = None
    bore_m: float | None = None
    length_m: float = 0.0

    def depth_m(self, gas_volume_m3: float, *, fresh_frac: float) -> float:
        """Depth of the gas when nothing stirs it, from the floor up or the ceiling down."""
        if self.bore_m is not None:
            return pipe_pool_depth_m(gas_volume_m3, bore_m=self.bore_m, length_m=self.length_m)
        return layer_depth_m(gas_volume_m3, floor_area_m2=self.floor_area_m2 or 0.0, fresh_o2_frac=fresh_frac)

    def height_m(self, volume_m3: float | None) -> float | None:
        """From floor to ceiling; None where the volume that stands on the floor is not known."""
        if self.bore_m is not None:
            return self.bore_m
        return volume_m3 / self.floor_area_m2 if volume_m3 is not None and self.floor_area_m2 else None


def shape_of(set_up: SetUp) -> Shape | None:
    """The shape of the surroundings; None where floor and bore are not known, or the pipe is aslant.

    A pipe is as long as its volume makes it; of a pipe without a volume, the dammed section is meant. Its
    floor area is bore times length, and together with the volume it tells the bore of a pipe that is not the
    one of the joint. An upright one has its bore for a floor.
    """
    around = set_up.surroundings
    if around is None or around.kind is not Place.PIPE:
        area_m2 = around.floor_area_m2 if around is not None else None
        return None if area_m2 is None else Shape(floor_area_m2=area_m2)
    return _pipe_shape_of(set_up, around)


def _pipe_shape_of(set_up: SetUp, around: Surroundings) -> Shape | None:
    slope_deg = slope_of(set_up)
    if around.floor_area_m2 is not None and (slope_deg != 0.0 or around.volume_m3 is None):
        return Shape(floor_area_m2=around.floor_area_m2)
    if around.floor_area_m2 is not None and around.volume_m3 is not None:
        bore_m = 4.0 * around.volume_m3 / (math.pi * around.floor_area_m2)
        return Shape(bore_m=bore_m, length_m=around.floor_area_m2 / bore_m)
    size, section = size_of(set_up.pipe), section_of(set_up)
    if size is None:
        return None
    if slope_deg != 0.0:
        upright = abs(slope_deg) == _UPRIGHT_DEG
        return Shape(floor_area_m2=bore_area_m2(size.bore_m)) if upright else None
    if around.volume_m3 is not None:
        return Shape(bore_m=size.bore_m, length_m=around.volume_m3 / bore_area_m2(size.bore_m))
    return None if section is None else Shape(bore_m=size.bore_m, length_m=section.length_m)


def fresh_oxygen_of(around: Surroundings) -> float:
    """Oxygen of the air that comes in, 20.9 % when left out."""
    return O2_IN_ROOM_AIR_FRAC if around.fresh_oxygen_frac is None else around.fresh_oxygen_frac


def fan_of(around: Surroundings) -> Fan | None:
    """Which way the fan blows; one whose air changes by draught has none, nor has a pipe between its dams."""
    is_section = around.kind is Place.PIPE and around.volume_m3 is None
    if around.fan is None and (is_section or around.air_changes_per_h is not None):
        return Fan.NONE
    return around.fan


def space_of(set_up: SetUp, *, release_m3_s: float) -> Space | None:
    """The space with so much gas escaping into it; None where volume or ventilation is not known."""
    around = set_up.surroundings
    fan = fan_of(around) if around is not None else None
    if around is None or around.volume_m3 is None or fan is None:
        return None
    if fan is not Fan.NONE and around.fan_flow_m3_s is None:
        return None
    return Space(
        volume_m3=around.volume_m3,
        release_m3_s=release_m3_s,
        fan=fan,
        fan_flow_m3_s=around.fan_flow_m3_s or 0.0,
        draught_m3_s=around.volume_m3 * (around.air_changes_per_h or 0.0) / 3600.0,
        fresh_o2_frac=fresh_oxygen_of(around),
    )


def pool_side_of(set_up: SetUp) -> PoolSide | None:
    """Where the gas gathers when nothing stirs it; None where the gas is not known."""
    used = gas_of(set_up)
    if used is None:
        return None
    return pool_side_at(
        used, gas_temperature_k=gas_temperature_of(set_up), air_temperature_k=temperature_of(set_up)
    )


def may_gather(set_up: SetUp) -> bool:
    """Whether a layer may stay: a fan stirs it up, and in the open it runs off. A draught is no fan."""
    around = set_up.surroundings
    return around is not None and fan_of(around) is Fan.NONE and around.kind is not Place.OPEN_AIR
