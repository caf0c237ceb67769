"""Who is in the demo: organisations of an invented town, and people named by Faker, always the same ones."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from uuid import UUID

from faker import Faker

from trainer.domain.people import Acting, NewPerson, OrganisationKind, Role, Term, UnitSystem
from trainer.services import accounts, administration
from trainer.services.administration import NewOrganisation
from trainer.services.site import Site

SCHOOL = "Marrowgate Welding School"
EMPLOYER = "Quillhaven Fabrication"
CLASSES = ("Morning booth", "Evening booth")
APPRENTICES = 24
# Printed with the accounts when the demo starts: it opens invented people's records and nothing else.
PASSWORD = "argon-before-arc"
_DOMAINS = {SCHOOL: "marrowgate.example", EMPLOYER: "quillhaven.example"}


@dataclass(frozen=True, kw_only=True)
class Player:
    """One person of the demo and the organisation they act in."""

    name: str
    email: str
    acting: Acting


@dataclass(frozen=True, kw_only=True)
class Cast:
    """Everybody."""

    head: Player  # administers the school, and is one of its instructors
    instructors: tuple[Player, ...]
    apprentices: tuple[Player, ...]
    employer: Player

    @property
    def apprentice(self) -> Player:
        """The apprentice whose account the demo names first: accounts are printed by name."""
        return min(self.apprentices, key=lambda each: each.name)


def at(site: Site, now: datetime) -> Site:
    """The same site at another time."""
    return replace(site, now=lambda: now)


def assemble(site: Site, *, seed: int, tick: Callable[[], None]) -> Cast:
    """Founds both organisations and gives everybody their role, from the day of the site's clock."""
    faker = Faker("en_GB")
    faker.seed_instance(seed)
    names = iter(_names(faker, APPRENTICES + 3))
    head = _found(site, SCHOOL, OrganisationKind.TRAINING_PROVIDER, next(names))
    employer = _found(site, EMPLOYER, OrganisationKind.EMPLOYER, next(names))
    instructors = (head, _join(site, head, next(names), Role.INSTRUCTOR))
    apprentices = []
    for number in range(APPRENTICES):
        units = UnitSystem.INCH_POUND if number % 4 == 3 else UnitSystem.METRIC
        apprentices.append(_join(site, head, next(names), Role.APPRENTICE, units=units))
        tick()
    return Cast(head=head, instructors=instructors, apprentices=tuple(apprentices), employer=employer)


def _names(faker: Faker, count: int) -> list[str]:
    names: dict[str, None] = {}
    while len(names) < count:
        names[f"{faker.first_name()} {faker.last_name()}"] = None
    return list(names)


def _new(name: str, organisation: str, units: UnitSystem = UnitSystem.METRIC) -> NewPerson:
    account = "".join(each for each in name.lower().replace(" ", ".") if each.isalpha() or each == ".")
    return NewPerson(name=name, email=f"{account}@{_DOMAINS[organisation]}", units=units)


def _found(site: Site, organisation: str, kind: OrganisationKind, name: str) -> Player:
    first = _new(name, organisation)
    founded = administration.found_organisation(
        site, new=NewOrganisation(name=organisation, kind=kind, first=first)
    )
    _open_account(site, founded.first.invitation)
    roles = {
        OrganisationKind.TRAINING_PROVIDER: frozenset({Role.ADMINISTRATOR, Role.INSTRUCTOR}),
        OrganisationKind.EMPLOYER: frozenset({Role.ADMINISTRATOR, Role.EMPLOYER}),
    }[kind]
    acting = _acting(founded.first.person_id, founded.organisation_id, kind, roles)
    return Player(name=first.name, email=first.email, acting=acting)


def _join(
    site: Site, head: Player, name: str, role: Role, *, units: UnitSystem = UnitSystem.METRIC
) -> Player:
    new = _new(name, SCHOOL, units)
    added = administration.add_person(site, head.acting, new=new, role=role, term=Term(starts=site.today()))
    _open_account(site, added.invitation)
    here = head.acting
    acting = _acting(added.person_id, here.organisation_id, here.organisation_kind, frozenset({role}))
    return Player(name=new.name, email=new.email, acting=acting)


def _acting(person_id: UUID, organisation_id: UUID, kind: OrganisationKind, roles: frozenset[Role]) -> Acting:
    return Acting(person_id=person_id, organisation_id=organisation_id, organisation_kind=kind, roles=roles)


def _open_account(site: Site, invitation: str | None) -> None:
    assert invitation is not None  # everybody here is new
    accounts.take_up_invitation(site, token=invitation, password=PASSWORD)
