"""An attempt: its states, its time limit, the seeds it may draw from, and the marks of its items."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import ROUND_DOWN, Decimal
from enum import StrEnum
from uuid import UUID

from trainer.domain.errors import WrongState
from trainer.domain.scenario import Marked, Scenario

LARGEST_SEED = 2**53 - 1


class AttemptKind(StrEnum):
    """Practice teaches and is the person's own; assessed counts towards a qualification."""

    PRACTICE = "practice"
    ASSESSED = "assessed"


class AttemptState(StrEnum):
    """Where an attempt stands. Superseded: a later marking has replaced the first; the latest stands."""

    OPEN = "open"
    SUBMITTED = "submitted"
    EXPIRED = "expired"
    MARKED = "marked"
    SUPERSEDED = "superseded"

    @property
    def has_marks(self) -> bool:
        """Whether a marking stands, so that answers may be shown."""
        return self in (AttemptState.MARKED, AttemptState.SUPERSEDED)


_MAY_BECOME = {
    AttemptState.OPEN: {AttemptState.SUBMITTED, AttemptState.EXPIRED},
    AttemptState.SUBMITTED: {AttemptState.MARKED},
    AttemptState.EXPIRED: {AttemptState.MARKED},
    AttemptState.MARKED: {AttemptState.SUPERSEDED},
    AttemptState.SUPERSEDED: {AttemptState.SUPERSEDED},
}


def advanced(state: AttemptState, *, to: AttemptState) -> AttemptState:
    """The next state; raises WrongState where an attempt cannot go there."""
    if to not in _MAY_BECOME[state]:
        raise WrongState(f"an attempt that is {state} cannot become {to}")
    return to


@dataclass(frozen=True, kw_only=True)
class Attempt:
    """One person's run through one or more scenarios; times are the server's."""

    attempt_id: UUID
    person_id: UUID
    organisation_id: UUID
    kind: AttemptKind
    state: AttemptState
    title: str
    started_at: datetime
    expires_at: datetime | None
    hand_in_token: UUID
    module_id: UUID | None = None
    assignment_id: UUID | None = None
    ended_at: datetime | None = None

    @property
    def ran_out_of_time(self) -> bool:
        """Whether the time limit ended it, and not the person."""
        return self.ended_at is not None and self.ended_at == self.expires_at


def expiry(started_at: datetime, *, time_limit_s: int | None) -> datetime | None:
    """When the time is up, fixed at the start; None without a time limit."""
    return None if time_limit_s is None else started_at + timedelta(seconds=time_limit_s)


def seconds_left(expires_at: datetime | None, *, now: datetime) -> int | None:
    """Whole seconds until the time is up, none below nothing; None where there is no limit."""
    return None if expires_at is None else max(0, int((expires_at - now).total_seconds()))


def time_is_up(expires_at: datetime | None, *, now: datetime) -> bool:
    """Whether the limit has passed; what arrives at the very moment of the limit is late."""
    return expires_at is not None and now >= expires_at


def needs_settling(attempt: Attempt, *, now: datetime) -> bool:
    """Whether the clock has ended it, or it has ended and nobody has marked it yet."""
    if attempt.state is AttemptState.OPEN:
        return time_is_up(attempt.expires_at, now=now)
    return not attempt.state.has_marks


def require_open(attempt: Attempt, *, now: datetime) -> None:
    """Raise WrongState unless a response may still be kept."""
    if attempt.expires_at is not None and time_is_up(attempt.expires_at, now=now):
        raise WrongState(f"time was up at {attempt.expires_at:%Y-%m-%d %H:%M:%S} UTC")
    if attempt.state is not AttemptState.OPEN:
        raise WrongState("this attempt has been handed in")


def seed_in_space(raw_count: int, *, kind: AttemptKind) -> int:
    """The seed that a raw draw stands for: even seeds belong to practice, odd ones to assessment.

    The spaces are apart for good, so nothing met in practice can come back in an assessed attempt.
    """
    if not 0 <= raw_count <= LARGEST_SEED:
        raise ValueError(f"a seed lies between 0 and {LARGEST_SEED}, not at {raw_count}")
    return raw_count - raw_count % 2 + (1 if kind is AttemptKind.ASSESSED else 0)


@dataclass(frozen=True, kw_only=True)
class ItemMark:
    """What one item of one scenario of an attempt scored, in the form that verdicts are computed from.

    `score` is None while an explanation waits for its grade.
    """

    scenario_no: int
    family: str
    item_id: str
    skill: int
    weight: float
    score: float | None
    correct: bool
    answered: bool
    critical_missed: bool
    why: tuple[str, ...] = ()
    misconceptions: tuple[str, ...] = ()
    overridden: bool = False

    @property
    def waits_for_grade(self) -> bool:
        """Whether a person has yet to grade it."""
        return self.score is None


def item_marks(scenario: Scenario, *, marked: Marked, scenario_no: int) -> tuple[ItemMark, ...]:
    """The marks of one scenario, in the order of its items."""
    outcomes = {each.item_id: each for each in marked.outcomes}
    return tuple(
        ItemMark(
            scenario_no=scenario_no,
            family=scenario.family,
            item_id=item.id,
            skill=item.skill,
            weight=item.weight,
            score=outcomes[item.id].score,
            correct=outcomes[item.id].correct,
            answered=outcomes[item.id].answered,
            critical_missed=outcomes[item.id].critical_missed,
            why=tuple(outcomes[item.id].why),
            misconceptions=tuple(outcomes[item.id].misconceptions),
        )
        for item in scenario.items
    )


def weighted_mean(marks: tuple[ItemMark, ...]) -> float | None:
    """Weighted mean score of marks, None while one waits for its grade; raises ValueError for no marks."""
    total = sum(each.weight for each in marks)
    if total <= 0.0:
        raise ValueError("no weight to take a mean over")
    if any(each.waits_for_grade for each in marks):
        return None
    return sum(each.weight * (each.score or 0.0) for each in marks) / total


def score_text(score_frac: float | None) -> str | None:
    """A score as it is written: three decimals, rounded down, so that no missed cut looks reached; None for
    one that waits for a grade."""
    if score_frac is None:
        return None
    # a mean that misses a round figure by floating-point noise alone still counts as that figure
    return str(Decimal(repr(round(score_frac, 9))).quantize(Decimal("0.001"), rounding=ROUND_DOWN))
