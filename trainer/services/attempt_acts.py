"""What the ledger is told of an attempt. Practice bears on no qualification and stays out of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import sha256
from typing import Any
from uuid import UUID

import rfc8785

from trainer.domain.attempts import Attempt, AttemptKind, score_text
from trainer.domain.ledger import EntryType, Plain
from trainer.domain.modules import Verdict
from trainer.storage import ledger
from trainer.storage.attempts import KeptResponse
from trainer.storage.database import Work
from trainer.storage.ledger import Act


@dataclass(frozen=True, kw_only=True)
class Answered:
    """What was drawn on a sheet of paper, and what was answered there."""

    drawn: Sequence[dict[str, Any]]
    kept: Sequence[KeptResponse]


@dataclass(frozen=True, kw_only=True)
class KeyedIn:
    """Who keyed in which sheet of paper and when, and the day on which it was sat."""

    code: str
    person_id: UUID
    at: datetime
    sat_on: date


def enter_started(work: Work, attempt: Attempt, *, drawn: Sequence[dict[str, Any]]) -> None:
    """The start: what was drawn is committed to, so that it cannot be changed later."""
    body = _started_body(attempt, drawn)
    details = _started_details(drawn)
    _enter(work, attempt, EntryType.ATTEMPT_STARTED, now=attempt.started_at, body=body, details=details)


def _started_body(attempt: Attempt, drawn: Sequence[dict[str, Any]]) -> dict[str, Plain]:
    return {
        "module": str(attempt.module_id),
        "assignment": str(attempt.assignment_id),
        "scenarios": len(drawn),
        "expires": None if attempt.expires_at is None else _moment(attempt.expires_at),
    }


def _started_details(drawn: Sequence[dict[str, Any]]) -> dict[str, Plain]:
    return {"scenarios_sha256": _digest(list(drawn))}


def enter_ended(
    work: Work, attempt: Attempt, *, kept: Sequence[KeptResponse], expired: bool, now: datetime
) -> None:
    """The end, by the person or by the clock: what was kept until then is committed to."""
    entry_type = EntryType.ATTEMPT_EXPIRED if expired else EntryType.ATTEMPT_HANDED_IN
    _enter(work, attempt, entry_type, now=now, body=_ended_body(kept), details=_ended_details(kept))


def _ended_body(kept: Sequence[KeptResponse]) -> dict[str, Plain]:
    return {"responses": len(kept)}


def _ended_details(kept: Sequence[KeptResponse]) -> dict[str, Plain]:
    responses = [[each.scenario_no, each.item_id, each.version, each.raw] for each in kept]
    return {"responses_sha256": _digest(responses)}


def enter_from_paper(work: Work, attempt: Attempt, answered: Answered, *, by: KeyedIn) -> None:
    """Start and end of an attempt answered on paper, entered by whoever supervised and keyed it in."""
    on_paper: dict[str, Plain] = {"on_paper": True, "sheet": by.code, "sat_on": by.sat_on.isoformat()}
    drawn, kept = answered.drawn, answered.kept
    for entry_type, body, details in (
        (EntryType.ATTEMPT_STARTED, _started_body(attempt, drawn), _started_details(drawn)),
        (EntryType.ATTEMPT_HANDED_IN, _ended_body(kept), _ended_details(kept)),
    ):
        whole: dict[str, Plain] = {**body, **on_paper}
        _enter(work, attempt, entry_type, now=by.at, body=whole, details=details, keyed_by=by.person_id)


def enter_marked(
    work: Work, attempt: Attempt, *, verdict: Verdict, versions: dict[str, str], now: datetime
) -> int | None:
    """The first marking, which the core makes; returns its place in the ledger, None for practice."""
    body: dict[str, Plain] = {"version": 1, **versions, **verdict_body(verdict)}
    return _enter(work, attempt, EntryType.ATTEMPT_MARKED, now=now, body=body)


def verdict_body(verdict: Verdict) -> dict[str, Plain]:
    """A verdict in the ledger's words: decimal strings for means, codes for what failed."""
    return {
        "passed": verdict.passed,
        "total": score_text(verdict.total_frac),
        "skills": {
            str(each.skill): None if each.mean_frac is None else score_text(each.mean_frac)
            for each in verdict.skills
        },
        "critical_failures": list(verdict.critical_failures),
        "unanswered": len(verdict.unanswered),
    }


def _enter(  # noqa: PLR0913 - one for each part of an entry
    work: Work,
    attempt: Attempt,
    entry_type: EntryType,
    *,
    now: datetime,
    body: Mapping[str, Plain],
    details: Mapping[str, Plain] | None = None,
    keyed_by: UUID | None = None,
) -> int | None:
    if attempt.kind is AttemptKind.PRACTICE:
        return None
    by_machine = entry_type in (EntryType.ATTEMPT_EXPIRED, EntryType.ATTEMPT_MARKED)
    act = Act(
        organisation_id=attempt.organisation_id,
        entry_type=entry_type,
        subject=attempt.person_id,
        actor=None if by_machine else keyed_by or attempt.person_id,
        now=now,
        body={"attempt": str(attempt.attempt_id), **body},
        details=details,
    )
    return ledger.append(work, act).seq


def _digest(document: Any) -> str:
    return sha256(rfc8785.dumps(document)).hexdigest()


def _moment(at: datetime) -> str:
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")


def word(text: str) -> str:
    """A trade word as a code: the ledger takes no spaces, which would be somebody's words."""
    return text.replace(" ", "-")
