"""A drawn scenario: the set-up, the facts shown, the items asked, and (kept apart) the core's answers.

A scenario stands on its own: with its answers it can be marked years later, without its family.
"""

from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from trainer.domain.answer_parts import (
    EffectScale,
    HazardKey,
    LeftOut,
    PlacementTest,
    Precedence,
    QuantityBand,
    QuantityRule,
    ReadingBand,
    RuleOfThumb,
    ShownFigure,
    SolutionStep,
    Trap,
    Verdict,
)
from trainer.domain.diagnosis_parts import DiagnosisKey, DiagnosisSheet
from trainer.domain.errors import Missing
from trainer.domain.item_parts import (
    Criterion,
    Handle,
    Instrument,
    InstrumentKind,
    Option,
    OrderStep,
    SceneObject,
)
from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp

__all__ = [
    "Answer", "Criterion", "Cue", "EffectScale", "Fact", "Handle", "HazardKey", "Instrument",
    "InstrumentKind", "Item", "ItemKind", "ItemOutcome", "LeftOut", "Marked", "Option", "OrderStep",
    "PlacementTest", "Point", "Precedence", "QuantityBand", "QuantityRule", "ReadingBand", "Response",
    "RuleOfThumb", "Scenario", "SceneObject", "Severity", "ShownFigure", "SolutionStep", "Trap", "Verdict",
]  # fmt: skip


class ItemKind(StrEnum):
    """How an item is answered."""

    QUANTITY = "quantity"
    PLACEMENT = "placement"
    CHOICE = "choice"
    HAZARDS = "hazards"
    ORDER = "order"
    READING = "reading"
    EXPLANATION = "explanation"
    DIAGNOSIS = "diagnosis"


class Severity(StrEnum):
    """What a mistake costs: a life, the weld, or money."""

    LIFE = "life"
    WELD = "weld"
    COST = "cost"


@dataclass(frozen=True, kw_only=True)
class Fact:
    """A stated fact: what it is called, and its value in SI with its dimension, or a text."""

    label: str
    path: str
    value: float | None = None
    dimension: Dimension | None = None
    text: str = ""


@dataclass(frozen=True, kw_only=True)
class Cue:
    """Something to notice, drawn or written, that stands for a fault in the set-up."""

    code: str
    text: str


@dataclass(frozen=True, kw_only=True)
class Item:
    """One thing asked. Which of the last fields are filled depends on the kind."""

    id: str
    kind: ItemKind
    skill: int
    text: str
    weight: float = 1.0
    sets: tuple[str, ...] = ()
    dimension: Dimension | None = None
    unit_hint: str = ""
    nearest: float | None = None  # quantity: answered to the nearest so much (SI)
    handles: tuple[Handle, ...] = ()
    options: tuple[Option, ...] = ()
    objects: tuple[SceneObject, ...] = ()
    steps: tuple[OrderStep, ...] = ()
    instrument: Instrument | None = None
    rubric: tuple[Criterion, ...] = ()  # explanation: what a person grades it by, shown to both sides
    diagnosis: DiagnosisSheet | None = None


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What the core says of one item; never leaves the server before the attempt is handed in."""

    item_id: str
    # as `mark` takes a response back: SI float, {handle: SI}, option id, hazard ids, or step ids; None for an
    # explanation, which has no key
    key: Any
    critical: bool = False
    band: QuantityBand | None = None
    rule: QuantityRule | None = None
    placement: tuple[PlacementTest, ...] = ()
    misconceptions: Mapping[str, str] | None = None  # choice: option id → belief
    hazards: tuple[HazardKey, ...] = ()
    solution: tuple[SolutionStep, ...] = ()
    precedences: tuple[Precedence, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    reading: ReadingBand | None = None
    diagnosis: DiagnosisKey | None = None


@dataclass(frozen=True, kw_only=True)
class Scenario:
    """One drawn problem."""

    family: str
    title: str
    seed: int | None  # None in what is shown before an assessed attempt is handed in
    difficulty: float
    content_version: str
    core_version: str
    policy_version: str
    situation: str
    set_up: SetUp
    facts: tuple[Fact, ...]
    cues: tuple[Cue, ...]
    items: tuple[Item, ...]
    answers: Mapping[str, Answer]
    given: tuple[Fact, ...] = ()  # beside the facts: what everybody on the job takes as given
    said: Mapping[str, Mapping[str, str]] = field(default_factory=dict)  # by language: sentence → the same

    def item(self, item_id: str) -> Item:
        """The item of that id; raises Missing."""
        for each in self.items:
            if each.id == item_id:
                return each
        raise Missing("item", item_id)


def unanswered_items(
    scenarios: Mapping[int, Scenario], *, answered: Container[tuple[int, str]]
) -> tuple[tuple[int, str], ...]:
    """What numbered scenarios ask and nobody has answered, by scenario number and item id, in order."""
    asked = ((number, item.id) for number, each in scenarios.items() for item in each.items)
    return tuple(each for each in asked if each not in answered)


@dataclass(frozen=True, kw_only=True)
class Point:
    """A mark on the drawing, in drawing units."""

    x: float
    y: float


# What a response is once its units are parsed: SI value, {handle id: SI value}, option id or text, marks.
Response = float | Mapping[str, float] | str | tuple[str | Point, ...]


@dataclass(frozen=True, kw_only=True)
class ItemOutcome:
    """What one response scored, 0 to 1, and why; `misconceptions` are the beliefs that it shows.

    `score` is None while an explanation waits for a person to grade it.
    """

    item_id: str
    score: float | None
    correct: bool
    answered: bool
    why: tuple[str, ...]
    misconceptions: tuple[str, ...] = ()
    critical_missed: bool = False


@dataclass(frozen=True, kw_only=True)
class Marked:
    """One marked scenario. `run` is the apprentice's own set-up through the core; None where parts miss.

    A mean over an item that waits for its grade is None. `passed` is None while only grades are missing:
    what has failed already stays failed.
    """

    outcomes: tuple[ItemOutcome, ...]
    total: float | None
    by_skill: Mapping[int, float | None]
    critical_missed: tuple[str, ...]
    passed: bool | None
    own_set_up: SetUp | None
    run: PurgeRun | None
    run_missing: tuple[str, ...] = ()
