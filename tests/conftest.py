"""Fixtures for all tests: both databases, the clock, a site, and the count that keeps the databases equal."""

import gc
from collections import Counter
from collections.abc import Iterator
from contextlib import AbstractContextManager
from datetime import UTC, datetime
from pathlib import Path

import browsers
import pytest
from clock import Clock
from factories import site_on
from two_databases import KINDS, PostgresqlServer, SqliteFiles

from trainer.services.passwords import Passwords, cheap_passwords
from trainer.services.site import Site
from trainer.storage.database import Database


@pytest.fixture(scope="session")
def sqlite_files(tmp_path_factory: pytest.TempPathFactory) -> SqliteFiles:
    return SqliteFiles(tmp_path_factory.mktemp("sqlite"))


@pytest.fixture(scope="session")
def postgresql_server() -> Iterator[PostgresqlServer]:
    server = PostgresqlServer()
    yield server
    server.stop()


@pytest.fixture(params=[pytest.param(kind, marks=pytest.mark.database) for kind in KINDS])
def databases(request: pytest.FixtureRequest) -> SqliteFiles | PostgresqlServer:
    """Where databases come from; every test that uses it runs once on each kind."""
    return request.getfixturevalue("sqlite_files" if request.param == "sqlite" else "postgresql_server")


@pytest.fixture
def database(databases: SqliteFiles | PostgresqlServer, tmp_path: Path) -> Iterator[Database]:
    """An empty database of the current schema, on SQLite and on PostgreSQL."""
    yield from _opened(databases.empty(tmp_path))


@pytest.fixture
def own_database(databases: SqliteFiles | PostgresqlServer, tmp_path: Path) -> Iterator[Database]:
    """The same for tests that drop triggers or change the schema."""
    yield from _opened(databases.own(tmp_path))


@pytest.fixture
def bare_database(databases: SqliteFiles | PostgresqlServer, tmp_path: Path) -> Iterator[Database]:
    """A database that no migration has touched."""
    yield from _opened(databases.bare(tmp_path))


@pytest.fixture
def sqlite_database(sqlite_files: SqliteFiles, tmp_path: Path) -> Iterator[Database]:
    """SQLite alone, for what PostgreSQL does otherwise."""
    yield from _opened(sqlite_files.empty(tmp_path))


def _opened(place: AbstractContextManager[str]) -> Iterator[Database]:
    with place as url:
        database = Database(url)
        yield database
        database.dispose()


@pytest.fixture
def clock() -> Clock:
    return Clock(datetime(2026, 3, 2, 9, 0, tzinfo=UTC))


@pytest.fixture(scope="session")
def passwords() -> Passwords:
    return cheap_passwords()


@pytest.fixture
def site(database: Database, clock: Clock, passwords: Passwords) -> Site:
    """A site without people on each database, with a clock that stands still and seeds 1, 2, 3, …"""
    return site_on(database, clock=clock, passwords=passwords)


# --- as many database tests on one kind as on the other -------------------------------------------------------

_ran: Counter[str] = Counter()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Stamps each test with the kind of database it runs on; the stamp travels with xdist's reports."""
    for item in items:
        kind = getattr(item, "callspec", None) and item.callspec.params.get("databases")
        if kind:
            item.user_properties.append(("database", kind))


def pytest_collection_finish(session: pytest.Session) -> None:
    """Refuses a run whose workers do not see the groups: twice as many browsers would be made as are wanted.

    What was collected stays to the end; looked through again and again for garbage it costs a tenth of a run.
    """
    gc.collect()
    gc.freeze()
    if hasattr(session.config, "workerinput"):
        grouped = (each for each in session.items if each.get_closest_marker("xdist_group"))
        if lost := [each for each in grouped if not each.nodeid.endswith(f"@{_group(each)}")]:
            raise pytest.UsageError(f"pytest-xdist does not see the group of {lost[0].nodeid}")


def _group(item: pytest.Item) -> str:
    return item.get_closest_marker("xdist_group").args[0]


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if report.when == "call" and not report.skipped:
        _ran.update(value for name, value in report.user_properties if name == "database")


def pytest_sessionfinish(session: pytest.Session) -> None:
    if _is_whole_run(session.config) and _ran["sqlite"] != _ran["postgresql"]:
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
    if browsers.left_out(session.config) and browsers.is_failure():
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter, config: pytest.Config) -> None:
    terminalreporter.write_line(f"database tests: sqlite {_ran['sqlite']}, postgresql {_ran['postgresql']}")
    if _is_whole_run(config) and _ran["sqlite"] != _ran["postgresql"]:
        terminalreporter.write_line("FAILED: the two databases did not run the same tests", red=True)
    if browsers.left_out(config):
        failed = "FAILED: " if browsers.is_failure() else ""
        terminalreporter.write_line(f"{failed}{browsers.NO_BROWSER}", red=bool(failed), yellow=not failed)


def _is_whole_run(config: pytest.Config) -> bool:
    """Whether nobody picked tests by name: a picked one may well run on one database only."""
    return not config.option.keyword and not any("::" in arg for arg in config.args)
