"""Appending to a log and reading it back; the form of an entry is the domain's."""

import hashlib
import json
import secrets
from collections.abc import Generator, Mapping
from contextlib import closing
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, LargeBinary, Row, Text, cast, func, insert, select
from sqlalchemy.orm import InstrumentedAttribute

from trainer.domain import merkle
from trainer.domain.audit import StoredEntry
from trainer.domain.ledger import (
    SALT_BYTES,
    Entry,
    EntryType,
    Plain,
    canonical_details,
    canonical_entry,
    commitment,
)
from trainer.storage.database import Work
from trainer.storage.tables.ledger import CommitmentSaltRow, LedgerEntryRow

_AT_A_TIME = 500


@dataclass(frozen=True, kw_only=True)
class Act:
    """What is to be entered. `body` holds opaque values only; `details` and `reason` may hold words, which
    stay outside the ledger and enter as commitments. `supersedes` is the seq of an entry of the same log."""

    organisation_id: UUID
    entry_type: EntryType
    subject: UUID
    actor: UUID | None
    now: datetime
    body: Mapping[str, Plain] = field(default_factory=dict)
    details: Mapping[str, Plain] | None = None
    reason: str | None = None
    supersedes: int | None = None


@dataclass(frozen=True, kw_only=True)
class Appended:
    """Where the act was entered."""

    seq: int
    leaf_hash: str


def append(work: Work, act: Act) -> Appended:
    """Enters an act at the end of its organisation's log, in the transaction of the act itself."""
    _take_turn(work, act.organisation_id)
    seq, prev = _end_of(work, act.organisation_id)
    salt = secrets.token_bytes(SALT_BYTES)
    details = None if act.details is None else canonical_details(act.details)
    reason = None if act.reason is None else canonical_details(act.reason)
    canonical = canonical_entry(
        Entry(
            organisation_id=act.organisation_id,
            seq=seq,
            time=act.now,
            entry_type=act.entry_type,
            subject=act.subject,
            actor=act.actor,
            body=act.body,
            commitment=None if details is None else commitment(salt, canonical=details),
            reason=None if reason is None else commitment(salt, canonical=reason),
            supersedes=act.supersedes,
            prev=prev,
        )
    )
    leaf = merkle.leaf_hash(canonical)
    work.session.execute(
        insert(LedgerEntryRow).values(
            organisation_id=act.organisation_id,
            seq=seq,
            entry_type=act.entry_type,
            subject=act.subject,
            canonical=canonical,
            prev=prev,
            leaf_hash=leaf,
        )
    )
    if details is not None or reason is not None:
        work.session.execute(
            insert(CommitmentSaltRow).values(
                organisation_id=act.organisation_id,
                seq=seq,
                salt=salt,
                details=details,
                reason=reason,
            )
        )
    return Appended(seq=seq, leaf_hash=leaf)


def read_log(work: Work, *, organisation_id: UUID) -> Generator[StoredEntry, None, None]:
    """All entries of one log in the order of their seq, a few at a time, however damaged they are.

    Whoever may stop early closes it (`contextlib.closing`), or PostgreSQL's cursor stays open.
    """
    rows = work.session.execute(
        select(
            LedgerEntryRow.seq,
            LedgerEntryRow.canonical,
            _raw(work, LedgerEntryRow.entry_type),
            _raw(work, LedgerEntryRow.subject),
            _raw(work, LedgerEntryRow.prev),
            _raw(work, LedgerEntryRow.leaf_hash),
            CommitmentSaltRow.salt,
            CommitmentSaltRow.details,
            CommitmentSaltRow.reason,
        )
        .outerjoin(
            CommitmentSaltRow,
            (CommitmentSaltRow.organisation_id == LedgerEntryRow.organisation_id)
            & (CommitmentSaltRow.seq == LedgerEntryRow.seq),
        )
        .where(LedgerEntryRow.organisation_id == organisation_id)
        .order_by(LedgerEntryRow.seq)
        .execution_options(yield_per=_AT_A_TIME)
    )
    with closing(rows):
        for row in rows:
            yield _stored(row)


def list_latest(
    work: Work, *, organisation_id: UUID, before: int | None, limit: int
) -> tuple[dict[str, Any], ...]:
    """The last entries of a log, or the last before a seq, the newest first, as their JSON says."""
    query = (
        select(LedgerEntryRow.canonical)
        .where(LedgerEntryRow.organisation_id == organisation_id)
        .order_by(LedgerEntryRow.seq.desc())
        .limit(limit)
    )
    if before is not None:
        query = query.where(LedgerEntryRow.seq < before)
    return tuple(json.loads(canonical) for canonical in work.session.scalars(query))


def _take_turn(work: Work, organisation_id: UUID) -> None:
    """One writer of a log at a time: SQLite's transaction has the lock, PostgreSQL takes one a log."""
    if work.session.get_bind().dialect.name == "postgresql":
        digest = hashlib.sha256(b"ledger" + organisation_id.bytes).digest()
        key = int.from_bytes(digest[:8], "big", signed=True)
        work.session.execute(select(func.pg_advisory_xact_lock(key)))


def _end_of(work: Work, organisation_id: UUID) -> tuple[int, str | None]:
    """The next seq, and the leaf hash that it has to name."""
    last = work.session.execute(
        select(LedgerEntryRow.seq, LedgerEntryRow.leaf_hash)
        .where(LedgerEntryRow.organisation_id == organisation_id)
        .order_by(LedgerEntryRow.seq.desc())
        .limit(1)
    ).one_or_none()
    return (0, None) if last is None else (last.seq + 1, last.leaf_hash)


def _stored(row: Row[*tuple[Any, ...]]) -> StoredEntry:
    seq, canonical, entry_type, subject, prev, leaf, salt, details, reason = row
    return StoredEntry(
        seq=seq,
        entry_type=_text(entry_type),
        subject=_uuid_text(_text(subject)),
        canonical=canonical,
        prev=None if prev is None else _text(prev),
        leaf_hash=_text(leaf),
        salt=salt,
        details=details,
        reason=reason,
    )


def _raw(work: Work, column: InstrumentedAttribute[Any]) -> ColumnElement[bytes]:
    """The bytes of a text column: damaged ones may be no text at all, and the audit has to go on."""
    if work.session.get_bind().dialect.name == "postgresql":
        return func.convert_to(cast(column, Text), "UTF8", type_=LargeBinary)
    return cast(column, LargeBinary)


def _text(raw: bytes) -> str:
    return raw.decode(errors="replace")


def _uuid_text(text: str) -> str:
    """SQLite stores an id without hyphens; what is no id stays as found."""
    try:
        return str(UUID(text))
    except ValueError:
        return text
