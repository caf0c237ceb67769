"""Fills the names in braces of a content file with what was drawn, and makes set-up values of it."""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from trainer.domain.family import Amount, Value
from trainer.domain.quantities import FieldKind
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import spec_at, with_values

Words = Callable[[str], str]  # what a template, or a word that is drawn, says in another language

NAME = re.compile(r"\{([a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)*)\}")


class FamilyFault(ValueError):
    """A content file says something that cannot be used; the text names what is accepted."""


def names_in(text: str) -> Iterator[str]:
    """The names in braces, as they stand."""
    return (each[1] for each in NAME.finditer(text))


def drawn_value(name: str, drawn: Mapping[str, Value]) -> Value:
    """The drawn value of a dotted name; raises FamilyFault where nothing of that name was drawn."""
    head, *rest = name.split(".")
    here: Value = drawn.get(head)
    for key in rest:
        here = here.get(key) if isinstance(here, Mapping) else None
    if here is None:
        raise FamilyFault(f"nothing is drawn under the name {{{name}}}")
    return here


def filled(template: Value, drawn: Mapping[str, Value]) -> Value:
    """The template with names replaced: one on its own by the value, names in a sentence by text."""
    if not isinstance(template, str) or "{" not in template:
        return template
    alone = NAME.fullmatch(template)
    if alone:
        return filled(drawn_value(alone[1], drawn), drawn)
    return NAME.sub(lambda found: str(filled(drawn_value(found[1], drawn), drawn)), template)


class Said(str):
    """A sentence that knows what it was made of, so that it can be said again in another language."""

    __slots__ = ("drawn", "template")
    template: str
    drawn: Mapping[str, Value]

    def again(self, words: Words) -> str:
        """The sentence with its template, and the words that were drawn into it, put into other words."""
        return _said_again(self.template, self.drawn, words)


def sentence(template: str, drawn: Mapping[str, Value]) -> Said:
    """The template as text."""
    said = Said(filled(template, drawn))
    said.template, said.drawn = template, drawn
    return said


def _said_again(template: Value, drawn: Mapping[str, Value], words: Words) -> str:
    if not isinstance(template, str):
        return words(str(template))
    return NAME.sub(lambda found: _said_again(drawn_value(found[1], drawn), drawn, words), words(template))


def set_up_value(path: str, value: Value) -> Any:
    """The SI value that a set-up takes at a path; raises FamilyFault naming what is accepted there."""
    spec = spec_at(path)
    if spec.kind is FieldKind.MEASURED:
        if not isinstance(value, Amount) or value.dimension is not spec.dimension:
            raise FamilyFault(f"{path}: {value!s} is no {spec.dimension} with its unit")
        return _in_range(path, value.value)
    if spec.kind is FieldKind.CHOICE and spec.choices is not None:
        words = [each.value for each in spec.choices]
        if str(value) not in words:
            raise FamilyFault(f"{path}: {value!s} is not one of {', '.join(words)}")
        return spec.choices(str(value))
    return _plain_value(path, value)


def _plain_value(path: str, value: Value) -> Any:
    kind = spec_at(path).kind
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if kind is FieldKind.NUMBER and is_number:
        return _in_range(path, float(value))
    if kind is FieldKind.COUNT and isinstance(value, int) and is_number:
        return int(_in_range(path, value))
    if kind is FieldKind.FLAG and isinstance(value, bool):
        return value
    if kind is FieldKind.TEXT and isinstance(value, str):
        return value
    raise FamilyFault(f"{path}: {value!s} is not what a {kind} field takes")


def _in_range(path: str, value: float) -> float:
    spec = spec_at(path)
    if (spec.low is not None and value < spec.low) or (spec.high is not None and value > spec.high):
        raise FamilyFault(f"{path}: {value:g} lies outside {spec.low} to {spec.high} (SI): {spec.why}")
    return value


def set_up_values(templates: Mapping[str, Value], drawn: Mapping[str, Value]) -> dict[str, Any]:
    """The SI values that the templates of several paths stand for."""
    return {path: set_up_value(path, filled(template, drawn)) for path, template in templates.items()}


def with_templates(set_up: SetUp, templates: Mapping[str, Value], drawn: Mapping[str, Value]) -> SetUp:
    """The set-up with the templates of several paths filled in."""
    return with_values(set_up, set_up_values(templates, drawn))
