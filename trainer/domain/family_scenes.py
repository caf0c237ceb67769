"""Builds a hazards item: what stands in the scene, which of it is a hazard, and where it is drawn."""

from collections.abc import Mapping
from random import Random
from typing import Any

from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import ItemTemplate, ObjectTemplate, SceneTemplate
from trainer.domain.family_conditions import holds
from trainer.domain.hazards import CatalogueEntry, HazardCatalogue
from trainer.domain.scenario import Answer, HazardKey, Item, SceneObject
from trainer.domain.streams import shuffle
from trainer.domain.templates import sentence

# Free places of the scene in drawing units: two rows between pipe and ground, right of the gas supply, so
# that neither is hidden. The boxes of the catalogue are narrower and lower than the way between two places.
_UPPER, _LOWER = 238.0, 312.0
_LEFT_EDGES = tuple(148.0 + 84.0 * place for place in range(7))
_ROWS = {"pipe": (_UPPER, _LOWER), "floor": (_UPPER, _LOWER), "low": (_LOWER, _UPPER)}


def built_scene(
    template: ItemTemplate, *, drawn: Drawn, source: Random, hazards: HazardCatalogue
) -> tuple[Item, Mapping[str, Any], Answer]:
    """The item, no set-up values, and its answer; raises Rejected with too few hazards to be worth asking."""
    scene = template.scene
    assert scene is not None  # the loader fills it for this kind
    present = _present(scene, drawn, source, hazards)
    _fill_up(present, scene, source, hazards)
    shuffle(present, source)
    boxes = _boxes([entry for entry, _ in present], source)
    objects = tuple(
        SceneObject(id=f"h{number}", text=sentence(entry.text, {}), sign=entry.sign, box=box)
        for number, ((entry, _), box) in enumerate(zip(present, boxes, strict=True), start=1)
    )
    keys = tuple(
        _key(thing.id, entry, why, drawn) for thing, (entry, why) in zip(objects, present, strict=True)
    )
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        objects=objects,
    )
    key = tuple(each.object_id for each in keys if each.is_hazard)
    is_critical = any(each.critical for each in keys)
    return item, {}, Answer(item_id=item.id, key=key, critical=is_critical, hazards=keys)


def _present(
    scene: SceneTemplate, drawn: Drawn, source: Random, hazards: HazardCatalogue
) -> list[tuple[CatalogueEntry, str]]:
    """What stands in the scene, each with the reason that this draw gives for it."""
    places = [each for each in scene.objects if each.span.holds(drawn.difficulty)]
    possible = [_may_be_hazard(each, drawn) for each in places]
    is_hazard = [may and source.random() < each.chance for each, may in zip(places, possible, strict=True)]
    waiting = [place for place, may in enumerate(possible) if may and not is_hazard[place]]
    shuffle(waiting, source)
    for place in waiting[: max(0, scene.least_hazards - sum(is_hazard))]:
        is_hazard[place] = True
    if sum(is_hazard) < scene.least_hazards:
        raise Rejected(f"only {sum(is_hazard)} hazards in the scene")
    keys = [each.hazard if hazard else each.innocent for each, hazard in zip(places, is_hazard, strict=True)]
    whys = [each.why if hazard else "" for each, hazard in zip(places, is_hazard, strict=True)]
    return [(hazards.entries[key], why) for key, why in zip(keys, whys, strict=True) if key]


def _may_be_hazard(template: ObjectTemplate, drawn: Drawn) -> bool:
    if not template.hazard:
        return False
    if any(str(drawn.values[name]) not in words for name, words in template.when.items()):
        return False
    verdicts = [holds(each, drawn) for each in template.conditions]
    if None in verdicts and False not in verdicts:
        raise Rejected(f"{template.hazard}: lies too near its limit to be a hazard or none")
    return all(verdicts)


def _fill_up(
    present: list[tuple[CatalogueEntry, str]],
    scene: SceneTemplate,
    source: Random,
    hazards: HazardCatalogue,
) -> None:
    """Innocent objects from the pool until there are as many as every scene of the family has."""
    standing = {entry.key for entry, _ in present}
    pool = [each for each in scene.innocent_pool if each not in standing]
    shuffle(pool, source)
    wanted = scene.innocent_count - sum(not entry.is_hazard for entry, _ in present)
    present.extend((hazards.entries[key], "") for key in pool[: max(0, wanted)])


def _boxes(entries: list[CatalogueEntry], source: Random) -> list[tuple[float, float, float, float]]:
    """A place for each, in the row that suits it best and has one left."""
    free = {top: list(_LEFT_EDGES) for top in (_UPPER, _LOWER)}
    for places in free.values():
        shuffle(places, source)
    boxes = []
    for entry in entries:
        top = next((row for row in _ROWS[entry.zone] if free[row]), None)
        if top is None:
            raise Rejected("more objects than the scene has places")
        boxes.append((free[top].pop(), top, entry.width, entry.height))
    return boxes


def _key(object_id: str, entry: CatalogueEntry, why: str, drawn: Drawn) -> HazardKey:
    return HazardKey(
        object_id=object_id,
        is_hazard=entry.is_hazard,
        weight=entry.weight,
        critical=entry.critical,
        why=drawn.figures(why) if why else sentence(entry.why, {}),
        right_action=sentence(entry.right_action, {}),
    )
