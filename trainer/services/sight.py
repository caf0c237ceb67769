"""Whose things may be seen: what the map of permissions has to know of an attempt or a qualification."""

from uuid import UUID

from trainer.domain.attempts import Attempt
from trainer.domain.permissions import Thing
from trainer.services.site import Site
from trainer.storage import qualifications, shares
from trainer.storage.database import Work


def of_attempt(site: Site, work: Work, attempt: Attempt) -> Thing:
    """An attempt, the employers that see its person today, and whether it stands behind a qualification."""
    return Thing(
        organisation_id=attempt.organisation_id,
        person_id=attempt.person_id,
        shared_with=_seeing(site, work, attempt.person_id),
        is_evidence=bool(qualifications.list_resting_on(work, attempt_id=attempt.attempt_id)),
    )


def of_qualification(site: Site, work: Work, qualification: qualifications.Qualification) -> Thing:
    """A qualification and the employers that see its person today; its evidence goes with it."""
    return Thing(
        organisation_id=qualification.organisation_id,
        person_id=qualification.person_id,
        shared_with=_seeing(site, work, qualification.person_id),
        is_evidence=True,
    )


def _seeing(site: Site, work: Work, person_id: UUID) -> frozenset[UUID]:
    return shares.employers_seeing(work, person_id=person_id, day=site.today())
