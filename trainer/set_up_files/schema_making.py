"""JSON Schemas (draft 2020-12) of set-ups and answers, made from the declared fields.

`python -m trainer.set_up_files.schema_making` writes schemas/, which ships with the package.
"""

import json
from dataclasses import is_dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

from trainer import units
from trainer.domain.purge_run import Expected, PurgeRun, written_as
from trainer.domain.quantities import FieldKind, FieldSpec, Never, specs_of
from trainer.domain.set_up import SetUp
from trainer.set_up_files.reading import LONGEST_TEXT, MOST_PARTS, TEXT_EXAMPLES
from trainer.set_up_files.run_writing import DAM_COLUMNS

FOLDER = Path(__file__).parent / "schemas"
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_ERRORS = {
    "type": "object",
    "required": ["errors"],
    "additionalProperties": False,
    "properties": {
        "errors": {
            "type": "array",
            "minItems": 1,
            "items": {
                "type": "object",
                "required": ["path", "message"],
                "additionalProperties": False,
                "properties": {"path": {"type": "string"}, "message": {"type": "string"}},
            },
        }
    },
}


def set_up_schema() -> dict[str, Any]:
    """What `trainer solve` takes: one set-up or a list of them."""
    return {
        "$schema": _DIALECT,
        "title": "Set-up",
        "description": "Everything physical about one purge. What depends on a missing key is not answered.",
        "anyOf": [{"$ref": "#/$defs/set_up"}, {"type": "array", "items": {"$ref": "#/$defs/set_up"}}],
        "$defs": {"set_up": _object(SetUp)},
    }


def answer_schema() -> dict[str, Any]:
    """What `trainer solve` prints: one answer, or a list in which unusable set-ups leave their errors."""
    answer = {"$ref": "#/$defs/answer"}
    return {
        "$schema": _DIALECT,
        "title": "Answer",
        "description": "What would happen. A key is there when its inputs are; null means never.",
        "anyOf": [answer, {"type": "array", "items": {"anyOf": [answer, {"$ref": "#/$defs/unusable"}]}}],
        "$defs": {"answer": _answer(), "interval": _interval(), "unusable": _ERRORS},
    }


def _object(part_class: type[Any]) -> dict[str, Any]:
    properties = {key: _field(spec) for key, spec in specs_of(part_class).items()}
    described = {"type": "object", "description": _said_of(part_class)}
    return {**described, "additionalProperties": False, "properties": properties}


def _said_of(declared: type[Any]) -> str:
    """What the declaration of a part or of its words says of it, on one line."""
    return " ".join((declared.__doc__ or "").split())


def _field(spec: FieldSpec) -> dict[str, Any]:
    made: dict[str, Any] = _MADE[spec.kind](spec)
    return made


def _measured(spec: FieldSpec) -> dict[str, Any]:
    assert spec.dimension is not None
    low, high = (units.written(each or 0.0, spec.dimension) for each in (spec.low, spec.high))
    ends = f"{'above' if spec.low_is_open else 'from'} {low} up to {high}"
    accepted = units.accepted_units(spec.dimension)
    return {
        "type": "string",
        "description": f"{spec.dimension} with its unit ({accepted}), {ends}: {spec.why}",
        "examples": [units.example(spec.dimension)],
    }


def _choice(spec: FieldSpec) -> dict[str, Any]:
    assert spec.choices is not None
    return {"enum": [str(each) for each in spec.choices], "description": _said_of(spec.choices)}


def _text(spec: FieldSpec) -> dict[str, Any]:
    return {
        "type": "string", "minLength": 1, "maxLength": LONGEST_TEXT, "description": spec.why,
        "examples": [TEXT_EXAMPLES[spec.key]],
    }  # fmt: skip


def _flag(spec: FieldSpec) -> dict[str, Any]:
    return {"type": "boolean", "description": spec.why}


def _parts(spec: FieldSpec) -> dict[str, Any]:
    assert spec.part is not None
    return {"type": "array", "maxItems": MOST_PARTS, "items": _object(spec.part)}


def _part(spec: FieldSpec) -> dict[str, Any]:
    assert spec.part is not None
    return _object(spec.part)


def _numeric(kind: str) -> Any:
    return lambda spec: {"type": kind, "minimum": spec.low, "maximum": spec.high, "description": spec.why}


_MADE: dict[FieldKind, Any] = {
    FieldKind.MEASURED: _measured,
    FieldKind.NUMBER: _numeric("number"),
    FieldKind.COUNT: _numeric("integer"),
    FieldKind.CHOICE: _choice,
    FieldKind.TEXT: _text,
    FieldKind.FLAG: _flag,
    FieldKind.PART: _part,
    FieldKind.PARTS: _parts,
}


def _answer() -> dict[str, Any]:
    properties: dict[str, Any] = {}
    for name, hint in get_type_hints(PurgeRun).items():
        part_class = next((each for each in get_args(hint) if _has_keys(each)), None)
        if part_class is not None:
            result = _result(part_class)
            properties[name] = {"type": "array", "items": result} if get_origin(hint) is tuple else result
    properties["purge"]["properties"]["never_because"] = {"type": "string"}
    properties["purge"]["properties"]["trace"] = {
        "type": "array",
        "minItems": 50,
        "maxItems": 400,
        "items": {"type": "array", "prefixItems": [{"type": "number"}] * 4, "minItems": 4, "maxItems": 4},
        "description": "time_s, then ppm of oxygen at the worst point of the root, on average, at the vent",
    }
    numbers = {"type": "array", "items": {"type": "number"}}
    flags = {"type": "array", "items": {"type": "boolean"}}
    columns = dict.fromkeys(DAM_COLUMNS.values(), numbers)
    properties["dams"] = _closed({**columns, "rope_long_enough": flags})
    words = {"type": "string"}
    caution = _closed({"code": words, "text": words, "because": words}, required=True)
    properties["cautions"] = {"type": "array", "items": caution}
    return {**_closed(properties), "required": ["cautions"]}


def _has_keys(part_class: Any) -> bool:
    """Whether a class is a part of the answer with keys of its own."""
    return is_dataclass(part_class) and isinstance(part_class, type) and bool(written_as(part_class))


def _result(part_class: type[Any]) -> dict[str, Any]:
    hints = get_type_hints(part_class)
    return _closed({written.key: _value(hints[name]) for name, written in written_as(part_class).items()})


def _value(hint: Any) -> dict[str, Any]:
    kinds = [each for each in get_args(hint) if each is not type(None)]
    if get_origin(hint) is tuple:
        return {"type": "array", "items": _result(kinds[0])}
    shown = _kind(next(each for each in kinds if each is not Never))
    return {"anyOf": [shown, {"type": "null"}]} if Never in kinds else shown


def _kind(kind: Any) -> dict[str, Any]:
    if kind is Expected:
        return {"$ref": "#/$defs/interval"}
    if issubclass(kind, StrEnum):
        return {"enum": [str(each) for each in kind]}
    return {"type": {bool: "boolean", int: "integer", float: "number", str: "string"}[kind]}


def _interval() -> dict[str, Any]:
    number = {"type": "number", "minimum": 0}
    never = {"anyOf": [number, {"type": "null"}]}
    return _closed({"expected": number, "lower": number, "upper": never}, required=True)


def _closed(properties: dict[str, Any], *, required: bool = False) -> dict[str, Any]:
    needed = list(properties) if required else []
    return {"type": "object", "additionalProperties": False, "required": needed, "properties": properties}


def schema_texts() -> dict[str, str]:
    """The text of each schema file, by file name."""
    schemas = {"set_up.json": set_up_schema(), "answer.json": answer_schema()}
    return {name: json.dumps(schema, indent=2, ensure_ascii=False) + "\n" for name, schema in schemas.items()}


if __name__ == "__main__":
    for file_name, text in schema_texts().items():
        (FOLDER / file_name).write_text(text, encoding="utf-8")
