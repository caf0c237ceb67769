"""A site with pages: a training centre, an employer and another training centre, with a visitor for each role."""

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from uuid import UUID

import pytest
from flask import Flask
from furnishing import Things, furnish
from visitors import Visitor

from trainer.app import create_app
from trainer.config import Settings
from trainer.domain.people import Acting, NewPerson, OrganisationKind, Role, Term
from trainer.scenario_files import load_content
from trainer.services import accounts, administration
from trainer.services.passwords import Passwords
from trainer.services.site import Site
from trainer.storage.database import Database

PASSWORD = "four words from the shop"


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


@pytest.fixture
def site(sqlite_database: Database, clock: Callable, passwords: Passwords) -> Site:
    """A site with the real content on SQLite: pages do not depend on the database."""
    seeds = count(1)
    return Site(
        database=sqlite_database,
        content=load_content(),
        now=clock,
        new_seed=lambda: next(seeds) * 7919,
        passwords=passwords,
    )


@pytest.fixture
def app(site: Site, tmp_path: Path) -> Flask:
    settings = Settings(
        data=tmp_path, database_url="sqlite://", secret_key="x" * 40, password_cost="test", rate_limits=False
    )
    app = create_app(settings, site)
    app.config["TESTING"] = False  # errors become pages, as they do for people
    return app


@pytest.fixture
def world(site: Site) -> World:
    """Two training centres and two employers; names as invented people have them."""
    return peopled(site)


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


@pytest.fixture
def visitor(app: Flask) -> Visitor:
    """Somebody who has not signed in."""
    return Visitor(app)


@pytest.fixture
def visit_as(app: Flask, world: World) -> Callable[[str], Visitor]:
    """A visitor signed in as one of the people of the world."""

    def signed_in(key: str) -> Visitor:
        one = Visitor(app)
        one.sign_in(world.people[key].email, PASSWORD)
        return one

    return signed_in


@pytest.fixture
def things(world: World) -> Things:
    """One of everything, in the first training centre."""
    return furnish(world.site, people={key: each.acting for key, each in world.people.items()})
