"""Builds the items of one draw with their keys; choice and hazards have modules of their own."""

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random
from typing import Any

from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import EffectTemplate, HandleTemplate, ItemTemplate, QuantityTemplate, TrapTemplate
from trainer.domain.family_choices import built_choice
from trainer.domain.family_diagnoses import built_diagnosis
from trainer.domain.family_explanations import built_explanation
from trainer.domain.family_orders import built_order
from trainer.domain.family_readings import built_reading
from trainer.domain.family_scenes import built_scene
from trainer.domain.hazards import HazardCatalogue
from trainer.domain.items.bands import apart, band_of, trap_values
from trainer.domain.items.placement import effect_score
from trainer.domain.items.quantity import band_ratio
from trainer.domain.quantities import FieldKind, Never
from trainer.domain.scenario import (
    Answer,
    Handle,
    Item,
    ItemKind,
    PlacementTest,
    QuantityBand,
    QuantityRule,
    Trap,
)
from trainer.domain.set_up_paths import spec_at, with_values
from trainer.domain.templates import sentence
from trainer.domain.worked import worked_solution

_BANDS_APART = 2.0


@dataclass(frozen=True, kw_only=True)
class BuiltItem:
    """An item, the set-up values that its key fills, and the answer without its worked solution."""

    item: Item
    right_values: Mapping[str, Any]
    bare_answer: Answer
    template: ItemTemplate

    def answer(self, drawn: Drawn) -> Answer:
        """The answer, worked through with the figures of the finished set-up."""
        steps = worked_solution(self.template, drawn=drawn, band=self.bare_answer.band)
        return Answer(**{**self.bare_answer.__dict__, "solution": steps})


def built_item(
    template: ItemTemplate, *, drawn: Drawn, source: Random, hazards: HazardCatalogue
) -> BuiltItem:
    """The item of a template for this draw; raises Rejected where the draw makes no good item of it."""
    if template.kind is ItemKind.QUANTITY:
        return _quantity(template, drawn)
    if template.kind is ItemKind.PLACEMENT:
        return _placement(template, drawn)
    if template.kind is ItemKind.EXPLANATION:
        item, right, answer = built_explanation(template, drawn=drawn)
    elif template.kind is ItemKind.DIAGNOSIS:
        item, right, answer = built_diagnosis(template, drawn=drawn, source=source)
    elif template.kind is ItemKind.CHOICE:
        item, right, answer = built_choice(template, drawn=drawn, source=source)
    elif template.kind is ItemKind.ORDER:
        item, right, answer = built_order(template, drawn=drawn, source=source)
    elif template.kind is ItemKind.READING:
        item, right, answer = built_reading(template, drawn=drawn, source=source)
    else:
        item, right, answer = built_scene(template, drawn=drawn, source=source, hazards=hazards)
    return BuiltItem(item=item, right_values=right, bare_answer=answer, template=template)


def _quantity(template: ItemTemplate, drawn: Drawn) -> BuiltItem:
    asked = template.quantity
    assert asked is not None  # the loader fills it for this kind
    rule = _rule(template, asked, drawn)
    band = band_of(drawn.right, rule=rule, core=drawn.core)
    if band is None:
        raise Rejected(f"{template.id}: the core finds no '{asked.result}' for the right set-up")
    _traps_apart(template, rule, band, drawn)
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, {**drawn.values, "nearest": asked.nearest}),
        weight=template.weight,
        sets=template.sets,
        dimension=spec_at(template.sets[0]).dimension,
        unit_hint=template.unit_hint,
        nearest=rule.nearest,
    )
    answer = Answer(item_id=item.id, key=band.key, critical=template.critical, band=band, rule=rule)
    right = dict.fromkeys(template.sets, band.key)
    return BuiltItem(item=item, right_values=right, bare_answer=answer, template=template)


def _rule(template: ItemTemplate, asked: QuantityTemplate, drawn: Drawn) -> QuantityRule:
    return QuantityRule(
        result=asked.result,
        sets=template.sets[0],
        outcome=asked.outcome,
        limit=drawn.amount(asked.limit),
        fails_above=asked.fails_above,
        more_is_safer=asked.more_is_safer,
        nearest=drawn.amount(asked.nearest),
        safe_zero_ratio=asked.safe_zero_ratio or drawn.policy.quantity_safe_zero_ratio,
        input_uncertainty_ratio=band_ratio(asked.input_uncertainties),
        traps=tuple(_trap(each, drawn) for each in asked.traps if each.span.holds(drawn.difficulty)),
    )


def _trap(template: TrapTemplate, drawn: Drawn) -> Trap:
    belief = sentence(template.misconception, drawn.values)
    if template.value is not None:
        return Trap(misconception=belief, value=drawn.amount(template.value))
    if not template.of:
        return Trap(misconception=belief, result=template.result, times=template.times)
    value = drawn.core.number(drawn.named(template.of), template.result)
    return Trap(misconception=belief, times=template.times, value=0.0 if isinstance(value, Never) else value)


def _traps_apart(template: ItemTemplate, rule: QuantityRule, band: QuantityBand, drawn: Drawn) -> None:
    for value, belief in trap_values(drawn.right, rule=rule, core=drawn.core):
        if not apart(band, value, bands=_BANDS_APART):
            raise Rejected(f"{template.id}: the key lies within two bands of the trap '{belief}'")


def _placement(template: ItemTemplate, drawn: Drawn) -> BuiltItem:
    tests = tuple(_test(each, drawn) for each in template.tests if each.span.holds(drawn.difficulty))
    handles = tuple(_handle(each, drawn) for each in template.handles)
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        sets=tuple(each.sets for each in handles),
        handles=handles,
    )
    key = _placement_key(template, item, tests, drawn)
    right = {each.sets: key[each.id] for each in handles}
    answer = Answer(item_id=item.id, key=key, critical=template.critical, placement=tests)
    return BuiltItem(item=item, right_values=right, bare_answer=answer, template=template)


def _placement_key(
    template: ItemTemplate, item: Item, tests: tuple[PlacementTest, ...], drawn: Drawn
) -> dict[str, float]:
    """The first of the file's candidates whose every effect, by the core, stays inside its limit."""
    for candidate in template.keys:
        key = {each.id: drawn.amount(candidate[each.id]) for each in item.handles}
        if any(not each.low <= key[each.id] <= each.high for each in item.handles):
            continue
        placed = with_values(drawn.right, {each.sets: key[each.id] for each in item.handles})
        effects = (drawn.core.effect(placed, test=each) for each in tests)
        if all(not each.fault and effect_score(each.test, each.value) >= 1.0 for each in effects):
            return key
    raise Rejected(f"{template.id}: no place of those in the file stays inside every limit")


def _handle(template: HandleTemplate, drawn: Drawn) -> Handle:
    spec = spec_at(template.sets)
    return Handle(
        id=template.id,
        label=sentence(template.label, drawn.values),
        sets=template.sets,
        along=template.along,
        low=drawn.amount(template.low),
        high=drawn.amount(template.high),
        step=drawn.amount(template.step),
        dimension=spec.dimension if spec.kind is FieldKind.MEASURED else None,
    )


def _test(template: EffectTemplate, drawn: Drawn) -> PlacementTest:
    good = drawn.amount(template.good)
    lost = good * drawn.policy.lost_root_ratio
    return PlacementTest(
        quantity=template.result,
        good=good,
        bad=lost if template.bad is None else drawn.amount(template.bad),
        misconception=sentence(template.misconception, drawn.values),
        scale=template.scale,
        after_s=None if template.after is None else drawn.amount(template.after),
    )
