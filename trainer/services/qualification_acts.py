"""Acts on a qualification: the event and its entry in the issuer's ledger, always together."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from trainer.domain.ledger import EntryType, Plain
from trainer.domain.people import Acting
from trainer.domain.qualifications import QualificationAct, QualificationEvent
from trainer.domain.scope import Scope
from trainer.scenario_files.records import from_json
from trainer.services.attempt_acts import word
from trainer.services.site import Site
from trainer.storage import ledger, qualifications
from trainer.storage.database import Work
from trainer.storage.ledger import Act
from trainer.storage.qualifications import Evidence, NewQualification, Qualification

# A suspension that is lifted is entered as a confirmation that supersedes the suspension.
_ENTRY_TYPES = {
    QualificationAct.CONFIRMED: EntryType.QUALIFICATION_CONFIRMED,
    QualificationAct.LIFTED: EntryType.QUALIFICATION_CONFIRMED,
    QualificationAct.SUSPENDED: EntryType.QUALIFICATION_SUSPENDED,
    QualificationAct.REVOKED: EntryType.QUALIFICATION_REVOKED,
}


@dataclass(frozen=True, kw_only=True)
class Deed:
    """What is done to a qualification, and why."""

    act: QualificationAct
    reason: str


def record(site: Site, work: Work, acting: Acting, *, qualification: Qualification, deed: Deed) -> None:
    """Records an act by the acting person, today."""
    seq = ledger.append(
        work,
        Act(
            organisation_id=qualification.organisation_id,
            entry_type=_ENTRY_TYPES[deed.act],
            subject=qualification.person_id,
            actor=acting.person_id,
            now=site.now(),
            body={
                "qualification": str(qualification.qualification_id),
                "act": deed.act.value,
                "on": site.today().isoformat(),
                "acting_for": str(acting.organisation_id),
            },
            reason=deed.reason,
            supersedes=_lifted_seq(qualification) if deed.act is QualificationAct.LIFTED else None,
        ),
    ).seq
    qualifications.record_event(
        work,
        _event(site, acting, deed),
        qualification_id=qualification.qualification_id,
        organisation_id=acting.organisation_id,
        ledger_seq=seq,
    )


def _lifted_seq(qualification: Qualification) -> int:
    """The entry of the suspension that is being lifted."""
    return next(
        each.ledger_seq
        for each in reversed(qualification.history)
        if each.event.act is QualificationAct.SUSPENDED
    )


def _event(site: Site, acting: Acting, deed: Deed) -> QualificationEvent:
    return QualificationEvent(
        act=deed.act, day=site.today(), at=site.now(), by=acting.person_id, reason=deed.reason
    )


def record_award(
    site: Site, work: Work, acting: Acting, *, new: NewQualification, evidence: Evidence
) -> UUID:
    """Records a new qualification with its evidence, its first event and its entry."""
    qualification_id = qualifications.add_qualification(work, new, evidence=evidence)
    body: dict[str, Plain] = {
        "qualification": str(qualification_id),
        "starts": _day(new.terms.starts),
        "valid_until": _day(new.terms.valid_until),
        "scope": _scope_body(from_json(Scope, new.scope)),
        "attempts": sorted(str(each) for each in evidence.markings),
        "observations": sorted(str(each) for each in evidence.observations),
        "one_person_taught_and_decided": new.one_person_taught_and_decided,
        "policy": new.policy_version,
    }
    act = Act(
        organisation_id=new.organisation_id,
        entry_type=EntryType.QUALIFICATION_AWARDED,
        subject=new.person_id,
        actor=acting.person_id,
        now=new.awarded_at,
        body=body,
    )
    qualifications.record_event(
        work,
        _event(site, acting, Deed(act=QualificationAct.AWARDED, reason="")),
        qualification_id=qualification_id,
        organisation_id=new.organisation_id,
        ledger_seq=ledger.append(work, act).seq,
    )
    return qualification_id


def _scope_body(scope: Scope) -> dict[str, Plain]:
    return {
        "materials": [word(each) for each in scope.materials],
        "gases": [word(each) for each in scope.gases],
        "outside_diameter_from_mm": f"{scope.outside_diameter_from_m * 1e3:.2f}",
        "outside_diameter_to_mm": f"{scope.outside_diameter_to_m * 1e3:.2f}",
        "section_length_to_mm": f"{scope.section_length_to_m * 1e3:.1f}",
        "situations": [word(each) for each in scope.situations],
        "confined_space": scope.confined_space,
    }


def _day(day: date) -> str:
    return day.isoformat()
