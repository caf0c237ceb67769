"""The audit names the first entry that does not hold, whatever was done to the log."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from uuid import UUID

import pytest
import rfc8785

from trainer.domain import merkle
from trainer.domain.audit import Head, StoredEntry, verify_chain
from trainer.domain.ledger import Entry, EntryType, canonical_details, canonical_entry, commitment

LOG = UUID("10000000-0000-4000-8000-000000000000")
OTHER_LOG = UUID("40000000-0000-4000-8000-000000000000")
PERSON = UUID("20000000-0000-4000-8000-000000000000")
NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
SALT = bytes(range(32))
DETAILS = canonical_details({"basis": "contract"})
REASON = canonical_details("misread")


def stored(canonical: bytes, *, seq: int, prev: str | None, **changes: object) -> StoredEntry:
    values = {
        "seq": seq,
        "entry_type": "attempt-marked",
        "subject": str(PERSON),
        "canonical": canonical,
        "prev": prev,
        "leaf_hash": merkle.leaf_hash(canonical),
    }
    return StoredEntry(**{**values, **changes})


def log_of(size: int, *, log: UUID = LOG, supersedes: dict[int, int] | None = None) -> list[StoredEntry]:
    entries: list[StoredEntry] = []
    for seq in range(size):
        prev = entries[-1].leaf_hash if entries else None
        canonical = canonical_entry(
            Entry(
                organisation_id=log,
                seq=seq,
                time=NOW + timedelta(minutes=seq),
                entry_type=EntryType.ATTEMPT_MARKED,
                subject=PERSON,
                actor=None,
                body={"score": f"0.{seq}"},
                commitment=commitment(SALT, canonical=DETAILS),
                reason=commitment(SALT, canonical=REASON),
                supersedes=(supersedes or {}).get(seq),
                prev=prev,
            )
        )
        entries.append(stored(canonical, seq=seq, prev=prev, salt=SALT, details=DETAILS, reason=REASON))
    return entries


def fault_in(entries: list[StoredEntry], **more: object) -> tuple[int, str] | None:
    fault = verify_chain(entries, organisation_id=LOG, **more).fault
    return None if fault is None else (fault.seq, fault.what)


@pytest.mark.parametrize("size", [0, 1, 2, 9])
def test_an_untouched_log_holds_under_the_root_of_its_leaves(size: int) -> None:
    entries = log_of(size)
    proof = verify_chain(entries, organisation_id=LOG)
    assert proof.holds
    assert proof.head == Head(
        organisation_id=LOG, size=size, root=merkle.root(each.leaf_hash for each in entries)
    )


def test_an_empty_log_has_the_root_of_nothing() -> None:
    # RFC 6962, section 2.1: the hash of an empty list is that of an empty string
    empty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    assert verify_chain([], organisation_id=LOG).head.root == empty


@pytest.mark.parametrize("seq", [0, 3, 8])
def test_every_flipped_bit_is_found_where_it_is(seq: int) -> None:
    entries = log_of(9)
    good = entries[seq].canonical
    for place in range(0, len(good) * 8, 37):
        damaged = bytearray(good)
        damaged[place // 8] ^= 1 << place % 8
        entries[seq] = replace(entries[seq], canonical=bytes(damaged))
        fault = verify_chain(entries, organisation_id=LOG).fault
        assert fault is not None
        assert (fault.seq, fault.what) == (seq, "leaf hash")
        assert fault.expected == merkle.leaf_hash(good)
        assert fault.found == merkle.leaf_hash(bytes(damaged))


def test_a_changed_entry_with_its_hash_made_anew_breaks_the_chain_after_it() -> None:
    entries = log_of(5)
    better = entries[2].canonical.replace(b'"0.2"', b'"0.9"')
    entries[2] = replace(entries[2], canonical=better, leaf_hash=merkle.leaf_hash(better))
    fault = verify_chain(entries, organisation_id=LOG).fault
    assert fault is not None
    assert (fault.seq, fault.what) == (3, "prev")
    assert fault.expected == merkle.leaf_hash(better)
    assert fault.found == log_of(5)[2].leaf_hash


def test_a_dropped_entry_is_missing_at_its_place() -> None:
    entries = log_of(6)
    del entries[2]
    assert fault_in(entries) == (2, "missing entry")


def test_a_dropped_entry_is_found_when_the_rest_moves_up() -> None:
    entries = log_of(6)
    moved = [replace(each, seq=each.seq - 1) for each in entries[3:]]
    assert fault_in(entries[:2] + moved) == (2, "prev")


def test_swapped_entries_are_found_at_the_first() -> None:
    entries = log_of(6)
    entries[2], entries[4] = replace(entries[4], seq=2), replace(entries[2], seq=4)
    assert fault_in(entries) == (2, "prev")


def test_an_inserted_entry_is_found_where_it_is() -> None:
    entries = log_of(6)
    rest = [replace(each, seq=each.seq + 1) for each in entries[3:]]
    inserted = replace(entries[1], seq=3, prev=entries[2].leaf_hash)
    assert fault_in([*entries[:3], inserted, *rest]) == (3, "seq")


def test_a_cut_in_the_middle_is_found() -> None:
    entries = log_of(9)
    assert fault_in(entries[:3] + entries[6:]) == (3, "missing entry")


def test_another_organisation_s_entry_is_found_even_in_its_own_place() -> None:
    entries = log_of(4)
    entries[0] = log_of(1, log=OTHER_LOG)[0]
    assert fault_in(entries) == (0, "log")


def test_a_column_that_says_other_than_the_entry_is_found() -> None:
    entries = log_of(4)
    assert fault_in([*entries[:2], replace(entries[2], entry_type="policy-changed")]) == (2, "type")
    assert fault_in([*entries[:2], replace(entries[2], subject=str(OTHER_LOG))]) == (2, "subject")


@pytest.mark.parametrize(
    "canonical",
    [
        b'{"seq": 0}',
        b"[]",
        b"not json",
        b"\xff",
        b'{"seq":0,"score":0.5}',
        b'{"seq":NaN}',
        b'{"seq":9007199254740992}',
        b'{"a":{"b":' * 20_000,
    ],
    ids=["spaces", "no object", "no json", "no text", "float", "nan", "beyond 2^53 - 1", "endless"],
)
def test_what_is_not_canonical_is_found_though_its_hash_is_right(canonical: bytes) -> None:
    entry = stored(canonical, seq=0, prev=None)
    assert fault_in([entry]) == (0, "canonical form")


def test_an_entry_of_an_unknown_form_is_found() -> None:
    canonical = log_of(1)[0].canonical.replace(b'"v":1', b'"v":2')
    assert fault_in([stored(canonical, seq=0, prev=None)]) == (0, "v")


def test_a_correction_of_an_earlier_entry_holds() -> None:
    assert fault_in(log_of(4, supersedes={3: 1})) is None


@pytest.mark.parametrize("superseded", [1, 2, -1])
def test_a_correction_of_itself_or_of_what_comes_later_is_found(superseded: int) -> None:
    assert fault_in(log_of(3, supersedes={1: superseded})) == (1, "supersedes")


def test_a_correction_of_no_number_is_found() -> None:
    inside = {
        "v": 1,
        "log": str(LOG),
        "seq": 0,
        "prev": None,
        "type": "attempt-marked",
        "subject": str(PERSON),
        "supersedes": "0",
    }
    assert fault_in([stored(rfc8785.dumps(inside), seq=0, prev=None)]) == (0, "supersedes")


def test_erased_details_leave_a_chain_that_holds() -> None:
    erased = [replace(each, salt=None, details=None, reason=None) for each in log_of(4)]
    assert fault_in(erased) is None


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"details": canonical_details({"basis": "other"})}, "commitment"),
        ({"details": None}, "commitment"),
        ({"reason": canonical_details("other")}, "reason"),
        ({"salt": bytes(32)}, "commitment"),
        ({"salt": b"short"}, "salt"),
    ],
    ids=["details", "details gone", "reason", "salt", "short salt"],
)
def test_changed_details_are_found_by_their_commitment(changes: dict, what: str) -> None:
    entries = log_of(4)
    entries[2] = replace(entries[2], **changes)
    assert fault_in(entries) == (2, what)


def test_a_log_that_grew_still_begins_with_what_a_kept_head_was_over() -> None:
    kept = verify_chain(log_of(5), organisation_id=LOG).head
    assert fault_in(log_of(9), kept=kept) is None


def test_a_cut_end_is_found_by_a_kept_head() -> None:
    entries = log_of(9)
    kept = verify_chain(entries, organisation_id=LOG).head
    assert fault_in(entries[:6], kept=kept) == (6, "missing entry")
    assert fault_in(entries[:6]) is None  # nothing inside the log could tell


def test_a_log_written_anew_is_found_by_a_kept_head() -> None:
    kept = verify_chain(log_of(5), organisation_id=LOG).head
    assert fault_in(log_of(9, supersedes={1: 0}), kept=kept) == (4, "root kept earlier")
