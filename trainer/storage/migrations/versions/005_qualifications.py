"""Observations, qualifications and the acts on them; all of them can only be added."""

import sqlalchemy as sa
from alembic import op

from trainer.storage.migrations.append_only import refuse_changes

revision = "005_qualifications"
down_revision = "004_attempts"
branch_labels = None
depends_on = None

_MOMENT = sa.DateTime(timezone=True)


_WRITTEN_ONCE = {
    "observation": ("observation_id",),
    "qualification": ("qualification_id",),
    "qualification_marking": ("qualification_id", "attempt_id"),
    "qualification_observation": ("qualification_id", "observation_id"),
    "qualification_event": ("qualification_id", "event_no"),
}


def _one_of(table: str, column: str, *values: str) -> sa.CheckConstraint:
    accepted = ", ".join(f"'{value}'" for value in values)
    return sa.CheckConstraint(f"{column} IN ({accepted})", name=op.f(f"ck_{table}_{column}"))


def upgrade() -> None:
    _observation()
    _qualification()
    _qualification_marking()
    _qualification_observation()
    _qualification_event()
    for table, key in _WRITTEN_ONCE.items():
        refuse_changes(table, key=key)


def _observation() -> None:
    op.create_table(
        "observation",
        sa.Column("observation_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("observed_by", sa.Uuid(), nullable=False),
        sa.Column("observed_on", sa.Date(), nullable=False),
        sa.Column("recorded_at", _MOMENT, nullable=False),
        sa.Column("material", sa.String(40), nullable=False),
        sa.Column("gas", sa.String(length=20), nullable=False),
        sa.Column("outside_diameter_m", sa.Double(), nullable=False),
        sa.Column("oxygen_at_strike_frac", sa.Double(), nullable=False),
        sa.Column("root_grade", sa.String(40), nullable=False),
        sa.Column("confined_space", sa.Boolean(), nullable=False),
        sa.Column("accepted", sa.Boolean(), nullable=False),
        sa.Column("analyser_serial", sa.String(length=100), nullable=False),
        sa.Column("analyser_calibrated_until", sa.Date()),
        sa.Column("notes", sa.Text(), nullable=False),
        sa.Column("ledger_seq", sa.Integer(), nullable=False),
        sa.CheckConstraint("observed_by <> person_id", name=op.f("ck_observation_not_by_oneself")),
        sa.CheckConstraint("outside_diameter_m > 0", name=op.f("ck_observation_outside_diameter_positive")),
        sa.CheckConstraint(
            "oxygen_at_strike_frac BETWEEN 0 AND 1", name=op.f("ck_observation_oxygen_0_to_1")
        ),
        sa.ForeignKeyConstraint(
            ["observed_by"], ["person.person_id"], name=op.f("fk_observation_observed_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_observation_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_observation_person_id_person")
        ),
        sa.PrimaryKeyConstraint("observation_id", name=op.f("pk_observation")),
        _one_of(
            "observation",
            "material",
            "carbon steel",
            "austenitic stainless",
            "duplex",
            "super duplex",
            "nickel alloy",
            "chromium-molybdenum",
            "titanium",
        ),
        _one_of(
            "observation",
            "root_grade",
            "bright",
            "straw",
            "gold",
            "brown",
            "violet",
            "blue",
            "grey",
            "black",
            "sugared",
        ),
    )
    op.create_index(
        op.f("ix_observation_organisation_id_observed_on"),
        "observation",
        ["organisation_id", "observed_on"],
        unique=False,
    )
    op.create_index(
        op.f("ix_observation_person_id_observed_on"),
        "observation",
        ["person_id", "observed_on"],
        unique=False,
    )


def _qualification() -> None:
    op.create_table(
        "qualification",
        sa.Column("qualification_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("code", sa.String(length=20), nullable=False),
        sa.Column("award_token", sa.Uuid(), nullable=False),
        sa.Column("awarded_by", sa.Uuid(), nullable=False),
        sa.Column("awarded_at", _MOMENT, nullable=False),
        sa.Column("starts", sa.Date(), nullable=False),
        sa.Column("valid_until", sa.Date(), nullable=False),
        sa.Column("confirmation_months", sa.Integer(), nullable=False),
        sa.Column("due_days", sa.Integer(), nullable=False),
        sa.Column("scope", sa.JSON(), nullable=False),
        sa.Column("one_person_taught_and_decided", sa.Boolean(), nullable=False),
        sa.Column("policy_version", sa.String(length=100), nullable=False),
        sa.CheckConstraint("awarded_by <> person_id", name=op.f("ck_qualification_not_to_oneself")),
        sa.CheckConstraint(
            "confirmation_months >= 1", name=op.f("ck_qualification_confirmation_months_positive")
        ),
        sa.CheckConstraint("due_days >= 0", name=op.f("ck_qualification_due_days_not_negative")),
        sa.CheckConstraint("valid_until > starts", name=op.f("ck_qualification_valid_after_start")),
        sa.ForeignKeyConstraint(
            ["awarded_by"], ["person.person_id"], name=op.f("fk_qualification_awarded_by_person")
        ),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_qualification_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.person_id"], name=op.f("fk_qualification_person_id_person")
        ),
        sa.PrimaryKeyConstraint("qualification_id", name=op.f("pk_qualification")),
        sa.UniqueConstraint("award_token", name=op.f("uq_qualification_award_token")),
        sa.UniqueConstraint("code", name=op.f("uq_qualification_code")),
    )
    op.create_index(
        op.f("ix_qualification_organisation_id_starts"),
        "qualification",
        ["organisation_id", "starts"],
        unique=False,
    )
    op.create_index(
        op.f("ix_qualification_person_id_starts"), "qualification", ["person_id", "starts"], unique=False
    )


def _qualification_marking() -> None:
    op.create_table(
        "qualification_marking",
        sa.Column("qualification_id", sa.Uuid(), nullable=False),
        sa.Column("attempt_id", sa.Uuid(), nullable=False),
        sa.Column("marking_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["attempt_id"], ["attempt.attempt_id"], name=op.f("fk_qualification_marking_attempt_id_attempt")
        ),
        sa.ForeignKeyConstraint(
            ["marking_id"], ["marking.marking_id"], name=op.f("fk_qualification_marking_marking_id_marking")
        ),
        sa.ForeignKeyConstraint(
            ["qualification_id"],
            ["qualification.qualification_id"],
            name=op.f("fk_qualification_marking_qualification_id_qualification"),
        ),
        sa.PrimaryKeyConstraint("qualification_id", "attempt_id", name=op.f("pk_qualification_marking")),
    )
    op.create_index(
        op.f("ix_qualification_marking_attempt_id"), "qualification_marking", ["attempt_id"], unique=False
    )


def _qualification_observation() -> None:
    op.create_table(
        "qualification_observation",
        sa.Column("qualification_id", sa.Uuid(), nullable=False),
        sa.Column("observation_id", sa.Uuid(), nullable=False),
        sa.ForeignKeyConstraint(
            ["observation_id"],
            ["observation.observation_id"],
            name=op.f("fk_qualification_observation_observation_id_observation"),
        ),
        sa.ForeignKeyConstraint(
            ["qualification_id"],
            ["qualification.qualification_id"],
            name=op.f("fk_qualification_observation_qualification_id_qualification"),
        ),
        sa.PrimaryKeyConstraint(
            "qualification_id", "observation_id", name=op.f("pk_qualification_observation")
        ),
    )
    op.create_index(
        op.f("ix_qualification_observation_observation_id"),
        "qualification_observation",
        ["observation_id"],
        unique=False,
    )


def _qualification_event() -> None:
    op.create_table(
        "qualification_event",
        sa.Column("qualification_id", sa.Uuid(), nullable=False),
        sa.Column("event_no", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("act", sa.String(40), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("at", _MOMENT, nullable=False),
        sa.Column("by", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("ledger_seq", sa.Integer(), nullable=False),
        sa.CheckConstraint(
            "act = 'awarded' OR reason <> ''", name=op.f("ck_qualification_event_reason_given")
        ),
        sa.CheckConstraint("event_no >= 1", name=op.f("ck_qualification_event_number_from_one")),
        sa.ForeignKeyConstraint(["by"], ["person.person_id"], name=op.f("fk_qualification_event_by_person")),
        sa.ForeignKeyConstraint(
            ["organisation_id"],
            ["organisation.organisation_id"],
            name=op.f("fk_qualification_event_organisation_id_organisation"),
        ),
        sa.ForeignKeyConstraint(
            ["qualification_id"],
            ["qualification.qualification_id"],
            name=op.f("fk_qualification_event_qualification_id_qualification"),
        ),
        sa.PrimaryKeyConstraint("qualification_id", "event_no", name=op.f("pk_qualification_event")),
        _one_of("qualification_event", "act", "awarded", "confirmed", "suspended", "lifted", "revoked"),
    )


def downgrade() -> None:
    for table in (
        "qualification_event",
        "qualification_observation",
        "qualification_marking",
        "qualification",
        "observation",
    ):
        op.drop_table(table)  # its triggers go with it
