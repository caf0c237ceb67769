"""Quantities of thresholds about people and the air they breathe."""

from collections.abc import Callable, Mapping

from trainer.core.pool import PoolSide
from trainer.domain.air_space import may_gather, pool_side_of, shape_of
from trainer.domain.escaping_gas import is_supply_inside, supply_contents_of
from trainer.domain.flows import purge_flow_of
from trainer.domain.judged import Judged, Quantity
from trainer.domain.judged_facts import place_facts
from trainer.domain.purge_run import BreathingResult
from trainer.domain.quantities import Dimension
from trainer.domain.run_people_air import face_to_layer_m, people_here
from trainer.domain.set_up import Bystander, Place

_CLOSED_PLACES = (Place.PIT, Place.TRENCH, Place.VESSEL, Place.PIPE, Place.VAN)


def _of_breathing(attribute: str) -> Callable[[Judged], float | None]:
    """One figure of the air that is left for people."""

    def asked(judged: Judged) -> float | None:
        found: float | None = getattr(judged.run.breathing or BreathingResult(), attribute)
        return found

    return asked


_pool_depth_m = _of_breathing("pool_depth_m")


def _face_out_of_layer(side: PoolSide) -> Callable[[Judged], float | None]:
    """How far the face nearest to the layer is out of it, where the gas gathers on that side."""

    def asked(judged: Judged) -> float | None:
        depth_m = _pool_depth_m(judged)
        if not depth_m or not people_here(judged.set_up) or not may_gather(judged.set_up):
            return None
        nearest = _nearest_face(judged) if pool_side_of(judged.set_up) is side else None
        return None if nearest is None else nearest[0] - depth_m

    return asked


def _nearest_face(judged: Judged) -> tuple[float, Bystander] | None:
    """How deep the layer has to be to reach the first face, and whose that is."""
    shape = shape_of(judged.set_up)
    here = people_here(judged.set_up)
    reaches = ((face_to_layer_m(each, judged.set_up, shape=shape), each) for each in here)
    known = [(reach_m, each) for reach_m, each in reaches if reach_m is not None]
    return min(known, key=lambda each: each[0]) if known else None


def _layer_facts(judged: Judged) -> Mapping[str, float | str]:
    nearest = _nearest_face(judged)
    face_m = nearest[1].face_height_m if nearest is not None else None
    return {
        "face_height_m": face_m or 0.0, "pool_depth_m": _pool_depth_m(judged) or 0.0, **place_facts(judged)
    }  # fmt: skip


def _leads_to_closed_place(judged: Judged) -> float | None:
    place = judged.set_up.scene.vent_leads_to if judged.set_up.scene else None
    return None if place is None else float(place in _CLOSED_PLACES)


def _led_facts(judged: Judged) -> Mapping[str, float | str]:
    place = judged.set_up.scene.vent_leads_to if judged.set_up.scene else None
    return {**place_facts(judged), "place": str(place or "")}


def _in_purged_pipe_counts(judged: Judged) -> float | None:
    """How many are inside the pipe that gas flows into, where that pipe is not itself the surroundings."""
    scene, around = judged.set_up.scene, judged.set_up.surroundings
    if scene is None or not scene.people or not purge_flow_of(judged.set_up):
        return None
    if around is not None and around.kind is Place.PIPE:
        return None
    return float(sum(each.where is Place.PIPE for each in scene.people))


def _emptied_frac(judged: Judged) -> float | None:
    """Oxygen left when all of a supply that stands in the surroundings gets out at once."""
    emptied_frac = _of_breathing("supply_emptied_frac")(judged)
    return emptied_frac if is_supply_inside(judged.set_up) else None


def _emptied_facts(judged: Judged) -> Mapping[str, float | str]:
    return {**_named_place(judged), "held_m3": supply_contents_of(judged.set_up) or 0.0}


def _boil_off_facts(judged: Judged) -> Mapping[str, float | str]:
    return {**_named_place(judged), "boil_off_m3_s": _of_breathing("boil_off_m3_s")(judged) or 0.0}


def _named_place(judged: Judged) -> Mapping[str, float | str]:
    facts = place_facts(judged)
    return {**facts, "place": facts["place"] or "space"}


def _fresh_oxygen_frac(judged: Judged) -> float | None:
    return judged.set_up.surroundings.fresh_oxygen_frac if judged.set_up.surroundings else None


BREATHING_QUANTITIES: Mapping[str, Quantity] = {
    "people.face_above_pool": Quantity(
        fact="face_above_pool_m", dimension=Dimension.LENGTH, value=_face_out_of_layer(PoolSide.FLOOR),
        facts=_layer_facts,
    ),
    "people.face_below_ceiling_gas": Quantity(
        fact="face_below_gas_m", dimension=Dimension.LENGTH, value=_face_out_of_layer(PoolSide.CEILING),
        facts=_layer_facts,
    ),
    "people.in_purged_pipe": Quantity(
        fact="in_purged_pipe_count", dimension=None, value=_in_purged_pipe_counts, facts=place_facts
    ),
    "breathing.oxygen": Quantity(
        fact="oxygen_frac", dimension=Dimension.FRACTION, facts=place_facts,
        value=_of_breathing("oxygen_mixed_frac"),
    ),
    "breathing.supply_emptied": Quantity(
        fact="emptied_frac", dimension=Dimension.FRACTION, value=_emptied_frac, facts=_emptied_facts
    ),
    "breathing.boil_off_steady": Quantity(
        fact="steady_frac", dimension=Dimension.FRACTION, facts=_boil_off_facts,
        value=_of_breathing("boil_off_steady_frac"),
    ),
    "surroundings.fresh_oxygen": Quantity(
        fact="fresh_frac", dimension=Dimension.FRACTION, value=_fresh_oxygen_frac, facts=place_facts
    ),
    "vent.leads_to_closed_place": Quantity(
        fact="closed_place_count", dimension=None, value=_leads_to_closed_place, facts=_led_facts
    ),
}  # fmt: skip
