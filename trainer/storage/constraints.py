"""What the database refused, as a named error of the domain; the constraint's name says which rule it was."""

import re
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Index, UniqueConstraint
from sqlalchemy.exc import IntegrityError, OperationalError

from trainer.domain.errors import Conflict, DomainError, Duplicate, Missing
from trainer.storage.tables.base import Base

_UNIQUE, _FOREIGN_KEY = "23505", "23503"  # SQLSTATE, PostgreSQL documentation, appendix A
_BUSY = {"40001", "40P01", "55P03"}  # could not serialise, deadlock, lock not available

_SQLITE_UNIQUE = re.compile(r"UNIQUE constraint failed: (.+)")
_SQLITE_CHECK = re.compile(r"CHECK constraint failed: (\w+)")


@contextmanager
def named_refusals() -> Iterator[None]:
    """Turns a refusal by the database into Duplicate, Missing or Conflict."""
    try:
        yield
    except IntegrityError as error:
        raise _named(error) from error
    except OperationalError as error:
        if not _is_busy(error):
            raise
        raise Conflict("the database was busy and nothing was stored; try again") from error


def _named(error: IntegrityError) -> DomainError:
    diagnostics = getattr(error.orig, "diag", None)
    if diagnostics is None:
        return _named_by_sqlite(str(error.orig))
    if diagnostics.sqlstate == _UNIQUE:
        return Duplicate("the same is already there", constraint=diagnostics.constraint_name or "")
    if diagnostics.sqlstate == _FOREIGN_KEY:
        return Missing("thing that this refers to")
    return Conflict(diagnostics.message_primary or "", constraint=diagnostics.constraint_name or "")


def _named_by_sqlite(message: str) -> DomainError:
    if unique := _SQLITE_UNIQUE.match(message):
        return Duplicate("the same is already there", constraint=_unique_name(unique[1]))
    if "FOREIGN KEY" in message:
        return Missing("thing that this refers to")
    check = _SQLITE_CHECK.match(message)
    return Conflict(message, constraint=check[1] if check else "")


def _unique_name(columns: str) -> str:
    """SQLite names the columns ("person.email, person.name"); the constraint over them has the name."""
    table_name = columns.split(".", 1)[0]
    wanted = {each.strip().split(".", 1)[1] for each in columns.split(",")}
    table = Base.metadata.tables[table_name]
    rules: list[UniqueConstraint | Index] = [
        each for each in table.constraints if isinstance(each, UniqueConstraint)
    ]
    rules += [each for each in table.indexes if each.unique]
    for rule in rules:
        if {column.name for column in rule.columns} == wanted:
            return str(rule.name)
    return f"pk_{table_name}"


def _is_busy(error: OperationalError) -> bool:
    sqlstate = getattr(error.orig, "sqlstate", None)
    return sqlstate in _BUSY or "database is locked" in str(error.orig)
