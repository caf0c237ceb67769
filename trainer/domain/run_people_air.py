"""What each person breathes at the height of the face, and how long a blower takes to clear the place.

Figures to decide that nobody goes in; never for how long somebody may stay, and never instead of a meter.
"""

from dataclasses import dataclass, replace

from trainer.core.breathing import Space
from trainer.core.face_height import Place as FacePlace
from trainer.core.face_height import air_at_face, rescue_times, time_to_danger_s
from trainer.core.pool import PoolSide
from trainer.core.release import oxygen_effect, oxygen_effect_source
from trainer.domain.air_space import Shape, may_gather, pool_side_of
from trainer.domain.around_results import PersonResult
from trainer.domain.escaping_gas import gas_temperature_of
from trainer.domain.known_parts import gas_of, temperature_of
from trainer.domain.quantities import NEVER, Never
from trainer.domain.set_up import Bystander, SetUp

LEAST_TO_BREATHE_FRAC = 0.195  # 29 CFR 1910.146(b)


@dataclass(frozen=True, kw_only=True)
class Air:
    """The air of the surroundings as far as it is known: the mixed space and the layer in it."""

    fresh_frac: float
    space: Space | None
    shape: Shape | None
    after_s: float | None
    layer_depth_m: float | None


def people_here(set_up: SetUp) -> tuple[Bystander, ...]:
    """Those who are in the surroundings; all of them where it is not said what these are."""
    place = set_up.surroundings.kind if set_up.surroundings else None
    people = set_up.scene.people if set_up.scene else ()
    return tuple(each for each in people if each.where is place or place is None)


def people_results(set_up: SetUp, *, air: Air) -> tuple[PersonResult, ...]:
    """One result a person, in the order of the set-up; figures of those who are in the surroundings."""
    people = set_up.scene.people if set_up.scene else ()
    here = people_here(set_up)
    return tuple(_person(each, set_up, air) if each in here else _told(each) for each in people)


def _told(person: Bystander) -> PersonResult:
    return PersonResult(
        where=None if person.where is None else str(person.where), face_height_m=person.face_height_m
    )


def _person(person: Bystander, set_up: SetUp, air: Air) -> PersonResult:
    place = _place_of(person, set_up, air)
    if place is None:
        return _in_layer_alone(person, set_up, air)
    known = replace(
        _told(person),
        time_to_19_5_s=_time_to(place, LEAST_TO_BREATHE_FRAC),
        time_to_10_s=_time_to(place, 0.10),
        time_to_6_s=_time_to(place, 0.06),
    )
    if air.after_s is None:
        return known
    at_face = air_at_face(place, time_s=air.after_s)
    return _breathing(known, at_face.worst_o2_frac, in_layer=at_face.layer_covers_face)


def _breathing(person: PersonResult, oxygen_frac: float, *, in_layer: bool) -> PersonResult:
    effect = oxygen_effect(oxygen_frac)
    return replace(
        person,
        oxygen_frac=oxygen_frac,
        in_layer=in_layer,
        effect=str(effect),
        effect_source=oxygen_effect_source(effect),
    )


def _in_layer_alone(person: Bystander, set_up: SetUp, air: Air) -> PersonResult:
    """Where the space is not known, the depth of the layer still tells whether the face is in it."""
    told, depth_m = _told(person), air.layer_depth_m
    reach_m = face_to_layer_m(person, set_up, shape=air.shape)
    if depth_m is None or reach_m is None or not may_gather(set_up):
        return told
    if depth_m > 0.0 and depth_m >= reach_m:
        return _breathing(told, 0.0, in_layer=True)
    return replace(told, in_layer=False)


def face_to_layer_m(person: Bystander, set_up: SetUp, *, shape: Shape | None) -> float | None:
    """How deep the layer has to be to reach a face; None where it is not known or the gas does not layer."""
    side, face_m = pool_side_of(set_up), person.face_height_m
    if face_m is None or side is None or side is PoolSide.NOWHERE:
        return None
    if side is PoolSide.FLOOR:
        return face_m
    volume_m3 = set_up.surroundings.volume_m3 if set_up.surroundings else None
    height_m = shape.height_m(volume_m3) if shape is not None else None
    return None if height_m is None else height_m - face_m


def _place_of(person: Bystander, set_up: SetUp, air: Air) -> FacePlace | None:
    """The person's place in the core's terms; None where the space, or the layer in it, is unknown."""
    used, face_m, shape = gas_of(set_up), person.face_height_m, air.shape
    if used is None or face_m is None or air.space is None:
        return None
    gathers = may_gather(set_up)
    if not gathers or pool_side_of(set_up) is PoolSide.NOWHERE:
        return FacePlace(space=air.space, gas=used, face_height_m=face_m)
    height_m = shape.height_m(air.space.volume_m3) if shape is not None else None
    if shape is None or height_m is None:
        return None
    return FacePlace(
        space=air.space,
        gas=used,
        face_height_m=min(face_m, height_m),  # the faults let rounding pass, and no more
        floor_area_m2=shape.floor_area_m2,
        pipe=shape.pipe,
        gas_temperature_k=gas_temperature_of(set_up),
        air_temperature_k=temperature_of(set_up),
    )


def _time_to(place: FacePlace, level_frac: float) -> float | Never:
    if level_frac >= place.space.fresh_o2_frac:
        return 0.0  # the air that comes in has no more to start with
    time_s = time_to_danger_s(place, o2_frac=level_frac)
    return NEVER if time_s is None else time_s


def ventilated_s(set_up: SetUp, *, air: Air) -> float | Never | None:
    """How long the blower takes, once the gas is shut off, to bring the place back to 19.5 %.

    From the worst air that a face there is in, or from the mixed air where nobody is there.
    """
    blower_m3_s = set_up.surroundings.blower_m3_s if set_up.surroundings else None
    used = gas_of(set_up)
    if blower_m3_s is None or air.space is None or air.after_s is None or used is None:
        return None
    mixed = FacePlace(space=air.space, gas=used, face_height_m=0.0)
    here = (_place_of(each, set_up, air) for each in people_here(set_up))
    places = [mixed, *(each for each in here if each is not None)]
    after_s = air.after_s
    worst = min(places, key=lambda each: air_at_face(each, time_s=after_s).worst_o2_frac)
    if air.fresh_frac < LEAST_TO_BREATHE_FRAC:
        return NEVER
    times = rescue_times(worst, found_after_s=after_s, blower_m3_s=blower_m3_s)
    return NEVER if times.ventilated_s is None else times.ventilated_s
