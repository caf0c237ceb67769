"""The jobs that instructors wrote, and every version of each; versions only grow."""

from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import CheckConstraint, ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from trainer.domain.own_jobs import JobState
from trainer.storage.tables.base import Base, Document, UtcDateTime, enum_type


class OwnJobRow(Base):
    """One job of an organisation's library, and which of its versions apprentices meet."""

    __tablename__ = "own_job"

    job_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"), index=True)
    family: Mapped[str] = mapped_column(String(100), unique=True)
    state: Mapped[JobState] = mapped_column(enum_type(JobState, name="state"))
    published_version: Mapped[int | None]
    made_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    made_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (
        CheckConstraint("(state = 'draft') = (published_version IS NULL)", name="published_unless_draft"),
    )


class OwnJobVersionRow(Base):
    """One version: what was typed (none where a file was sent), and the family file that came of it."""

    __tablename__ = "own_job_version"

    job_id: Mapped[UUID] = mapped_column(ForeignKey("own_job.job_id"), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    title: Mapped[str] = mapped_column(String(200))
    typed: Mapped[dict[str, Any] | None] = mapped_column(Document)
    family_file: Mapped[str] = mapped_column(Text)
    content_version: Mapped[str] = mapped_column(String(100))
    saved_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    saved_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (CheckConstraint("version >= 1", name="version_from_one"),)
