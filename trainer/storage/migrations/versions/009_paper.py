"""Sheets printed for answering by hand, what was drawn for them, and what is keyed in from them."""

import sqlalchemy as sa
from alembic import op

from trainer.storage.migrations.append_only import refuse_changes

revision = "009_paper"
down_revision = "008_own_jobs"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "paper_set",
        sa.Column("paper_set_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("assignment_id", sa.Uuid(), nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.Column("blueprint", sa.JSON(), nullable=False),
        sa.Column("left_out", sa.JSON(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["assignment_id"],
            ["assignment.assignment_id"],
            name=op.f("fk_paper_set_assignment_id_assignment"),
        ),
        sa.ForeignKeyConstraint(["made_by"], ["person.person_id"], name=op.f("fk_paper_set_made_by_person")),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_paper_set_organisation_id_organisation"),
        ),
        sa.PrimaryKeyConstraint("paper_set_id", name=op.f("pk_paper_set")),
    )
    op.create_index(op.f("ix_paper_set_assignment_id"), "paper_set", ["assignment_id"])
    op.create_index(op.f("ix_paper_set_organisation_id"), "paper_set", ["organisation_id"])
    op.create_table(
        "paper_sheet",
        sa.Column("sheet_id", sa.Uuid(), nullable=False),
        sa.Column("paper_set_id", sa.Uuid(), nullable=False),
        sa.Column("sheet_no", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(length=20), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=True),
        sa.Column("units", sa.String(length=40), nullable=False),
        sa.Column("attempt_id", sa.Uuid(), nullable=True),
        sa.Column("sat_on", sa.Date(), nullable=True),
        sa.Column("keyed_by", sa.Uuid(), nullable=True),
        sa.Column("keyed_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint(
            "(attempt_id IS NULL) = (sat_on IS NULL) AND (attempt_id IS NULL) = (keyed_by IS NULL)"
            " AND (attempt_id IS NULL) = (keyed_at IS NULL)",
            name=op.f("ck_paper_sheet_handed_in_as_a_whole"),
        ),
        sa.CheckConstraint(
            "attempt_id IS NULL OR person_id IS NOT NULL", name=op.f("ck_paper_sheet_handed_in_for_somebody")
        ),
        sa.CheckConstraint("keyed_by <> person_id", name=op.f("ck_paper_sheet_keyed_by_another")),
        sa.CheckConstraint("units IN ('metric', 'inch-pound')", name=op.f("ck_paper_sheet_units")),
        sa.CheckConstraint("sheet_no >= 1", name=op.f("ck_paper_sheet_number_from_one")),
        sa.ForeignKeyConstraint(
            ["attempt_id"], ["attempt.attempt_id"], name=op.f("fk_paper_sheet_attempt_id_attempt")
        ),
        sa.ForeignKeyConstraint(
            ["keyed_by"], ["person.person_id"], name=op.f("fk_paper_sheet_keyed_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["paper_set_id"], ["paper_set.paper_set_id"], name=op.f("fk_paper_sheet_paper_set_id_paper_set")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_paper_sheet_person_id_person")
        ),
        sa.PrimaryKeyConstraint("sheet_id", name=op.f("pk_paper_sheet")),
        sa.UniqueConstraint("attempt_id", name=op.f("uq_paper_sheet_attempt_id")),
        sa.UniqueConstraint("code", name=op.f("uq_paper_sheet_code")),
        sa.UniqueConstraint("paper_set_id", "sheet_no", name=op.f("uq_paper_sheet_paper_set_id_sheet_no")),
    )
    op.create_index(op.f("ix_paper_sheet_person_id"), "paper_sheet", ["person_id"])
    op.create_table(
        "paper_scenario",
        sa.Column("sheet_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), autoincrement=False, nullable=False),
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
            "difficulty_percent BETWEEN 0 AND 100", name=op.f("ck_paper_scenario_difficulty_0_to_100")
        ),
        sa.CheckConstraint("scenario_no >= 1", name=op.f("ck_paper_scenario_number_from_one")),
        sa.CheckConstraint(
            "seed >= 0 AND seed <= 9007199254740991", name=op.f("ck_paper_scenario_seed_below_2_53")
        ),
        sa.ForeignKeyConstraint(
            ["sheet_id"], ["paper_sheet.sheet_id"], name=op.f("fk_paper_scenario_sheet_id_paper_sheet")
        ),
        sa.PrimaryKeyConstraint("sheet_id", "scenario_no", name=op.f("pk_paper_scenario")),
    )
    op.create_table(
        "paper_answer",
        sa.Column("sheet_id", sa.Uuid(), nullable=False),
        sa.Column("scenario_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("item_id", sa.String(length=100), nullable=False),
        sa.Column("raw", sa.JSON(), nullable=False),
        sa.Column("kept_by", sa.Uuid(), nullable=False),
        sa.Column("kept_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["kept_by"], ["person.person_id"], name=op.f("fk_paper_answer_kept_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["sheet_id", "scenario_no"],
            ["paper_scenario.sheet_id", "paper_scenario.scenario_no"],
            name=op.f("fk_paper_answer_sheet_id_scenario_no_paper_scenario"),
        ),
        sa.PrimaryKeyConstraint("sheet_id", "scenario_no", "item_id", name=op.f("pk_paper_answer")),
    )
    refuse_changes("paper_scenario", key=("sheet_id", "scenario_no"))


def downgrade() -> None:
    op.drop_table("paper_answer")
    op.drop_table("paper_scenario")
    op.drop_table("paper_sheet")
    op.drop_table("paper_set")
