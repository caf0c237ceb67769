"""One function for each thing that tests need, valid by default; people by seeded Faker."""

from datetime import date
from itertools import count
from uuid import UUID

from clock import Clock
from faker import Faker

from trainer.domain.people import Acting, NewPerson, OrganisationKind, Role, Term
from trainer.scenario_files import load_content
from trainer.services import administration
from trainer.services.administration import NewOrganisation
from trainer.services.passwords import Passwords
from trainer.services.site import Site
from trainer.storage import memberships
from trainer.storage.database import Database

_names = Faker(["en_GB", "es_ES"])
_names.seed_instance(20260302)
_numbers = count(1)


def site_on(database: Database, *, clock: Clock, passwords: Passwords) -> Site:
    """A site without people and with the real content, whose seeds are 1, 2, 3, …"""
    seeds = count(1)
    return Site(
        database=database,
        content=load_content(),
        now=clock,
        new_seed=lambda: next(seeds),
        passwords=passwords,
    )


def new_person(**changes: object) -> NewPerson:
    """Somebody who is nobody yet."""
    values = {"name": _names.name(), "email": f"person{next(_numbers)}@example.org"}
    return NewPerson(**{**values, **changes})


def provider(site: Site, *, name: str | None = None, first: NewPerson | None = None) -> Acting:
    """A training provider; its first person instructs and administers."""
    return _founded(site, OrganisationKind.TRAINING_PROVIDER, name or f"{_place()} Training", first)


def employer(site: Site, *, name: str | None = None, first: NewPerson | None = None) -> Acting:
    """An employer; its first person hires and administers."""
    return _founded(site, OrganisationKind.EMPLOYER, name or f"{_place()} Pipework", first)


def member(
    site: Site,
    by: Acting,
    *,
    role: Role = Role.APPRENTICE,
    new: NewPerson | None = None,
    starts: date | None = None,
    ends: date | None = None,
) -> Acting:
    """Somebody given a role in the organisation that `by` administers, acting there."""
    term = Term(starts=starts or site.today(), ends=ends)
    added = administration.add_person(site, by, new=new or new_person(), role=role, term=term)
    return acting_as(site, person_id=added.person_id, organisation_id=by.organisation_id)


def acting_as(site: Site, *, person_id: UUID, organisation_id: UUID) -> Acting:
    """The person as they would act in the organisation today."""
    with site.database.reading() as work:
        places = memberships.list_places(work, person_id=person_id)
        here = next(each for _, each in places if each.organisation_id == organisation_id)
        return Acting(
            person_id=person_id,
            organisation_id=organisation_id,
            organisation_kind=here.kind,
            roles=memberships.roles_on(
                work, person_id=person_id, organisation_id=organisation_id, day=site.today()
            ),
        )


def _founded(site: Site, kind: OrganisationKind, name: str, first: NewPerson | None) -> Acting:
    new = NewOrganisation(name=name, kind=kind, first=first or new_person())
    founded = administration.found_organisation(site, new=new)
    return acting_as(site, person_id=founded.first.person_id, organisation_id=founded.organisation_id)


def _place() -> str:
    return f"{_names.last_name()} {next(_numbers)}"
