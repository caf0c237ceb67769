"""The ledger's form: canonical entries, each chained to the one before it, one log an organisation.

An entry is the RFC 8785 form of a JSON object without floats, so that its bytes do not depend on how numbers
are printed. It holds opaque ids, verdicts, dates and commitments only; names and free text stay outside, and
deleting them there leaves a chain that still proves itself.
"""

import hmac
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from enum import StrEnum
from typing import TypeAlias, Union
from uuid import UUID

import rfc8785

from trainer.domain.errors import DomainError

FORM_VERSION = 1
SALT_BYTES = 32

# Ids, dates, moments, codes, versions and decimal strings; a space or an accent means somebody's words.
_OPAQUE = re.compile(r"[A-Za-z0-9._:/+\-]{0,128}", re.ASCII)
_LARGEST_INT = 2**53 - 1  # RFC 8785, section 3.2.2.3: numbers are those of IEEE 754 doubles

Plain: TypeAlias = Union[int, str, bool, None, Sequence["Plain"], Mapping[str, "Plain"]]  # noqa: UP040, UP007


class EntryType(StrEnum):
    """The acts that bear on a qualification."""

    ATTEMPT_STARTED = "attempt-started"
    ATTEMPT_HANDED_IN = "attempt-handed-in"
    ATTEMPT_EXPIRED = "attempt-expired"
    ATTEMPT_MARKED = "attempt-marked"
    SCORE_OVERRIDDEN = "score-overridden"
    EXPLANATION_GRADED = "explanation-graded"
    OBSERVATION_RECORDED = "observation-recorded"
    QUALIFICATION_AWARDED = "qualification-awarded"
    QUALIFICATION_CONFIRMED = "qualification-confirmed"
    QUALIFICATION_SUSPENDED = "qualification-suspended"
    QUALIFICATION_REVOKED = "qualification-revoked"
    SHARE_GIVEN = "share-given"
    SHARE_ENDED = "share-ended"
    ROLE_GIVEN = "role-given"
    ROLE_ENDED = "role-ended"
    POLICY_CHANGED = "policy-changed"


class UnfitForLedger(DomainError):
    """A value that may not enter the ledger: a float, free text, or something that JSON does not know."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(f"{where} {why}")
        self.where = where


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One act as it enters the ledger; `reason` and `commitment` are commitments, `supersedes` is a seq."""

    organisation_id: UUID
    seq: int
    time: datetime
    entry_type: EntryType
    subject: UUID
    actor: UUID | None
    body: Mapping[str, Plain]
    commitment: str | None
    reason: str | None
    supersedes: int | None
    prev: str | None


def canonical_entry(entry: Entry) -> bytes:
    """The bytes that are stored and hashed; raises UnfitForLedger for what may not enter."""
    return _canonical(
        {
            "v": FORM_VERSION,
            "log": str(entry.organisation_id),
            "seq": entry.seq,
            "time": written_time(entry.time),
            "type": entry.entry_type.value,
            "subject": str(entry.subject),
            "actor": None if entry.actor is None else str(entry.actor),
            "body": _fit(entry.body, where="body", opaque=True),
            "commitment": entry.commitment,
            "reason": entry.reason,
            "supersedes": entry.supersedes,
            "prev": entry.prev,
        }
    )


def canonical_details(details: Mapping[str, Plain] | str) -> bytes:
    """The bytes that a commitment is made over: words are allowed here, floats are not."""
    return _canonical(_fit(details, where="details", opaque=False))


def commitment(salt: bytes, *, canonical: bytes) -> str:
    """HMAC-SHA-256 under the record's own salt; without the salt it says nothing, even about a short name."""
    if len(salt) != SALT_BYTES:
        raise ValueError(f"a salt has {SALT_BYTES} bytes, this one {len(salt)}")
    return hmac.digest(salt, canonical, "sha256").hex()


def written_time(moment: datetime) -> str:
    """RFC 3339 in UTC, always with microseconds, so that the same moment is always the same bytes."""
    if moment.tzinfo is None:
        raise ValueError(f"{moment!r} does not say its time zone")
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def _canonical(value: object) -> bytes:
    return bytes(rfc8785.dumps(value))


def _fit(value: object, *, where: str, opaque: bool) -> object:
    """The value in JSON's own types, or UnfitForLedger naming the place of what does not fit."""
    match value:
        case None | bool():
            return value
        case int():
            return _fit_int(value, where=where)
        case str():
            return _fit_text(value, where=where, opaque=opaque)
        case Mapping():
            return {
                str(_fit_text(key, where=f"{where} key", opaque=True)): _fit(
                    inner, where=f"{where}.{key}", opaque=opaque
                )
                for key, inner in value.items()
            }
        case list() | tuple():
            return [
                _fit(inner, where=f"{where}[{place}]", opaque=opaque) for place, inner in enumerate(value)
            ]
    raise UnfitForLedger(where, f"is a {type(value).__name__}; integers and decimal strings are accepted")


def _fit_int(value: int, *, where: str) -> int:
    if abs(value) > _LARGEST_INT:
        raise UnfitForLedger(where, f"is beyond {_LARGEST_INT}; write it as a decimal string")
    return int(value)


def _fit_text(value: object, *, where: str, opaque: bool) -> str:
    if not isinstance(value, str):
        raise UnfitForLedger(where, f"is a {type(value).__name__} and no text")
    if opaque and not _OPAQUE.fullmatch(value):
        raise UnfitForLedger(where, "holds words; only ids, dates, codes and decimal strings may enter")
    return str(value)
