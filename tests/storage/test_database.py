"""The database: units of work, reading, and what every migration has to keep."""

import contextlib
from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DBAPIError, StatementError

from trainer.domain.errors import Conflict, Duplicate, Missing
from trainer.domain.people import Language, OrganisationKind, Role, UnitSystem
from trainer.storage.database import Database, Work
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
    membership = MembershipRow(
        person_id=stranger.person_id,
        organisation_id=place.organisation_id,
        role=Role.EMPLOYER,
        starts=NOW.date(),
    )
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
        work.session.add(
            MembershipRow(
                person_id=member.person_id,
                organisation_id=place.organisation_id,
                role=Role.EMPLOYER,
                starts=NOW.date(),
            )
        )
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
