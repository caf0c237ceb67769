"""Classes, modules and assignments."""

import sqlalchemy as sa
from alembic import op

revision = "003_training"
down_revision = "002_ledger"
branch_labels = None
depends_on = None

_MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    _training_class()
    _class_member()
    _module()
    _assignment()


def _training_class() -> None:
    op.create_table(
        "training_class",
        sa.Column("class_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.CheckConstraint("name <> ''", name=op.f("ck_training_class_name_given")),
        sa.ForeignKeyConstraint(
            ["made_by"], ["person.person_id"], name=op.f("fk_training_class_made_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_training_class_organisation_id_organisation"),
        ),
        sa.PrimaryKeyConstraint("class_id", name=op.f("pk_training_class")),
        sa.UniqueConstraint("organisation_id", "name", name=op.f("uq_training_class_organisation_id_name")),
    )


def _class_member() -> None:
    op.create_table(
        "class_member",
        sa.Column("class_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("joined_at", _MOMENT, nullable=False),
        sa.ForeignKeyConstraint(
            ["class_id"], ["training_class.class_id"], name=op.f("fk_class_member_class_id_training_class")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_class_member_person_id_person")
        ),
        sa.PrimaryKeyConstraint("class_id", "person_id", name=op.f("pk_class_member")),
    )
    op.create_index(op.f("ix_class_member_person_id"), "class_member", ["person_id"], unique=False)


def _module() -> None:
    op.create_table(
        "module",
        sa.Column("module_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("title", sa.String(length=200), nullable=False),
        sa.Column("blueprint", sa.JSON(), nullable=False),
        sa.Column("made_by", sa.Uuid(), nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.Column("retired_at", _MOMENT),
        sa.CheckConstraint("title <> ''", name=op.f("ck_module_title_given")),
        sa.ForeignKeyConstraint(["made_by"], ["person.person_id"], name=op.f("fk_module_made_by_person")),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_module_organisation_id_organisation"),
        ),
        sa.PrimaryKeyConstraint("module_id", name=op.f("pk_module")),
        sa.UniqueConstraint("organisation_id", "title", name=op.f("uq_module_organisation_id_title")),
    )


def _assignment() -> None:
    op.create_table(
        "assignment",
        sa.Column("assignment_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("module_id", sa.Uuid(), nullable=False),
        sa.Column("class_id", sa.Uuid()),
        sa.Column("person_id", sa.Uuid()),
        sa.Column("due_on", sa.Date(), nullable=False),
        sa.Column("attempts_allowed", sa.Integer(), nullable=False),
        sa.Column("assigned_by", sa.Uuid(), nullable=False),
        sa.Column("assigned_at", _MOMENT, nullable=False),
        sa.CheckConstraint(
            "(class_id IS NULL) <> (person_id IS NULL)", name=op.f("ck_assignment_to_class_or_person")
        ),
        sa.CheckConstraint(
            "attempts_allowed BETWEEN 1 AND 10", name=op.f("ck_assignment_attempts_allowed_1_to_10")
        ),
        sa.ForeignKeyConstraint(
            ["assigned_by"], ["person.person_id"], name=op.f("fk_assignment_assigned_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["class_id"], ["training_class.class_id"], name=op.f("fk_assignment_class_id_training_class")
        ),
        sa.ForeignKeyConstraint(
            ["module_id"], ["module.module_id"], name=op.f("fk_assignment_module_id_module")
        ),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_assignment_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_assignment_person_id_person")
        ),
        sa.PrimaryKeyConstraint("assignment_id", name=op.f("pk_assignment")),
        sa.UniqueConstraint(
            "module_id", "class_id", "due_on", name=op.f("uq_assignment_module_id_class_id_due_on")
        ),
        sa.UniqueConstraint(
            "module_id", "person_id", "due_on", name=op.f("uq_assignment_module_id_person_id_due_on")
        ),
    )
    op.create_index(op.f("ix_assignment_class_id"), "assignment", ["class_id"], unique=False)
    op.create_index(op.f("ix_assignment_module_id"), "assignment", ["module_id"], unique=False)
    op.create_index(
        op.f("ix_assignment_organisation_id_due_on"),
        "assignment",
        ["organisation_id", "due_on"],
        unique=False,
    )
    op.create_index(op.f("ix_assignment_person_id"), "assignment", ["person_id"], unique=False)


def downgrade() -> None:
    for table in ("assignment", "module", "class_member", "training_class"):
        op.drop_table(table)
