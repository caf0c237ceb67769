"""The parts of an answer that never leave the server before an attempt is handed in: bands, keys, beliefs."""

from dataclasses import dataclass
from enum import StrEnum

from trainer.domain.quantities import Dimension


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
class Precedence:
    """One step that has to come before another, and why."""

    before: str
    after: str
    why: str
    critical: bool = False


@dataclass(frozen=True, kw_only=True)
class LeftOut:
    """A step that does not belong in the order, and the belief of whoever takes it in."""

    step_id: str
    misconception: str
    critical: bool = False


@dataclass(frozen=True, kw_only=True)
class ReadingBand:
    """Full marks within `tolerance` of the key, none from `zero_at` away on, falling between; in SI."""

    tolerance: float
    zero_at: float


class Verdict(StrEnum):
    """What a rule of thumb is worth beside the working."""

    AGREES = "agrees"
    GIVES_LESS = "gives less"
    GIVES_MORE = "gives more"


@dataclass(frozen=True, kw_only=True)
class RuleOfThumb:
    """What the trade says by heart, and what it comes to here between two SI values, either of them open.

    Held against the key where it gives a value; `is_unsafe` where it lies on the side that fails.
    """

    says: str
    dimension: Dimension | None = None
    low: float | None = None
    high: float | None = None
    verdict: Verdict | None = None
    is_unsafe: bool = False


@dataclass(frozen=True, kw_only=True)
class ShownFigure:
    """A figure of the core as it stands in a text, with its SI value."""

    text: str
    value: float
    dimension: Dimension
    digits: int


@dataclass(frozen=True, kw_only=True)
class SolutionStep:
    """One line of a worked solution: what, by which formula, from which numbers, with what result."""

    what: str
    formula: str = ""
    words: str = ""  # the formula in words
    numbers: str = ""
    result: str = ""
    rule: str = ""  # where the figure comes from, and what else is to be said of it
    thumb: RuleOfThumb | None = None
    caution: str = ""
    figures: tuple[ShownFigure, ...] = ()  # of the core, in the numbers and in the result
