"""The parts of an item as they are shown: handles, options, objects, steps, instruments, criteria."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from trainer.domain.quantities import Dimension


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
class OrderStep:
    """One step to be put in order; some of those offered are best left out."""

    id: str
    text: str


@dataclass(frozen=True, kw_only=True)
class Criterion:
    """One thing that an explanation is graded by: a sentence for each level from 0, nothing of it, upwards.

    A critical one at level 0 fails the attempt.
    """

    id: str
    text: str
    levels: tuple[str, ...]
    weight: float = 1.0
    critical: bool = False


class InstrumentKind(StrEnum):
    """What a reading item draws."""

    PRESSURE_GAUGE = "pressure gauge"
    FLOW_TUBE = "flow tube"
    ANALYSER = "analyser"
    TRACE = "oxygen trace"
    ROOT = "root"


@dataclass(frozen=True, kw_only=True)
class Instrument:
    """A drawn instrument: its scale in the unit printed on it, and where its pointer, float or line stands.

    A trace holds rows of time [s] and oxygen [-]; a root holds the grade that it is drawn in.
    """

    kind: InstrumentKind
    unit: str = ""
    si_per_unit: float = 1.0
    low: float = 0.0
    high: float = 1.0
    division: float = 0.1
    points_to: float = 0.0
    points: tuple[tuple[float, float], ...] = ()
    grade: str = ""
