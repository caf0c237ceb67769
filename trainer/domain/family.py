"""ScenarioFamily: what a content file says, as types; every word of it was checked when the file was loaded.

A template's value may hold names of draws in braces. `{flow}` alone stands for the drawn value itself;
inside a sentence it stands for its text.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.domain.family_values import RIGHT, Amount, Condition, ResultOf, Span, Value
from trainer.domain.item_templates import (
    ChoiceTemplate,
    EffectTemplate,
    HandleTemplate,
    ItemTemplate,
    ObjectTemplate,
    OptionTemplate,
    OrderStepTemplate,
    OrderTemplate,
    PrecedenceTemplate,
    QuantityTemplate,
    ReadingTemplate,
    SceneTemplate,
    StepTemplate,
    TrapTemplate,
)
from trainer.domain.scenario import ItemKind

__all__ = [
    "Amount", "Choice", "ChoiceTemplate", "Condition", "EffectTemplate", "FactTemplate", "Figure",
    "HandleTemplate", "ItemTemplate", "NamedDraw", "ObjectTemplate", "OptionTemplate", "OrderStepTemplate",
    "OrderTemplate", "PrecedenceTemplate", "QuantityTemplate", "RIGHT", "ReadingTemplate", "ResultOf",
    "ScenarioFamily", "SceneTemplate", "Span", "StepTemplate", "TrapTemplate", "Value", "Variant",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One value that a draw may take, what it shows as a cue, and what it changes in the set-up."""

    value: Value
    span: Span = Span()
    cue: str = ""
    set_up: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class NamedDraw:
    """A named draw from a stock list."""

    name: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, kw_only=True)
class Variant:
    """What a named set-up changes in the right one: values, core results, or values from elsewhere in it."""

    set_up: Mapping[str, Value]
    derived: Mapping[str, ResultOf] = field(default_factory=dict)
    copied: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class FactTemplate:
    """A fact to show: the value at a set-up path, or a text of its own."""

    label: str
    path: str = ""
    text: str = ""
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class Figure:
    """A number of the core as the worked solution prints it; never in what is shown before marking."""

    source: ResultOf
    unit: str = ""
    si_per_unit: float = 1.0
    si_offset: float = 0.0
    digits: int = 2
    end: str = "expected"  # of an interval: expected, lower or upper


@dataclass(frozen=True, kw_only=True)
class ScenarioFamily:
    """One content file: ranges, constraints, faults, items, weights."""

    id: str
    title: str
    subtitle: str  # what a draw adds to the title
    skills: tuple[int, ...]
    situation: str
    draws: tuple[NamedDraw, ...]
    set_up: Mapping[str, Value]
    variants: Mapping[str, Variant]
    constraints: tuple[Condition, ...]
    facts: tuple[FactTemplate, ...]
    figures: Mapping[str, Figure]
    items: tuple[ItemTemplate, ...]
    content_version: str
    fixed: bool = False  # the numbers of one real job: nothing is drawn but the order of options and objects

    @property
    def drawn_title(self) -> str:
        """The template of a scenario's title."""
        return f"{self.title}, {self.subtitle}"

    @property
    def item_kinds(self) -> tuple[ItemKind, ...]:
        """The kinds of its items, each once, in order."""
        return tuple(dict.fromkeys(each.kind for each in self.items))
