"""Jobs that instructors write, in versions that can only be added."""

import sqlalchemy as sa
from alembic import op

from trainer.storage.migrations.append_only import refuse_changes

revision = "008_own_jobs"
down_revision = "007_grades"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "own_job",
        sa.Column("job_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("family", sa.String(length=100), nullable=False),
        sa.Column("state", sa.String(length=40), nullable=False),
        sa.Column("published_version", sa.Integer(), nullable=True),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("state IN ('draft', 'published', 'withdrawn')", name=op.f("ck_own_job_state")),
        sa.CheckConstraint(
            "(state = 'draft') = (published_version IS NULL)", name=op.f("ck_own_job_published_unless_draft")
        ),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_own_job_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(["made_by"], ["person.person_id"], name=op.f("fk_own_job_made_by_person")),
        sa.PrimaryKeyConstraint("job_id", name=op.f("pk_own_job")),
        sa.UniqueConstraint("family", name=op.f("uq_own_job_family")),
    )
    op.create_index(op.f("ix_own_job_organisation_id"), "own_job", ["organisation_id"])
    op.create_table(
        "own_job_version",
        sa.Column("job_id", sa.Uuid(), nullable=False),
        sa.Column("version", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.Column("typed", sa.JSON(), nullable=True),
        sa.Column("family_file", sa.Text(), nullable=False),
        sa.Column("content_version", sa.String(length=100), nullable=False),
        sa.Column("saved_by", sa.Uuid(), nullable=False),
        sa.Column("saved_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("version >= 1", name=op.f("ck_own_job_version_version_from_one")),
        sa.ForeignKeyConstraint(
            ["job_id"], ["own_job.job_id"], name=op.f("fk_own_job_version_job_id_own_job")
        ),
        sa.ForeignKeyConstraint(
            ["saved_by"], ["person.person_id"], name=op.f("fk_own_job_version_saved_by_person")
        ),
        sa.PrimaryKeyConstraint("job_id", "version", name=op.f("pk_own_job_version")),
    )
    refuse_changes("own_job_version", key=("job_id", "version"))


def downgrade() -> None:
    op.drop_table("own_job_version")
    op.drop_table("own_job")
