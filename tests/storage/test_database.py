"""The database: units of work, reading, and what every migration has to keep."""

import contextlib
from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy import func, select, text
from sqlalchemy.exc import DBAPIError, StatementError

from trainer.domain.errors import Conflict, Duplicate, Missing
from trainer.domain.people import Language, OrganisationKind, Role, UnitSystem
from trainer.storage.database import BadDatabaseUrl, Database, Work
from trainer.storage.tables.people import MembershipRow, OrganisationRow, PersonRow

NOW = datetime(2026, 3, 2, 9, 0, 0, 123456, tzinfo=UTC)


def person(email: str = "ada@example.org", **changes: object) -> PersonRow:
    values = {
        "name": "Ada",
        "email": email,
        "units": UnitSystem.METRIC,
        "language": Language.ENGLISH,
        "created_at": NOW,
    }
    return PersonRow(**{**values, **changes})


def organisation() -> OrganisationRow:
    return OrganisationRow(name="Quay", kind=OrganisationKind.EMPLOYER, created_at=NOW)


def count_people(work: Work) -> int:
    return work.session.scalar(text("SELECT count(*) FROM person"))


def test_work_is_kept_at_its_end(database: Database) -> None:
    with database.work() as work:
        work.session.add(person())
    with database.reading() as work:
        assert count_people(work) == 1


def test_work_that_raises_leaves_nothing(database: Database) -> None:
    with contextlib.suppress(RuntimeError), database.work() as work:
        work.session.add(person())
        work.session.flush()
        raise RuntimeError
    with database.reading() as work:
        assert count_people(work) == 0


def test_reading_refuses_to_write(database: Database) -> None:
    with database.reading() as work, pytest.raises(DBAPIError, match="(?i)read.?only"):
        work.session.execute(text("DELETE FROM person"))
    with database.work() as work:
        work.session.execute(text("DELETE FROM person"))


def test_a_reader_sees_one_state_while_others_write(database: Database) -> None:
    with database.reading() as reader:
        assert count_people(reader) == 0
        with database.work() as work:
            work.session.add(person())
        assert count_people(reader) == 0
    with database.reading() as later:
        assert count_people(later) == 1


def test_moments_come_back_in_utc_to_the_microsecond(database: Database) -> None:
    elsewhere = NOW.astimezone(timezone(timedelta(hours=5)))
    with database.work() as work:
        work.session.add(person(created_at=elsewhere))
    with database.reading() as work:
        back = work.session.scalars(select(PersonRow)).one().created_at
    assert back == NOW
    assert back.tzinfo is UTC


def test_a_moment_without_a_zone_is_refused(database: Database) -> None:
    with pytest.raises(StatementError, match="time zone"), database.work() as work:
        work.session.add(person(created_at=NOW.replace(tzinfo=None)))


def test_a_second_person_of_the_same_email_is_a_duplicate_that_names_its_rule(database: Database) -> None:
    with database.work() as work:
        work.session.add(person())
    with pytest.raises(Duplicate) as refused, database.work() as work:
        work.session.add(person())
    assert refused.value.constraint == "uq_person_email"


def test_a_row_that_refers_to_nobody_is_missing(database: Database) -> None:
    with database.work() as work:
        place, stranger = organisation(), person()
        work.session.add_all([place, stranger])
        work.session.flush()
        work.session.delete(stranger)
    membership = membership_of(stranger, place)
    with pytest.raises(Missing), database.work() as work:
        work.session.add(membership)


@pytest.mark.parametrize(
    ("column", "value", "constraint"),
    [
        ("role", "'welder'", "ck_membership_role"),
        ("ends", "'2026-03-01'", "ck_membership_ends_after_start"),
    ],
)
def test_the_database_itself_refuses_what_breaks_a_rule(
    database: Database, column: str, value: str, constraint: str
) -> None:
    with database.work() as work:
        member, place = person(), organisation()
        work.session.add_all([member, place])
        work.session.flush()
        work.session.add(membership_of(member, place))
    with pytest.raises(Conflict) as refused, database.work() as work:
        work.session.execute(text(f"UPDATE membership SET {column} = {value}"))
    assert refused.value.constraint == constraint


def test_sqlite_is_set_for_records_that_survive_a_power_cut(sqlite_database: Database) -> None:
    with sqlite_database.work() as work:
        found = {
            name: work.session.scalar(text(f"PRAGMA {name}"))
            for name in ("journal_mode", "foreign_keys", "synchronous", "busy_timeout")
        }
    # synchronous 2 is FULL: SQLite documentation, "PRAGMA synchronous"
    assert found == {"journal_mode": "wal", "foreign_keys": 1, "synchronous": 2, "busy_timeout": 5000}


# --- refusals -------------------------------------------------------------------------------------------------


def test_a_second_row_of_the_same_key_names_the_key(database: Database) -> None:
    first = person()
    with database.work() as work:
        work.session.add(first)
    with pytest.raises(Duplicate) as refused, database.work() as work:
        work.session.add(person("other@example.org", person_id=first.person_id))
    assert refused.value.constraint == "pk_person"


def test_a_second_row_under_a_partial_rule_names_the_rule(database: Database) -> None:
    member, place = person(), organisation()
    with database.work() as work:
        work.session.add_all([member, place])
        work.session.flush()
        work.session.add(membership_of(member, place))
    with pytest.raises(Duplicate) as refused, database.work() as work:
        work.session.add(membership_of(member, place))
    assert refused.value.constraint == "uq_membership_in_force"


def membership_of(member: PersonRow, place: OrganisationRow) -> MembershipRow:
    return MembershipRow(
        person_id=member.person_id,
        organisation_id=place.organisation_id,
        role=Role.EMPLOYER,
        starts=NOW.date(),
    )


def test_an_empty_required_field_is_a_conflict(database: Database) -> None:
    with pytest.raises(Conflict), database.work() as work:
        work.session.add(person(name=None))


def test_what_is_no_refusal_is_not_named_one(database: Database) -> None:
    with pytest.raises(DBAPIError), database.work() as work:
        work.session.execute(text("SELECT * FROM nothing"))


def test_a_writer_gives_up_when_another_connection_holds_the_lock(database: Database) -> None:
    hasty = Database(database._url.render_as_string(hide_password=False), lock_wait_s=0.05)
    lock = select(func.pg_advisory_xact_lock(1)) if database.dialect == "postgresql" else text("SELECT 1")
    with database.work() as first:
        first.session.execute(lock)
        with pytest.raises(Conflict, match="busy"), hasty.work() as second:
            second.session.execute(lock)
    with hasty.work() as second:
        second.session.execute(lock)
    hasty.dispose()


def test_a_writer_gives_up_when_another_thread_holds_sqlite(sqlite_database: Database) -> None:
    hasty = Database(sqlite_database._url.render_as_string(), lock_wait_s=0.05)
    with hasty.work(), pytest.raises(Conflict, match="busy"), hasty.work():
        pass
    hasty.dispose()


def test_an_address_that_is_none_is_refused_without_repeating_it() -> None:
    with pytest.raises(BadDatabaseUrl) as refused:
        Database("secret-password")
    assert "secret" not in str(refused.value)


@pytest.mark.parametrize("url", ["sqlite:///nowhere/x.sqlite3", "sqlite://"])
def test_a_file_that_is_not_there_does_not_exist(url: str) -> None:
    assert not Database(url).exists()
