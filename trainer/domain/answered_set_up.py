"""The set-up that the keys of a scenario make, and what one response sets in it."""

from typing import Any

from trainer.domain.scenario import Answer, Item, ItemKind, Scenario
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import with_values


def right_set_up(scenario: Scenario) -> SetUp:
    """The set-up with every key filled in; what a diagnosis hides, as it is without the fault."""
    values: dict[str, Any] = {}
    for item in scenario.items:
        if item.id in scenario.answers:
            values |= key_values(item, scenario.answers[item.id])
    return with_values(scenario.set_up, values)


def key_values(item: Item, answer: Answer) -> dict[str, Any]:
    """The set-up values that the key of an item fills, by path."""
    if answer.diagnosis is not None:
        return dict(answer.diagnosis.sound)
    return item_values(item, answer.key)


def item_values(item: Item, response: Any) -> dict[str, Any]:
    """The set-up values that one response fills, by path. A diagnosis has to be unfolded to tell."""
    if item.kind in (ItemKind.QUANTITY, ItemKind.READING) and isinstance(response, float):
        return dict.fromkeys(item.sets, response)
    if item.kind is ItemKind.PLACEMENT:
        return {each.sets: response[each.id] for each in item.handles if each.id in response}
    if item.options:
        return dict(next(each.values for each in item.options if each.id == response))
    return {}
