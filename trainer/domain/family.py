"""ScenarioFamily: what a content file says, as types; every word of it was checked when the file was loaded.

A template's value may hold names of draws in braces. `{flow}` alone stands for the drawn value itself;
inside a sentence it stands for its text.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.domain.quantities import Dimension
from trainer.domain.scenario import EffectScale, ItemKind

RIGHT = "right"  # name of the set-up with every key filled in


@dataclass(frozen=True)
class Amount:
    """A quantity as written in a content file, with its SI value."""

    text: str
    value: float
    dimension: Dimension

    def __str__(self) -> str:
        return self.text


# What a draw or a template holds: a word, a number, an amount, a table of these, or a list of these.
Value = Any


@dataclass(frozen=True, kw_only=True)
class Span:
    """The difficulties at which something takes part, both ends included."""

    low: float = 0.0
    high: float = 1.0

    def holds(self, difficulty: float) -> bool:
        """Whether it takes part at this difficulty."""
        return self.low <= difficulty <= self.high


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
class ResultOf:
    """A core result of a named set-up, times a factor; with others named, the least of them all."""

    of: str
    result: str
    times: float | str = 1.0  # a text names a drawn number
    others: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Variant:
    """What a named set-up changes in the right one: values, core results, or values from elsewhere in it."""

    set_up: Mapping[str, Value]
    derived: Mapping[str, ResultOf] = field(default_factory=dict)
    copied: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Condition:
    """A core result held against a value, a draw or another result; it must clear it by `clear_ratio`."""

    left: ResultOf
    relation: str  # "above", "below", "is" or "is never"
    right: Value
    clear_ratio: float = 1.01
    span: Span = Span()


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
class StepTemplate:
    """One line of a worked solution."""

    what: str
    formula: str = ""
    numbers: str = ""
    result: str = ""
    rule: str = ""
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class HandleTemplate:
    """A movable part with its ends."""

    id: str
    label: str
    sets: str
    along: str
    low: Value
    high: Value
    step: Value


@dataclass(frozen=True, kw_only=True)
class EffectTemplate:
    """One effect that a placement is judged by; without `bad` the root is lost at the policy's multiple."""

    result: str
    good: Value
    misconception: str
    bad: Value = None
    after: Value = None
    scale: EffectScale = EffectScale.RATIO
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class TrapTemplate:
    """A wrong value that people come to: a result of the set-up asked about, or of a named one."""

    misconception: str
    result: str
    of: str = ""  # empty: the person's own set-up
    times: float = 1.0
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class QuantityTemplate:
    """What makes the key and the band of a quantity item."""

    result: str
    outcome: str
    limit: Value
    fails_above: bool
    more_is_safer: bool
    nearest: Value
    safe_zero_ratio: float | None = None  # None: the policy's
    input_uncertainties: tuple[float, ...] = ()
    traps: tuple[TrapTemplate, ...] = ()


@dataclass(frozen=True, kw_only=True)
class OptionTemplate:
    """One option: what it says, the belief behind it, when it is right, and what choosing it sets."""

    text: str
    belief: str = ""
    when: tuple[Condition, ...] = ()
    of: str = ""  # with `least`: the named set-up that this option stands for
    sets: Mapping[str, Value] = field(default_factory=dict)
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class ChoiceTemplate:
    """The options; right is the one whose conditions all hold, or whose set-up has the least of a result."""

    options: tuple[OptionTemplate, ...]
    least: str = ""
    clear_ratio: float = 1.1  # the second best must be this many times worse
    count: int = 4


@dataclass(frozen=True, kw_only=True)
class ObjectTemplate:
    """A place in the scene that is a hazard in some draws and its innocent counterpart in others."""

    hazard: str = ""
    innocent: str = ""
    chance: float = 0.5
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    conditions: tuple[Condition, ...] = ()
    why: str = ""  # instead of the catalogue's, with this draw's figures
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class SceneTemplate:
    """The objects, and how many innocent ones the scene is filled up to from a pool."""

    objects: tuple[ObjectTemplate, ...]
    innocent_pool: tuple[str, ...]
    innocent_count: int
    least_hazards: int = 2


@dataclass(frozen=True, kw_only=True)
class ItemTemplate:
    """One item of a family; exactly one of the last four is filled, by kind."""

    id: str
    kind: ItemKind
    skill: int
    text: str
    weight: float = 1.0
    critical: bool = False
    sets: tuple[str, ...] = ()
    unit_hint: str = ""
    solution: tuple[StepTemplate, ...] = ()
    span: Span = Span()
    quantity: QuantityTemplate | None = None
    handles: tuple[HandleTemplate, ...] = ()
    tests: tuple[EffectTemplate, ...] = ()
    keys: tuple[Mapping[str, Value], ...] = ()
    choice: ChoiceTemplate | None = None
    scene: SceneTemplate | None = None


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

    @property
    def item_kinds(self) -> tuple[ItemKind, ...]:
        """The kinds of its items, each once, in order."""
        return tuple(dict.fromkeys(each.kind for each in self.items))
