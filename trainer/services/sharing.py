"""Who sees whose record: shares given, ended and looked up, each with its basis and the consent on file."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID, uuid4

from trainer.domain.errors import Duplicate, Missing, Refused
from trainer.domain.ledger import EntryType
from trainer.domain.people import Acting, Membership, Organisation, OrganisationKind, Person, Share, Term
from trainer.domain.permissions import Permission, Thing, require
from trainer.services.site import Site
from trainer.storage import ledger, memberships, people, shares
from trainer.storage.database import Work


@dataclass(frozen=True, kw_only=True)
class ShareGiven:
    """A share of a person's record with the employer that it is for."""

    share: Share
    employer: Organisation
    in_sight: bool


@dataclass(frozen=True, kw_only=True)
class OwnRecord:
    """What belongs to the person wherever they go: roles held anywhere, and who was shown the record."""

    person: Person
    memberships: tuple[tuple[Membership, Organisation], ...]
    shares: tuple[ShareGiven, ...]


@dataclass(frozen=True, kw_only=True)
class Offer:
    """To whom a record is shown and when, on what ground, and where the person's consent is filed."""

    employer_id: UUID
    basis: str
    consent_on_file: str
    term: Term


def employers(site: Site, acting: Acting) -> tuple[Organisation, ...]:
    """The employers that a record can be shared with, by name."""
    require(Permission.USE_ACCOUNT, acting=acting)
    with site.database.reading() as work:
        return people.list_organisations(work, kind=OrganisationKind.EMPLOYER)


def give_share(site: Site, acting: Acting, *, person_id: UUID, offer: Offer) -> UUID:
    """Shows a person's record to an employer; by the person, or by their provider with consent on file.

    Raises Missing for anybody else's record or employer, Refused("starts-in-the-past", "basis-missing",
    "consent-missing"), and Duplicate where the employer sees it already.
    """
    _refuse_offer(offer, today=site.today())
    with site.database.work() as work:
        _require_over(work, site, acting, Permission.GIVE_SHARE, person_id=person_id)
        if people.lock_organisation(work, offer.employer_id).kind is not OrganisationKind.EMPLOYER:
            raise Missing("organisation")
        if offer.employer_id in shares.employers_seeing(work, person_id=person_id, day=offer.term.starts):
            raise Duplicate("this employer sees the record already")
        share = Share(
            share_id=uuid4(),
            person_id=person_id,
            employer_id=offer.employer_id,
            organisation_id=acting.organisation_id,
            basis=offer.basis.strip(),
            consent_on_file=offer.consent_on_file.strip(),
            given_by=acting.person_id,
            starts=offer.term.starts,
            ends=offer.term.ends,
        )
        shares.add_share(work, share)
        ledger.append(work, _given(site, acting, share))
        return share.share_id


def end_share(site: Site, acting: Acting, *, share_id: UUID, reason: str) -> None:
    """Takes a record out of the employer's sight at once; ending a share twice changes nothing."""
    with site.database.work() as work:
        share = shares.lock_share(work, share_id)
        thing = Thing(organisation_id=share.organisation_id, person_id=share.person_id)
        require(Permission.END_SHARE, acting=acting, thing=thing, what="share")
        if share.withdrawn_at is not None:
            return
        shares.withdraw_share(work, share_id, now=site.now())
        ledger.append(
            work,
            ledger.Act(
                organisation_id=acting.organisation_id,
                entry_type=EntryType.SHARE_ENDED,
                subject=share.person_id,
                actor=acting.person_id,
                now=site.now(),
                body={"share": str(share_id), "employer": str(share.employer_id)},
                reason=reason,
            ),
        )


def shares_of(site: Site, acting: Acting, *, person_id: UUID) -> tuple[ShareGiven, ...]:
    """All shares of a person's record, for the person and for their training provider."""
    with site.database.reading() as work:
        _require_over(work, site, acting, Permission.GIVE_SHARE, person_id=person_id)
        return _shares(work, site, person_id=person_id)


def own_record(site: Site, acting: Acting) -> OwnRecord:
    """The person's own roles and shares, in every organisation."""
    require(Permission.READ_OWN_RECORD, acting=acting)
    with site.database.reading() as work:
        return OwnRecord(
            person=people.get_person(work, acting.person_id),
            memberships=memberships.list_places(work, person_id=acting.person_id),
            shares=_shares(work, site, person_id=acting.person_id),
        )


def _refuse_offer(offer: Offer, *, today: date) -> None:
    reasons = []
    if offer.term.starts < today:
        reasons.append("starts-in-the-past")
    if not offer.basis.strip():
        reasons.append("basis-missing")
    if not offer.consent_on_file.strip():
        reasons.append("consent-missing")
    if reasons:
        raise Refused(tuple(reasons))


def _require_over(work: Work, site: Site, acting: Acting, permission: Permission, *, person_id: UUID) -> None:
    """The permission over a person: of the organisation acted in if they hold a role there today."""
    here = acting.organisation_id
    held = memberships.roles_on(work, person_id=person_id, organisation_id=here, day=site.today())
    thing = Thing(organisation_id=here if held else None, person_id=person_id)
    require(permission, acting=acting, thing=thing, what="person")


def _shares(work: Work, site: Site, *, person_id: UUID) -> tuple[ShareGiven, ...]:
    today = site.today()
    return tuple(
        ShareGiven(share=share, employer=employer, in_sight=share.holds_on(today))
        for share, employer in shares.list_shares(work, person_id=person_id)
    )


def _given(site: Site, acting: Acting, share: Share) -> ledger.Act:
    return ledger.Act(
        organisation_id=acting.organisation_id,
        entry_type=EntryType.SHARE_GIVEN,
        subject=share.person_id,
        actor=acting.person_id,
        now=site.now(),
        body={
            "share": str(share.share_id),
            "employer": str(share.employer_id),
            "starts": share.starts.isoformat(),
            "ends": None if share.ends is None else share.ends.isoformat(),
        },
        details={"basis": share.basis, "consent_on_file": share.consent_on_file},
    )
