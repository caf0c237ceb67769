"""What is a record is written once: the database itself refuses to change, replace or delete it."""

from dataclasses import replace

import pytest
import training_steps as steps
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError
from training_steps import content

from trainer.domain.errors import DomainError
from trainer.services.site import Site
from trainer.storage.database import Database

WRITTEN_ONCE = (
    "attempt_scenario",
    "response",
    "marking",
    "marked_scenario",
    "outcome",
    "grade",
    "observation",
    "qualification",
    "qualification_marking",
    "qualification_observation",
    "qualification_event",
    "paper_scenario",
)


@pytest.fixture
def filled(site: Site) -> Database:
    """A database in which every one of these tables has rows."""
    filled_site = replace(site, content=content())
    place = steps.school(filled_site)
    steps.qualified(filled_site, place)
    steps.graded(filled_site, place)
    steps.printed(filled_site, place, steps.assigned(filled_site, place))
    return filled_site.database


def rows(database: Database, table: str) -> list[tuple]:
    with database.reading() as work:
        return sorted(map(str, work.session.execute(text(f"SELECT * FROM {table}"))))


def test_rows_are_never_changed_or_deleted(filled: Database) -> None:
    for table in WRITTEN_ONCE:
        before = rows(filled, table)
        column = _first_column(filled, table)
        assert before
        for statement in (f"UPDATE {table} SET {column} = {column}", f"DELETE FROM {table}"):
            with (
                pytest.raises((DBAPIError, DomainError), match="appended to, never changed"),
                filled.work() as work,
            ):
                work.session.execute(text(statement))
        assert rows(filled, table) == before


def test_rows_are_not_replaced_on_the_way_around_delete(filled: Database) -> None:
    """SQLite's INSERT OR REPLACE deletes without asking the trigger on DELETE; PostgreSQL has TRUNCATE."""
    for table in WRITTEN_ONCE:
        around = (
            f"INSERT OR REPLACE INTO {table} SELECT * FROM {table}"
            if filled.dialect == "sqlite"
            else f"TRUNCATE {table} CASCADE"
        )
        with (
            pytest.raises((DBAPIError, DomainError), match="appended to, never changed"),
            filled.work() as work,
        ):
            work.session.execute(text(around))


def _first_column(database: Database, table: str) -> str:
    with database.reading() as work:
        return next(iter(work.session.execute(text(f"SELECT * FROM {table} LIMIT 1")).keys()))
