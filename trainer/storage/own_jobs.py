"""The jobs of an organisation's library and their versions: queries and writers."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import Select, func, select

from trainer.domain.errors import Missing
from trainer.domain.own_jobs import JobState
from trainer.storage.database import Work
from trainer.storage.tables.own_jobs import OwnJobRow, OwnJobVersionRow
from trainer.storage.tables.people import PersonRow


@dataclass(frozen=True, kw_only=True)
class JobSummary:
    """A job as a list shows it: the newest title, and which version is out."""

    job_id: UUID
    family: str
    title: str
    state: JobState
    newest_version: int
    published_version: int | None
    saved_at: datetime
    saved_by_name: str


@dataclass(frozen=True, kw_only=True)
class JobVersion:
    """One version of a job; `typed` is None where a file was sent instead of the form."""

    job_id: UUID
    version: int
    title: str
    typed: dict[str, Any] | None
    family_file: str
    content_version: str
    saved_by_name: str
    saved_at: datetime


@dataclass(frozen=True, kw_only=True)
class NewVersion:
    """A version about to be added."""

    title: str
    typed: dict[str, Any] | None
    family_file: str
    content_version: str
    saved_by: UUID
    saved_at: datetime


@dataclass(frozen=True, kw_only=True)
class PublishedFile:
    """The family file of a job that is or was published."""

    family: str
    family_file: str
    is_offered: bool


def new_job_id() -> tuple[UUID, str]:
    """The id of a job to be, and the name of its family, which attempts and modules call it by."""
    job_id = uuid4()
    return job_id, f"own-{job_id.hex[:16]}"


def add_job(work: Work, *, job_id: UUID, family: str, organisation_id: UUID, first: NewVersion) -> None:
    """A new job with its first version, as a draft."""
    work.session.add(
        OwnJobRow(
            job_id=job_id,
            organisation_id=organisation_id,
            family=family,
            state=JobState.DRAFT,
            made_by=first.saved_by,
            made_at=first.saved_at,
        )
    )
    work.session.flush()
    _add_version(work, job_id, 1, first)


def add_version(work: Work, *, job_id: UUID, new: NewVersion) -> int:
    """The next version of a job, and its number; raises Duplicate where somebody else was first."""
    newest = work.session.scalar(
        select(func.max(OwnJobVersionRow.version)).where(OwnJobVersionRow.job_id == job_id)
    )
    version = (newest or 0) + 1
    _add_version(work, job_id, version, new)
    return version


def _add_version(work: Work, job_id: UUID, version: int, new: NewVersion) -> None:
    work.session.add(OwnJobVersionRow(job_id=job_id, version=version, **vars(new)))
    work.session.flush()


def set_state(
    work: Work, *, job_id: UUID, organisation_id: UUID, state: JobState, published_version: int
) -> None:
    """What apprentices meet from here on."""
    row = work.session.scalar(
        select(OwnJobRow)
        .where(OwnJobRow.job_id == job_id, OwnJobRow.organisation_id == organisation_id)
        .with_for_update()
    )
    if row is None:
        raise Missing("job", job_id)
    row.state, row.published_version = state, published_version
    work.session.flush()


def list_jobs(work: Work, *, organisation_id: UUID) -> tuple[JobSummary, ...]:
    """The organisation's jobs by title."""
    rows = work.session.execute(_jobs(organisation_id).order_by(OwnJobVersionRow.title, OwnJobRow.job_id))
    return tuple(_summary(*each) for each in rows)


def get_job(work: Work, *, job_id: UUID, organisation_id: UUID) -> JobSummary:
    """The job of this organisation."""
    found = work.session.execute(_jobs(organisation_id).where(OwnJobRow.job_id == job_id)).one_or_none()
    if found is None:
        raise Missing("job", job_id)
    return _summary(*found)


def _jobs(organisation_id: UUID) -> Select[OwnJobRow, OwnJobVersionRow, str]:
    newest = (
        select(OwnJobVersionRow.job_id, func.max(OwnJobVersionRow.version).label("version"))
        .group_by(OwnJobVersionRow.job_id)
        .subquery()
    )
    return (
        select(OwnJobRow, OwnJobVersionRow, PersonRow.name)
        .join(newest, newest.c.job_id == OwnJobRow.job_id)
        .join(
            OwnJobVersionRow,
            (OwnJobVersionRow.job_id == newest.c.job_id) & (OwnJobVersionRow.version == newest.c.version),
        )
        .join(PersonRow, PersonRow.person_id == OwnJobVersionRow.saved_by)
        .where(OwnJobRow.organisation_id == organisation_id)
    )


def _summary(job: OwnJobRow, version: OwnJobVersionRow, saved_by_name: str) -> JobSummary:
    return JobSummary(
        job_id=job.job_id,
        family=job.family,
        title=version.title,
        state=job.state,
        newest_version=version.version,
        published_version=job.published_version,
        saved_at=version.saved_at,
        saved_by_name=saved_by_name,
    )


def list_versions(work: Work, *, job_id: UUID) -> tuple[JobVersion, ...]:
    """Every version of a job, the newest first."""
    rows = work.session.execute(
        select(OwnJobVersionRow, PersonRow.name)
        .join(PersonRow, PersonRow.person_id == OwnJobVersionRow.saved_by)
        .where(OwnJobVersionRow.job_id == job_id)
        .order_by(OwnJobVersionRow.version.desc())
    )
    return tuple(
        JobVersion(
            job_id=row.job_id,
            version=row.version,
            title=row.title,
            typed=row.typed,
            family_file=row.family_file,
            content_version=row.content_version,
            saved_by_name=name,
            saved_at=row.saved_at,
        )
        for row, name in rows
    )


def list_published(work: Work, *, organisation_id: UUID) -> tuple[PublishedFile, ...]:
    """The files that the organisation's jobs are drawn from, by title; of withdrawn ones too."""
    rows = work.session.execute(
        _published(organisation_id).order_by(OwnJobVersionRow.title, OwnJobRow.job_id)
    )
    return tuple(_file(*each) for each in rows)


def find_published(work: Work, *, organisation_id: UUID, family: str) -> PublishedFile | None:
    """The file that one of the organisation's jobs is drawn from; None where it has no such job."""
    found = work.session.execute(_published(organisation_id).where(OwnJobRow.family == family)).one_or_none()
    return None if found is None else _file(*found)


def _published(organisation_id: UUID) -> Select[OwnJobRow, str]:
    return (
        select(OwnJobRow, OwnJobVersionRow.family_file)
        .join(
            OwnJobVersionRow,
            (OwnJobVersionRow.job_id == OwnJobRow.job_id)
            & (OwnJobVersionRow.version == OwnJobRow.published_version),
        )
        .where(OwnJobRow.organisation_id == organisation_id)
    )


def _file(job: OwnJobRow, text: str) -> PublishedFile:
    return PublishedFile(family=job.family, family_file=text, is_offered=job.state is JobState.PUBLISHED)
