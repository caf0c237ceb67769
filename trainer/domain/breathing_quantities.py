"""Quantities of thresholds about people and the air they breathe."""

from collections.abc import Mapping

from trainer.core.gas import sinks_in_air
from trainer.core.terms import Fan
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import place_facts
from trainer.domain.known_parts import gas_of
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import Bystander, Place

_CLOSED_PLACES = (Place.PIT, Place.TRENCH, Place.VESSEL, Place.PIPE, Place.VAN)


def _lowest_face(judged: Judged) -> Bystander | None:
    scene, around = judged.set_up.scene, judged.set_up.surroundings
    place = around.kind if around else None
    here = [each for each in (scene.people if scene else ()) if each.where is place or place is None]
    faces = [each for each in here if each.face_height_m is not None]
    return min(faces, key=lambda each: each.face_height_m or 0.0) if faces else None


def _face_above_pool_m(judged: Judged) -> float | None:
    lowest, breathing, used = _lowest_face(judged), judged.run.breathing, gas_of(judged.set_up)
    if lowest is None or lowest.face_height_m is None or breathing is None or breathing.pool_depth_m is None:
        return None
    if used is None or not sinks_in_air(used) or not _may_pool(judged):
        return None
    return lowest.face_height_m - breathing.pool_depth_m


def _may_pool(judged: Judged) -> bool:
    """A fan stirs a layer up, and in the open it runs off."""
    around = judged.set_up.surroundings
    return around is not None and around.fan is Fan.NONE and around.kind is not Place.OPEN_AIR


def _pool_facts(judged: Judged) -> Mapping[str, float | str]:
    lowest, breathing = _lowest_face(judged), judged.run.breathing
    return {
        "face_height_m": (lowest.face_height_m if lowest else None) or 0.0,
        "pool_depth_m": (breathing.pool_depth_m if breathing else None) or 0.0,
        **place_facts(judged),
    }


def _leads_to_closed_place(judged: Judged) -> float | None:
    place = judged.set_up.scene.vent_leads_to if judged.set_up.scene else None
    return None if place is None else float(place in _CLOSED_PLACES)


def _led_facts(judged: Judged) -> Mapping[str, float | str]:
    place = judged.set_up.scene.vent_leads_to if judged.set_up.scene else None
    return {**place_facts(judged), "place": str(place or "")}


BREATHING_QUANTITIES: Mapping[str, Quantity] = {
    "people.face_above_pool": Quantity(
        fact="face_above_pool_m", dimension=Dimension.LENGTH, value=_face_above_pool_m, facts=_pool_facts
    ),
    "breathing.oxygen": Quantity(
        fact="oxygen_frac", dimension=Dimension.FRACTION, facts=place_facts,
        value=lambda judged: judged.run.breathing.oxygen_mixed_frac if judged.run.breathing else None,
    ),
    "vent.leads_to_closed_place": Quantity(
        fact="closed_place_count", dimension=None, value=_leads_to_closed_place, facts=_led_facts
    ),
}  # fmt: skip
