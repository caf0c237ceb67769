"""Versions of what a site changed about the default policy; they can only be added."""

import sqlalchemy as sa
from alembic import op

from trainer.storage.migrations.append_only import refuse_changes

revision = "006_site_policy"
down_revision = "005_qualifications"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "site_policy",
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("version", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("changes", sa.JSON(), nullable=False),
        sa.Column("set_by", sa.Uuid(), nullable=False),
        sa.Column("set_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("organisation_id", "version", name=op.f("pk_site_policy")),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_site_policy_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(["set_by"], ["person.person_id"], name=op.f("fk_site_policy_set_by_person")),
        sa.CheckConstraint("version >= 1", name=op.f("ck_site_policy_version_from_one")),
    )
    refuse_changes("site_policy", key=("organisation_id", "version"))


def downgrade() -> None:
    op.drop_table("site_policy")
