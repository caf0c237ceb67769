"""Rows of own jobs on both databases: versions only grow, and one organisation never sees another's."""

from datetime import UTC, datetime
from uuid import UUID, uuid4

import factories
import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from trainer.domain.errors import Conflict, DomainError, Missing
from trainer.domain.own_jobs import JobState
from trainer.domain.people import Acting
from trainer.services.site import Site
from trainer.storage import own_jobs
from trainer.storage.own_jobs import NewVersion

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


@pytest.fixture
def here(site: Site) -> Acting:
    return factories.provider(site)


@pytest.fixture
def elsewhere(site: Site) -> Acting:
    return factories.provider(site)


def version(by: Acting, *, title: str = "Feed line", text: str = "one") -> NewVersion:
    return NewVersion(
        title=title,
        typed={"title": [title]},
        family_file=text,
        content_version="abc",
        saved_by=by.person_id,
        saved_at=NOON,
    )


def made(site: Site, by: Acting, **changes: str) -> UUID:
    job_id, family = own_jobs.new_job_id()
    with site.database.work() as work:
        own_jobs.add_job(
            work,
            job_id=job_id,
            family=family,
            organisation_id=by.organisation_id,
            first=version(by, **changes),
        )
    return job_id


def published(
    site: Site, by: Acting, job_id: UUID, number: int, state: JobState = JobState.PUBLISHED
) -> None:
    with site.database.work() as work:
        own_jobs.set_state(
            work,
            job_id=job_id,
            organisation_id=by.organisation_id,
            state=state,
            published_version=number,
        )


def test_a_job_comes_back_as_it_was_saved_with_its_newest_title(site: Site, here: Acting, elsewhere: Acting):
    job_id = made(site, here)
    made(site, elsewhere, title="Another's")
    with site.database.work() as work:
        assert own_jobs.add_version(work, job_id=job_id, new=version(here, title="Header", text="two")) == 2
    with site.database.reading() as work:
        (listed,) = own_jobs.list_jobs(work, organisation_id=here.organisation_id)
        newest, first = own_jobs.list_versions(work, job_id=job_id)

    assert (listed.title, listed.state, listed.newest_version) == ("Header", JobState.DRAFT, 2)
    assert (newest.version, newest.family_file) == (2, "two")
    assert (first.title, first.typed, first.saved_at) == ("Feed line", {"title": ["Feed line"]}, NOON)


def test_another_organisations_job_is_missing(site: Site, here: Acting, elsewhere: Acting):
    job_id = made(site, here)
    with site.database.reading() as work, pytest.raises(Missing):
        own_jobs.get_job(work, job_id=job_id, organisation_id=elsewhere.organisation_id)
    with pytest.raises(Missing):
        published(site, elsewhere, job_id, 1)


def test_only_what_is_or_was_published_is_drawn_from(site: Site, here: Acting, elsewhere: Acting):
    draft, out, back = (made(site, here, title=title) for title in ("A", "B", "C"))
    published(site, here, out, 1)
    published(site, here, back, 1, JobState.WITHDRAWN)
    published(site, elsewhere, made(site, elsewhere), 1)
    with site.database.reading() as work:
        found = own_jobs.list_published(work, organisation_id=here.organisation_id)
        of_draft = own_jobs.get_job(work, job_id=draft, organisation_id=here.organisation_id).family

        assert [each.is_offered for each in found] == [True, False]
        assert own_jobs.find_published(work, organisation_id=here.organisation_id, family=of_draft) is None


def test_a_version_is_never_changed(site: Site, here: Acting):
    made(site, here)
    for statement in ("UPDATE own_job_version SET title = 'B'", "DELETE FROM own_job_version"):
        with (
            pytest.raises((DBAPIError, DomainError), match="appended to, never changed"),
            site.database.work() as work,
        ):
            work.session.execute(text(statement))


def test_a_draft_has_no_published_version_and_the_rest_have_one(site: Site, here: Acting):
    job_id = made(site, here)

    with pytest.raises(Conflict):
        published(site, here, job_id, 1, JobState.DRAFT)


def test_a_version_needs_its_job(site: Site, here: Acting):
    with pytest.raises(Missing), site.database.work() as work:
        own_jobs.add_version(work, job_id=uuid4(), new=version(here))
