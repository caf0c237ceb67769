"""Who holds which role where, and on which days."""

from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from sqlalchemy import select, update

from trainer.domain.errors import Missing
from trainer.domain.people import Membership, Organisation, Person, Role, Term
from trainer.storage.database import Work
from trainer.storage.people import organisation_from, person_from
from trainer.storage.tables.people import MembershipRow, OrganisationRow, PersonRow


@dataclass(frozen=True, kw_only=True)
class Member:
    """A person of one organisation with every membership there, past and to come."""

    person: Person
    memberships: tuple[Membership, ...]


def add_membership(work: Work, *, person_id: UUID, organisation_id: UUID, role: Role, term: Term) -> UUID:
    """Gives a role; raises Duplicate where the same one starts on the same day."""
    row = MembershipRow(
        person_id=person_id, organisation_id=organisation_id, role=role, starts=term.starts, ends=term.ends
    )
    work.session.add(row)
    work.session.flush()
    return row.membership_id


def get_membership(work: Work, membership_id: UUID) -> Membership:
    """The membership of that id; raises Missing."""
    row = work.session.get(MembershipRow, membership_id)
    if row is None:
        raise Missing("membership")
    return membership_from(row)


def set_last_day(work: Work, membership_id: UUID, *, ends: date) -> None:
    """Lets a membership end with that day."""
    work.session.execute(
        update(MembershipRow).where(MembershipRow.membership_id == membership_id).values(ends=ends)
    )


def withdraw_membership(work: Work, membership_id: UUID, *, now: datetime) -> None:
    """Ends a membership at once: from this day on it is not held."""
    work.session.execute(
        update(MembershipRow).where(MembershipRow.membership_id == membership_id).values(withdrawn_at=now)
    )


def list_memberships(
    work: Work, *, person_id: UUID, organisation_id: UUID | None = None
) -> tuple[Membership, ...]:
    """A person's memberships, everywhere or in one organisation, oldest first."""
    query = (
        select(MembershipRow)
        .where(MembershipRow.person_id == person_id)
        .order_by(MembershipRow.starts, MembershipRow.membership_id)
    )
    if organisation_id is not None:
        query = query.where(MembershipRow.organisation_id == organisation_id)
    return tuple(membership_from(row) for row in work.session.scalars(query))


def list_places(work: Work, *, person_id: UUID) -> tuple[tuple[Membership, Organisation], ...]:
    """A person's memberships with their organisations, by name of organisation."""
    rows = work.session.execute(
        select(MembershipRow, OrganisationRow)
        .join(OrganisationRow, OrganisationRow.organisation_id == MembershipRow.organisation_id)
        .where(MembershipRow.person_id == person_id)
        .order_by(OrganisationRow.name, MembershipRow.starts, MembershipRow.membership_id)
    )
    return tuple((membership_from(member), organisation_from(place)) for member, place in rows)


def list_members(work: Work, *, organisation_id: UUID) -> tuple[Member, ...]:
    """Everybody who is, was or will be of the organisation, by name."""
    rows = work.session.execute(
        select(PersonRow, MembershipRow)
        .join(MembershipRow, MembershipRow.person_id == PersonRow.person_id)
        .where(MembershipRow.organisation_id == organisation_id)
        .order_by(PersonRow.name, PersonRow.person_id, MembershipRow.starts, MembershipRow.membership_id)
    )
    found: dict[UUID, tuple[Person, list[Membership]]] = {}
    for person, membership in rows:
        held = found.setdefault(person.person_id, (person_from(person), []))[1]
        held.append(membership_from(membership))
    return tuple(Member(person=person, memberships=tuple(held)) for person, held in found.values())


def roles_on(work: Work, *, person_id: UUID, organisation_id: UUID, day: date) -> frozenset[Role]:
    """The roles that a person held in an organisation on a day: the authority behind a signature."""
    held = list_memberships(work, person_id=person_id, organisation_id=organisation_id)
    return frozenset(each.role for each in held if each.holds_on(day))


def membership_from(row: MembershipRow) -> Membership:
    """The membership that a row holds."""
    return Membership(
        membership_id=row.membership_id,
        person_id=row.person_id,
        organisation_id=row.organisation_id,
        role=row.role,
        starts=row.starts,
        ends=row.ends,
        withdrawn_at=row.withdrawn_at,
    )
