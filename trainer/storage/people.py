"""People and organisations: look-ups and writers."""

from datetime import datetime
from uuid import UUID

from sqlalchemy import select, update

from trainer.domain.errors import Missing
from trainer.domain.people import Language, NewPerson, Organisation, OrganisationKind, Person, UnitSystem
from trainer.storage.database import Work
from trainer.storage.tables.people import OrganisationRow, PersonRow


def add_person(work: Work, new: NewPerson, *, now: datetime) -> UUID:
    """Adds a person without a password; raises Duplicate for an e-mail that is there."""
    row = PersonRow(name=new.name, email=new.email, units=new.units, language=new.language, created_at=now)
    work.session.add(row)
    work.session.flush()
    return row.person_id


def get_person(work: Work, person_id: UUID) -> Person:
    """The person of that id; raises Missing."""
    row = work.session.get(PersonRow, person_id)
    if row is None:
        raise Missing("person")
    return person_from(row)


def find_person_by_email(work: Work, email: str) -> Person | None:
    """The person of that folded e-mail."""
    row = work.session.scalars(select(PersonRow).where(PersonRow.email == email)).one_or_none()
    return person_from(row) if row is not None else None


def change_preferences(work: Work, person_id: UUID, *, units: UnitSystem, language: Language) -> None:
    """Sets the units and the language that a person reads first."""
    work.session.execute(
        update(PersonRow).where(PersonRow.person_id == person_id).values(units=units, language=language)
    )


def find_password_hash(work: Work, *, email: str) -> tuple[UUID, str | None] | None:
    """The person of that folded e-mail and their hash, None while an invitation has not been taken up."""
    found = work.session.execute(
        select(PersonRow.person_id, PersonRow.password_hash).where(PersonRow.email == email)
    ).one_or_none()
    return None if found is None else (found[0], found[1])


def set_password_hash(work: Work, person_id: UUID, *, password_hash: str) -> None:
    """Replaces a person's hash."""
    work.session.execute(
        update(PersonRow).where(PersonRow.person_id == person_id).values(password_hash=password_hash)
    )


def add_organisation(work: Work, *, name: str, kind: OrganisationKind, now: datetime) -> UUID:
    """Adds an organisation; raises Duplicate for a name that is there."""
    row = OrganisationRow(name=name, kind=kind, created_at=now)
    work.session.add(row)
    work.session.flush()
    return row.organisation_id


def lock_organisation(work: Work, organisation_id: UUID) -> Organisation:
    """The organisation of that id, and others who lock it wait until this work is done; on SQLite they wait
    anyway. Raises Missing."""
    query = select(OrganisationRow).where(OrganisationRow.organisation_id == organisation_id)
    # without the key, so that rows which refer to the organisation can be added meanwhile
    row = work.session.scalars(query.with_for_update(key_share=True)).one_or_none()
    if row is None:
        raise Missing("organisation")
    return organisation_from(row)


def find_organisation_by_name(work: Work, name: str) -> Organisation | None:
    """The organisation of exactly that name."""
    row = work.session.scalars(select(OrganisationRow).where(OrganisationRow.name == name)).one_or_none()
    return organisation_from(row) if row is not None else None


def list_organisations(work: Work, *, kind: OrganisationKind | None = None) -> tuple[Organisation, ...]:
    """All organisations, or those of one kind, by name."""
    query = select(OrganisationRow).order_by(OrganisationRow.name, OrganisationRow.organisation_id)
    if kind is not None:
        query = query.where(OrganisationRow.kind == kind)
    return tuple(organisation_from(row) for row in work.session.scalars(query))


def person_from(row: PersonRow) -> Person:
    """The person that a row holds."""
    return Person(
        person_id=row.person_id,
        name=row.name,
        email=row.email,
        units=row.units,
        language=row.language,
        has_password=row.password_hash is not None,
    )


def organisation_from(row: OrganisationRow) -> Organisation:
    """The organisation that a row holds."""
    return Organisation(organisation_id=row.organisation_id, name=row.name, kind=row.kind)
