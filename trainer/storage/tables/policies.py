"""What each site changed about the default policy, version by version."""

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from trainer.storage.tables.base import Base, Document, UtcDateTime


class SitePolicyRow(Base):
    """One version of an organisation's changes; written once, since attempts and awards name it."""

    __tablename__ = "site_policy"

    organisation_id: Mapped[UUID] = mapped_column(
        ForeignKey("organisation.organisation_id"), primary_key=True
    )
    version: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    changes: Mapped[dict[str, Any]] = mapped_column(Document)
    set_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    set_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (CheckConstraint("version >= 1", name="version_from_one"),)
