"""Proof of a stored log: each entry in canonical form, in order, chained and hashed, one root over all."""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

import rfc8785

from trainer.domain import merkle
from trainer.domain.ledger import FORM_VERSION, SALT_BYTES, commitment


@dataclass(frozen=True, kw_only=True)
class StoredEntry:
    """An entry as stored, with the columns copied out of it and what opens its commitments."""

    seq: int
    entry_type: str
    subject: str
    canonical: bytes
    prev: str | None
    leaf_hash: str
    salt: bytes | None = None
    details: bytes | None = None
    reason: bytes | None = None


@dataclass(frozen=True, kw_only=True)
class Fault:
    """The first entry that does not hold, by its seq, with what was expected there and what was found."""

    seq: int
    what: str
    expected: str
    found: str


@dataclass(frozen=True, kw_only=True)
class Head:
    """The size of a log and the root over it; a head that somebody else keeps finds any rewrite."""

    organisation_id: UUID
    size: int
    root: str


@dataclass(frozen=True, kw_only=True)
class Proof:
    """What the audit of one log found: its head over the entries that hold, and the first that does not."""

    head: Head
    fault: Fault | None

    @property
    def holds(self) -> bool:
        """Whether no entry is broken."""
        return self.fault is None


def verify_chain(entries: Iterable[StoredEntry], *, organisation_id: UUID, kept: Head | None = None) -> Proof:
    """Proves a log in the order of its seq, up to the first entry that does not hold.

    With a head kept from earlier, the log must also still begin with what that head was over.
    """
    leaves: list[str] = []
    fault: Fault | None = None
    for entry in entries:
        fault = _fault_of(entry, place=len(leaves), prev=leaves[-1] if leaves else None, log=organisation_id)
        if fault is not None:
            break
        leaves.append(entry.leaf_hash)
    if fault is None and kept is not None:
        fault = _fault_against(kept, leaves)
    head = Head(organisation_id=organisation_id, size=len(leaves), root=merkle.root(leaves))
    return Proof(head=head, fault=fault)


def _fault_of(entry: StoredEntry, *, place: int, prev: str | None, log: UUID) -> Fault | None:
    """The first thing about the entry that does not hold, given the leaf hash of the one before it."""
    if entry.seq != place:
        return Fault(seq=place, what="missing entry", expected=f"seq {place}", found=f"seq {entry.seq}")
    found = merkle.leaf_hash(entry.canonical)
    if found != entry.leaf_hash:
        return Fault(seq=place, what="leaf hash", expected=entry.leaf_hash, found=found)
    if entry.prev != prev:
        return Fault(seq=place, what="prev", expected=str(prev), found=str(entry.prev))
    return _fault_inside(entry, log=log) or _fault_of_commitments(entry)


def _fault_inside(entry: StoredEntry, *, log: UUID) -> Fault | None:
    """Holds the entry's bytes against canonical form, against its place and against the columns."""
    inside = _parsed(entry.canonical)
    if inside is None:
        return Fault(
            seq=entry.seq, what="canonical form", expected="an RFC 8785 object", found=entry.leaf_hash
        )
    again = merkle.leaf_hash(rfc8785.dumps(inside))
    if again != entry.leaf_hash:
        return Fault(seq=entry.seq, what="canonical form", expected=again, found=entry.leaf_hash)
    for key, expected in (
        ("v", FORM_VERSION),
        ("log", str(log)),
        ("seq", entry.seq),
        ("prev", entry.prev),
        ("type", entry.entry_type),
        ("subject", entry.subject),
    ):
        if inside.get(key) != expected:
            return Fault(seq=entry.seq, what=key, expected=str(expected), found=str(inside.get(key)))
    superseded = inside.get("supersedes")
    if superseded is not None and not (isinstance(superseded, int) and 0 <= superseded < entry.seq):
        return Fault(
            seq=entry.seq, what="supersedes", expected=f"a seq below {entry.seq}", found=str(superseded)
        )
    return None


def _fault_of_commitments(entry: StoredEntry) -> Fault | None:
    """Holds the details and the reason, where they have not been erased, against their commitments."""
    if entry.salt is None:
        return None
    if len(entry.salt) != SALT_BYTES:
        return Fault(
            seq=entry.seq, what="salt", expected=f"{SALT_BYTES} bytes", found=f"{len(entry.salt)} bytes"
        )
    inside = json.loads(entry.canonical)
    for key, opened in (("commitment", entry.details), ("reason", entry.reason)):
        found = None if opened is None else commitment(entry.salt, canonical=opened)
        if found != inside[key]:
            return Fault(seq=entry.seq, what=key, expected=str(inside[key]), found=str(found))
    return None


def _fault_against(kept: Head, leaves: list[str]) -> Fault | None:
    if len(leaves) < kept.size:
        return Fault(
            seq=len(leaves),
            what="missing entry",
            expected=f"{kept.size} entries",
            found=f"{len(leaves)} entries",
        )
    found = merkle.root(leaves[: kept.size])
    if found != kept.root:
        return Fault(seq=kept.size - 1, what="root kept earlier", expected=kept.root, found=found)
    return None


def _no_float(digits: str) -> float:
    raise ValueError(f"{digits} is a float")


def _parsed(canonical: bytes) -> dict[str, object] | None:
    """The object that the bytes hold; None for anything else, and for one that has a float anywhere."""
    try:
        inside = json.loads(canonical, parse_float=_no_float, parse_constant=_no_float)
        rfc8785.dumps(inside)
    except (ValueError, RecursionError):
        return None
    return inside if isinstance(inside, dict) else None
