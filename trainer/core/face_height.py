"""What a person breathes where gas escapes: mixed or layered, whichever is worse at the height of the face.

Sums replace no meter, permit or watch, and promise nobody any minutes. Nobody goes in to fetch anybody out.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from trainer.core.breathing import Space, below_fresh, oxygen_mixed_frac, time_to_frac_s
from trainer.core.errors import Limits
from trainer.core.gas import Gas
from trainer.core.pipe_pool import PipeInside
from trainer.core.pool import PoolSide, layer_depth_m, pool_side_at
from trainer.core.terms import Fan

_TIME = Limits(quantity="time", unit="s", low=0.0, why="count from the start of the release")


@dataclass(frozen=True, kw_only=True)
class Place:
    """A person in a space that gas escapes into; the face's height counts from the space's own floor.

    The layer lies on the floor area, or in a pipe, whose floor is its lowest point; without either, the space
    is only mixed. `gas_temperature_k` is that of the gas as it escapes: boil-off is cold, and cold gas sinks.
    """

    space: Space
    gas: Gas
    face_height_m: float
    floor_area_m2: float | None = None
    pipe: PipeInside | None = None
    gas_temperature_k: float = 293.15
    air_temperature_k: float = 293.15

    def __post_init__(self) -> None:
        why = "the face is inside the space, between floor and ceiling"
        high = self.height_m if math.isfinite(self.height_m) else None
        Limits(quantity="height of the face", unit="m", low=0.0, high=high, why=why).check(self.face_height_m)

    @property
    def height_m(self) -> float:
        """Height of the space.

        Returns:
            [m] that of the pipe, or volume over floor area; infinite where neither is known
        """
        if self.pipe is not None:
            return self.pipe.height_m
        if self.floor_area_m2 is None:
            return math.inf
        Limits(quantity="floor area", unit="m2", low=1e-4, high=1e9, why="a pool needs a floor").check(
            self.floor_area_m2
        )
        return self.space.volume_m3 / self.floor_area_m2

    @property
    def side(self) -> PoolSide:
        """Where unmixed gas gathers; a fan stirs, and then it gathers nowhere, and a draught does not.

        Returns:
            [text] floor, ceiling or nowhere
        """
        if self.space.fan is not Fan.NONE or not math.isfinite(self.height_m):
            return PoolSide.NOWHERE
        return pool_side_at(
            self.gas, gas_temperature_k=self.gas_temperature_k, air_temperature_k=self.air_temperature_k
        )

    @property
    def layer_to_face_m(self) -> float:
        """How deep the layer has to be to reach the face.

        Returns:
            [m] from the floor up, or from the ceiling down; infinite where nothing layers
        """
        depths = {PoolSide.FLOOR: self.face_height_m, PoolSide.CEILING: self.height_m - self.face_height_m}
        return depths.get(self.side, math.inf)

    def depth_m(self, layer_volume_m3: float) -> float:
        """Depth of a layer, no more than the space is high; of a space whose floor or pipe is known.

        Args:
            layer_volume_m3 [m3]: gas and the air in its layer
        Returns:
            [m] depth
        """
        if self.pipe is not None:
            return self.pipe.depth_m(layer_volume_m3)
        floor_m2 = self.space.volume_m3 / self.height_m
        # What comes after the layer has reached the other side pushes the last air out.
        return min(layer_depth_m(layer_volume_m3, floor_area_m2=floor_m2), self.height_m)

    def volume_to_face_m3(self) -> float:
        """How much the layer holds when it reaches the face.

        Returns:
            [m3] volume; infinite where nothing layers
        """
        if not math.isfinite(self.layer_to_face_m):
            return math.inf
        if self.pipe is not None:
            return self.pipe.volume_below_m3(self.layer_to_face_m)
        return self.layer_to_face_m * self.space.volume_m3 / self.height_m


@dataclass(frozen=True, kw_only=True)
class AirAtFace:
    """Oxygen at a face: what mixing gives, whether the layer has come up to it, and the worse of both."""

    mixed_o2_frac: float
    layer_depth_m: float | None
    layer_covers_face: bool
    worst_o2_frac: float


def air_at_face(place: Place, *, time_s: float, layer_o2_frac: float = 0.0) -> AirAtFace:
    """Oxygen at the height of a face some time after a release began, the worse of mixed and layered.

    y = min(y_mixed, y_layer where the layer, R t / (1 - y_layer / y0) of gas and air, reaches the face)

    Args:
        place [record]: space, gas, floor and face
        time_s [s]: t
        layer_o2_frac [-]: y_layer; 0 for pure gas
    Returns:
        [record] mixed and layered oxygen, and the worse
    Raises:
        OutOfRange: for a negative time, or a layer with as much oxygen as fresh air
    Valid: still air for the layer, perfect mixing for the other; the truth lies between and moves.

    Example:
        >>> from trainer.core.gas import gas
        >>> pit = Space(volume_m3=12.0, release_m3_s=15 / 60000)
        >>> lying = Place(space=pit, gas=gas("I1"), floor_area_m2=6.0, face_height_m=0.2)
        >>> air = air_at_face(lying, time_s=5400.0)
        >>> round(air.mixed_o2_frac, 3), air.layer_covers_face, air.worst_o2_frac
        (0.187, True, 0.0)

    Reference: Fermilab ES&H Manual, chapter 4240, case C; mass balance for the layer.
    """
    _TIME.check(time_s)
    mixed = oxygen_mixed_frac(place.space, time_s=time_s)
    if place.side is PoolSide.NOWHERE:
        return AirAtFace(
            mixed_o2_frac=mixed, layer_depth_m=None, layer_covers_face=False, worst_o2_frac=mixed
        )
    below_fresh(place.space.fresh_o2_frac).check(layer_o2_frac)
    gas_share = 1.0 - layer_o2_frac / place.space.fresh_o2_frac
    depth_m = place.depth_m(place.space.release_m3_s * time_s / gas_share)
    covers = depth_m > 0.0 and depth_m >= place.layer_to_face_m
    return AirAtFace(
        mixed_o2_frac=mixed,
        layer_depth_m=depth_m,
        layer_covers_face=covers,
        worst_o2_frac=min(mixed, layer_o2_frac) if covers else mixed,
    )


def time_to_danger_s(place: Place, *, o2_frac: float) -> float | None:
    """The first time at which a face is in less oxygen than a level, mixed or in a layer of pure gas.

    min(time to the level mixed, V_layer / R for the layer to reach the face)

    Args:
        place [record]: space, gas, floor and face
        o2_frac [-]: the level
    Returns:
        [s] time from the start of the release; None when neither ever happens
    Raises:
        OutOfRange: for a level above fresh air
    Valid: as `air_at_face`; for deciding that nobody goes in, never for how long somebody may.

    Example:
        >>> from trainer.core.gas import gas
        >>> pit = Space(volume_m3=12.0, release_m3_s=15 / 60000)
        >>> lying = Place(space=pit, gas=gas("I1"), floor_area_m2=6.0, face_height_m=0.2)
        >>> round(time_to_danger_s(lying, o2_frac=0.16) / 60)
        80

    Reference: Fermilab ES&H Manual, chapter 4240, case C; mass balance for the layer.
    """
    mixed_s = time_to_frac_s(place.space, o2_frac=o2_frac)
    known = [] if mixed_s is None else [mixed_s]
    if place.side is not PoolSide.NOWHERE and place.space.release_m3_s > 0.0:
        known.append(place.volume_to_face_m3() / place.space.release_m3_s)
    return min(known, default=None)


@dataclass(frozen=True, kw_only=True)
class RescueTimes:
    """Times that decide a rescue: from the start of the release to each level, and to fresh air by a fan.

    None stands for never. `by_level_s` is by level of oxygen; `ventilated_s` counts from the gas shut off.
    """

    by_level_s: Mapping[float, float | None]
    ventilated_s: float | None


RESCUE_LEVELS_FRAC = (0.195, 0.18, 0.16, 0.10, 0.06)


def rescue_times(
    place: Place, *, found_after_s: float, blower_m3_s: float, safe_o2_frac: float = 0.195
) -> RescueTimes:
    """Times to each level of oxygen at a face, and how long a blower takes to make the space fit to test.

    t_ventilated = (V / Q) ln((y0 - y) / (y0 - y_safe)), from the worst that the face is in when found

    Args:
        place [record]: space, gas, floor and face
        found_after_s [s]: when the person is found, counted from the start of the release
        blower_m3_s [m3/s]: Q, fresh air blown in once the gas is shut off
        safe_o2_frac [-]: y_safe
    Returns:
        [record] the times
    Raises:
        OutOfRange: for a negative time or blower
    Valid: mixed by the blower; a dead leg is not. Entry stays for a trained team with its own air.

    Example:
        >>> from trainer.core.gas import gas
        >>> pit = Space(volume_m3=12.0, release_m3_s=15 / 60000)
        >>> lying = Place(space=pit, gas=gas("I1"), floor_area_m2=6.0, face_height_m=0.2)
        >>> times = rescue_times(lying, found_after_s=5400.0, blower_m3_s=20 / 60)
        >>> round(times.by_level_s[0.06] / 60), round(times.ventilated_s / 60, 1)
        (80, 1.6)

    Reference: Fermilab ES&H Manual, chapter 4240, cases C and D; 29 CFR 1910.146(b) for 19.5 %.
    """
    worst = air_at_face(place, time_s=found_after_s).worst_o2_frac
    cleared = Space(
        volume_m3=place.space.volume_m3,
        release_m3_s=0.0,
        fan=Fan.BLOWS_IN,
        fan_flow_m3_s=blower_m3_s,
        fresh_o2_frac=place.space.fresh_o2_frac,
    )
    ventilated_s = (
        0.0 if worst >= safe_o2_frac else time_to_frac_s(cleared, o2_frac=safe_o2_frac, start_o2_frac=worst)
    )
    by_level_s = {
        level: time_to_danger_s(place, o2_frac=level)
        for level in RESCUE_LEVELS_FRAC
        if level < place.space.fresh_o2_frac
    }
    return RescueTimes(by_level_s=by_level_s, ventilated_s=ventilated_s)
