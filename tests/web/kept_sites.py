"""Sites that many tests begin with, made once a process with the real services and kept as files to copy."""

from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from uuid import UUID

from clock import Clock
from furnishing import Things, furnish

from trainer.domain.people import Acting, NewPerson, OrganisationKind, Role, Term
from trainer.scenario_files import load_content
from trainer.services import accounts, administration
from trainer.services.passwords import Passwords
from trainer.services.site import Site
from trainer.storage.database import Database

PASSWORD = "four words from the shop"
MORNING = datetime.fromisoformat("2026-03-02T09:00:00+00:00")


@dataclass(frozen=True)
class Somebody:
    """A person with an account, as whom they act, and their name and e-mail."""

    name: str
    email: str
    acting: Acting

    @property
    def person_id(self) -> UUID:
        """The id that addresses carry."""
        return self.acting.person_id


@dataclass
class World:
    """Everybody there is."""

    site: Site
    people: dict[str, Somebody] = field(default_factory=dict)

    def __getattr__(self, name: str) -> Somebody:
        if name in self.people:
            return self.people[name]
        raise AttributeError(name)


@dataclass(frozen=True, kw_only=True)
class KeptSite:
    """A site's file, with what one has to know to go on from it."""

    file: Path
    people: dict[str, Somebody]
    things: Things | None
    seeds_count: int  # drawn so far
    at: datetime


class KeptSites:
    """Made when first asked for: a site with people, and one with one of everything besides."""

    def __init__(self, empty: Path, *, folder: Path, passwords: Passwords) -> None:
        self._empty, self._folder, self._passwords = empty, folder, passwords
        self._kept: dict[bool, KeptSite] = {}

    def of(self, *, is_furnished: bool) -> KeptSite:
        """The kept site, to copy and never to write to."""
        if is_furnished not in self._kept:
            self._kept[is_furnished] = self._made(is_furnished)
        return self._kept[is_furnished]

    def _made(self, is_furnished: bool) -> KeptSite:
        file = self._folder / ("furnished.sqlite3" if is_furnished else "peopled.sqlite3")
        file.write_bytes(self._empty.read_bytes())
        database, clock, seeds = Database(f"sqlite:///{file}"), Clock(MORNING), Seeds()
        site = site_with(database, clock=clock, seeds=seeds, passwords=self._passwords)
        people = peopled(site).people
        acting = {key: each.acting for key, each in people.items()}
        things = furnish(site, people=acting) if is_furnished else None
        database.dispose()
        return KeptSite(file=file, people=people, things=things, seeds_count=seeds.drawn_count, at=clock.at)


class Seeds:
    """Seeds of scenarios, the same ones in every run; they go on from as many as were drawn before."""

    def __init__(self, drawn_count: int = 0) -> None:
        self.drawn_count = drawn_count

    def __call__(self) -> int:
        self.drawn_count += 1
        return self.drawn_count * 7919


def site_with(database: Database, *, clock: Clock, seeds: Seeds, passwords: Passwords) -> Site:
    """A site with the real content."""
    return Site(database=database, content=load_content(), now=clock, new_seed=seeds, passwords=passwords)


def peopled(site: Site) -> World:
    """The world on a site that has nobody yet."""
    world = World(site)
    _centre(world, "Northgate Purge School", "")
    _centre(world, "Southbank Training", "other_")
    _employer(world, "Millrace Fabrication", "employer")
    _employer(world, "Quayside Pipework", "other_employer")
    return world


def _centre(world: World, name: str, prefix: str) -> None:
    founder = _found(world, name, OrganisationKind.TRAINING_PROVIDER, f"{prefix}founder")
    _join(world, founder, f"{prefix}admin", Role.ADMINISTRATOR)
    for role in (Role.APPRENTICE, Role.INSTRUCTOR):
        _join(world, founder, f"{prefix}{role.value}", role)
    _join(world, founder, f"{prefix}second_apprentice", Role.APPRENTICE)
    _join(world, founder, f"{prefix}second_instructor", Role.INSTRUCTOR)


def _employer(world: World, name: str, key: str) -> None:
    founder = _found(world, name, OrganisationKind.EMPLOYER, f"{key}_founder")
    _join(world, founder, f"{key}_admin", Role.ADMINISTRATOR)
    _join(world, founder, key, Role.EMPLOYER)


def _found(world: World, name: str, kind: OrganisationKind, key: str) -> Somebody:
    first = NewPerson(name=_name(key), email=_email(key))
    new = administration.NewOrganisation(name=name, kind=kind, first=first)
    founded = administration.found_organisation(world.site, new=new)
    second = Role.INSTRUCTOR if kind is OrganisationKind.TRAINING_PROVIDER else Role.EMPLOYER
    acting = Acting(
        person_id=founded.first.person_id,
        organisation_id=founded.organisation_id,
        organisation_kind=kind,
        roles=frozenset({Role.ADMINISTRATOR, second}),
    )
    return _take_up(world, key, founded.first.invitation, acting)


def _join(world: World, admin: Somebody, key: str, role: Role) -> Somebody:
    new = NewPerson(name=_name(key), email=_email(key))
    term = Term(starts=world.site.today())
    added = administration.add_person(world.site, admin.acting, new=new, role=role, term=term)
    acting = Acting(
        person_id=added.person_id,
        organisation_id=admin.acting.organisation_id,
        organisation_kind=admin.acting.organisation_kind,
        roles=frozenset({role}),
    )
    return _take_up(world, key, added.invitation, acting)


def _take_up(world: World, key: str, invitation: str | None, acting: Acting) -> Somebody:
    accounts.take_up_invitation(world.site, token=invitation or "", password=PASSWORD)
    world.people[key] = Somebody(_name(key), _email(key), acting)
    return world.people[key]


def _name(key: str) -> str:
    return f"{key.replace('_', ' ').title()} Ashby"


def _email(key: str) -> str:
    return f"{key.replace('_', '.')}@brightroot.example"
