"""Tables whose rows are written once: the database itself refuses to change or delete them."""

from alembic import op


def refuse_changes(table: str, *, key: tuple[str, ...]) -> None:
    """Puts the triggers on a table; on PostgreSQL they call the function that came with the ledger."""
    if op.get_bind().dialect.name == "sqlite":
        _on_sqlite(table, key)
        return
    for act in ("update", "delete", "truncate"):
        op.execute(
            f"CREATE TRIGGER {table}_no_{act} BEFORE {act.upper()} ON {table} "
            "FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()"
        )


def allow_changes(table: str) -> None:
    """Takes the triggers off, for a migration that changes the table itself and puts them back."""
    sqlite = op.get_bind().dialect.name == "sqlite"
    for act in ("update", "delete", "replace" if sqlite else "truncate"):
        op.execute(f"DROP TRIGGER {table}_no_{act}" + ("" if sqlite else f" ON {table}"))


def _on_sqlite(table: str, key: tuple[str, ...]) -> None:
    refuse = f"BEGIN SELECT RAISE(ABORT, '{table} is appended to, never changed'); END"
    for act in ("update", "delete"):
        op.execute(f"CREATE TRIGGER {table}_no_{act} BEFORE {act.upper()} ON {table} {refuse}")
    # INSERT OR REPLACE deletes the old row without asking the trigger on DELETE.
    same_row = " AND ".join(f"{each} = NEW.{each}" for each in key)
    op.execute(
        f"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} "
        f"WHEN EXISTS (SELECT 1 FROM {table} WHERE {same_row}) {refuse}"
    )
