"""Migrations: the tables are those that the classes declare; up, down, and with rows in place, on both."""

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from trainer.domain.errors import Conflict, DomainError
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


_ID = "11111111111111111111111111111111"
_MARKED = (
    f"INSERT INTO organisation (organisation_id, name, kind, created_at)"
    f" VALUES ('{_ID}', 'Quay', 'training provider', '2026-03-02 09:00:00')",
    f"INSERT INTO person (person_id, name, email, units, language, created_at)"
    f" VALUES ('{_ID}', 'Ada', 'ada@example.org', 'metric', 'en', '2026-03-02 09:00:00')",
    f"INSERT INTO attempt (attempt_id, person_id, organisation_id, kind, state, title, blueprint, started_at,"
    f" ended_at, hand_in_token) VALUES ('{_ID}', '{_ID}', '{_ID}', 'practice', 'marked', 'Long run', '{{}}',"
    f" '2026-03-02 09:00:00', '2026-03-02 09:10:00', '{_ID}')",
    f"INSERT INTO marking (marking_id, attempt_id, version, marked_at, reason, passed, total_frac,"
    f" critical_failures, policy_version, core_version)"
    f" VALUES ('{_ID}', '{_ID}', 1, '2026-03-02 09:10:00', '', true, 0.9, '[]', '1', '1')",
    f"INSERT INTO marked_scenario (marking_id, scenario_no, passed, done, marked)"
    f" VALUES ('{_ID}', 1, true, '{{}}', '{{}}')",
    f"INSERT INTO outcome (marking_id, scenario_no, item_id, item_no, family, skill, weight, score, correct,"
    f" answered, critical_missed, overridden, why, misconceptions)"
    f" VALUES ('{_ID}', 1, 'wait', 1, 'long-run', 6, 1, 0.9, false, true, false, false, '[]', '[]')",
)


def _marked(database: Database, revision: str) -> None:
    """A database of that revision with one marked attempt."""
    database.migrate(revision)
    with database.work() as work:
        for statement in _MARKED:
            work.session.execute(text(statement))


def test_marks_made_before_there_were_grades_keep_their_scores_both_ways(bare_database: Database) -> None:
    _marked(bare_database, "006_site_policy")
    for move in (bare_database.migrate, lambda: bare_database.migrate_back("006_site_policy")):
        move()
        with bare_database.reading() as work:
            found = work.session.execute(
                text("SELECT passed, total_frac, score FROM marking JOIN outcome USING (marking_id)")
            ).one()
        assert (bool(found[0]), *found[1:]) == (True, 0.9, 0.9)
        with pytest.raises((DBAPIError, DomainError), match="appended to"), bare_database.work() as work:
            work.session.execute(text("DELETE FROM outcome"))


def test_there_is_no_way_back_that_throws_away_a_mark_that_waits(bare_database: Database) -> None:
    _marked(bare_database, "007_grades")
    with bare_database.work() as work:
        work.session.execute(
            text(_MARKED[-1].replace("'wait', 1,", "'say-why', 2,").replace("0.9, false", "NULL, false"))
        )
    with pytest.raises(Conflict, match="1 explanations wait"):
        bare_database.migrate_back("006_site_policy")
    with bare_database.reading() as work:
        assert work.session.scalar(text("SELECT version_num FROM alembic_version")) == "007_grades"
        assert work.session.scalar(text("SELECT count(*) FROM outcome WHERE score IS NULL")) == 1


def test_sqlite_refuses_a_migration_that_leaves_orphans(sqlite_database: Database) -> None:
    with pytest.raises(Conflict, match="refer to nothing"), sqlite_database._migration() as connection:
        connection.execute(
            text(
                "INSERT INTO invitation (invitation_id, person_id, token_hash, expires_at) "
                "VALUES ('11', '22', 'x', '2026-03-02 09:00:00')"
            )
        )
