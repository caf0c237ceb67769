"""Builds an explanation: what is asked, and the rubric that a person grades it by. It has no key."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from trainer.domain.drawn import Drawn
from trainer.domain.family import ItemTemplate
from trainer.domain.item_parts import Criterion
from trainer.domain.scenario import Answer, Item
from trainer.domain.templates import sentence


def built_explanation(template: ItemTemplate, *, drawn: Drawn) -> tuple[Item, Mapping[str, Any], Answer]:
    """The item, no set-up values, and an answer without a key: the worked solution stands in for one."""
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        rubric=tuple(_filled(each, drawn) for each in template.rubric),
    )
    critical = any(each.critical for each in item.rubric)
    return item, {}, Answer(item_id=item.id, key=None, critical=critical)


def _filled(criterion: Criterion, drawn: Drawn) -> Criterion:
    return replace(
        criterion,
        text=sentence(criterion.text, drawn.values),
        levels=tuple(sentence(each, drawn.values) for each in criterion.levels),
    )
