"""What a diagnosis has come to: every step with what was seen, and how the matter stands."""

from dataclasses import dataclass
from enum import StrEnum

from trainer.domain.diagnosis_parts import Shows
from trainer.domain.errors import DomainError
from trainer.domain.quantities import Dimension
from trainer.domain.set_up import SetUp


class NoFurtherStep(DomainError):
    """A step after the end of the matter, or more steps than anybody takes."""


class Outcome(StrEnum):
    """How a diagnosis stands, or how it ended."""

    OPEN = "open"
    READY = (
        "ready"  # struck on proven oxygen, with the cause put right; or the person out, with all that needs
    )
    STILL_FAULTY = "still faulty"  # struck on proven oxygen, and the fault is still there
    TOO_EARLY = "too early"
    CALLED = "called"
    NOT_READY = "not ready"  # brought to an end without what has to come before it
    LOST = "lost"

    @property
    def is_over(self) -> bool:
        """Whether no further step is taken."""
        return self is not Outcome.OPEN


@dataclass(frozen=True, kw_only=True)
class Seen:
    """A figure beside what a check shows."""

    shows: Shows
    value: float
    dimension: Dimension


@dataclass(frozen=True, kw_only=True)
class StepSeen:
    """What stood after a step: the time since the first look, oxygen as shown and as it is, gas used since.

    The first one is the state before any step. Oxygen is that at crown and vent, or where
    somebody lies and mixed.
    """

    move_id: str
    time_s: float
    shown_frac: tuple[float, ...]
    true_frac: tuple[float, ...]
    gas_m3: float
    seen: str = ""
    figures: tuple[Seen, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Unfolding:
    """Every step taken so far, with how it stands; `set_up` is what the steps made of the set-up."""

    steps: tuple[StepSeen, ...]
    outcome: Outcome
    set_up: SetUp
    cured: bool
    done: frozenset[str]

    @property
    def is_over(self) -> bool:
        """Whether no further step is taken."""
        return self.outcome.is_over

    @property
    def time_s(self) -> float:
        """Time since the first look."""
        return self.steps[-1].time_s
