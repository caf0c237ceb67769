"""People with passwords on a site: a training centre, an employer, and everybody that the journeys need."""

from dataclasses import dataclass

import factories

from trainer.domain.people import Acting, NewPerson, Role
from trainer.services import accounts, administration
from trainer.services.site import Site

PASSWORD = "four words from the shop"
CENTRE, EMPLOYER = "Northgate Purge School", "Millrace Fabrication"


@dataclass(frozen=True)
class Member:
    """Somebody who can sign in."""

    name: str
    email: str
    acting: Acting


def crew_of(site: Site) -> dict[str, Member]:
    """Makes everybody on a site that has nobody yet, by key."""
    founder = factories.provider(site, name=CENTRE, first=_new("founder"))
    hirer = factories.employer(site, name=EMPLOYER, first=_new("employer"))
    members = {"founder": _can_sign_in(site, founder, founder, "founder")}
    members["employer"] = _can_sign_in(site, hirer, hirer, "employer")
    for key, role in (
        ("apprentice", Role.APPRENTICE),
        ("second_apprentice", Role.APPRENTICE),
        ("instructor", Role.INSTRUCTOR),
        ("second_instructor", Role.INSTRUCTOR),
        ("admin", Role.ADMINISTRATOR),
    ):
        acting = factories.member(site, founder, role=role, new=_new(key))
        members[key] = _can_sign_in(site, founder, acting, key)
    return members


def _can_sign_in(site: Site, admin: Acting, acting: Acting, key: str) -> Member:
    token = administration.invite_again(site, admin, person_id=acting.person_id)
    accounts.take_up_invitation(site, token=token, password=PASSWORD)
    return Member(_new(key).name, _new(key).email, acting)


def _new(key: str) -> NewPerson:
    return NewPerson(
        name=f"{key.replace('_', ' ').title()} Ashby", email=f"{key.replace('_', '.')}@brightroot.example"
    )
