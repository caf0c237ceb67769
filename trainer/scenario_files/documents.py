"""A scenario and its marks as JSON: what the commands print and what an attempt stores."""

from collections.abc import Mapping
from typing import Any

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import (
    Answer,
    Cue,
    Fact,
    Handle,
    HazardKey,
    Item,
    ItemKind,
    Marked,
    Option,
    PlacementTest,
    QuantityBand,
    QuantityRule,
    Scenario,
    SceneObject,
    SolutionStep,
)
from trainer.domain.set_up_paths import spec_at
from trainer.scenario_files.records import from_json, to_json
from trainer.set_up_files import (
    exact_text,
    exact_value,
    set_up_from_document,
    value_from_document,
    write_set_up,
    written_value,
)

_NAMED = (
    "family",
    "title",
    "seed",
    "difficulty",
    "content_version",
    "core_version",
    "policy_version",
    "situation",
)


def scenario_document(scenario: Scenario, *, with_answers: bool) -> dict[str, Any]:
    """The scenario for whoever drew it; with the answers it can be stored and marked later."""
    return {
        **{name: getattr(scenario, name) for name in _NAMED},
        "set_up": write_set_up(scenario.set_up),
        "facts": [_fact_out(each) for each in scenario.facts],
        "cues": to_json(scenario.cues),
        "items": [_item_out(each, scenario.answers if with_answers else {}) for each in scenario.items],
    }


def public_document(scenario: Scenario) -> dict[str, Any]:
    """The scenario as it may be shown before it is handed in: without the answers and without the seed."""
    document = scenario_document(scenario, with_answers=False)
    del document["seed"]
    return document


def scenario_from_document(document: Mapping[str, Any]) -> Scenario:
    """The scenario that one of these documents holds, with as many answers as were written."""
    items = tuple(_item_in(each) for each in document["items"])
    pairs = zip(items, document["items"], strict=True)
    return Scenario(
        **{name: document.get(name) for name in _NAMED},  # type: ignore[arg-type]
        set_up=set_up_from_document(document["set_up"]),
        facts=tuple(_fact_in(each) for each in document["facts"]),
        cues=from_json(tuple[Cue, ...], document["cues"]),
        items=items,
        answers={item.id: _answer_in(item, each) for item, each in pairs if "key" in each},
    )


def marked_document(marked: Marked, scenario: Scenario, *, run: Any = None) -> dict[str, Any]:
    """The marks, each beside the key; `run` is the answer of `solve` for the person's own set-up."""
    return {
        "family": scenario.family,
        "seed": scenario.seed,
        "difficulty": scenario.difficulty,
        "content_version": scenario.content_version,
        "core_version": scenario.core_version,
        "policy_version": scenario.policy_version,
        "items": [
            {
                **_outcome_out(each),
                "key": response_document(scenario.item(each.item_id), _key(scenario, each.item_id)),
            }
            for each in marked.outcomes
        ],
        "total": marked.total,
        "by_skill": {str(skill): score for skill, score in marked.by_skill.items()},
        "critical_missed": list(marked.critical_missed),
        "passed": marked.passed,
        "own_set_up": write_set_up(marked.own_set_up) if marked.own_set_up is not None else None,
        "run": run,
        "run_missing": list(marked.run_missing),
    }


def response_document(item: Item, response: Any) -> Any:
    """A parsed response as it could have been typed: what `parse_response` reads back to the same values."""
    if response is None:
        return None
    if item.kind is ItemKind.QUANTITY and item.dimension is not None:
        return exact_text(response, item.dimension)
    if item.kind is ItemKind.PLACEMENT:
        handles = {each.id: each for each in item.handles}
        return {name: _number_out(handles[name].dimension, each) for name, each in response.items()}
    return (
        response
        if isinstance(response, str)
        else [each if isinstance(each, str) else to_json(each) for each in response]
    )


def _outcome_out(outcome: Any) -> dict[str, Any]:
    return {
        "id": outcome.item_id,
        "score": outcome.score,
        "correct": outcome.correct,
        "answered": outcome.answered,
        "why": list(outcome.why),
        "misconceptions": list(outcome.misconceptions),
        "critical_missed": outcome.critical_missed,
    }


def _key(scenario: Scenario, item_id: str) -> Any:
    return scenario.answers[item_id].key


def _fact_out(fact: Fact) -> dict[str, Any]:
    written: dict[str, Any] = {"label": fact.label, "path": fact.path}
    if fact.value is not None and fact.dimension is not None:
        return {**written, "value": exact_text(fact.value, fact.dimension), "dimension": fact.dimension.value}
    return {**written, "text": fact.text}


def _fact_in(written: Mapping[str, Any]) -> Fact:
    if "dimension" not in written:
        return Fact(label=written["label"], path=written["path"], text=written["text"])
    dimension = Dimension(written["dimension"])
    value = exact_value(written["value"], dimension)
    return Fact(label=written["label"], path=written["path"], value=value, dimension=dimension)


def _item_out(item: Item, answers: Mapping[str, Answer]) -> dict[str, Any]:
    written: dict[str, Any] = {
        "id": item.id,
        "kind": item.kind.value,
        "skill": item.skill,
        "text": item.text,
        "weight": item.weight,
        "sets": list(item.sets),
    }
    if item.kind is ItemKind.QUANTITY and item.dimension is not None:
        written |= {"unit_hint": item.unit_hint, "dimension": item.dimension.value}
        written["nearest"] = exact_text(item.nearest, item.dimension) if item.nearest is not None else None
    if item.kind is ItemKind.PLACEMENT:
        written["handles"] = [_handle_out(each) for each in item.handles]
    if item.kind is ItemKind.CHOICE:
        written["options"] = [_option_out(each) for each in item.options]
    if item.kind is ItemKind.HAZARDS:
        written["objects"] = to_json(item.objects)
    return written | (_answer_out(item, answers[item.id]) if item.id in answers else {})


def _item_in(written: Mapping[str, Any]) -> Item:
    dimension = Dimension(written["dimension"]) if "dimension" in written else None
    nearest = written.get("nearest")
    return Item(
        id=written["id"],
        kind=ItemKind(written["kind"]),
        skill=written["skill"],
        text=written["text"],
        weight=float(written["weight"]),
        sets=tuple(written["sets"]),
        dimension=dimension,
        unit_hint=written.get("unit_hint", ""),
        nearest=exact_value(nearest, dimension) if nearest is not None and dimension is not None else None,
        handles=tuple(_handle_in(each) for each in written.get("handles", ())),
        options=tuple(_option_in(each) for each in written.get("options", ())),
        objects=from_json(tuple[SceneObject, ...], written.get("objects", ())),
    )


def _handle_out(handle: Handle) -> dict[str, Any]:
    ends = {"min": handle.low, "max": handle.high, "step": handle.step}
    return {
        "id": handle.id,
        "label": handle.label,
        "sets": handle.sets,
        "along": handle.along,
        **{name: _number_out(handle.dimension, value) for name, value in ends.items()},
        "dimension": handle.dimension.value if handle.dimension is not None else None,
    }


def _handle_in(written: Mapping[str, Any]) -> Handle:
    dimension = Dimension(written["dimension"]) if written["dimension"] is not None else None
    return Handle(
        id=written["id"],
        label=written["label"],
        sets=written["sets"],
        along=written["along"],
        low=_number_in(dimension, written["min"]),
        high=_number_in(dimension, written["max"]),
        step=_number_in(dimension, written["step"]),
        dimension=dimension,
    )


def _option_out(option: Option) -> dict[str, Any]:
    written: dict[str, Any] = {"id": option.id, "text": option.text}
    if option.values:
        written["values"] = {path: written_value(value, spec_at(path)) for path, value in option.values}
    return written


def _option_in(written: Mapping[str, Any]) -> Option:
    values = written.get("values", {})
    return Option(
        id=written["id"],
        text=written["text"],
        values=tuple((path, value_from_document(path, value)) for path, value in values.items()),
    )


def _answer_out(item: Item, answer: Answer) -> dict[str, Any]:
    return {
        "key": response_document(item, answer.key),
        "critical": answer.critical,
        "band": to_json(answer.band),
        "rule": to_json(answer.rule),
        "tests": to_json(answer.placement),
        "misconceptions": dict(answer.misconceptions) if answer.misconceptions is not None else None,
        "hazards": to_json(answer.hazards),
        "solution": to_json(answer.solution),
    }


def _answer_in(item: Item, written: Mapping[str, Any]) -> Answer:
    return Answer(
        item_id=item.id,
        key=_key_in(item, written["key"]),
        critical=written["critical"],
        band=from_json(QuantityBand | None, written["band"]),
        rule=from_json(QuantityRule | None, written["rule"]),
        placement=from_json(tuple[PlacementTest, ...], written["tests"]),
        misconceptions=written["misconceptions"],
        hazards=from_json(tuple[HazardKey, ...], written["hazards"]),
        solution=from_json(tuple[SolutionStep, ...], written["solution"]),
    )


def _key_in(item: Item, written: Any) -> Any:
    if item.kind is ItemKind.QUANTITY and item.dimension is not None:
        return exact_value(written, item.dimension)
    if item.kind is ItemKind.PLACEMENT:
        handles = {each.id: each for each in item.handles}
        return {name: _number_in(handles[name].dimension, each) for name, each in written.items()}
    return written if isinstance(written, str) else tuple(written)


def _number_out(dimension: Dimension | None, value: float) -> Any:
    return value if dimension is None else exact_text(value, dimension)


def _number_in(dimension: Dimension | None, written: Any) -> float:
    return float(written) if dimension is None else exact_value(written, dimension)
