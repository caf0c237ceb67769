"""People, organisations and who acts: a person is global, a membership ties them to one organisation."""

import unicodedata
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from uuid import UUID

from trainer.domain.errors import DomainError


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


class UnitSystem(StrEnum):
    """The units that a person reads and types first; the two are never mixed by accident."""

    METRIC = "metric"
    INCH_POUND = "inch-pound"


class Language(StrEnum):
    """The languages of the interface, by their ISO 639-1 code."""

    ENGLISH = "en"
    SPANISH = "es"


class EndsBeforeStart(DomainError):
    """The last day of a term lies before its first."""


class NotAnEmail(DomainError):
    """What was given as an e-mail address cannot be one."""


@dataclass(frozen=True, kw_only=True)
class Person:
    """One person, whichever organisations they belong to."""

    person_id: UUID
    name: str
    email: str
    units: UnitSystem
    language: Language
    has_password: bool


@dataclass(frozen=True, kw_only=True)
class NewPerson:
    """What is known of a person before they are added; name and e-mail in the form in which they are kept."""

    name: str
    email: str
    units: UnitSystem = UnitSystem.METRIC
    language: Language = Language.ENGLISH


@dataclass(frozen=True, kw_only=True)
class Term:
    """From a day to a day, both included; without an end it runs on."""

    starts: date
    ends: date | None = None

    def __post_init__(self) -> None:
        if self.ends is not None and self.ends < self.starts:
            raise EndsBeforeStart(f"the last day {self.ends} is before the first {self.starts}")


@dataclass(frozen=True, kw_only=True)
class Organisation:
    """A training provider or an employer."""

    organisation_id: UUID
    name: str
    kind: OrganisationKind


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
    withdrawn_at: datetime | None = None

    def holds_on(self, day: date) -> bool:
        """Whether the role is held on that day; not on the day of its withdrawal nor later."""
        return _in_force(day, self.starts, self.ends, self.withdrawn_at)

    def overlaps(self, term: Term) -> bool:
        """Whether the role is held on any day of the term; one that was withdrawn is in nothing's way."""
        if self.withdrawn_at is not None:
            return False
        ends_before = self.ends is not None and self.ends < term.starts
        starts_after = term.ends is not None and term.ends < self.starts
        return not (ends_before or starts_after)


@dataclass(frozen=True, kw_only=True)
class Share:
    """An employer's sight of a person's record, with its basis and where the consent is filed."""

    share_id: UUID
    person_id: UUID
    employer_id: UUID
    organisation_id: UUID  # acted in when it was given; its ledger tells of it
    basis: str
    consent_on_file: str
    given_by: UUID
    starts: date
    ends: date | None = None
    withdrawn_at: datetime | None = None

    def holds_on(self, day: date) -> bool:
        """Whether the record is in sight on that day; not on the day of its withdrawal nor later."""
        return _in_force(day, self.starts, self.ends, self.withdrawn_at)


def folded_email(email: str) -> str:
    """The one form in which an address is stored and looked up: composed, without case or outer spaces."""
    folded = unicodedata.normalize("NFC", unicodedata.normalize("NFC", email.strip()).casefold())
    local, at, domain = folded.rpartition("@")
    if not (local and at and domain) or any(each.isspace() for each in folded):
        raise NotAnEmail(f"{email!r} is no e-mail address")
    return folded


def tidy_name(name: str) -> str:
    """A name in composed form with single spaces."""
    return " ".join(unicodedata.normalize("NFC", name).split())


def _in_force(day: date, starts: date, ends: date | None, withdrawn_at: datetime | None) -> bool:
    if withdrawn_at is not None and day >= withdrawn_at.date():
        return False
    return starts <= day and (ends is None or day <= ends)
