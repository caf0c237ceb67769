"""Marks that wait for a person: scores and verdicts may be open; each grade is kept beside its marking."""

from typing import Any

import sqlalchemy as sa
from alembic import op

from trainer.domain.errors import Conflict
from trainer.storage.migrations.append_only import allow_changes, refuse_changes

revision = "007_grades"
down_revision = "006_site_policy"
branch_labels = None
depends_on = None

Columns = tuple[tuple[str, sa.types.TypeEngine[Any]], ...]

_KEYS = {
    "marking": ("marking_id",),
    "marked_scenario": ("marking_id", "scenario_no"),
    "outcome": ("marking_id", "scenario_no", "item_id"),
}
_OPEN: dict[str, Columns] = {
    "marking": (("passed", sa.Boolean()), ("total_frac", sa.Double())),
    "marked_scenario": (("passed", sa.Boolean()),),
    "outcome": (("score", sa.Double()),),
}
_RULES = {
    "marking": ("ck_marking_pass_with_total", "total_frac IS NOT NULL OR passed IS NULL OR NOT passed"),
    "outcome": (
        "ck_outcome_open_is_undecided",
        "score IS NOT NULL OR (answered AND NOT correct AND NOT critical_missed)",
    ),
}


_ENTRY_TYPES = (
    "attempt-started",
    "attempt-handed-in",
    "attempt-expired",
    "attempt-marked",
    "score-overridden",
    "observation-recorded",
    "qualification-awarded",
    "qualification-confirmed",
    "qualification-suspended",
    "qualification-revoked",
    "share-given",
    "share-ended",
    "role-given",
    "role-ended",
    "policy-changed",
)
_GRADED = "explanation-graded"


def upgrade() -> None:
    _enter((*_ENTRY_TYPES, _GRADED))
    for table, columns in _OPEN.items():
        _change(table, columns, nullable=True)
    op.create_table(
        "grade",
        sa.Column("marking_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.String(length=100), nullable=False),
        sa.Column("levels", sa.JSON(), nullable=False),
        sa.Column("comment", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["marking_id", "scenario_no", "item_id"],
            ["outcome.marking_id", "outcome.scenario_no", "outcome.item_id"],
            name=op.f("fk_grade_marking_id_scenario_no_item_id_outcome"),
        ),
        sa.PrimaryKeyConstraint("marking_id", name=op.f("pk_grade")),
    )
    refuse_changes("grade", key=("marking_id",))


def downgrade() -> None:
    _refuse_loss()
    op.drop_table("grade")
    for table, columns in _OPEN.items():
        _change(table, columns, nullable=False)
    _enter(_ENTRY_TYPES)


def _refuse_loss() -> None:
    """The older form has no place for a grade or for a mark that waits; neither is thrown away."""
    for what, query in (
        ("explanations wait for a grade", "SELECT count(*) FROM outcome WHERE score IS NULL"),
        ("grades stand in the ledger", f"SELECT count(*) FROM ledger_entry WHERE entry_type = '{_GRADED}'"),
    ):
        count = op.get_bind().scalar(sa.text(query))
        if count:
            raise Conflict(f"there is no way back: {count} {what}")


def _enter(types: tuple[str, ...]) -> None:
    """The acts that the ledger takes."""
    accepted = ", ".join(f"'{value}'" for value in types)
    allow_changes("ledger_entry")
    with op.batch_alter_table("ledger_entry") as batch:
        batch.drop_constraint(op.f("ck_ledger_entry_entry_type"), type_="check")
        batch.create_check_constraint(op.f("ck_ledger_entry_entry_type"), f"entry_type IN ({accepted})")
    refuse_changes("ledger_entry", key=("organisation_id", "seq"))


def _change(table: str, columns: Columns, *, nullable: bool) -> None:
    """Opens or closes the columns; SQLite makes the table anew, and its triggers go with the old one."""
    allow_changes(table)
    with op.batch_alter_table(table) as batch:
        for column, kind in columns:
            batch.alter_column(column, existing_type=kind, nullable=nullable)
        if table in _RULES:
            name, rule = _RULES[table]
            if nullable:
                batch.create_check_constraint(op.f(name), rule)
            else:
                batch.drop_constraint(op.f(name), type_="check")
    refuse_changes(table, key=_KEYS[table])
