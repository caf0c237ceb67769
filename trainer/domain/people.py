"""People, organisations and who acts: a person is global, a membership ties them to one organisation."""

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from uuid import UUID


class Role(StrEnum):
    """What a person is to an organisation."""

    APPRENTICE = "apprentice"
    INSTRUCTOR = "instructor"
    EMPLOYER = "employer"
    ADMINISTRATOR = "administrator"


class OrganisationKind(StrEnum):
    """A training provider teaches and awards; an employer is shown records shared with it."""

    TRAINING_PROVIDER = "training provider"
    EMPLOYER = "employer"


@dataclass(frozen=True, kw_only=True)
class Acting:
    """The signed-in person, the organisation acted in, and the roles held there today."""

    person_id: UUID
    organisation_id: UUID
    organisation_kind: OrganisationKind
    roles: frozenset[Role]


@dataclass(frozen=True, kw_only=True)
class Membership:
    """A role in an organisation from a date to a date, both included; without an end it runs on."""

    membership_id: UUID
    person_id: UUID
    organisation_id: UUID
    role: Role
    starts: date
    ends: date | None = None

    def holds_on(self, day: date) -> bool:
        """Whether the role is held on that day."""
        return self.starts <= day and (self.ends is None or day <= self.ends)


@dataclass(frozen=True, kw_only=True)
class Share:
    """An employer's sight of a person's record, with its basis and where the consent is filed."""

    share_id: UUID
    person_id: UUID
    employer_id: UUID
    basis: str
    consent_on_file: str
    starts: date
    ends: date | None = None
    given_by: UUID | None = field(default=None)

    def holds_on(self, day: date) -> bool:
        """Whether the record is in sight on that day."""
        return self.starts <= day and (self.ends is None or day <= self.ends)
