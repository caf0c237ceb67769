"""Sign-ins, failed ones and invitations. Tokens are handed out once and kept only as their hash."""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import delete, func, select, update

from trainer.domain.errors import Missing
from trainer.domain.people import Membership, Organisation, Person
from trainer.storage.database import Work
from trainer.storage.memberships import membership_from
from trainer.storage.people import organisation_from, person_from
from trainer.storage.tables.people import (
    InvitationRow,
    MembershipRow,
    OrganisationRow,
    PersonRow,
    SignInFailureRow,
    SignInRow,
)

_TOKEN_BYTES = 32


@dataclass(frozen=True, kw_only=True)
class SignInFound:
    """A sign-in that is in force: whose, which organisation was chosen, and every place the person has."""

    person: Person
    chosen: UUID | None
    places: tuple[tuple[Membership, Organisation], ...]


@dataclass(frozen=True, kw_only=True)
class Failures:
    """How often signing in failed within the time that counts, and when the oldest of these was."""

    of_account: int
    from_address: int
    oldest: datetime | None


def add_sign_in(
    work: Work, *, person_id: UUID, organisation_id: UUID | None, now: datetime, expires_at: datetime
) -> str:
    """Opens a sign-in and returns its token, which is not kept."""
    token = secrets.token_urlsafe(_TOKEN_BYTES)
    work.session.add(
        SignInRow(
            person_id=person_id,
            token_hash=_hashed(token),
            organisation_id=organisation_id,
            created_at=now,
            expires_at=expires_at,
        )
    )
    return token


def find_sign_in(work: Work, token: str, *, now: datetime) -> SignInFound | None:
    """The sign-in behind a token in one read; None where it was ended, has expired or never was."""
    rows = work.session.execute(
        select(SignInRow.organisation_id, PersonRow, MembershipRow, OrganisationRow)
        .join(PersonRow, PersonRow.person_id == SignInRow.person_id)
        .join(MembershipRow, MembershipRow.person_id == PersonRow.person_id)
        .join(OrganisationRow, OrganisationRow.organisation_id == MembershipRow.organisation_id)
        .where(
            SignInRow.token_hash == _hashed(token),
            SignInRow.revoked_at.is_(None),
            SignInRow.expires_at > now,
        )
        .order_by(OrganisationRow.name, MembershipRow.starts, MembershipRow.membership_id)
    ).all()
    if not rows:
        return None
    places = tuple((membership_from(row[2]), organisation_from(row[3])) for row in rows)
    return SignInFound(person=person_from(rows[0][1]), chosen=rows[0][0], places=places)


def choose_organisation(work: Work, token: str, *, organisation_id: UUID) -> None:
    """Remembers with the sign-in which organisation the person acts in."""
    work.session.execute(
        update(SignInRow)
        .where(SignInRow.token_hash == _hashed(token))
        .values(organisation_id=organisation_id)
    )


def revoke_sign_in(work: Work, token: str, *, now: datetime) -> None:
    """Ends one sign-in; ending it twice changes nothing."""
    work.session.execute(
        update(SignInRow)
        .where(SignInRow.token_hash == _hashed(token), SignInRow.revoked_at.is_(None))
        .values(revoked_at=now)
    )


def revoke_sign_ins(work: Work, *, person_id: UUID, now: datetime, but_token: str | None = None) -> None:
    """Ends all sign-ins of a person, but for the one behind the token."""
    query = update(SignInRow).where(SignInRow.person_id == person_id, SignInRow.revoked_at.is_(None))
    if but_token is not None:
        query = query.where(SignInRow.token_hash != _hashed(but_token))
    work.session.execute(query.values(revoked_at=now))


def forget_sign_ins_before(work: Work, *, moment: datetime) -> None:
    """Deletes sign-ins that expired before a moment."""
    work.session.execute(delete(SignInRow).where(SignInRow.expires_at < moment))


def record_failure(work: Work, *, account: str, address: str, now: datetime) -> None:
    """Counts a try to sign in as failed; `forget_failures` takes it back when it succeeds."""
    work.session.add(SignInFailureRow(account_hash=_hashed(account), address=address, failed_at=now))


def count_failures(work: Work, *, account: str, address: str, since: datetime) -> Failures:
    """The failures of an account and those from an address after a moment."""
    recent = SignInFailureRow.failed_at > since
    counted = []
    for mine in (SignInFailureRow.account_hash == _hashed(account), SignInFailureRow.address == address):
        counted.append(
            work.session.execute(
                select(func.count(), func.min(SignInFailureRow.failed_at)).where(recent, mine)
            ).one()
        )
    oldest = [each[1] for each in counted if each[1] is not None]
    return Failures(
        of_account=counted[0][0], from_address=counted[1][0], oldest=min(oldest) if oldest else None
    )


def forget_failures(work: Work, *, account: str) -> None:
    """Takes back the failures of an account, after its owner signed in."""
    work.session.execute(delete(SignInFailureRow).where(SignInFailureRow.account_hash == _hashed(account)))


def forget_failures_before(work: Work, *, moment: datetime) -> None:
    """Deletes failures that no longer count."""
    work.session.execute(delete(SignInFailureRow).where(SignInFailureRow.failed_at <= moment))


def add_invitation(work: Work, *, person_id: UUID, expires_at: datetime) -> str:
    """Makes a one-use invitation to set a password, and returns its token; older ones end."""
    work.session.execute(
        delete(InvitationRow).where(InvitationRow.person_id == person_id, InvitationRow.used_at.is_(None))
    )
    token = secrets.token_urlsafe(_TOKEN_BYTES)
    work.session.add(InvitationRow(person_id=person_id, token_hash=_hashed(token), expires_at=expires_at))
    return token


def get_invited(work: Work, token: str, *, now: datetime) -> Person:
    """The person whom an open invitation is for; raises Missing for one that is used, expired or unknown."""
    row = work.session.execute(
        select(PersonRow)
        .join(InvitationRow, InvitationRow.person_id == PersonRow.person_id)
        .where(
            InvitationRow.token_hash == _hashed(token),
            InvitationRow.used_at.is_(None),
            InvitationRow.expires_at > now,
        )
    ).scalar_one_or_none()
    if row is None:
        raise Missing("invitation")
    return person_from(row)


def use_invitation(work: Work, token: str, *, now: datetime) -> None:
    """Marks an invitation as used, which the same token cannot be again; raises Missing the second time."""
    used = work.session.execute(
        update(InvitationRow)
        .where(InvitationRow.token_hash == _hashed(token), InvitationRow.used_at.is_(None))
        .values(used_at=now)
        .returning(InvitationRow.invitation_id)
    ).one_or_none()
    if used is None:
        raise Missing("invitation")


def _hashed(token: str) -> str:
    """Plain SHA-256 is enough for 256 random bits, and lets a token be found by its hash."""
    return hashlib.sha256(token.encode()).hexdigest()
