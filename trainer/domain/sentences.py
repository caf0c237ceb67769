"""What a drawn scenario says in another language: each of its sentences, beside itself in other words."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from trainer.domain.scenario import Scenario
from trainer.domain.set_up import SetUp
from trainer.domain.spool_path import all_parts, path_of
from trainer.domain.templates import Said, Words


def said_again(scenario: Scenario, words: Words) -> dict[str, str]:
    """Every sentence of a scenario that was just drawn, and of its answers, with what it says in these words.

    A scenario that was stored and read back has plain texts, which nothing can be made of any more.
    """
    named = {each: words(each) for each in names_given(scenario.set_up)}
    return named | {str(each): each.again(words) for each in _said(scenario)}


def names_given(set_up: SetUp) -> Iterator[str]:
    """What a set-up calls the parts of a spool and what lies near the weld, in words of its own."""
    called = (*(each.name for each in all_parts(path_of(set_up))), *(each.what for each in set_up.near_heat))
    yield from (each for each in called if each)


def _said(part: Any) -> Iterator[Said]:
    if isinstance(part, Said):
        yield part
    elif is_dataclass(part):
        for each in fields(part):
            yield from _said(getattr(part, each.name))
    elif isinstance(part, Mapping):
        for each in part.values():
            yield from _said(each)
    elif isinstance(part, tuple | list):
        for each in part:
            yield from _said(each)
