"""The accounts to name when the demo starts: one of each role, read back from the demo's database."""

from dataclasses import dataclass
from datetime import UTC, datetime

from trainer.cli.demo_site.cast import EMPLOYER, SCHOOL
from trainer.domain.people import OrganisationKind, Role
from trainer.storage import memberships, people
from trainer.storage.database import Database


@dataclass(frozen=True, kw_only=True)
class Account:
    """One account to sign in with."""

    role: str
    name: str
    email: str
    organisation: str


def demo_accounts(database_url: str) -> tuple[Account, ...]:
    """Two apprentices, both instructors, the administrator (one of them) and the employer."""
    database = Database(database_url)
    found = []
    try:
        with database.reading() as work:
            for name, kind in (
                (SCHOOL, OrganisationKind.TRAINING_PROVIDER),
                (EMPLOYER, OrganisationKind.EMPLOYER),
            ):
                here = next(e for e in people.list_organisations(work, kind=kind) if e.name == name)
                members = memberships.list_members(work, organisation_id=here.organisation_id)
                found.append((here.name, members))
    finally:
        database.dispose()
    today = datetime.now(UTC).date()
    wanted = ((Role.APPRENTICE, 2), (Role.INSTRUCTOR, 2), (Role.ADMINISTRATOR, 1), (Role.EMPLOYER, 1))
    accounts = []
    for role, count in wanted:
        holders = [
            Account(role=role.value, name=m.person.name, email=m.person.email, organisation=organisation)
            for organisation, members in found
            for m in members
            if any(held.role is role and held.holds_on(today) for held in m.memberships)
        ]
        accounts += holders[:count]
    return tuple(accounts)
