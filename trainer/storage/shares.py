"""Which employers see whose record, on which days."""

from datetime import date, datetime
from uuid import UUID

from sqlalchemy import ColumnElement, and_, or_, select, update

from trainer.domain.errors import Missing
from trainer.domain.people import Organisation, Person, Share
from trainer.storage.database import Work
from trainer.storage.people import organisation_from, person_from
from trainer.storage.tables.people import OrganisationRow, PersonRow, ShareRow


def add_share(work: Work, share: Share) -> None:
    """Adds a share under the id that it carries."""
    work.session.add(
        ShareRow(
            share_id=share.share_id,
            person_id=share.person_id,
            employer_id=share.employer_id,
            organisation_id=share.organisation_id,
            basis=share.basis,
            consent_on_file=share.consent_on_file,
            starts=share.starts,
            ends=share.ends,
            given_by=share.given_by,
        )
    )
    work.session.flush()


def lock_share(work: Work, share_id: UUID) -> Share:
    """The share of that id, which others who lock it wait for; raises Missing."""
    row = work.session.get(ShareRow, share_id, with_for_update=True)
    if row is None:
        raise Missing("share")
    return _share_from(row)


def withdraw_share(work: Work, share_id: UUID, *, now: datetime) -> None:
    """Takes the record out of sight at once."""
    work.session.execute(update(ShareRow).where(ShareRow.share_id == share_id).values(withdrawn_at=now))


def list_shares(work: Work, *, person_id: UUID) -> tuple[tuple[Share, Organisation], ...]:
    """All shares of a person's record with their employers, the newest first."""
    rows = work.session.execute(
        select(ShareRow, OrganisationRow)
        .join(OrganisationRow, OrganisationRow.organisation_id == ShareRow.employer_id)
        .where(ShareRow.person_id == person_id)
        .order_by(ShareRow.starts.desc(), OrganisationRow.name, ShareRow.share_id)
    )
    return tuple((_share_from(share), organisation_from(employer)) for share, employer in rows)


def list_people_in_sight(work: Work, *, employer_id: UUID, day: date) -> tuple[tuple[Person, Share], ...]:
    """The people whose record the employer sees on a day, by name; each once, with the share that reaches
    furthest."""
    rows = work.session.execute(
        select(PersonRow, ShareRow)
        .join(ShareRow, ShareRow.person_id == PersonRow.person_id)
        .where(ShareRow.employer_id == employer_id, _spans(day))
        .order_by(
            PersonRow.name,
            PersonRow.person_id,
            ShareRow.ends.desc().nulls_first(),
            ShareRow.starts,
            ShareRow.share_id,
        )
    )
    found: dict[UUID, tuple[Person, Share]] = {}
    for person, row in rows:
        share = _share_from(row)
        if share.holds_on(day):
            found.setdefault(person.person_id, (person_from(person), share))
    return tuple(found.values())


def employers_seeing(work: Work, *, person_id: UUID, day: date) -> frozenset[UUID]:
    """The employers that see a person's record on a day."""
    rows = work.session.scalars(select(ShareRow).where(ShareRow.person_id == person_id, _spans(day)))
    return frozenset(share.employer_id for share in map(_share_from, rows) if share.holds_on(day))


def _spans(day: date) -> ColumnElement[bool]:
    """Shares whose days hold this one; whether it was withdrawn by then is the domain's to say."""
    return and_(ShareRow.starts <= day, or_(ShareRow.ends.is_(None), ShareRow.ends >= day))


def _share_from(row: ShareRow) -> Share:
    return Share(
        share_id=row.share_id,
        person_id=row.person_id,
        employer_id=row.employer_id,
        organisation_id=row.organisation_id,
        basis=row.basis,
        consent_on_file=row.consent_on_file,
        given_by=row.given_by,
        starts=row.starts,
        ends=row.ends,
        withdrawn_at=row.withdrawn_at,
    )
