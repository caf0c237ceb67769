"""The ledger, which the database itself keeps anybody from changing or deleting."""

import sqlalchemy as sa
from alembic import op

from trainer.storage.migrations.append_only import refuse_changes

revision = "002_ledger"
down_revision = "001_people"
branch_labels = None
depends_on = None

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


def upgrade() -> None:
    accepted = ", ".join(f"'{value}'" for value in _ENTRY_TYPES)
    op.create_table(
        "ledger_entry",
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("seq", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("entry_type", sa.String(40), nullable=False),
        sa.Column("subject", sa.Uuid(), nullable=False),
        sa.Column("canonical", sa.LargeBinary(), nullable=False),
        sa.Column("prev", sa.String(64)),
        sa.Column("leaf_hash", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("organisation_id", "seq", name=op.f("pk_ledger_entry")),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_ledger_entry_organisation_id_organisation"),
        ),
        sa.CheckConstraint("seq >= 0", name=op.f("ck_ledger_entry_seq_from_zero")),
        sa.CheckConstraint("(seq = 0) = (prev IS NULL)", name=op.f("ck_ledger_entry_prev_but_for_first")),
        sa.CheckConstraint(f"entry_type IN ({accepted})", name=op.f("ck_ledger_entry_entry_type")),
    )
    op.create_index(op.f("ix_ledger_entry_subject"), "ledger_entry", ["subject"])
    op.create_table(
        "commitment_salt",
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("seq", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("salt", sa.LargeBinary(32), nullable=False),
        sa.Column("details", sa.LargeBinary()),
        sa.Column("reason", sa.LargeBinary()),
        sa.PrimaryKeyConstraint("organisation_id", "seq", name=op.f("pk_commitment_salt")),
        sa.ForeignKeyConstraint(
            ["organisation_id", "seq"],
            ["ledger_entry.organisation_id", "ledger_entry.seq"],
            name=op.f("fk_commitment_salt_organisation_id_seq_ledger_entry"),
        ),
        sa.CheckConstraint("length(salt) = 32", name=op.f("ck_commitment_salt_salt_32_bytes")),
    )
    if op.get_bind().dialect.name == "postgresql":
        op.execute(
            "CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "
            "RAISE EXCEPTION '% is appended to, never changed', TG_TABLE_NAME USING ERRCODE = '23001'; "
            "END $$"
        )
    refuse_changes("ledger_entry", key=("organisation_id", "seq"))


def downgrade() -> None:
    op.drop_table("commitment_salt")
    op.drop_table("ledger_entry")  # its triggers go with it
    if op.get_bind().dialect.name == "postgresql":
        op.execute("DROP FUNCTION refuse_change()")
