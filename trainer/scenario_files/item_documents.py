"""Items, their answers and responses as JSON: what a drawn scenario's document holds of each."""

from collections.abc import Mapping
from typing import Any

from trainer.domain.diagnosis_parts import DiagnosisSheet
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import (
    Answer,
    Criterion,
    Handle,
    HazardKey,
    Instrument,
    Item,
    ItemKind,
    LeftOut,
    Option,
    OrderStep,
    PlacementTest,
    Precedence,
    QuantityBand,
    QuantityRule,
    ReadingBand,
    SceneObject,
    SolutionStep,
)
from trainer.domain.set_up_paths import spec_at
from trainer.scenario_files.diagnosis_documents import diagnosis_key_document, diagnosis_key_from_document
from trainer.scenario_files.records import from_json, to_json
from trainer.set_up_files import exact_text, exact_value, value_from_document, written_value

_LISTED = {ItemKind.HAZARDS: "objects", ItemKind.ORDER: "steps"}


def response_document(item: Item, response: Any) -> Any:
    """A parsed response as it could have been typed: what `parse_response` reads back to the same values."""
    if response is None:
        return None
    if item.dimension is not None:
        return exact_text(response, item.dimension)
    if item.kind is ItemKind.PLACEMENT:
        handles = {each.id: each for each in item.handles}
        return {name: _number_out(handles[name].dimension, each) for name, each in response.items()}
    return (
        response
        if isinstance(response, str)
        else [each if isinstance(each, str) else to_json(each) for each in response]
    )


def item_document(item: Item, answers: Mapping[str, Answer]) -> dict[str, Any]:
    """An item as it may be shown, with its answer where `answers` holds one."""
    written: dict[str, Any] = {
        "id": item.id,
        "kind": item.kind.value,
        "skill": item.skill,
        "text": item.text,
        "weight": item.weight,
        "sets": list(item.sets),
    }
    if item.dimension is not None:
        written |= {"unit_hint": item.unit_hint, "dimension": item.dimension.value}
    if item.kind is ItemKind.QUANTITY and item.dimension is not None:
        written["nearest"] = exact_text(item.nearest, item.dimension) if item.nearest is not None else None
    if item.kind is ItemKind.PLACEMENT:
        written["handles"] = [_handle_out(each) for each in item.handles]
    if item.options:
        written["options"] = [_option_out(each) for each in item.options]
    if item.kind in _LISTED:
        name = _LISTED[item.kind]
        written[name] = to_json(getattr(item, name))
    if item.rubric:
        written["rubric"] = [_criterion_out(each) for each in item.rubric]
    written |= _only_known(instrument=item.instrument, diagnosis=item.diagnosis)
    return written | (_answer_out(item, answers[item.id]) if item.id in answers else {})


def item_from_document(written: Mapping[str, Any]) -> Item:
    """The item that such a document holds, without its answer."""
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
        steps=from_json(tuple[OrderStep, ...], written.get("steps", ())),
        instrument=from_json(Instrument | None, written.get("instrument")),
        rubric=from_json(tuple[Criterion, ...], written.get("rubric", ())),
        diagnosis=from_json(DiagnosisSheet | None, written.get("diagnosis")),
    )


def _criterion_out(criterion: Criterion) -> dict[str, Any]:
    """Every field, also where it holds its default: both sides read the whole rubric."""
    return {**vars(criterion), "levels": list(criterion.levels)}


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
        **_only_known(precedences=answer.precedences, left_out=answer.left_out, reading=answer.reading),
        **({} if answer.diagnosis is None else {"unfolds": diagnosis_key_document(answer.diagnosis)}),
    }


def _only_known(**parts: Any) -> dict[str, Any]:
    """What most answers do not have is not written for them."""
    return {name: to_json(part) for name, part in parts.items() if part}


def answer_from_document(item: Item, written: Mapping[str, Any]) -> Answer:
    """The answer that stands beside an item in its document."""
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
        precedences=from_json(tuple[Precedence, ...], written.get("precedences", ())),
        left_out=from_json(tuple[LeftOut, ...], written.get("left_out", ())),
        reading=from_json(ReadingBand | None, written.get("reading")),
        diagnosis=diagnosis_key_from_document(written["unfolds"]) if "unfolds" in written else None,
    )


def _key_in(item: Item, written: Any) -> Any:
    if item.kind is ItemKind.EXPLANATION:
        return None
    if item.dimension is not None:
        return exact_value(written, item.dimension)
    if item.kind is ItemKind.PLACEMENT:
        handles = {each.id: each for each in item.handles}
        return {name: _number_in(handles[name].dimension, each) for name, each in written.items()}
    return written if isinstance(written, str) else tuple(written)


def _number_out(dimension: Dimension | None, value: float) -> Any:
    return value if dimension is None else exact_text(value, dimension)


def _number_in(dimension: Dimension | None, written: Any) -> float:
    return float(written) if dimension is None else exact_value(written, dimension)
