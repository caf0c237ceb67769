"""Reach into a set-up by the dotted path that files and items use (``section.left_dam``, ``dams.0.kind``)."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Any

from trainer.domain.errors import Missing
from trainer.domain.quantities import FieldKind, FieldSpec, specs_of
from trainer.domain.set_up import SetUp

_Change = tuple[list[str], Any]  # the keys below a part, and the value there


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
    return with_values(set_up, {path: value})


def with_values(set_up: SetUp, values: dict[str, Any]) -> SetUp:
    """The same set-up with several SI values, by path."""
    for path in values:
        spec_at(path)
    changed: SetUp = _with_all(set_up, SetUp, [(path.split("."), value) for path, value in values.items()])
    return changed


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


def _with_all(here: Any, part_class: type[Any], changes: Sequence[_Change]) -> Any:
    """The part with all changes, made anew once; itself where nothing changes."""
    owner = here if here is not None else part_class()
    by_key: dict[str, list[_Change]] = {}
    for keys, value in changes:
        by_key.setdefault(keys[0], []).append((keys[1:], value))
    known, changed = specs_of(part_class), {}
    for key, inside in by_key.items():
        spec = known[key]
        before = getattr(owner, spec.attribute)
        after = _changed(before, spec, inside)
        if after is not before:
            changed[spec.attribute] = after
    return _with_attributes(owner, changed) if changed else owner


def _with_attributes(part: Any, changed: dict[str, Any]) -> Any:
    """As `replace`: a draw makes thousands of set-ups, and the constructors of parts check nothing."""
    made = object.__new__(type(part))
    vars(made).update(vars(part), **changed)
    return made


def _changed(before: Any, spec: FieldSpec, changes: Sequence[_Change]) -> Any:
    """A field after some changes: to all of it, or within it."""
    for number, (keys, value) in enumerate(changes):
        if not keys:
            later = changes[number + 1 :]
            return _changed(value, spec, later) if later else value
    inner_class = spec.part
    assert inner_class is not None  # spec_at has walked the path before
    if spec.kind is FieldKind.PARTS:
        return _with_parts(before, inner_class, changes)
    return _with_all(before, inner_class, changes)


def _with_parts(items: tuple[Any, ...], part_class: type[Any], changes: Sequence[_Change]) -> tuple[Any, ...]:
    filled = list(items)
    for (place, *inside), value in changes:
        filled += [part_class() for _ in range(int(place) + 1 - len(filled))]
        filled[int(place)] = _with_all(filled[int(place)], part_class, [(inside, value)]) if inside else value
    return tuple(filled)


def _attribute(part_class: type[Any], key: str, path: str) -> str:
    known = specs_of(part_class)
    if key not in known:
        raise Missing("field of a set-up", path)
    return known[key].attribute
