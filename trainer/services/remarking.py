"""A later marking of an attempt: laid over the one that stands, entered in the ledger, the old one kept."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from uuid import UUID

from trainer.domain.attempts import Attempt, AttemptKind, AttemptState, ItemMark
from trainer.domain.errors import WrongState
from trainer.domain.ledger import EntryType, Plain
from trainer.domain.modules import Blueprint, Verdict, judge
from trainer.domain.people import Acting
from trainer.services import attempt_acts
from trainer.services.settling import read_blueprint, scenario_passes
from trainer.services.site import Site
from trainer.storage import attempts, ledger, markings
from trainer.storage.database import Work
from trainer.storage.ledger import Act
from trainer.storage.markings import Marking, NewMarking


@dataclass(frozen=True, kw_only=True)
class Standing:
    """An attempt with the marking that stands, and what it is judged by."""

    attempt: Attempt
    marking: Marking
    marks: tuple[ItemMark, ...]
    blueprint: Blueprint


@dataclass(frozen=True, kw_only=True)
class Change:
    """What a later marking makes of the marks, why, and what the ledger is told of it.

    `body` is what the act adds to the address and the verdict; `details` may hold words and stay outside.
    """

    entry_type: EntryType
    marks: tuple[ItemMark, ...]
    reason: str
    body: Mapping[str, Plain]
    details: Mapping[str, Plain] | None = None


def standing_of(work: Work, attempt: Attempt) -> Standing:
    """What a later marking would be laid over; WrongState for practice and for what is not marked yet."""
    if attempt.kind is not AttemptKind.ASSESSED:
        raise WrongState("practice is not overridden or graded; it counts towards nothing")
    if not attempt.state.has_marks:
        raise WrongState("this attempt has not been marked yet")
    marking = markings.get_standing_marking(work, attempt_id=attempt.attempt_id)
    return Standing(
        attempt=attempt,
        marking=marking,
        marks=markings.list_marks(work, marking_id=marking.marking_id),
        blueprint=read_blueprint(work, attempt_id=attempt.attempt_id),
    )


def supersede(
    site: Site, work: Work, acting: Acting, *, standing: Standing, change: Change
) -> tuple[UUID, int]:
    """The new marking and its version. The caller weighs the qualifications that rest on the attempt."""
    verdict = judge(standing.blueprint, marks=change.marks)
    old, attempt = standing.marking, standing.attempt
    new = NewMarking(
        attempt_id=attempt.attempt_id,
        version=old.version + 1,
        marked_at=site.now(),
        passed=verdict.passed,
        total_frac=verdict.total_frac,
        critical_failures=list(verdict.critical_failures),
        policy_version=old.policy_version,
        core_version=old.core_version,
        ledger_seq=ledger.append(work, _act(site, acting, standing, change, verdict)).seq,
        supersedes=old.marking_id,
        marked_by=acting.person_id,
        reason=change.reason,
    )
    stored = markings.list_scenario_marks(work, marking_id=old.marking_id)
    scenarios = tuple(
        replace(each, passed=_passes(standing.blueprint, change.marks, each.scenario_no)) for each in stored
    )
    marking_id = markings.add_marking(work, new, scenarios=scenarios, marks=change.marks)
    attempts.advance_attempt(work, attempt_id=attempt.attempt_id, to=AttemptState.SUPERSEDED)
    return marking_id, new.version


def _passes(blueprint: Blueprint, marks: tuple[ItemMark, ...], scenario_no: int) -> bool | None:
    own = tuple(each for each in marks if each.scenario_no == scenario_no)
    return scenario_passes(blueprint, marks=own)


def _act(site: Site, acting: Acting, standing: Standing, change: Change, verdict: Verdict) -> Act:
    attempt = standing.attempt
    body: dict[str, Plain] = {
        "attempt": str(attempt.attempt_id),
        "version": standing.marking.version + 1,
        **change.body,
        **attempt_acts.verdict_body(verdict),
    }
    return Act(
        organisation_id=attempt.organisation_id,
        entry_type=change.entry_type,
        subject=attempt.person_id,
        actor=acting.person_id,
        now=site.now(),
        body=body,
        details=change.details,
        reason=change.reason,
        supersedes=standing.marking.ledger_seq,
    )
