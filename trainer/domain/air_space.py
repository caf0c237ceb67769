"""The space that gas escapes into, as far as a set-up tells it: shape, ventilation, where gas lies."""

import math
from dataclasses import dataclass

from trainer.core.breathing import Space
from trainer.core.gas import O2_IN_ROOM_AIR_FRAC
from trainer.core.pipe import bore_area_m2
from trainer.core.pipe_pool import PipeInside
from trainer.core.pool import PoolSide, layer_depth_m, pool_side_at
from trainer.core.terms import Fan
from trainer.domain.escaping_gas import gas_temperature_of
from trainer.domain.known_parts import gas_of, section_of, size_of, slope_of, temperature_of
from trainer.domain.set_up import Place, SetUp, Surroundings


@dataclass(frozen=True, kw_only=True)
class Shape:
    """What a layer lies in: a space with a floor of that area, or a pipe, whose floor is its lowest point."""

    floor_area_m2: float | None = None
    pipe: PipeInside | None = None

    def depth_m(self, gas_volume_m3: float, *, fresh_frac: float) -> float:
        """Depth of the gas when nothing stirs it, from the floor up or the ceiling down."""
        if self.pipe is not None:
            return self.pipe.depth_m(gas_volume_m3)
        return layer_depth_m(gas_volume_m3, floor_area_m2=self.floor_area_m2 or 0.0, fresh_o2_frac=fresh_frac)

    def height_m(self, volume_m3: float | None) -> float | None:
        """From floor to ceiling; None where the volume that stands on the floor is not known."""
        if self.pipe is not None:
            return self.pipe.height_m
        return volume_m3 / self.floor_area_m2 if volume_m3 is not None and self.floor_area_m2 else None


def shape_of(set_up: SetUp) -> Shape | None:
    """The shape of the surroundings; None where neither floor nor bore is known.

    Raises OutOfRange for a pipe too wide, too short or too long to be one.
    """
    around = set_up.surroundings
    if around is None:
        return None
    bore_and_length = pipe_around_of(set_up)
    if bore_and_length is not None:
        bore_m, length_m = bore_and_length
        return Shape(pipe=PipeInside(bore_m=bore_m, length_m=length_m, slope_deg=slope_of(set_up)))
    return None if around.floor_area_m2 is None else Shape(floor_area_m2=around.floor_area_m2)


def pipe_around_of(set_up: SetUp) -> tuple[float, float] | None:
    """Bore and length of the pipe that people are in; None where they are in none, or little is known of it.

    A pipe is as long as its volume makes it; of a pipe without a volume, the dammed section is meant. Its
    floor area is bore times length, and together with the volume it tells the bore of a pipe that is not the
    one of the joint.
    """
    around = set_up.surroundings
    if around is None or around.kind is not Place.PIPE:
        return None
    if around.floor_area_m2 is not None:
        if around.volume_m3 is None:
            return None
        bore_m = 4.0 * around.volume_m3 / (math.pi * around.floor_area_m2)
        return bore_m, around.floor_area_m2 / bore_m
    size = size_of(set_up.pipe)
    if size is None:
        return None
    if around.volume_m3 is not None:
        return size.bore_m, around.volume_m3 / bore_area_m2(size.bore_m)
    section = section_of(set_up)
    return None if section is None else (size.bore_m, section.length_m)


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
