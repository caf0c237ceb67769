"""Every text of a family and of the hazard catalogue that somebody reads, as its file writes it."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from trainer.domain.diagnosis_templates import CauseTemplate, MoveTemplate
from trainer.domain.family import (
    Choice,
    EffectTemplate,
    FactTemplate,
    HandleTemplate,
    ItemTemplate,
    ObjectTemplate,
    OptionTemplate,
    OrderStepTemplate,
    PrecedenceTemplate,
    ScenarioFamily,
    StepTemplate,
    TrapTemplate,
    Value,
)
from trainer.domain.hazards import HazardCatalogue
from trainer.domain.item_templates import ThumbTemplate
from trainer.domain.result_kinds import RESULTS
from trainer.domain.scenario import Criterion
from trainer.domain.templates import NAME, names_in

# The fields of each part that are read by people; all others are keys, paths and amounts.
_READ: Mapping[type[Any], tuple[str, ...]] = {
    ScenarioFamily: ("situation",),
    Choice: ("cue",),
    FactTemplate: ("label", "text"),
    ItemTemplate: ("text",),
    HandleTemplate: ("label",),
    EffectTemplate: ("misconception",),
    TrapTemplate: ("misconception",),
    OptionTemplate: ("text", "belief"),
    ObjectTemplate: ("why",),
    OrderStepTemplate: ("text", "belief"),
    PrecedenceTemplate: ("why",),
    Criterion: ("text", "levels"),
    CauseTemplate: ("words",),
    MoveTemplate: ("text", "seen", "belief"),
    StepTemplate: ("what", "formula", "words", "numbers", "result", "rule", "caution"),
    ThumbTemplate: ("says",),
}
_NAMES_A_PART = re.compile(r"near_heat\.\d+\.what|section\.path\..+\.name")
_UNITS = r"\b(?:min|ppm|bar|kPa|cfh|psi|cfm)\b"
_WORD = re.compile(r"[^\W\d_²³⁴]{3,}|\b(?:to|at|of|by)\b")  # between two sizes stands a word


def texts_of_family(family: ScenarioFamily) -> dict[str, None]:
    """The texts of a family in the order of its file, each once: the titles first, drawn words last."""
    found = dict.fromkeys(
        [family.title, f"{family.title}, {family.subtitle}", *_texts(family), *_names_given(family)]
    )
    found |= dict.fromkeys(_drawn_words(family, [each for text in found for each in names_in(text)]))
    return {each: None for each in found if is_words(each)}


def texts_of_hazards(hazards: HazardCatalogue) -> dict[str, None]:
    """The texts of the hazard catalogue, and the words that a result of the core can be."""
    texts = [text for each in hazards.entries.values() for text in (each.text, each.why, each.right_action)]
    words = [word for each in RESULTS.values() for word in each.words]
    return {each: None for each in dict.fromkeys([*texts, "never", *words]) if is_words(each)}


def is_words(text: str) -> bool:
    """Whether a text says anything beside what is drawn into it: formulas, sizes and units do not."""
    return bool(_WORD.search(re.sub(_UNITS, "", NAME.sub("", text))))


def _texts(part: Any) -> Iterator[str]:
    if is_dataclass(part):
        for name in _READ.get(type(part), ()):
            yield from _strings(getattr(part, name))
        for each in fields(part):
            yield from _texts(getattr(part, each.name))
    elif isinstance(part, Mapping):
        for each in part.values():
            yield from _texts(each)
    elif isinstance(part, tuple):
        for each in part:
            yield from _texts(each)


def _names_given(family: ScenarioFamily) -> Iterator[str]:
    """What the set-up calls the parts of a spool, and what lies near the weld."""
    set_ups = (family.set_up, *(each.set_up for each in family.variants.values()))
    for path, value in (found for each in set_ups for found in each.items()):
        if _NAMES_A_PART.fullmatch(path) and isinstance(value, str):
            yield value


def _strings(said: Any) -> Iterator[str]:
    if isinstance(said, str):
        yield said
    elif isinstance(said, Mapping):
        yield from said.values()
    else:
        yield from said


def _drawn_words(family: ScenarioFamily, names: list[str]) -> Iterator[str]:
    """What draws put into texts, and what that draws in turn."""
    seen: set[str] = set()
    waiting = list(dict.fromkeys(names))
    while waiting:
        name = waiting.pop(0)
        if name in seen:
            continue
        seen.add(name)
        head, *rest = name.split(".")
        choices = next((each.choices for each in family.draws if each.name == head), ())
        for text in (found for each in choices for found in _at(each.value, rest)):
            yield text
            waiting += names_in(text)


def _at(value: Value, path: list[str]) -> Iterator[str]:
    for key in path:
        value = value.get(key) if isinstance(value, Mapping) else None
    if isinstance(value, str):
        yield value
