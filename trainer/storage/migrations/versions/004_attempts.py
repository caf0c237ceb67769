"""Attempts, responses and markings; responses and markings can only be added."""

import sqlalchemy as sa
from alembic import op

from trainer.storage.migrations.append_only import refuse_changes

revision = "004_attempts"
down_revision = "003_training"
branch_labels = None
depends_on = None

_MOMENT = sa.DateTime(timezone=True)


_WRITTEN_ONCE = {
    "attempt_scenario": ("attempt_id", "scenario_no"),
    "response": ("attempt_id", "scenario_no", "item_id", "version"),
    "marking": ("marking_id",),
    "marked_scenario": ("marking_id", "scenario_no"),
    "outcome": ("marking_id", "scenario_no", "item_id"),
}


def _one_of(table: str, column: str, *values: str) -> sa.CheckConstraint:
    accepted = ", ".join(f"'{value}'" for value in values)
    return sa.CheckConstraint(f"{column} IN ({accepted})", name=op.f(f"ck_{table}_{column}"))


def upgrade() -> None:
    _attempt()
    _attempt_scenario()
    _response()
    _marking()
    _marked_scenario()
    _outcome()
    for table, key in _WRITTEN_ONCE.items():
        refuse_changes(table, key=key)


def _attempt() -> None:
    op.create_table(
        "attempt",
        sa.Column("attempt_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("state", sa.String(40), nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.Column("module_id", sa.Uuid()),
        sa.Column("assignment_id", sa.Uuid()),
        sa.Column("blueprint", sa.JSON(), nullable=False),
        sa.Column("started_at", _MOMENT, nullable=False),
        sa.Column("expires_at", _MOMENT),
        sa.Column("ended_at", _MOMENT),
        sa.Column("hand_in_token", sa.Uuid(), nullable=False),
        sa.CheckConstraint(
            "(kind = 'assessed') = (assignment_id IS NOT NULL)",
            name=op.f("ck_attempt_assessed_by_assignment"),
        ),
        sa.CheckConstraint(
            "(state = 'open') = (ended_at IS NULL)", name=op.f("ck_attempt_ended_unless_open")
        ),
        sa.CheckConstraint(
            "(module_id IS NULL) = (assignment_id IS NULL)", name=op.f("ck_attempt_module_of_assignment")
        ),
        sa.CheckConstraint(
            "expires_at IS NULL OR expires_at > started_at", name=op.f("ck_attempt_expires_after_start")
        ),
        sa.ForeignKeyConstraint(
            ["assignment_id"], ["assignment.assignment_id"], name=op.f("fk_attempt_assignment_id_assignment")
        ),
        sa.ForeignKeyConstraint(
            ["module_id"], ["module.module_id"], name=op.f("fk_attempt_module_id_module")
        ),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_attempt_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_attempt_person_id_person")
        ),
        sa.PrimaryKeyConstraint("attempt_id", name=op.f("pk_attempt")),
        _one_of("attempt", "kind", "practice", "assessed"),
        _one_of("attempt", "state", "open", "submitted", "expired", "marked", "superseded"),
    )
    op.create_index(op.f("ix_attempt_assignment_id"), "attempt", ["assignment_id"], unique=False)
    op.create_index(op.f("ix_attempt_module_id"), "attempt", ["module_id"], unique=False)
    op.create_index(
        op.f("ix_attempt_organisation_id_kind_started_at"),
        "attempt",
        ["organisation_id", "kind", "started_at"],
        unique=False,
    )
    op.create_index(
        op.f("ix_attempt_person_id_kind_started_at"),
        "attempt",
        ["person_id", "kind", "started_at"],
        unique=False,
    )
    op.create_index(
        "uq_attempt_one_open",
        "attempt",
        ["assignment_id", "person_id"],
        unique=True,
        sqlite_where=sa.text("state = 'open'"),
        postgresql_where=sa.text("state = 'open'"),
    )


def _attempt_scenario() -> None:
    op.create_table(
        "attempt_scenario",
        sa.Column("attempt_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(length=100), nullable=False),
        sa.Column("seed", sa.BigInteger(), nullable=False),
        sa.Column("difficulty_percent", sa.Integer(), nullable=False),
        sa.Column("fingerprint", sa.String(length=64), nullable=False),
        sa.Column("content_version", sa.String(length=100), nullable=False),
        sa.Column("core_version", sa.String(length=100), nullable=False),
        sa.Column("policy_version", sa.String(length=100), nullable=False),
        sa.Column("shown", sa.JSON(), nullable=False),
        sa.Column("drawn", sa.JSON(), nullable=False),
        sa.CheckConstraint(
            "difficulty_percent BETWEEN 0 AND 100", name=op.f("ck_attempt_scenario_difficulty_0_to_100")
        ),
        sa.CheckConstraint("scenario_no >= 1", name=op.f("ck_attempt_scenario_number_from_one")),
        sa.CheckConstraint(
            "seed >= 0 AND seed <= 9007199254740991", name=op.f("ck_attempt_scenario_seed_below_2_53")
        ),
        sa.ForeignKeyConstraint(
            ["attempt_id"], ["attempt.attempt_id"], name=op.f("fk_attempt_scenario_attempt_id_attempt")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_attempt_scenario_person_id_person")
        ),
        sa.PrimaryKeyConstraint("attempt_id", "scenario_no", name=op.f("pk_attempt_scenario")),
        sa.UniqueConstraint("person_id", "seed", name=op.f("uq_attempt_scenario_person_id_seed")),
    )
    op.create_index(
        op.f("ix_attempt_scenario_person_id_family"),
        "attempt_scenario",
        ["person_id", "family"],
        unique=False,
    )


def _response() -> None:
    op.create_table(
        "response",
        sa.Column("attempt_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("item_id", sa.String(length=100), nullable=False),
        sa.Column("version", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("raw", sa.JSON(), nullable=False),
        sa.Column("kept_at", _MOMENT, nullable=False),
        sa.CheckConstraint("version >= 1", name=op.f("ck_response_version_from_one")),
        sa.ForeignKeyConstraint(
            ["attempt_id", "scenario_no"],
            ["attempt_scenario.attempt_id", "attempt_scenario.scenario_no"],
            name=op.f("fk_response_attempt_id_scenario_no_attempt_scenario"),
        ),
        sa.PrimaryKeyConstraint("attempt_id", "scenario_no", "item_id", "version", name=op.f("pk_response")),
    )


def _marking() -> None:
    op.create_table(
        "marking",
        sa.Column("marking_id", sa.Uuid(), nullable=False),
        sa.Column("attempt_id", sa.Uuid(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("supersedes", sa.Uuid()),
        sa.Column("marked_at", _MOMENT, nullable=False),
        sa.Column("marked_by", sa.Uuid()),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("passed", sa.Boolean(), nullable=False),
        sa.Column("total_frac", sa.Double(), nullable=False),
        sa.Column("critical_failures", sa.JSON(), nullable=False),
        sa.Column("policy_version", sa.String(length=100), nullable=False),
        sa.Column("core_version", sa.String(length=100), nullable=False),
        sa.Column("ledger_seq", sa.Integer()),
        sa.CheckConstraint("version = 1 OR reason <> ''", name=op.f("ck_marking_later_with_reason")),
        sa.CheckConstraint("(version = 1) = (marked_by IS NULL)", name=op.f("ck_marking_later_by_somebody")),
        sa.CheckConstraint("(version = 1) = (supersedes IS NULL)", name=op.f("ck_marking_later_supersedes")),
        sa.CheckConstraint("total_frac BETWEEN 0 AND 1", name=op.f("ck_marking_total_0_to_1")),
        sa.ForeignKeyConstraint(
            ["attempt_id"], ["attempt.attempt_id"], name=op.f("fk_marking_attempt_id_attempt")
        ),
        sa.ForeignKeyConstraint(
            ["marked_by"], ["person.person_id"], name=op.f("fk_marking_marked_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["supersedes"], ["marking.marking_id"], name=op.f("fk_marking_supersedes_marking")
        ),
        sa.PrimaryKeyConstraint("marking_id", name=op.f("pk_marking")),
        sa.UniqueConstraint("attempt_id", "version", name=op.f("uq_marking_attempt_id_version")),
        sa.UniqueConstraint("supersedes", name=op.f("uq_marking_supersedes")),
    )


def _marked_scenario() -> None:
    op.create_table(
        "marked_scenario",
        sa.Column("marking_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("passed", sa.Boolean(), nullable=False),
        sa.Column("done", sa.JSON(), nullable=False),
        sa.Column("marked", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["marking_id"], ["marking.marking_id"], name=op.f("fk_marked_scenario_marking_id_marking")
        ),
        sa.PrimaryKeyConstraint("marking_id", "scenario_no", name=op.f("pk_marked_scenario")),
    )


def _outcome() -> None:
    op.create_table(
        "outcome",
        sa.Column("marking_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("item_id", sa.String(length=100), nullable=False),
        sa.Column("item_no", sa.Integer(), nullable=False),
        sa.Column("family", sa.String(length=100), nullable=False),
        sa.Column("skill", sa.Integer(), nullable=False),
        sa.Column("weight", sa.Double(), nullable=False),
        sa.Column("score", sa.Double(), nullable=False),
        sa.Column("correct", sa.Boolean(), nullable=False),
        sa.Column("answered", sa.Boolean(), nullable=False),
        sa.Column("critical_missed", sa.Boolean(), nullable=False),
        sa.Column("overridden", sa.Boolean(), nullable=False),
        sa.Column("why", sa.JSON(), nullable=False),
        sa.Column("misconceptions", sa.JSON(), nullable=False),
        sa.CheckConstraint("score BETWEEN 0 AND 1", name=op.f("ck_outcome_score_0_to_1")),
        sa.CheckConstraint("skill BETWEEN 1 AND 12", name=op.f("ck_outcome_skill_1_to_12")),
        sa.CheckConstraint("weight > 0", name=op.f("ck_outcome_weight_positive")),
        sa.ForeignKeyConstraint(
            ["marking_id"], ["marking.marking_id"], name=op.f("fk_outcome_marking_id_marking")
        ),
        sa.PrimaryKeyConstraint("marking_id", "scenario_no", "item_id", name=op.f("pk_outcome")),
    )


def downgrade() -> None:
    for table in ("outcome", "marked_scenario", "marking", "response", "attempt_scenario", "attempt"):
        op.drop_table(table)  # its triggers go with it
