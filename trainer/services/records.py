"""The ledger as a whole: proving every organisation's log, and reading one."""

from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from trainer.domain.audit import Head, Proof, verify_chain
from trainer.domain.people import Acting, Organisation
from trainer.domain.permissions import Permission, Thing, require
from trainer.services.site import Site
from trainer.storage import ledger, people
from trainer.storage.database import Database, Work

PAGE_OF_ENTRIES = 100


@dataclass(frozen=True, kw_only=True)
class LogProof:
    """What the audit of one organisation's log found."""

    organisation: Organisation
    proof: Proof


def verify_ledgers(database: Database, *, kept: Mapping[UUID, Head] | None = None) -> tuple[LogProof, ...]:
    """Proves every organisation's log, all as of one moment, and against heads kept from earlier if given."""
    heads = kept or {}
    with database.reading() as work:
        return tuple(
            LogProof(organisation=each, proof=_proof(work, each.organisation_id, heads))
            for each in people.list_organisations(work)
        )


def ledger_entries(site: Site, acting: Acting, *, before: int | None = None) -> tuple[dict[str, Any], ...]:
    """A page of the log of the organisation acted in, the newest first, each entry as its JSON says."""
    here = acting.organisation_id
    require(Permission.READ_LEDGER, acting=acting, thing=Thing(organisation_id=here), what="ledger")
    with site.database.reading() as work:
        return ledger.list_latest(work, organisation_id=here, before=before, limit=PAGE_OF_ENTRIES)


def _proof(work: Work, organisation_id: UUID, heads: Mapping[UUID, Head]) -> Proof:
    with closing(ledger.read_log(work, organisation_id=organisation_id)) as entries:
        return verify_chain(entries, organisation_id=organisation_id, kept=heads.get(organisation_id))
