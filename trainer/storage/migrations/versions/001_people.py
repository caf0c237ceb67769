"""People, organisations, memberships, shares and sign-in."""

import sqlalchemy as sa
from alembic import op

revision = "001_people"
down_revision = None
branch_labels = None
depends_on = None

_MOMENT = sa.DateTime(timezone=True)
_ENDS_AFTER_START = "ends IS NULL OR ends >= starts"


def _one_of(table: str, column: str, *values: str) -> sa.CheckConstraint:
    accepted = ", ".join(f"'{value}'" for value in values)
    return sa.CheckConstraint(f"{column} IN ({accepted})", name=op.f(f"ck_{table}_{column}"))


def _refers(table: str, column: str, target: str) -> sa.ForeignKeyConstraint:
    key = f"{target}_id"
    return sa.ForeignKeyConstraint([column], [f"{target}.{key}"], name=op.f(f"fk_{table}_{column}_{target}"))


def upgrade() -> None:
    _people_and_organisations()
    _memberships()
    _shares()
    _signing_in()


def _people_and_organisations() -> None:
    op.create_table(
        "person",
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("email", sa.String(254), nullable=False),
        sa.Column("units", sa.String(40), nullable=False),
        sa.Column("language", sa.String(40), nullable=False),
        sa.Column("password_hash", sa.String(255)),
        sa.Column("created_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("person_id", name=op.f("pk_person")),
        sa.UniqueConstraint("email", name=op.f("uq_person_email")),
        sa.CheckConstraint("name <> ''", name=op.f("ck_person_name_given")),
        _one_of("person", "units", "metric", "inch-pound"),
        _one_of("person", "language", "en", "es"),
    )
    op.create_table(
        "organisation",
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("created_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("organisation_id", name=op.f("pk_organisation")),
        sa.UniqueConstraint("name", name=op.f("uq_organisation_name")),
        sa.CheckConstraint("name <> ''", name=op.f("ck_organisation_name_given")),
        _one_of("organisation", "kind", "training provider", "employer"),
    )


def _memberships() -> None:
    op.create_table(
        "membership",
        sa.Column("membership_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("role", sa.String(40), nullable=False),
        sa.Column("starts", sa.Date(), nullable=False),
        sa.Column("ends", sa.Date()),
        sa.Column("withdrawn_at", _MOMENT),
        sa.PrimaryKeyConstraint("membership_id", name=op.f("pk_membership")),
        _refers("membership", "person_id", "person"),
        _refers("membership", "organisation_id", "organisation"),
        sa.CheckConstraint(_ENDS_AFTER_START, name=op.f("ck_membership_ends_after_start")),
        _one_of("membership", "role", "apprentice", "instructor", "employer", "administrator"),
    )
    op.create_index(
        "uq_membership_in_force",
        "membership",
        ["person_id", "organisation_id", "role", "starts"],
        unique=True,
        sqlite_where=sa.text("withdrawn_at IS NULL"),
        postgresql_where=sa.text("withdrawn_at IS NULL"),
    )
    op.create_index(op.f("ix_membership_organisation_id_role"), "membership", ["organisation_id", "role"])


def _shares() -> None:
    op.create_table(
        "share",
        sa.Column("share_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("employer_id", sa.Uuid(), nullable=False),
        sa.Column("organisation_id", sa.Uuid(), nullable=False),
        sa.Column("basis", sa.Text(), nullable=False),
        sa.Column("consent_on_file", sa.Text(), nullable=False),
        sa.Column("starts", sa.Date(), nullable=False),
        sa.Column("ends", sa.Date()),
        sa.Column("given_by", sa.Uuid(), nullable=False),
        sa.Column("withdrawn_at", _MOMENT),
        sa.PrimaryKeyConstraint("share_id", name=op.f("pk_share")),
        _refers("share", "person_id", "person"),
        _refers("share", "organisation_id", "organisation"),
        sa.ForeignKeyConstraint(
            ["employer_id"], ["organisation.organisation_id"], name=op.f("fk_share_employer_id_organisation")
        ),
        sa.ForeignKeyConstraint(["given_by"], ["person.person_id"], name=op.f("fk_share_given_by_person")),
        sa.CheckConstraint(_ENDS_AFTER_START, name=op.f("ck_share_ends_after_start")),
        sa.CheckConstraint("basis <> ''", name=op.f("ck_share_basis_given")),
        sa.CheckConstraint("consent_on_file <> ''", name=op.f("ck_share_consent_given")),
    )
    op.create_index(op.f("ix_share_employer_id_person_id"), "share", ["employer_id", "person_id"])
    op.create_index(op.f("ix_share_person_id"), "share", ["person_id"])


def _signing_in() -> None:
    op.create_table(
        "sign_in",
        sa.Column("sign_in_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("token_hash", sa.String(64), nullable=False),
        sa.Column("organisation_id", sa.Uuid()),
        sa.Column("created_at", _MOMENT, nullable=False),
        sa.Column("expires_at", _MOMENT, nullable=False),
        sa.Column("revoked_at", _MOMENT),
        sa.PrimaryKeyConstraint("sign_in_id", name=op.f("pk_sign_in")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_sign_in_token_hash")),
        _refers("sign_in", "person_id", "person"),
        _refers("sign_in", "organisation_id", "organisation"),
        sa.CheckConstraint("expires_at > created_at", name=op.f("ck_sign_in_expires_after_start")),
    )
    op.create_index(op.f("ix_sign_in_person_id"), "sign_in", ["person_id"])
    op.create_table(
        "sign_in_failure",
        sa.Column("sign_in_failure_id", sa.Integer(), nullable=False),
        sa.Column("account_hash", sa.String(64), nullable=False),
        sa.Column("address", sa.String(64), nullable=False),
        sa.Column("failed_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("sign_in_failure_id", name=op.f("pk_sign_in_failure")),
    )
    op.create_index(
        op.f("ix_sign_in_failure_account_hash_failed_at"), "sign_in_failure", ["account_hash", "failed_at"]
    )
    op.create_index(op.f("ix_sign_in_failure_address_failed_at"), "sign_in_failure", ["address", "failed_at"])
    op.create_table(
        "invitation",
        sa.Column("invitation_id", sa.Uuid(), nullable=False),
        sa.Column("person_id", sa.Uuid(), nullable=False),
        sa.Column("token_hash", sa.String(64), nullable=False),
        sa.Column("expires_at", _MOMENT, nullable=False),
        sa.Column("used_at", _MOMENT),
        sa.PrimaryKeyConstraint("invitation_id", name=op.f("pk_invitation")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_invitation_token_hash")),
        _refers("invitation", "person_id", "person"),
    )
    op.create_index(op.f("ix_invitation_person_id"), "invitation", ["person_id"])


def downgrade() -> None:
    for table in (
        "invitation",
        "sign_in_failure",
        "sign_in",
        "share",
        "membership",
        "organisation",
        "person",
    ):
        op.drop_table(table)
