"""The form of an entry: canonical, without floats or words, with commitments that say nothing by themselves."""

import hashlib
import json
from datetime import UTC, datetime, timedelta, timezone
from uuid import UUID

import pytest
import rfc8785

from trainer.domain.ledger import (
    Entry,
    EntryType,
    UnfitForLedger,
    canonical_details,
    canonical_entry,
    commitment,
    written_time,
)

LOG = UUID("10000000-0000-4000-8000-000000000000")
PERSON = UUID("20000000-0000-4000-8000-000000000000")
ACTOR = UUID("30000000-0000-4000-8000-000000000000")
NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def entry(**changes: object) -> Entry:
    values = {
        "organisation_id": LOG,
        "seq": 0,
        "time": NOW,
        "entry_type": EntryType.ATTEMPT_MARKED,
        "subject": PERSON,
        "actor": ACTOR,
        "body": {"score": "0.833", "passed": True},
        "commitment": None,
        "reason": None,
        "supersedes": None,
        "prev": None,
    }
    return Entry(**{**values, **changes})


def test_the_form_of_an_entry_is_final() -> None:
    """Pinned: an entry of today must hash the same for as long as anybody checks it."""
    assert canonical_entry(entry()) == (
        b'{"actor":"30000000-0000-4000-8000-000000000000","body":{"passed":true,"score":"0.833"},'
        b'"commitment":null,"log":"10000000-0000-4000-8000-000000000000","prev":null,"reason":null,"seq":0,'
        b'"subject":"20000000-0000-4000-8000-000000000000","supersedes":null,'
        b'"time":"2026-03-02T09:00:00.000000Z","type":"attempt-marked","v":1}'
    )


def test_keys_are_sorted_and_nothing_is_between_them() -> None:
    written = canonical_entry(entry(body={"z": 1, "a": [1, None, {"y": False, "b": ""}]}))
    assert b'"body":{"a":[1,null,{"b":"","y":false}],"z":1}' in written
    assert rfc8785.dumps(json.loads(written)) == written


def test_details_are_written_as_the_published_examples_of_rfc_8785() -> None:
    # cyberphone/json-canonicalization (Apache-2.0), testdata input/french.json and outhex/french.txt; the keys
    # with accents are left out, since ours are codes
    assert canonical_details({"sin": "ignore locale", "peach": "This sorting order"}).hex(" ") == (
        "7b 22 70 65 61 63 68 22 3a 22 54 68 69 73 20 73 6f 72 74 69 6e 67 20 6f 72 64 65 72 22 2c "
        "22 73 69 6e 22 3a 22 69 67 6e 6f 72 65 20 6c 6f 63 61 6c 65 22 7d"
    )
    # the same, testdata values.json: the string of escapes
    assert canonical_details('€$\x0f\nA\'B"\\\\"/').hex(" ") == (
        "22 e2 82 ac 24 5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22"
    )


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ({"score": 0.833}, "body.score"),
        ({"rows": [1, {"flow": 1.0}]}, "body.rows[1].flow"),
        ({"at": NOW}, "body.at"),
        ({"who": {1, 2}}, "body.who"),
        ({"name": "Ada Berg"}, "body.name"),
        ({"note": "señal"}, "body.note"),
        ({"note": "x" * 129}, "body.note"),
        ({"seed": 2**53}, "body.seed"),
        ({"full name": 1}, "body key"),
        ({7: 1}, "body key"),
    ],
    ids=[
        "float",
        "float inside",
        "moment",
        "set",
        "name",
        "accent",
        "long text",
        "beyond 2^53 - 1",
        "key with a space",
        "key that is no text",
    ],
)
def test_what_may_not_enter_is_refused_by_its_place(body: dict, place: str) -> None:
    with pytest.raises(UnfitForLedger) as refused:
        canonical_entry(entry(body=body))
    assert refused.value.where == place


def test_the_largest_seed_enters() -> None:
    assert b'"seed":9007199254740991' in canonical_entry(entry(body={"seed": 2**53 - 1}))


def test_words_enter_details_but_floats_do_not() -> None:
    assert canonical_details({"reason": "Read the wrong gauge, señor"})
    with pytest.raises(UnfitForLedger, match="decimal strings"):
        canonical_details({"score": 0.5})


def test_a_moment_is_written_in_utc_always_the_same_way() -> None:
    elsewhere = NOW.astimezone(timezone(timedelta(hours=-3)))
    assert written_time(elsewhere) == written_time(NOW) == "2026-03-02T09:00:00.000000Z"
    with pytest.raises(ValueError, match="time zone"):
        written_time(NOW.replace(tzinfo=None))


def test_an_act_of_nobody_has_no_actor() -> None:
    assert b'"actor":null' in canonical_entry(entry(actor=None))


def test_commitment_is_hmac_sha_256_of_rfc_2104() -> None:
    """Worked by hand from RFC 2104, section 2: H(K xor opad, H(K xor ipad, text)), blocks of 64 bytes."""
    salt, text = bytes(range(32)), b"details"
    padded = salt + bytes(32)
    inner = hashlib.sha256(bytes(each ^ 0x36 for each in padded) + text).digest()
    outer = hashlib.sha256(bytes(each ^ 0x5C for each in padded) + inner).hexdigest()
    assert commitment(salt, canonical=text) == outer


def test_the_same_words_under_two_salts_have_nothing_in_common() -> None:
    words = canonical_details({"name": "Ada"})
    assert commitment(bytes(32), canonical=words) != commitment(b"\x01" * 32, canonical=words)


def test_a_short_salt_is_refused() -> None:
    with pytest.raises(ValueError, match="32 bytes"):
        commitment(b"short", canonical=b"x")
