"""The ledger in the database: appended without gaps by any number of writers, and never changed."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from uuid import UUID, uuid4

import pytest
from sqlalchemy import text

from trainer.domain.audit import verify_chain
from trainer.domain.errors import Conflict, Missing
from trainer.domain.ledger import EntryType, UnfitForLedger
from trainer.domain.people import OrganisationKind
from trainer.storage import ledger, people
from trainer.storage.database import Database
from trainer.storage.ledger import Act, Appended

NOW = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
PERSON = uuid4()


@pytest.fixture
def log(database: Database) -> UUID:
    return add_organisation(database, "Quay Training")


def add_organisation(database: Database, name: str) -> UUID:
    with database.work() as work:
        return people.add_organisation(work, name=name, kind=OrganisationKind.TRAINING_PROVIDER, now=NOW)


def append(database: Database, log: UUID, **changes: object) -> Appended:
    values = {
        "organisation_id": log,
        "entry_type": EntryType.ATTEMPT_MARKED,
        "subject": PERSON,
        "actor": None,
        "now": NOW,
        "body": {"score": "0.8"},
    }
    with database.work() as work:
        return ledger.append(work, Act(**{**values, **changes}))


def proof_of(database: Database, log: UUID):
    with database.reading() as work:
        return verify_chain(ledger.read_log(work, organisation_id=log), organisation_id=log)


def test_entries_follow_each_other_from_zero(database: Database, log: UUID) -> None:
    appended = [append(database, log) for _ in range(5)]
    assert [each.seq for each in appended] == [0, 1, 2, 3, 4]
    with database.reading() as work:
        stored = list(ledger.read_log(work, organisation_id=log))
    assert [each.prev for each in stored] == [None, *(each.leaf_hash for each in appended[:-1])]
    assert proof_of(database, log).holds


def test_each_organisation_has_a_log_of_its_own(database: Database, log: UUID) -> None:
    other = add_organisation(database, "Harbour Training")
    append(database, log)
    assert append(database, other).seq == 0
    assert append(database, log).seq == 1
    assert proof_of(database, log).head.size == 2
    assert proof_of(database, other).head.size == 1


def test_entry_and_act_are_kept_or_undone_together(database: Database, log: UUID) -> None:
    append(database, log)
    act = Act(organisation_id=log, entry_type=EntryType.POLICY_CHANGED, subject=log, actor=None, now=NOW)
    with suppress(ZeroDivisionError), database.work() as work:
        ledger.append(work, act)
        raise ZeroDivisionError
    assert append(database, log).seq == 1
    assert proof_of(database, log).holds


def test_words_stay_outside_and_their_commitment_opens(database: Database, log: UUID) -> None:
    append(database, log, details={"basis": "Consent of Ada Berg"}, reason="She asked for it")
    with database.reading() as work:
        (entry,) = ledger.read_log(work, organisation_id=log)
    assert b"Ada" not in entry.canonical
    assert b"asked" not in entry.canonical
    assert entry.details == b'{"basis":"Consent of Ada Berg"}'
    assert entry.reason == b'"She asked for it"'
    assert proof_of(database, log).holds


def test_erasing_the_words_leaves_a_log_that_holds(database: Database, log: UUID) -> None:
    append(database, log, details={"basis": "Consent of Ada Berg"})
    with database.work() as work:
        work.session.execute(text("DELETE FROM commitment_salt"))
    assert proof_of(database, log).holds


def test_what_may_not_enter_is_refused_and_the_log_goes_on(database: Database, log: UUID) -> None:
    with pytest.raises(UnfitForLedger):
        append(database, log, body={"score": 0.8})
    assert append(database, log).seq == 0


def test_an_organisation_that_is_not_there_has_no_log(database: Database) -> None:
    with pytest.raises(Missing):
        append(database, uuid4())


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE ledger_entry SET leaf_hash = 'x'",
        "UPDATE ledger_entry SET seq = seq + 10",
        "DELETE FROM ledger_entry",
    ],
)
def test_the_database_refuses_to_change_or_delete_an_entry(
    database: Database, log: UUID, statement: str
) -> None:
    append(database, log)
    with pytest.raises(Conflict, match="appended to, never changed"), database.work() as work:
        work.session.execute(text(statement))
    assert proof_of(database, log).holds
    assert proof_of(database, log).head.size == 1


def test_postgresql_refuses_to_empty_the_ledger(database: Database, log: UUID) -> None:
    """SQLite has no TRUNCATE; there the same is a DELETE, which is refused too."""
    append(database, log)
    statement = (
        "TRUNCATE ledger_entry CASCADE" if database.dialect == "postgresql" else "DELETE FROM ledger_entry"
    )
    with pytest.raises(Conflict, match="appended to, never changed"), database.work() as work:
        work.session.execute(text(statement))


def test_an_entry_cannot_be_put_in_another_one_s_place(database: Database, log: UUID) -> None:
    append(database, log)
    copy = "INSERT {} INTO ledger_entry SELECT * FROM ledger_entry"
    statement = copy.format("OR REPLACE" if database.dialect == "sqlite" else "")
    with pytest.raises(Exception, match="appended to, never changed|already there"), database.work() as work:
        work.session.execute(text(statement))


def test_two_connections_append_without_gaps_or_forks(database: Database, log: UUID) -> None:
    """Two pools of their own, as two server processes have them."""
    other = add_organisation(database, "Harbour Training")
    with second_connection(database) as second:
        writers = [
            threading.Thread(target=append_many, args=(each, place))
            for each in (database, second)
            for place in (log, other)
        ]
        for each in writers:
            each.start()
        for each in writers:
            each.join()
    for place in (log, other):
        proof = proof_of(database, place)
        assert proof.holds, proof.fault
        assert proof.head.size == 2 * APPENDS_EACH


APPENDS_EACH = 15


def append_many(database: Database, log: UUID) -> None:
    for _ in range(APPENDS_EACH):
        append(database, log, details={"words": "some"})


def test_a_writer_waits_until_the_one_before_has_committed(database: Database, log: UUID) -> None:
    """The second one begins while the first is at work, and still comes after it."""
    started, done = threading.Event(), threading.Event()

    def second_writer(second: Database) -> None:
        started.set()
        append(second, log, body={"writer": "second"})
        done.set()

    with second_connection(database) as second:
        with database.work() as work:
            first = Act(
                organisation_id=log, entry_type=EntryType.ROLE_GIVEN, subject=PERSON, actor=None, now=NOW
            )
            ledger.append(work, first)
            thread = threading.Thread(target=second_writer, args=(second,))
            thread.start()
            started.wait()
            assert not done.wait(0.2)
        thread.join()
    with database.reading() as work:
        latest = ledger.list_latest(work, organisation_id=log, before=None, limit=10)
    assert [(each["seq"], each["body"]) for each in latest] == [(1, {"writer": "second"}), (0, {})]


@contextmanager
def second_connection(first: Database) -> Iterator[Database]:
    second = Database(first._url.render_as_string(hide_password=False))
    yield second
    second.dispose()


def test_the_latest_entries_come_in_pages(database: Database, log: UUID) -> None:
    for number in range(5):
        append(database, log, body={"number": number})
    append(database, add_organisation(database, "Harbour Training"), body={"number": 99})
    with database.reading() as work:
        newest = ledger.list_latest(work, organisation_id=log, before=None, limit=2)
        older = ledger.list_latest(work, organisation_id=log, before=newest[-1]["seq"], limit=10)
    assert [each["body"]["number"] for each in newest] == [4, 3]
    assert [each["body"]["number"] for each in older] == [2, 1, 0]


def test_an_id_that_is_none_any_more_is_found_by_the_audit(sqlite_database: Database) -> None:
    """PostgreSQL's own type of ids leaves no room for such damage."""
    log = add_organisation(sqlite_database, "Quay Training")
    append(sqlite_database, log)
    with sqlite_database.work() as work:
        work.session.execute(text("DROP TRIGGER ledger_entry_no_update"))
        work.session.execute(text("UPDATE ledger_entry SET subject = CAST(x'ff00' AS TEXT)"))
    fault = proof_of(sqlite_database, log).fault
    assert fault is not None
    assert (fault.seq, fault.what, fault.expected) == (0, "subject", "\ufffd\x00")
