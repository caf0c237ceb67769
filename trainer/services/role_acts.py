"""Within one unit of work: adding people and organisations, and giving and ending a role with its entry."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from uuid import UUID

from trainer.domain.errors import Duplicate, Missing, Refused
from trainer.domain.ledger import EntryType
from trainer.domain.people import Acting, Membership, NewPerson, OrganisationKind, Role, Term
from trainer.domain.permissions import administers, role_fits
from trainer.storage import ledger, memberships, people, sign_ins
from trainer.storage.database import Work

INVITATION_LASTS = timedelta(days=7)


@dataclass(frozen=True, kw_only=True)
class Added:
    """A person given a role; `invitation` is the one-use token for a first password, to be handed over.

    None where the person has an account already, or belongs to another organisation too: an administrator
    must not be able to open somebody else's account.
    """

    person_id: UUID
    invitation: str | None


@dataclass(frozen=True, kw_only=True)
class Grant:
    """A role to be given; `given_by` is None where the site's machine gives it."""

    person_id: UUID
    organisation_id: UUID
    role: Role
    term: Term
    given_by: UUID | None


@dataclass(frozen=True, kw_only=True)
class Ending:
    """A role to be ended with a last day still to come, or at once without one."""

    membership: Membership
    last_day: date | None
    reason: str


def add_organisation(work: Work, *, name: str, kind: OrganisationKind, now: datetime) -> UUID:
    """Adds an organisation; raises Refused("name-missing"), and Duplicate for a name that is there."""
    if not name:
        raise Refused(("name-missing",))
    return people.add_organisation(work, name=name, kind=kind, now=now)


def add_person(work: Work, *, new: NewPerson, organisation_id: UUID, now: datetime) -> Added:
    """Finds the person by e-mail or adds them, with an invitation where that opens nobody else's account."""
    if not new.name:
        raise Refused(("name-missing",))
    known = people.find_person_by_email(work, new.email)
    if known is None:
        person_id = people.add_person(work, new, now=now)
        return Added(person_id=person_id, invitation=invite(work, person_id=person_id, now=now))
    alone = belongs_only_to(work, person_id=known.person_id, organisation_id=organisation_id)
    if known.has_password or not alone:
        return Added(person_id=known.person_id, invitation=None)
    return Added(person_id=known.person_id, invitation=invite(work, person_id=known.person_id, now=now))


def invite(work: Work, *, person_id: UUID, now: datetime) -> str:
    """A new one-use token to set a password; older ones end."""
    return sign_ins.add_invitation(work, person_id=person_id, expires_at=now + INVITATION_LASTS)


def belongs_only_to(work: Work, *, person_id: UUID, organisation_id: UUID) -> bool:
    """Whether the person never had a role in any other organisation."""
    held = memberships.list_memberships(work, person_id=person_id)
    return bool(held) and all(each.organisation_id == organisation_id for each in held)


def require_member(work: Work, *, person_id: UUID, organisation_id: UUID) -> None:
    """Raises Missing for somebody who never had a role in the organisation."""
    if not memberships.list_memberships(work, person_id=person_id, organisation_id=organisation_id):
        raise Missing("person")


def give_role(work: Work, grant: Grant, *, now: datetime) -> UUID:
    """Gives a role and enters it; raises Refused("role-does-not-fit"), Duplicate where it is held then."""
    organisation = people.lock_organisation(work, grant.organisation_id)
    if not role_fits(grant.role, kind=organisation.kind):
        raise Refused(("role-does-not-fit",))
    held = memberships.list_memberships(
        work, person_id=grant.person_id, organisation_id=grant.organisation_id
    )
    if any(each.role is grant.role and each.overlaps(grant.term) for each in held):
        raise Duplicate("this role is held in that time already")
    membership_id = memberships.add_membership(
        work,
        person_id=grant.person_id,
        organisation_id=grant.organisation_id,
        role=grant.role,
        term=grant.term,
    )
    ledger.append(work, _given(grant, membership_id, now))
    return membership_id


def end_role(work: Work, ending: Ending, *, acting: Acting, now: datetime) -> None:
    """Ends a role of a locked organisation and enters it; raises as `administration.end_role` says."""
    membership = ending.membership
    reasons = _reasons_against(ending, today=now.date())
    if administers(membership.role) and not _another_administrator(work, membership, today=now.date()):
        reasons += ("last-administrator",)
    if reasons:
        raise Refused(reasons)
    if ending.last_day is None:
        memberships.withdraw_membership(work, membership.membership_id, now=now)
    else:
        memberships.set_last_day(work, membership.membership_id, ends=ending.last_day)
    ledger.append(work, _ended(ending, acting, now))


def _reasons_against(ending: Ending, *, today: date) -> tuple[str, ...]:
    membership = ending.membership
    if membership.withdrawn_at is not None or (membership.ends is not None and membership.ends < today):
        return ("ended-already",)
    if ending.last_day is not None and ending.last_day < max(today, membership.starts):
        return ("last-day-too-early",)
    return ()


def _another_administrator(work: Work, membership: Membership, *, today: date) -> bool:
    members = memberships.list_members(work, organisation_id=membership.organisation_id)
    return any(
        administers(each.role) and each.holds_on(today) and each.membership_id != membership.membership_id
        for member in members
        for each in member.memberships
    )


def _given(grant: Grant, membership_id: UUID, now: datetime) -> ledger.Act:
    return ledger.Act(
        organisation_id=grant.organisation_id,
        entry_type=EntryType.ROLE_GIVEN,
        subject=grant.person_id,
        actor=grant.given_by,
        now=now,
        body={
            "membership": str(membership_id),
            "role": grant.role.value,
            "starts": grant.term.starts.isoformat(),
            "ends": None if grant.term.ends is None else grant.term.ends.isoformat(),
        },
    )


def _ended(ending: Ending, acting: Acting, now: datetime) -> ledger.Act:
    return ledger.Act(
        organisation_id=ending.membership.organisation_id,
        entry_type=EntryType.ROLE_ENDED,
        subject=ending.membership.person_id,
        actor=acting.person_id,
        now=now,
        body={
            "membership": str(ending.membership.membership_id),
            "role": ending.membership.role.value,
            "last_day": None if ending.last_day is None else ending.last_day.isoformat(),
        },
        reason=ending.reason,
    )
