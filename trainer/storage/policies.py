"""Versions of a site's changes to the default policy."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import select

from trainer.storage.database import Work
from trainer.storage.tables.policies import SitePolicyRow


@dataclass(frozen=True, kw_only=True)
class SitePolicy:
    """One version of an organisation's changes, each value a decimal string by name."""

    organisation_id: UUID
    version: int
    changes: Mapping[str, str]
    set_by: UUID
    set_at: datetime


def add_site_policy(work: Work, new: SitePolicy) -> None:
    """Adds a version; raises Duplicate where somebody else added the same one first."""
    work.session.add(
        SitePolicyRow(
            organisation_id=new.organisation_id,
            version=new.version,
            changes=dict(new.changes),
            set_by=new.set_by,
            set_at=new.set_at,
        )
    )
    work.session.flush()


def list_site_policies(work: Work, *, organisation_id: UUID) -> tuple[SitePolicy, ...]:
    """All versions of an organisation, the newest first."""
    rows = work.session.scalars(
        select(SitePolicyRow)
        .where(SitePolicyRow.organisation_id == organisation_id)
        .order_by(SitePolicyRow.version.desc())
    )
    return tuple(_from(row) for row in rows)


def find_site_policy(work: Work, *, organisation_id: UUID) -> SitePolicy | None:
    """The newest version of an organisation; None where the default holds unchanged."""
    row = work.session.scalars(
        select(SitePolicyRow)
        .where(SitePolicyRow.organisation_id == organisation_id)
        .order_by(SitePolicyRow.version.desc())
        .limit(1)
    ).one_or_none()
    return None if row is None else _from(row)


def _from(row: SitePolicyRow) -> SitePolicy:
    return SitePolicy(
        organisation_id=row.organisation_id,
        version=row.version,
        changes=row.changes,
        set_by=row.set_by,
        set_at=row.set_at,
    )
