"""A drawn scenario: the set-up, the facts shown, the items asked, and (kept apart) the core's answers.

A scenario stands on its own: with its answers it can be marked years later, without its family.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from trainer.domain.purge_run import PurgeRun
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp


class ItemKind(StrEnum):
    """How an item is answered."""

    QUANTITY = "quantity"
    PLACEMENT = "placement"
    CHOICE = "choice"
    HAZARDS = "hazards"


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
class Handle:
    """A movable part: which set-up value it sets, along which line of the drawing, between which SI ends."""

    id: str
    label: str
    sets: str
    along: str  # "pipe left", "pipe right" or "height"
    low: float
    high: float
    step: float
    dimension: Dimension | None  # None: a plain number such as a height


@dataclass(frozen=True, kw_only=True)
class Option:
    """One of several; `values` are the set-up values (SI, by path) that choosing it sets, if any."""

    id: str
    text: str
    values: tuple[tuple[str, Any], ...] = ()


@dataclass(frozen=True, kw_only=True)
class SceneObject:
    """Something drawn that may or may not be a hazard; box is x, y, width, height in drawing units."""

    id: str
    text: str
    sign: str  # key of the drawn sign
    box: tuple[float, float, float, float]


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


@dataclass(frozen=True, kw_only=True)
class QuantityBand:
    """Where a quantity scores: key in SI, band factor, ratios at which either side reaches 0."""

    key: float
    band_ratio: float
    safe_zero_ratio: float
    unsafe_zero_ratio: float
    more_is_safer: bool


@dataclass(frozen=True, kw_only=True)
class Trap:
    """A wrong quantity that people come to: a core result or a fixed SI value, and the belief."""

    misconception: str
    result: str = ""
    times: float = 1.0
    value: float | None = None


@dataclass(frozen=True, kw_only=True)
class QuantityRule:
    """How the band of a quantity follows from a set-up: a person's own earlier values are carried on.

    `result` gives the key; the outcome fails where `outcome` lies on the wrong side of `limit` (SI).
    """

    result: str
    sets: str  # set-up path that the response fills, for the outcome as well
    outcome: str
    limit: float
    fails_above: bool
    more_is_safer: bool
    nearest: float
    safe_zero_ratio: float
    input_uncertainty_ratio: float = 1.0  # band factor of the inputs, where the core gives none
    traps: tuple[Trap, ...] = ()


class EffectScale(StrEnum):
    """How the marks fall between good and bad: by ratio, or by difference where a ratio has no meaning."""

    RATIO = "ratio"
    DIFFERENCE = "difference"


@dataclass(frozen=True, kw_only=True)
class PlacementTest:
    """One effect that a placement is judged by: full marks at `good`, none at `bad`, falling between."""

    quantity: str
    good: float
    bad: float
    misconception: str
    scale: EffectScale = EffectScale.RATIO
    after_s: float | None = None  # when the effect is looked at, where it changes with time


@dataclass(frozen=True, kw_only=True)
class HazardKey:
    """What one scene object is: a hazard with its severity and why, or innocent."""

    object_id: str
    is_hazard: bool
    weight: float
    critical: bool
    why: str
    right_action: str


@dataclass(frozen=True, kw_only=True)
class SolutionStep:
    """One line of a worked solution: what, by which formula, from which numbers, with what result."""

    what: str
    formula: str = ""
    numbers: str = ""
    result: str = ""
    rule: str = ""  # the rule of the trade that it agrees with, and where the figure comes from


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What the core says of one item; never leaves the server before the attempt is handed in."""

    item_id: str
    key: Any  # as `mark` takes a response back: SI float, {handle: SI}, option id, or hazard ids
    critical: bool = False
    band: QuantityBand | None = None
    rule: QuantityRule | None = None
    placement: tuple[PlacementTest, ...] = ()
    misconceptions: Mapping[str, str] | None = None  # choice: option id → belief
    hazards: tuple[HazardKey, ...] = ()
    solution: tuple[SolutionStep, ...] = ()


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

    def item(self, item_id: str) -> Item:
        """The item of that id; raises KeyError."""
        return next(each for each in self.items if each.id == item_id)


@dataclass(frozen=True, kw_only=True)
class Point:
    """A mark on the drawing, in drawing units."""

    x: float
    y: float


# What a response is once its units are parsed: SI value, {handle id: SI value}, option id, marks.
Response = float | Mapping[str, float] | str | tuple[str | Point, ...]


@dataclass(frozen=True, kw_only=True)
class ItemOutcome:
    """What one response scored, 0 to 1, and why; `misconceptions` are the beliefs that it shows."""

    item_id: str
    score: float
    correct: bool
    answered: bool
    why: tuple[str, ...]
    misconceptions: tuple[str, ...] = ()
    critical_missed: bool = False


@dataclass(frozen=True, kw_only=True)
class Marked:
    """One marked scenario. `run` is the apprentice's own set-up through the core; None where parts miss."""

    outcomes: tuple[ItemOutcome, ...]
    total: float
    by_skill: Mapping[int, float]
    critical_missed: tuple[str, ...]
    passed: bool
    own_set_up: SetUp | None
    run: PurgeRun | None
    run_missing: tuple[str, ...] = ()
