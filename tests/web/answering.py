"""Right answers to a drawn scenario, as a person would fill them into the page."""

from collections.abc import Iterable
from typing import Any

from trainer.domain.scenario import Item, ItemKind, Scenario
from trainer.scenario_files import response_document


def answers_for(scenario: Scenario) -> dict[str, Any]:
    """The right response to each item, as it could have been typed."""
    right = {item.id: response_document(item, scenario.answers[item.id].key) for item in scenario.items}
    return right | {
        item.id: "Argon sinks; the air leaves at the top." for item in scenario.items if item.rubric
    }


def fill_in(scenario: Scenario, answers: dict[str, Any]) -> dict[str, Any]:
    """The same by the labels of the page."""
    filled: dict[str, Any] = {}
    for place, item in enumerate(scenario.items, start=1):
        raw = answers.get(item.id)
        if raw is None:
            continue
        if item.dimension is not None or item.rubric:
            filled[f"Answer {place}{', in a few sentences' if item.rubric else ''}"] = raw
        elif item.kind is ItemKind.PLACEMENT:
            filled |= {handle.label: str(raw[handle.id]) for handle in item.handles}
        elif item.kind is ItemKind.ORDER:
            texts = {each.id: each.text for each in item.steps}
            filled |= {texts[each]: str(number) for number, each in enumerate(raw, start=1)}
        elif item.diagnosis is not None:
            filled |= next_step(item, raw[0])
        elif item.options:
            filled[f"{place} {item.text}"] = next(each.text for each in item.options if each.id == raw)
        else:
            marks = [f"{n} {each.text}" for n, each in enumerate(item.objects, 1) if each.id in raw]
            filled[f"{place} {item.text}"] = marks or ["I see no hazard here"]
    return filled


def next_step(item: Item, step: str) -> dict[str, Any]:
    """One step of a diagnosis, chosen by its label."""
    assert item.diagnosis is not None
    move = item.diagnosis.move(step)
    return {f"{move.text} ({move.takes_s / 60:g} min)": True}


def take_steps(page: Any, scenario: Scenario, item: Item, steps: Iterable[str]) -> Any:
    """The page after the steps of a diagnosis, each sent by its button."""
    number = scenario.items.index(item) + 1
    for each in steps:
        page = page.submit(f"Take this step of {number}", **next_step(item, each))
    return page
