"""Signing in and out, passwords, invitations, and which organisation a person acts in."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby
from uuid import UUID

from trainer.domain.errors import DomainError, Missing
from trainer.domain.people import (
    Acting,
    Language,
    NotAnEmail,
    Organisation,
    Person,
    Role,
    UnitSystem,
    folded_email,
)
from trainer.domain.permissions import Permission, require
from trainer.services.site import Site
from trainer.storage import people, sign_ins
from trainer.storage.database import Work

SIGN_INS_ARE_KEPT_FOR = timedelta(days=30)  # to look into a stolen token; no longer than a web log
SIGN_IN_LASTS = timedelta(hours=12)  # a shift; a shared tablet is signed out overnight

# Common practice, no single source: enough for a slip of gloved hands, far too few to guess a password. An
# address may be a whole school's.
FAILURES_COUNT_FOR = timedelta(minutes=15)
FAILURES_OF_ACCOUNT = 5
FAILURES_FROM_ADDRESS = 50

# NIST SP 800-63B (2017), section 5.1.1.2, from memory: at least 8 characters, at least 64 allowed, no rule
# about kinds of characters. Ours asks for a little more, and bounds what is hashed.
SHORTEST_PASSWORD = 10
LONGEST_PASSWORD = 200


class SignInRefused(DomainError):
    """E-mail and password do not open an account; which of the two is wrong is never said."""


class TooManyTries(SignInRefused):
    """Too many failures for now; `until` is when the next try counts again."""

    def __init__(self, until: datetime) -> None:
        super().__init__(f"too many tries; wait until {until:%H:%M} UTC")
        self.until = until


class WeakPassword(DomainError):
    """The new password is refused; `why` is a code: too-short, too-long, is-email, is-name."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


@dataclass(frozen=True, kw_only=True)
class Place:
    """An organisation of the person, with the roles held there today (none where all have ended)."""

    organisation: Organisation
    roles: frozenset[Role]


@dataclass(frozen=True, kw_only=True)
class SignedIn:
    """The person behind a session, as whom they act, and where else they could."""

    person: Person
    acting: Acting
    organisation: Organisation
    places: tuple[Place, ...]

    @property
    def display_name(self) -> str:
        """The name to show at the top of a page."""
        return self.person.name


def sign_in(site: Site, *, email: str, password: str, address: str) -> str:
    """Opens a session and returns its token; raises SignInRefused, or TooManyTries without checking.

    The try is counted as failed before the password is checked, so that tries made at the same moment count
    too, and outside any transaction, since the check takes a tenth of a second.
    """
    account = _account(email)
    with site.database.work() as work:
        _count_try(work, account=account, address=address, now=site.now())
        found = people.find_password_hash(work, email=account)
    person_id, stored = found or (None, None)
    if not site.passwords.matches(stored, password=password) or person_id is None or stored is None:
        raise SignInRefused("e-mail and password do not match an account")
    with site.database.work() as work:
        if site.passwords.is_outdated(stored):
            people.set_password_hash(work, person_id, password_hash=site.passwords.hash(password))
        sign_ins.forget_failures(work, account=account)
        sign_ins.forget_sign_ins_before(work, moment=site.now() - SIGN_INS_ARE_KEPT_FOR)
        return sign_ins.add_sign_in(
            work,
            person_id=person_id,
            organisation_id=None,
            now=site.now(),
            expires_at=site.now() + SIGN_IN_LASTS,
        )


def acting_for(site: Site, *, session_token: str) -> SignedIn | None:
    """Who acts behind a session token, in one read; None where it was ended, has expired or never was."""
    with site.database.reading() as work:
        found = sign_ins.find_sign_in(work, session_token, now=site.now())
    if found is None:
        return None
    places = _places(site, found)
    here = _chosen(places, found.chosen)
    acting = Acting(
        person_id=found.person.person_id,
        organisation_id=here.organisation.organisation_id,
        organisation_kind=here.organisation.kind,
        roles=here.roles,
    )
    return SignedIn(person=found.person, acting=acting, organisation=here.organisation, places=places)


def sign_out(site: Site, *, session_token: str) -> None:
    """Ends one session, wherever it is used."""
    with site.database.work() as work:
        sign_ins.revoke_sign_in(work, session_token, now=site.now())


def sign_out_elsewhere(site: Site, acting: Acting, *, session_token: str) -> None:
    """Ends all sessions of the person but this one."""
    with site.database.work() as work:
        sign_ins.revoke_sign_ins(work, person_id=acting.person_id, now=site.now(), but_token=session_token)


def choose_organisation(site: Site, *, session_token: str, organisation_id: UUID) -> None:
    """Lets the person act in another of their organisations; raises Missing for any other."""
    with site.database.work() as work:
        found = sign_ins.find_sign_in(work, session_token, now=site.now())
        mine = {place.organisation_id for _, place in found.places} if found is not None else set()
        if organisation_id not in mine:
            raise Missing("organisation")
        sign_ins.choose_organisation(work, session_token, organisation_id=organisation_id)


def change_preferences(site: Site, acting: Acting, *, units: UnitSystem, language: Language) -> None:
    """Sets the units and the language that the person reads first."""
    require(Permission.USE_ACCOUNT, acting=acting)
    with site.database.work() as work:
        people.change_preferences(work, acting.person_id, units=units, language=language)


def change_password(site: Site, acting: Acting, *, session_token: str, current: str, new: str) -> None:
    """Sets a new password after the current one, and ends all other sessions.

    Raises SignInRefused or TooManyTries as signing in does, and WeakPassword.
    """
    require(Permission.USE_ACCOUNT, acting=acting)
    with site.database.work() as work:
        person = people.get_person(work, acting.person_id)
        check_password(new, name=person.name, email=person.email)
        _count_try(work, account=person.email, address=str(person.person_id), now=site.now())
        found = people.find_password_hash(work, email=person.email)
    if not site.passwords.matches(found[1] if found else None, password=current):
        raise SignInRefused("the current password is another one")
    new_hash = site.passwords.hash(new)
    with site.database.work() as work:
        sign_ins.forget_failures(work, account=person.email)
        people.set_password_hash(work, acting.person_id, password_hash=new_hash)
        sign_ins.revoke_sign_ins(work, person_id=acting.person_id, now=site.now(), but_token=session_token)


def invited(site: Site, *, token: str) -> Person:
    """Whom an invitation is for; raises Missing for one that is used, expired or unknown."""
    with site.database.reading() as work:
        return sign_ins.get_invited(work, token, now=site.now())


def take_up_invitation(site: Site, *, token: str, password: str) -> None:
    """Sets the password of the person invited, once, and ends any session they had.

    Raises Missing for a used, expired or unknown invitation, and WeakPassword.
    """
    person = invited(site, token=token)
    check_password(password, name=person.name, email=person.email)
    password_hash = site.passwords.hash(password)
    with site.database.work() as work:
        person = sign_ins.get_invited(work, token, now=site.now())
        sign_ins.use_invitation(work, token, now=site.now())
        people.set_password_hash(work, person.person_id, password_hash=password_hash)
        sign_ins.revoke_sign_ins(work, person_id=person.person_id, now=site.now())


def check_password(password: str, *, name: str, email: str) -> None:
    """Raises WeakPassword for one that is too short, too long, or the person's own e-mail or name."""
    if len(password) < SHORTEST_PASSWORD:
        raise WeakPassword("too-short")
    if len(password) > LONGEST_PASSWORD:
        raise WeakPassword("too-long")
    if password.strip().casefold() == folded_email(email):
        raise WeakPassword("is-email")
    if password.strip().casefold() == name.casefold():
        raise WeakPassword("is-name")


def _account(email: str) -> str:
    """The folded e-mail; what cannot be one is looked up as typed, and fails like any unknown one."""
    try:
        return folded_email(email)
    except NotAnEmail:
        return email


def _count_try(work: Work, *, account: str, address: str, now: datetime) -> None:
    sign_ins.forget_failures_before(work, moment=now - FAILURES_COUNT_FOR)
    failures = sign_ins.count_failures(work, account=account, address=address, since=now - FAILURES_COUNT_FOR)
    if failures.oldest is not None and (
        failures.of_account >= FAILURES_OF_ACCOUNT or failures.from_address >= FAILURES_FROM_ADDRESS
    ):
        raise TooManyTries(failures.oldest + FAILURES_COUNT_FOR)
    sign_ins.record_failure(work, account=account, address=address, now=now)


def _places(site: Site, found: sign_ins.SignInFound) -> tuple[Place, ...]:
    today = site.today()
    return tuple(
        Place(
            organisation=organisation,
            roles=frozenset(membership.role for membership, _ in group if membership.holds_on(today)),
        )
        for organisation, group in groupby(found.places, key=lambda each: each[1])
    )


def _chosen(places: tuple[Place, ...], chosen: UUID | None) -> Place:
    """The organisation chosen, else the first with a role today, else the first: a record stays in reach."""
    for place in places:
        if place.organisation.organisation_id == chosen:
            return place
    return next((place for place in places if place.roles), places[0])
