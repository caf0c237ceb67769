"""Migrations: the tables are those that the classes declare; up, down, and with rows in place, on both."""

import pytest
from sqlalchemy import text

from trainer.domain.errors import Conflict
from trainer.storage.database import Database


def test_migrated_schema_is_the_one_that_the_classes_declare(database: Database) -> None:
    database.differences()
    assert database.is_current()


def test_an_empty_database_goes_up_down_and_up_again(bare_database: Database) -> None:
    assert not bare_database.is_current()
    bare_database.migrate()
    bare_database.migrate_back("base")
    assert not bare_database.is_current()
    bare_database.migrate()
    bare_database.differences()


def test_a_migration_that_fails_leaves_the_schema_as_it_was(bare_database: Database) -> None:
    bare_database.migrate("001_people")
    with bare_database.work() as work:
        # in the way of the last thing that migration 002 makes
        work.session.execute(text("CREATE TABLE commitment_salt (it INTEGER)"))
    with pytest.raises(Exception, match="commitment_salt"):
        bare_database.migrate("002_ledger")
    with bare_database.work() as work:
        assert work.session.scalar(text("SELECT version_num FROM alembic_version")) == "001_people"
        work.session.execute(text("CREATE TABLE ledger_entry (it INTEGER)"))  # so it is not there


def test_rows_survive_the_way_up_and_back(bare_database: Database) -> None:
    bare_database.migrate("001_people")
    with bare_database.work() as work:
        work.session.execute(
            text(
                "INSERT INTO person (person_id, name, email, units, language, created_at) VALUES "
                "('11111111111111111111111111111111', 'Ada', 'ada@example.org', 'metric', 'en', "
                "'2026-03-02 09:00:00')"
            )
        )
    bare_database.migrate()
    bare_database.migrate_back("001_people")
    with bare_database.reading() as work:
        assert work.session.scalar(text("SELECT email FROM person")) == "ada@example.org"


def test_sqlite_refuses_a_migration_that_leaves_orphans(sqlite_database: Database) -> None:
    with pytest.raises(Conflict, match="refer to nothing"), sqlite_database._migration() as connection:
        connection.execute(
            text(
                "INSERT INTO invitation (invitation_id, person_id, token_hash, expires_at) "
                "VALUES ('11', '22', 'x', '2026-03-02 09:00:00')"
            )
        )
