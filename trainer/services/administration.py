"""Organisations, the people in them and the roles they hold; every role given or ended enters the ledger."""

from dataclasses import dataclass, replace
from datetime import date
from uuid import UUID

from trainer.domain.errors import Missing, Refused
from trainer.domain.people import Acting, NewPerson, OrganisationKind, Role, Term, folded_email, tidy_name
from trainer.domain.permissions import FIRST_ROLES, Permission, Thing, require
from trainer.services import role_acts
from trainer.services.role_acts import Added, Ending, Grant
from trainer.services.site import Site
from trainer.storage import memberships, people
from trainer.storage.database import Work
from trainer.storage.memberships import Member


@dataclass(frozen=True, kw_only=True)
class NewOrganisation:
    """An organisation to be made, with its first person."""

    name: str
    kind: OrganisationKind
    first: NewPerson


@dataclass(frozen=True, kw_only=True)
class Founded:
    """A new organisation with its first person."""

    organisation_id: UUID
    first: Added


def found_organisation(site: Site, *, new: NewOrganisation) -> Founded:
    """Makes an organisation and its first person, for whoever runs the site's machine.

    The first person administers it, and teaches or hires there. Raises Duplicate for a name that is there.
    """
    with site.database.work() as work:
        return _found(work, site, new=new, given_by=None)


def add_employer(site: Site, acting: Acting, *, name: str, first: NewPerson) -> Founded:
    """Makes an employer that records can be shared with, and its first person, as an act of a provider."""
    require(Permission.ADD_EMPLOYER, acting=acting)
    with site.database.work() as work:
        new = NewOrganisation(name=name, kind=OrganisationKind.EMPLOYER, first=first)
        return _found(work, site, new=new, given_by=acting.person_id)


def add_person(site: Site, acting: Acting, *, new: NewPerson, role: Role, term: Term) -> Added:
    """Gives a person a role in the organisation acted in; a known e-mail means the same person.

    Raises Refused("role-does-not-fit", "name-missing"), Duplicate where the role is held then, NotAnEmail.
    """
    _require_people(acting)
    with site.database.work() as work:
        added = role_acts.add_person(
            work, new=_kept_form(new), organisation_id=acting.organisation_id, now=site.now()
        )
        role_acts.give_role(work, _grant(acting, added.person_id, role, term), now=site.now())
        return added


def give_role(site: Site, acting: Acting, *, person_id: UUID, role: Role, term: Term) -> UUID:
    """Gives a further role to somebody of the organisation acted in; raises as `add_person`, and Missing."""
    _require_people(acting)
    with site.database.work() as work:
        role_acts.require_member(work, person_id=person_id, organisation_id=acting.organisation_id)
        return role_acts.give_role(work, _grant(acting, person_id, role, term), now=site.now())


def end_role(
    site: Site, acting: Acting, *, membership_id: UUID, reason: str, last_day: date | None = None
) -> None:
    """Ends a role with a last day still to come, or at once without one; what was done in it stands.

    Raises Missing for another organisation's, Refused("ended-already", "last-day-too-early",
    "last-administrator").
    """
    _require_people(acting)
    with site.database.work() as work:
        people.lock_organisation(work, acting.organisation_id)
        membership = memberships.get_membership(work, membership_id)
        if membership.organisation_id != acting.organisation_id:
            raise Missing("membership")
        ending = Ending(membership=membership, last_day=last_day, reason=reason)
        role_acts.end_role(work, ending, acting=acting, now=site.now())


def invite_again(site: Site, acting: Acting, *, person_id: UUID) -> str:
    """A new one-use token with which somebody sets a new password; older ones end.

    Raises Missing for nobody of this organisation, and Refused("belongs-elsewhere-too"), since an
    administrator must not be able to open an account that other organisations rely on.
    """
    _require_people(acting)
    here = acting.organisation_id
    with site.database.work() as work:
        role_acts.require_member(work, person_id=person_id, organisation_id=here)
        if not role_acts.belongs_only_to(work, person_id=person_id, organisation_id=here):
            raise Refused(("belongs-elsewhere-too",))
        return role_acts.invite(work, person_id=person_id, now=site.now())


def list_people(site: Site, acting: Acting) -> tuple[Member, ...]:
    """Everybody who is, was or will be of the organisation acted in, by name."""
    _require_people(acting)
    with site.database.reading() as work:
        return memberships.list_members(work, organisation_id=acting.organisation_id)


def set_up_person(site: Site, *, organisation: str, new: NewPerson, role: Role) -> Added:
    """Gives a person a role from today in the organisation of that name, for whoever runs the site's machine.

    Raises Missing for an unknown organisation, and as `add_person`.
    """
    with site.database.work() as work:
        found = people.find_organisation_by_name(work, tidy_name(organisation))
        if found is None:
            raise Missing("organisation", organisation)
        here = found.organisation_id
        added = role_acts.add_person(work, new=_kept_form(new), organisation_id=here, now=site.now())
        grant = Grant(
            person_id=added.person_id,
            organisation_id=here,
            role=role,
            term=Term(starts=site.today()),
            given_by=None,
        )
        role_acts.give_role(work, grant, now=site.now())
        return added


def new_password_for(site: Site, *, email: str) -> str:
    """A one-use token to set a new password with, for whoever runs the site's machine; raises Missing."""
    with site.database.work() as work:
        person = people.find_person_by_email(work, folded_email(email))
        if person is None:
            raise Missing("person", email)
        return role_acts.invite(work, person_id=person.person_id, now=site.now())


def _found(work: Work, site: Site, *, new: NewOrganisation, given_by: UUID | None) -> Founded:
    organisation_id = role_acts.add_organisation(
        work, name=tidy_name(new.name), kind=new.kind, now=site.now()
    )
    added = role_acts.add_person(
        work, new=_kept_form(new.first), organisation_id=organisation_id, now=site.now()
    )
    for role in FIRST_ROLES[new.kind]:
        grant = Grant(
            person_id=added.person_id,
            organisation_id=organisation_id,
            role=role,
            term=Term(starts=site.today()),
            given_by=given_by,
        )
        role_acts.give_role(work, grant, now=site.now())
    return Founded(organisation_id=organisation_id, first=added)


def _kept_form(new: NewPerson) -> NewPerson:
    return replace(new, name=tidy_name(new.name), email=folded_email(new.email))


def _grant(acting: Acting, person_id: UUID, role: Role, term: Term) -> Grant:
    return Grant(
        person_id=person_id,
        organisation_id=acting.organisation_id,
        role=role,
        term=term,
        given_by=acting.person_id,
    )


def _require_people(acting: Acting) -> None:
    thing = Thing(organisation_id=acting.organisation_id)
    require(Permission.MANAGE_PEOPLE, acting=acting, thing=thing, what="organisation")
