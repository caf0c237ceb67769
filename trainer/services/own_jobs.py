"""Own jobs: an instructor writes the numbers of a real job, looks at what comes of it, and gives it out.

A job is kept in versions that are never changed. Apprentices meet the published one; what they have drawn
keeps the version that it was drawn from.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any
from uuid import UUID

from trainer.domain.errors import Missing, WrongState
from trainer.domain.families import NothingDrawn
from trainer.domain.own_job_dangers import require_meant
from trainer.domain.own_jobs import JobSheet, JobState
from trainer.domain.people import Acting, UnitSystem
from trainer.domain.permissions import Permission, Thing, require
from trainer.scenario_files import ContentFault, content_check
from trainer.scenario_files.own_jobs import job_text, read_sheet
from trainer.services.job_previews import JobPreview, checked_family, preview_of
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import own_jobs, people
from trainer.storage.own_jobs import JobSummary, JobVersion, NewVersion

_SEEDS_OF_A_FILE = 24  # somebody waits for the page; `trainer check` draws hundreds


@dataclass(frozen=True, kw_only=True)
class Draft:
    """What is to be saved: the sheet to draw from, and what was typed, to be shown again as it was."""

    sheet: JobSheet
    typed: Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class JobVersions:
    """A job with its versions, the newest first."""

    summary: JobSummary
    versions: tuple[JobVersion, ...]

    @property
    def newest(self) -> JobVersion:
        """The version that was saved last: a job is made with its first."""
        return self.versions[0]

    def version(self, number: int) -> JobVersion:
        """The version of that number; raises Missing."""
        for each in self.versions:
            if each.version == number:
                return each
        raise Missing("version", number)


@dataclass(frozen=True, kw_only=True)
class JobPage(JobVersions):
    """What an apprentice makes of one of a job's versions."""

    shown: JobVersion
    preview: JobPreview | None
    refusal: str = ""  # why nothing can be drawn any more, under another policy or core


def jobs_here(site: Site, acting: Acting) -> tuple[JobSummary, ...]:
    """The jobs of the organisation acted in, by title."""
    _require(acting)
    with site.database.reading() as work:
        return own_jobs.list_jobs(work, organisation_id=acting.organisation_id)


def job_versions(site: Site, acting: Acting, *, job_id: UUID) -> JobVersions:
    """One job with the versions that were saved of it; raises Missing."""
    _require(acting)
    with site.database.reading() as work:
        summary = own_jobs.get_job(work, job_id=job_id, organisation_id=acting.organisation_id)
        return JobVersions(summary=summary, versions=own_jobs.list_versions(work, job_id=job_id))


def job_page(site: Site, acting: Acting, *, job_id: UUID, version: int | None = None) -> JobPage:
    """One job, with a version of it as apprentices meet it; the newest where none is named."""
    job = job_versions(site, acting, job_id=job_id)
    shown = job.newest if version is None else job.version(version)
    with site.database.reading() as work:
        policy = policy_of(work, site, organisation_id=acting.organisation_id)
        edition = people.get_person(work, acting.person_id).units
    family = site.content.own_family(job.summary.family, text=shown.family_file, edition=edition)
    page = JobPage(summary=job.summary, versions=job.versions, shown=shown, preview=None)
    try:
        return replace(page, preview=preview_of(site, family=family, policy=policy, edition=edition))
    except NothingDrawn as fault:
        return replace(page, refusal=str(fault))


def make_job(site: Site, acting: Acting, *, draft: Draft) -> UUID:
    """A new job, as a draft; raises UnusableJob with every fault at once."""
    _require(acting)
    return _added_job(site, acting, _version(site, acting, draft))


def save_version(site: Site, acting: Acting, *, job_id: UUID, draft: Draft) -> int:
    """A further version, which apprentices do not meet before it is published; returns its number."""
    job_versions(site, acting, job_id=job_id)  # before the work of checking what was typed
    return _added_version(site, job_id, _version(site, acting, draft))


def send_file(site: Site, acting: Acting, *, family_file: str) -> UUID:
    """A new job from a family file; raises ContentFault with line and key of each fault."""
    _require(acting)
    return _added_job(site, acting, _version_of_file(site, acting, family_file))


def send_file_version(site: Site, acting: Acting, *, job_id: UUID, family_file: str) -> int:
    """A further version of a job that was sent as a file; returns its number."""
    job_versions(site, acting, job_id=job_id)
    return _added_version(site, job_id, _version_of_file(site, acting, family_file))


def publish_job(
    site: Site, acting: Acting, *, job_id: UUID, version: int, meant: frozenset[str] = frozenset()
) -> None:
    """Gives a version out: from here on it is what apprentices draw.

    Raises WrongState where nothing can be drawn of it any more, and DangersNotMeant where it hurts somebody
    or loses the root with every key given, unless the codes of those cautions are among the `meant`.
    """
    page = job_page(site, acting, job_id=job_id, version=version)
    if page.preview is None:
        raise WrongState(page.refusal)
    require_meant(page.preview.keyed.run, meant=meant)
    with site.database.work() as work:
        own_jobs.set_state(
            work,
            job_id=job_id,
            organisation_id=acting.organisation_id,
            state=JobState.PUBLISHED,
            published_version=version,
        )


def withdraw_job(site: Site, acting: Acting, *, job_id: UUID) -> None:
    """Takes a job out of practice and of new modules; modules that were made of it go on, as do attempts."""
    _require(acting)
    with site.database.work() as work:
        job = own_jobs.get_job(work, job_id=job_id, organisation_id=acting.organisation_id)
        if job.published_version is None:
            raise WrongState("this job has not been published yet")
        own_jobs.set_state(
            work,
            job_id=job_id,
            organisation_id=acting.organisation_id,
            state=JobState.WITHDRAWN,
            published_version=job.published_version,
        )


def _added_job(site: Site, acting: Acting, first: NewVersion) -> UUID:
    job_id, family = own_jobs.new_job_id()
    with site.database.work() as work:
        own_jobs.add_job(
            work, job_id=job_id, family=family, organisation_id=acting.organisation_id, first=first
        )
    return job_id


def _added_version(site: Site, job_id: UUID, new: NewVersion) -> int:
    with site.database.work() as work:
        return own_jobs.add_version(work, job_id=job_id, new=new)


def _version(site: Site, acting: Acting, draft: Draft) -> NewVersion:
    with site.database.reading() as work:
        policy = policy_of(work, site, organisation_id=acting.organisation_id)
    clean = read_sheet(draft.sheet)
    text = job_text(clean)
    family = checked_family(site, text=text, sheet=clean, policy=policy)
    return NewVersion(
        title=clean.title,
        typed=dict(draft.typed),
        family_file=text,
        content_version=family.content_version,
        saved_by=acting.person_id,
        saved_at=site.now(),
    )


def _version_of_file(site: Site, acting: Acting, family_file: str) -> NewVersion:
    """The version of a file that the checker of the library passes; the keys of its draws score 1."""
    family = site.content.own_family("own-job", text=family_file)
    inch = site.content.own_family("own-job", text=family_file, edition=UnitSystem.INCH_POUND)
    found = content_check.checked_family(family, site.content, seeds=range(_SEEDS_OF_A_FILE), inch=inch)
    if found.faults:
        raise ContentFault(found.faults)
    return NewVersion(
        title=family.title[:200],
        typed=None,
        family_file=family_file,
        content_version=family.content_version,
        saved_by=acting.person_id,
        saved_at=site.now(),
    )


def _require(acting: Acting) -> None:
    thing = Thing(organisation_id=acting.organisation_id)
    require(Permission.MANAGE_OWN_JOB, acting=acting, thing=thing, what="job")
