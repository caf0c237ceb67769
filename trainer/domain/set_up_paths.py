"""Reach into a set-up by the dotted path that files and items use (``section.left_dam``, ``dams.0.kind``)."""

from dataclasses import replace
from functools import cache
from typing import Any

from trainer.domain.errors import Missing
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import SetUp


@cache
def spec_at(path: str) -> FieldSpec:
    """The declaration of the field at a path; raises Missing where a set-up has no such field."""
    part_class: type[Any] | None = SetUp
    spec: FieldSpec | None = None
    for key in path.split("."):
        if key.isdigit() and spec is not None and spec.kind is FieldKind.PARTS:
            continue
        known = specs_of(part_class) if part_class is not None else {}
        if key not in known:
            raise Missing("field of a set-up", path)
        spec = known[key]
        part_class = spec.part
    if spec is None:
        raise Missing("field of a set-up", path)
    return spec


def value_at(set_up: SetUp, path: str) -> Any:
    """The SI value at a path; None where it, or a part on the way to it, is not known."""
    here: Any = set_up
    for key in path.split("."):
        if here is None:
            return None
        if isinstance(here, tuple):
            here = here[int(key)] if int(key) < len(here) else None
        else:
            here = getattr(here, _attribute(type(here), key, path))
    return here


def with_value(set_up: SetUp, path: str, value: Any) -> SetUp:
    """The same set-up with the SI value at a path; parts on the way are made where they are missing."""
    spec_at(path)
    changed: SetUp = _with(set_up, SetUp, path.split("."), value)
    return changed


def with_values(set_up: SetUp, values: dict[str, Any]) -> SetUp:
    """The same set-up with several SI values, by path."""
    for path, value in values.items():
        set_up = with_value(set_up, path, value)
    return set_up


def without_empty_parts(set_up: SetUp) -> SetUp:
    """The same set-up, where a part of which nothing is known is left out."""
    empty: dict[str, Any] = {
        spec.attribute: None
        for spec in specs_of(SetUp).values()
        if spec.kind is FieldKind.PART
        and spec.part is not None
        and getattr(set_up, spec.attribute) == spec.part()
    }
    return replace(set_up, **empty)


def _with(here: Any, part_class: type[Any], keys: list[str], value: Any) -> Any:
    spec = specs_of(part_class)[keys[0]]
    owner = here if here is not None else part_class()
    if len(keys) == 1:
        return replace(owner, **{spec.attribute: value})
    inner_class = spec.part
    assert inner_class is not None  # spec_at has walked the path before
    inner = getattr(owner, spec.attribute)
    if spec.kind is FieldKind.PARTS:
        return replace(owner, **{spec.attribute: _with_part(inner, inner_class, keys[1:], value)})
    return replace(owner, **{spec.attribute: _with(inner, inner_class, keys[1:], value)})


def _with_part(items: tuple[Any, ...], part_class: type[Any], keys: list[str], value: Any) -> tuple[Any, ...]:
    place = int(keys[0])
    filled = list(items) + [part_class() for _ in range(place + 1 - len(items))]
    filled[place] = _with(filled[place], part_class, keys[1:], value) if len(keys) > 1 else value
    return tuple(filled)


def _attribute(part_class: type[Any], key: str, path: str) -> str:
    known = specs_of(part_class)
    if key not in known:
        raise Missing("field of a set-up", path)
    return known[key].attribute
