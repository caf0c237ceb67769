"""Qualifications: what an award takes, how long it lasts, and the state it is in on a day.

Days are whole days in UTC, and the last day of a period counts. A period of months ends on the same day of
the month, or on the month's last where there is none: six months from 31 August is 28 February.
"""

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from uuid import UUID

from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.errors import WrongState
from trainer.domain.policy import Policy, QualificationRules
from trainer.domain.reasons import Reason, reason
from trainer.domain.scope import (
    Done,
    Job,
    Scope,
    confined_space_gap,
    outside_scope,
    scope_from,
    scope_gaps,
)


class QualificationState(StrEnum):
    """Where a qualification stands on a day; a person who has none is in training."""

    IN_TRAINING = "in training"
    CURRENT = "current"
    DUE = "due"  # in force, and the last day is near
    LAPSED = "lapsed"
    SUSPENDED = "suspended"
    REVOKED = "revoked"

    @property
    def is_in_force(self) -> bool:
        """Whether the person may be put on a job under it."""
        return self in (QualificationState.CURRENT, QualificationState.DUE)


class QualificationAct(StrEnum):
    """What was done to a qualification; each act is a row of its own and none is ever changed."""

    AWARDED = "awarded"
    CONFIRMED = "confirmed"
    SUSPENDED = "suspended"
    LIFTED = "lifted"  # a suspension ended
    REVOKED = "revoked"


@dataclass(frozen=True, kw_only=True)
class QualificationEvent:
    """One act: what, on which day, by whom, why."""

    act: QualificationAct
    day: date
    at: datetime
    by: UUID
    reason: str = ""


def months_later(day: date, *, months: int) -> date:
    """The same day of the month so many months on, clamped to the month's end."""
    year, month_index = divmod(day.year * 12 + day.month - 1 + months, 12)
    last = monthrange(year, month_index + 1)[1]
    return date(year, month_index + 1, min(day.day, last))


@dataclass(frozen=True, kw_only=True)
class Terms:
    """What an award lays down: its first and last day, how often it is confirmed, when it counts as due."""

    starts: date
    valid_until: date
    confirmation_months: int
    due_days: int


def terms_from(day: date, *, rules: QualificationRules) -> Terms:
    """The terms of a qualification awarded on a day."""
    return Terms(
        starts=day,
        valid_until=months_later(day, months=rules.validity_months),
        confirmation_months=rules.confirmation_months,
        due_days=rules.due_days,
    )


def confirm_by(terms: Terms, *, events: Sequence[QualificationEvent]) -> date:
    """The last day on which the latest award or confirmation still holds."""
    confirmed = [each.day for each in events if each.act is QualificationAct.CONFIRMED]
    return months_later(max([terms.starts, *confirmed]), months=terms.confirmation_months)


def last_day(terms: Terms, *, events: Sequence[QualificationEvent]) -> date:
    """The last day in force: the qualification lapses by itself after it."""
    return min(terms.valid_until, confirm_by(terms, events=events))


def state_on(day: date, *, terms: Terms, events: Sequence[QualificationEvent]) -> QualificationState:
    """The state on a day. Revocation is final; a term that has run out is over whether suspended or not."""
    acts = [each.act for each in events]
    if QualificationAct.REVOKED in acts:
        return QualificationState.REVOKED
    last = last_day(terms, events=events)
    if day > last:
        return QualificationState.LAPSED
    stops = [each for each in acts if each in (QualificationAct.SUSPENDED, QualificationAct.LIFTED)]
    if stops and stops[-1] is QualificationAct.SUSPENDED:
        return QualificationState.SUSPENDED
    if day < terms.starts:
        return QualificationState.IN_TRAINING
    return QualificationState.DUE if (last - day).days <= terms.due_days else QualificationState.CURRENT


_POSSIBLE_IN = {
    QualificationAct.CONFIRMED: {QualificationState.CURRENT, QualificationState.DUE},
    QualificationAct.SUSPENDED: {QualificationState.CURRENT, QualificationState.DUE},
    QualificationAct.LIFTED: {QualificationState.SUSPENDED},
    QualificationAct.REVOKED: {
        QualificationState.CURRENT,
        QualificationState.DUE,
        QualificationState.SUSPENDED,
        QualificationState.LAPSED,
    },
}


def require_possible(act: QualificationAct, *, state: QualificationState) -> None:
    """Raise WrongState where the act cannot be done; what has lapsed is earned again, not confirmed."""
    if state not in _POSSIBLE_IN[act]:
        raise WrongState(f"a qualification that is {state} cannot be {act}")


@dataclass(frozen=True, kw_only=True)
class Observation:
    """A purge seen in the booth: who saw it, when, on what, what the analyser read, how the root came out."""

    observation_id: UUID
    person_id: UUID
    organisation_id: UUID
    observed_by: UUID
    observed_on: date
    material: MaterialGroup
    gas: str
    outside_diameter_m: float
    oxygen_at_strike_frac: float
    root_grade: RootGrade
    confined_space: bool
    accepted: bool
    analyser_serial: str = ""
    analyser_calibrated_until: date | None = None
    notes: str = ""


def observation_faults(observation: Observation, *, policy: Policy) -> tuple[Reason, ...]:
    """Why an observation cannot stand behind a qualification; empty where it can."""
    faults = []
    if not observation.accepted:
        faults.append(reason("observation-not-accepted"))
    limit = policy.oxygen_limits.get(observation.material)
    if limit is not None and observation.oxygen_at_strike_frac > limit.frac:
        faults.append(
            reason(
                "observation-oxygen-over-limit",
                read_frac=observation.oxygen_at_strike_frac,
                limit_frac=limit.frac,
            )
        )
    if observation.root_grade is RootGrade.SUGARED:
        faults.append(reason("observation-root-sugared"))
    until = observation.analyser_calibrated_until
    if until is not None and until < observation.observed_on:
        faults.append(reason("observation-analyser-out-of-calibration", until=until.isoformat()))
    return tuple(faults)


@dataclass(frozen=True, kw_only=True)
class Signing:
    """Who would sign, for whom, and with what authority on the day."""

    signer_id: UUID
    person_id: UUID
    has_authority: bool
    also_taught: bool


@dataclass(frozen=True, kw_only=True)
class Appraisal:
    """What evidence amounts to: the scope it carries, why it is refused, what must be said plainly."""

    scope: Scope | None
    refusals: tuple[Reason, ...]
    remarks: tuple[Reason, ...]


def appraise(
    done: Sequence[Done], *, observations: Sequence[Observation], signing: Signing, policy: Policy
) -> Appraisal:
    """Weigh the evidence of passed assessed attempts and observations; a scope is never typed."""
    rules = policy.qualification
    refusals = list(_signing_faults(signing))
    gaps = scope_gaps(done, rules=rules) if done else (reason("no-passed-attempt"),)
    if not observations:
        refusals.append(reason("no-observation"))
    refusals += [fault for each in observations for fault in observation_faults(each, policy=policy)]
    scope = None
    seen = any(each.confined_space for each in observations)
    if not gaps:
        scope = scope_from(done, confined_space_seen=seen, rules=rules)
        refusals += _observed_outside(scope, observations)
    remarks = confined_space_gap(done, seen_in_booth=seen, rules=rules)
    if signing.also_taught:
        remarks = (*remarks, reason("one-person-taught-and-decided"))
    return Appraisal(scope=scope, refusals=(*refusals, *gaps), remarks=remarks)


def _signing_faults(signing: Signing) -> tuple[Reason, ...]:
    faults = []
    if signing.signer_id == signing.person_id:
        faults.append(reason("award-to-oneself"))
    if not signing.has_authority:
        faults.append(reason("signer-without-authority-today"))
    return tuple(faults)


def _observed_outside(scope: Scope, observations: Sequence[Observation]) -> list[Reason]:
    """The booth must show something that the scope covers, or the observation proves another skill."""
    outside = [
        outside_scope(
            scope,
            job=Job(material=each.material, gas=each.gas, outside_diameter_m=each.outside_diameter_m),
        )
        for each in observations
    ]
    if not outside or not all(outside):
        return []
    return [reason("observation-outside-scope", part=each.code) for each in outside[0]]
