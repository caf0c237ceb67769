"""Items as a content file writes them, before a draw fills them in."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.domain.diagnosis_templates import DiagnosisTemplate
from trainer.domain.family_values import Condition, ResultOf, Span, Value
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Criterion, EffectScale, InstrumentKind, ItemKind


@dataclass(frozen=True, kw_only=True)
class ThumbTemplate:
    """What the trade says by heart, and between which amounts or core results it lies, if it gives any."""

    says: str
    low: Value = None
    high: Value = None


@dataclass(frozen=True, kw_only=True)
class StepTemplate:
    """One line of a worked solution."""

    what: str
    formula: str = ""
    words: str = ""
    numbers: str = ""
    result: str = ""
    rule: str = ""
    thumb: ThumbTemplate | None = None
    caution: str = ""
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
    """A wrong value that people come to: a result of the set-up asked about or of a named one, or a value."""

    misconception: str
    result: str = ""
    of: str = ""  # empty: the person's own set-up
    times: float = 1.0
    value: Value = None  # instead of a result
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
class OrderStepTemplate:
    """One step to be put in order; with a belief it does not belong there and is best left out."""

    id: str
    text: str
    belief: str = ""
    critical: bool = False
    span: Span = Span()


@dataclass(frozen=True, kw_only=True)
class PrecedenceTemplate:
    """One step that has to come before another, and why."""

    first: str
    then: str
    why: str
    critical: bool = False


@dataclass(frozen=True, kw_only=True)
class OrderTemplate:
    """The steps and what has to come before what: a partial order, with several right answers."""

    steps: tuple[OrderStepTemplate, ...]
    precedences: tuple[PrecedenceTemplate, ...]


@dataclass(frozen=True, kw_only=True)
class ReadingTemplate:
    """A drawn instrument: what it shows of a named set-up, its scale, and how near a reading has to be.

    A trace asks for the time at which the root comes down to `at`; a root is answered by the options of its
    choice.
    """

    instrument: InstrumentKind
    of: str
    shows: ResultOf | None = None
    path: str = ""  # of the set-up, instead of a core result
    unit: str = ""
    si_per_unit: float = 1.0
    dimension: Dimension = Dimension.DURATION
    low: Value = None
    high: Value = None
    division: Value = None
    tolerance_divisions: float = 0.5
    zero_divisions: float = 3.0
    at: Value = None


@dataclass(frozen=True, kw_only=True)
class ItemTemplate:
    """One item of a family; of the last ones those of its kind are filled."""

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
    order: OrderTemplate | None = None
    reading: ReadingTemplate | None = None
    rubric: tuple[Criterion, ...] = ()  # its texts with draws in braces
    diagnosis: DiagnosisTemplate | None = None
