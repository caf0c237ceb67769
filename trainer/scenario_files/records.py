"""Frozen dataclasses as JSON and back, by their type hints; what holds its default is left out."""

from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints


def to_json(value: Any) -> Any:
    """The value with dataclasses as objects, tuples as lists and enumerations as their words."""
    if is_dataclass(value) and not isinstance(value, type):
        shown = {each.name: getattr(value, each.name) for each in fields(value)}
        return {
            each.name: to_json(shown[each.name])
            for each in fields(value)
            if each.default is MISSING or shown[each.name] != each.default
        }
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Mapping):
        return {str(key): to_json(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [to_json(each) for each in value]
    return value


def from_json(wanted: Any, written: Any) -> Any:
    """A value of the wanted type from what `to_json` wrote."""
    if written is None or wanted is Any:
        return written
    if get_origin(wanted) in (Union, UnionType):
        return from_json(_not_none(wanted), written)
    if get_origin(wanted) is tuple:
        return _tuple(get_args(wanted), written)
    if is_dataclass(wanted) and isinstance(wanted, type):
        hints = _hints(wanted)
        return wanted(**{name: from_json(hints[name], each) for name, each in written.items()})
    if isinstance(wanted, type) and issubclass(wanted, Enum):
        return wanted(written)
    return float(written) if wanted is float else written


def _tuple(inner: tuple[Any, ...], written: Any) -> tuple[Any, ...]:
    if len(inner) == 2 and inner[1] is Ellipsis:
        return tuple(from_json(inner[0], each) for each in written)
    return tuple(from_json(kind, each) for kind, each in zip(inner, written, strict=True))


def _not_none(wanted: Any) -> Any:
    kinds = [each for each in get_args(wanted) if each is not type(None)]
    return kinds[0] if len(kinds) == 1 else Any


@cache
def _hints(wanted: type[Any]) -> dict[str, Any]:
    return get_type_hints(wanted)
