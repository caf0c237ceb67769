"""The policy that an organisation works under: the default with its own changes, in numbered versions."""

from collections.abc import Mapping
from dataclasses import dataclass
from uuid import UUID

from trainer.domain.ledger import EntryType
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.policy import Policy
from trainer.domain.policy_changes import changed_policy, checked_changes
from trainer.services.site import Site
from trainer.storage import ledger, policies
from trainer.storage.database import Work
from trainer.storage.policies import SitePolicy


@dataclass(frozen=True, kw_only=True)
class PolicyPage:
    """The policy in force, and every version of the changes behind it, the newest first."""

    policy: Policy
    versions: tuple[SitePolicy, ...]


def policy_of(work: Work, site: Site, *, organisation_id: UUID) -> Policy:
    """The policy in force in an organisation; its version names the default's and the site's own."""
    return _laid_over(site.content.policy, policies.find_site_policy(work, organisation_id=organisation_id))


def policy_page(site: Site, acting: Acting) -> PolicyPage:
    """The policy of the organisation acted in, with its history."""
    _require(acting)
    with site.database.reading() as work:
        versions = policies.list_site_policies(work, organisation_id=acting.organisation_id)
    return PolicyPage(
        policy=_laid_over(site.content.policy, versions[0] if versions else None), versions=versions
    )


def set_policy(site: Site, acting: Acting, *, changes: Mapping[str, str], reason: str) -> int:
    """Puts a new version of the organisation's changes in force, and returns its number.

    The changes replace those of the version before, all of them. Raises Refused with a reason for each name
    that is unknown and each number that is none or out of range.
    """
    _require(acting)
    numbers = checked_changes(site.content.policy, changes=changes)
    written = {name: str(number) for name, number in numbers.items()}
    with site.database.work() as work:
        before = policies.find_site_policy(work, organisation_id=acting.organisation_id)
        new = SitePolicy(
            organisation_id=acting.organisation_id,
            version=1 if before is None else before.version + 1,
            changes=written,
            set_by=acting.person_id,
            set_at=site.now(),
        )
        policies.add_site_policy(work, new)
        ledger.append(
            work,
            ledger.Act(
                organisation_id=acting.organisation_id,
                entry_type=EntryType.POLICY_CHANGED,
                subject=acting.organisation_id,
                actor=acting.person_id,
                now=site.now(),
                body={"version": new.version, "over": site.content.policy.version, "changes": written},
                reason=reason,
            ),
        )
    return new.version


def _require(acting: Acting) -> None:
    thing = Thing(organisation_id=acting.organisation_id)
    require(Permission.CHANGE_POLICY, acting=acting, thing=thing, what="policy")


def _laid_over(default: Policy, own: SitePolicy | None) -> Policy:
    if own is None:
        return default
    version = f"{default.version}+site.{own.version}"
    return changed_policy(default, changes=own.changes, version=version)
