"""Qualifying: award from evidence, confirm, suspend, lift a suspension, revoke. It lapses by itself."""

from dataclasses import dataclass
from uuid import UUID

from trainer.domain.attempts import AttemptKind
from trainer.domain.errors import Missing
from trainer.domain.people import Acting, Role
from trainer.domain.permissions import Permission, Thing, may_sign_as_instructor, require
from trainer.domain.policy import Policy
from trainer.domain.qualifications import (
    Appraisal,
    QualificationAct,
    Signing,
    appraise,
    require_possible,
    state_on,
    terms_from,
)
from trainer.domain.reasons import Reason, reason, refuse_for
from trainer.domain.scope import Done, Scope
from trainer.scenario_files.records import from_json, to_json
from trainer.services import sight
from trainer.services.qualification_acts import Deed, record, record_award
from trainer.services.settling import settle_person
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import attempts, memberships, observations, people, qualifications, results
from trainer.storage.database import Work
from trainer.storage.observations import RecordedObservation
from trainer.storage.qualifications import Evidence, NewQualification, Qualification
from trainer.storage.results import AttemptSummary


@dataclass(frozen=True, kw_only=True)
class Award:
    """What an instructor chooses to rest a qualification on; the token is the form's own."""

    person_id: UUID
    attempt_ids: tuple[UUID, ...]
    observation_ids: tuple[UUID, ...]
    award_token: UUID


@dataclass(frozen=True, kw_only=True)
class AwardPage:
    """The evidence that a person has here: passed assessed attempts and observations, the latest first."""

    person_id: UUID
    person_name: str
    attempts: tuple[AttemptSummary, ...]
    observations: tuple[RecordedObservation, ...]


@dataclass(frozen=True, kw_only=True)
class _Weighed:
    appraisal: Appraisal
    evidence: Evidence
    signing: Signing
    policy: Policy


def award_page(site: Site, acting: Acting, *, person_id: UUID) -> AwardPage:
    """What may be chosen from to award a person of the organisation acted in."""
    _require_award(acting)
    settle_person(site, person_id=person_id)
    with site.database.reading() as work:
        _require_member(work, acting, person_id)
        made = results.list_attempts_of_person(
            work,
            person_id=person_id,
            kind=AttemptKind.ASSESSED,
            organisation_id=acting.organisation_id,
        )
        seen = observations.list_observations(
            work, person_id=person_id, organisation_id=acting.organisation_id
        )
        name = people.get_person(work, person_id).name
    return AwardPage(
        person_id=person_id,
        person_name=name,
        attempts=tuple(each for each in made if each.passed),
        observations=seen,
    )


def appraise_award(site: Site, acting: Acting, *, award: Award) -> Appraisal:
    """The scope that the chosen evidence would carry, and every reason against it; nothing is stored."""
    _require_award(acting)
    with site.database.reading() as work:
        _require_member(work, acting, award.person_id)
        return _weighed(site, work, acting, award).appraisal


def award(site: Site, acting: Acting, *, award: Award) -> UUID:
    """Awards the scope that the evidence carries; raises RefusedFor with every reason. The same form sent
    twice awards once."""
    _require_award(acting)
    settle_person(site, person_id=award.person_id)
    with site.database.work() as work:
        _require_member(work, acting, award.person_id)
        attempts.lock_person(work, person_id=award.person_id)  # the same form sent twice at once
        known = qualifications.find_by_award_token(work, award_token=award.award_token)
        if known is not None:
            return known
        weighed = _weighed(site, work, acting, award)
        scope = weighed.appraisal.scope
        refuse_for(weighed.appraisal.refusals)
        assert scope is not None  # without one there is a refusal
        new = _new_qualification(site, acting, award, weighed, scope)
        return record_award(site, work, acting, new=new, evidence=weighed.evidence)


def _new_qualification(
    site: Site, acting: Acting, award: Award, weighed: _Weighed, scope: Scope
) -> NewQualification:
    return NewQualification(
        person_id=award.person_id,
        organisation_id=acting.organisation_id,
        award_token=award.award_token,
        awarded_by=acting.person_id,
        awarded_at=site.now(),
        terms=terms_from(site.today(), rules=weighed.policy.qualification),
        scope=to_json(scope),
        one_person_taught_and_decided=weighed.signing.also_taught,
        policy_version=weighed.policy.version,
    )


def _weighed(site: Site, work: Work, acting: Acting, award: Award) -> _Weighed:
    policy = policy_of(work, site, organisation_id=acting.organisation_id)
    passed = results.list_passed_scenarios(
        work,
        person_id=award.person_id,
        organisation_id=acting.organisation_id,
        attempts=award.attempt_ids,
    )
    seen = observations.list_observations(
        work,
        person_id=award.person_id,
        organisation_id=acting.organisation_id,
        only=award.observation_ids,
    )
    if len(seen) != len(set(award.observation_ids)):
        raise Missing("observation")
    signing = Signing(
        signer_id=acting.person_id,
        person_id=award.person_id,
        has_authority=may_sign_as_instructor(_roles_today(site, work, acting)),
        also_taught=results.is_taught_by(work, person_id=award.person_id, instructor_id=acting.person_id),
    )
    appraisal = appraise(
        [from_json(Done, each.done) for each in passed],
        observations=[each.observation for each in seen],
        signing=signing,
        policy=policy,
    )
    evidence = Evidence(
        markings={each.attempt_id: each.marking_id for each in passed},
        observations=tuple(each.observation.observation_id for each in seen),
    )
    uncounted = _uncounted(award, evidence)
    appraisal = Appraisal(
        scope=appraisal.scope,
        refusals=(*appraisal.refusals, *uncounted),
        remarks=appraisal.remarks,
    )
    return _Weighed(appraisal=appraisal, evidence=evidence, signing=signing, policy=policy)


def _uncounted(award: Award, evidence: Evidence) -> tuple[Reason, ...]:
    """Attempts chosen that are not passed assessed ones of this person here."""
    return tuple(
        reason("attempt-does-not-count", attempt=str(each))
        for each in award.attempt_ids
        if each not in evidence.markings
    )


def confirm(site: Site, acting: Acting, *, qualification_id: UUID, proof_of_use: str) -> None:
    """Keeps a qualification alive for another term of confirmation, on proof that the person kept purging."""
    deed = Deed(act=QualificationAct.CONFIRMED, reason=proof_of_use.strip())
    _do(site, acting, Permission.CONFIRM_QUALIFICATION, qualification_id=qualification_id, deed=deed)


def suspend(site: Site, acting: Acting, *, qualification_id: UUID, reason_given: str) -> None:
    """Takes a qualification out of force until the suspension is lifted."""
    deed = Deed(act=QualificationAct.SUSPENDED, reason=reason_given.strip())
    _do(site, acting, Permission.SUSPEND_QUALIFICATION, qualification_id=qualification_id, deed=deed)


def lift(site: Site, acting: Acting, *, qualification_id: UUID, reason_given: str) -> None:
    """Ends a suspension; the terms run on as they were."""
    deed = Deed(act=QualificationAct.LIFTED, reason=reason_given.strip())
    _do(site, acting, Permission.SUSPEND_QUALIFICATION, qualification_id=qualification_id, deed=deed)


def revoke(site: Site, acting: Acting, *, qualification_id: UUID, reason_given: str) -> None:
    """Withdraws a qualification for good."""
    deed = Deed(act=QualificationAct.REVOKED, reason=reason_given.strip())
    _do(site, acting, Permission.REVOKE_QUALIFICATION, qualification_id=qualification_id, deed=deed)


def _do(site: Site, acting: Acting, permission: Permission, *, qualification_id: UUID, deed: Deed) -> None:
    with site.database.work() as work:
        found = qualifications.get_qualification_to_change(work, qualification_id=qualification_id)
        thing = sight.of_qualification(site, work, found)
        require(permission, acting=acting, thing=thing, what="qualification")
        if not acting.roles <= _roles_today(site, work, acting):
            refuse_for((reason("signer-without-authority-today"),))
        refuse_for(() if deed.reason else (reason("reason-missing"),))
        if _is_repeat(site, acting, found, deed):
            return
        state = state_on(site.today(), terms=found.terms, events=found.events)
        require_possible(deed.act, state=state)
        record(site, work, acting, qualification=found, deed=deed)


def _is_repeat(site: Site, acting: Acting, found: Qualification, deed: Deed) -> bool:
    """The same act by the same person on the same day for the same reason: the form was sent twice."""
    last = found.events[-1]
    return (last.act, last.by, last.day, last.reason) == (
        deed.act,
        acting.person_id,
        site.today(),
        deed.reason,
    )


def _roles_today(site: Site, work: Work, acting: Acting) -> frozenset[Role]:
    return memberships.roles_on(
        work, person_id=acting.person_id, organisation_id=acting.organisation_id, day=site.today()
    )


def _require_award(acting: Acting) -> None:
    here = Thing(organisation_id=acting.organisation_id)
    require(Permission.AWARD_QUALIFICATION, acting=acting, thing=here, what="person")


def _require_member(work: Work, acting: Acting, person_id: UUID) -> None:
    held = memberships.list_memberships(work, person_id=person_id, organisation_id=acting.organisation_id)
    if not held:
        raise Missing("person")
