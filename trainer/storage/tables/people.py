"""People, organisations, what ties them, and how people sign in."""

from datetime import date, datetime
from uuid import UUID, uuid4

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.domain.people import Language, OrganisationKind, Role, UnitSystem
from trainer.storage.tables.base import Base, UtcDateTime, enum_type


class PersonRow(Base):
    """One person, whichever organisations they belong to; no password until an invitation is taken up."""

    __tablename__ = "person"

    person_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    name: Mapped[str] = mapped_column(String(200))
    email: Mapped[str] = mapped_column(String(254), unique=True)  # folded; RFC 5321 gives the length
    units: Mapped[UnitSystem] = mapped_column(enum_type(UnitSystem, name="units"))
    language: Mapped[Language] = mapped_column(enum_type(Language, name="language"))
    password_hash: Mapped[str | None] = mapped_column(String(255))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (CheckConstraint("name <> ''", name="name_given"),)


class OrganisationRow(Base):
    """A training provider or an employer."""

    __tablename__ = "organisation"

    organisation_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    name: Mapped[str] = mapped_column(String(200), unique=True)
    kind: Mapped[OrganisationKind] = mapped_column(enum_type(OrganisationKind, name="kind"))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (CheckConstraint("name <> ''", name="name_given"),)


class MembershipRow(Base):
    """A role in an organisation from a day to a day, both included."""

    __tablename__ = "membership"

    membership_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    role: Mapped[Role] = mapped_column(enum_type(Role, name="role"))
    starts: Mapped[date]
    ends: Mapped[date | None]
    withdrawn_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (
        CheckConstraint("ends IS NULL OR ends >= starts", name="ends_after_start"),
        Index(
            "uq_membership_in_force",
            "person_id",
            "organisation_id",
            "role",
            "starts",
            unique=True,
            sqlite_where=text("withdrawn_at IS NULL"),
            postgresql_where=text("withdrawn_at IS NULL"),
        ),
        Index(None, "organisation_id", "role"),
    )


class ShareRow(Base):
    """An employer's sight of a person's record; `organisation_id` is the one whose ledger tells of it."""

    __tablename__ = "share"

    share_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    employer_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    basis: Mapped[str] = mapped_column(Text)
    consent_on_file: Mapped[str] = mapped_column(Text)
    starts: Mapped[date]
    ends: Mapped[date | None]
    given_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    withdrawn_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (
        CheckConstraint("ends IS NULL OR ends >= starts", name="ends_after_start"),
        CheckConstraint("basis <> ''", name="basis_given"),
        CheckConstraint("consent_on_file <> ''", name="consent_given"),
        Index(None, "employer_id", "person_id"),
        Index(None, "person_id"),
    )


class SignInRow(Base):
    """One sign-in; the browser holds the token, the row only its hash."""

    __tablename__ = "sign_in"

    sign_in_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"), index=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    organisation_id: Mapped[UUID | None] = mapped_column(ForeignKey("organisation.organisation_id"))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)
    expires_at: Mapped[datetime] = mapped_column(UtcDateTime)
    revoked_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (CheckConstraint("expires_at > created_at", name="expires_after_start"),)


class SignInFailureRow(Base):
    """A failed sign-in, kept for as long as it counts; the account is a hash, since it may be nobody's."""

    __tablename__ = "sign_in_failure"

    sign_in_failure_id: Mapped[int] = mapped_column(primary_key=True)
    account_hash: Mapped[str] = mapped_column(String(64))
    address: Mapped[str] = mapped_column(String(64))
    failed_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (Index(None, "account_hash", "failed_at"), Index(None, "address", "failed_at"))


class InvitationRow(Base):
    """A one-use link with which a person sets a first or a new password."""

    __tablename__ = "invitation"

    invitation_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"), index=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    expires_at: Mapped[datetime] = mapped_column(UtcDateTime)
    used_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
