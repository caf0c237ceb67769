"""Reading qualifications: one's own, those issued here, those of people shared with an employer."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from trainer.domain.attempts import AttemptKind
from trainer.domain.people import Acting, Share
from trainer.domain.permissions import Permission, Thing, permits, require
from trainer.domain.qualifications import (
    QualificationState,
    confirm_by,
    last_day,
    state_on,
)
from trainer.domain.reasons import Reason, reason
from trainer.domain.scope import Job, Scope, outside_scope
from trainer.scenario_files.records import from_json
from trainer.services import sight
from trainer.services.site import Site
from trainer.storage import observations, qualifications, results, shares
from trainer.storage.observations import RecordedObservation
from trainer.storage.qualifications import Qualification
from trainer.storage.results import AttemptSummary


@dataclass(frozen=True, kw_only=True)
class QualificationView:
    """A qualification as of a day: state, scope, and the days left including the last (negative: past)."""

    qualification: Qualification
    scope: Scope
    state: QualificationState
    confirm_by: date
    last_day: date
    days_left: int


@dataclass(frozen=True, kw_only=True)
class QualificationPage:
    """One qualification with the evidence behind it, and what the reader may do to it."""

    view: QualificationView
    attempts: tuple[AttemptSummary, ...]
    observations: tuple[RecordedObservation, ...]
    may_confirm: bool
    may_suspend: bool
    may_revoke: bool


@dataclass(frozen=True, kw_only=True)
class QualifiedPerson:
    """A person whose record an employer sees, with every qualification; none means in training."""

    person_id: UUID
    name: str
    share: Share
    qualifications: tuple[QualificationView, ...]


@dataclass(frozen=True, kw_only=True)
class JobAnswer:
    """Whether a person can do a job on a day: by which qualification, or why not by any."""

    person_id: UUID
    name: str
    fits: bool
    by: QualificationView | None
    reasons: tuple[Reason, ...]


def view_on(day: date, *, qualification: Qualification) -> QualificationView:
    """A qualification as of a day."""
    terms, events = qualification.terms, qualification.events
    last = last_day(terms, events=events)
    return QualificationView(
        qualification=qualification,
        scope=from_json(Scope, qualification.scope),
        state=state_on(day, terms=terms, events=events),
        confirm_by=confirm_by(terms, events=events),
        last_day=last,
        days_left=(last - day).days,
    )


def own_qualifications(site: Site, acting: Acting) -> tuple[QualificationView, ...]:
    """The acting person's own, whoever issued them."""
    require(Permission.READ_OWN_RECORD, acting=acting)
    with site.database.reading() as work:
        found = qualifications.list_of_people(work, people=[acting.person_id])
    return tuple(view_on(site.today(), qualification=each) for each in found)


def qualifications_here(site: Site, acting: Acting) -> tuple[QualificationView, ...]:
    """What the organisation acted in has issued, by name of person."""
    here = Thing(organisation_id=acting.organisation_id)
    require(Permission.READ_RESULTS, acting=acting, thing=here, what="qualification")
    with site.database.reading() as work:
        found = qualifications.list_of_organisation(work, organisation_id=acting.organisation_id)
    return tuple(view_on(site.today(), qualification=each) for each in found)


def qualification_page(site: Site, acting: Acting, *, qualification_id: UUID) -> QualificationPage:
    """One qualification with its evidence, for the person, the issuer, or an employer seeing the record."""
    with site.database.reading() as work:
        found = qualifications.get_qualification(work, qualification_id=qualification_id)
        thing = sight.of_qualification(site, work, found)
        require(Permission.READ_QUALIFICATION, acting=acting, thing=thing, what="qualification")
        evidence = qualifications.get_evidence(work, qualification_id=qualification_id)
        made = results.list_attempts_of_person(
            work,
            person_id=found.person_id,
            kind=AttemptKind.ASSESSED,
            organisation_id=found.organisation_id,
        )
        seen = observations.list_observations(
            work,
            person_id=found.person_id,
            organisation_id=found.organisation_id,
            only=evidence.observations,
        )
    return QualificationPage(
        view=view_on(site.today(), qualification=found),
        attempts=tuple(each for each in made if each.attempt_id in evidence.markings),
        observations=seen,
        may_confirm=permits(Permission.CONFIRM_QUALIFICATION, acting=acting, thing=thing),
        may_suspend=permits(Permission.SUSPEND_QUALIFICATION, acting=acting, thing=thing),
        may_revoke=permits(Permission.REVOKE_QUALIFICATION, acting=acting, thing=thing),
    )


def qualified_people(site: Site, acting: Acting) -> tuple[QualifiedPerson, ...]:
    """Everybody whose record the employer sees today, by name, with their qualifications as of today."""
    require(Permission.LIST_SHARED_PEOPLE, acting=acting)
    return _in_sight(site, acting, on=site.today())


def who_can(site: Site, acting: Acting, *, job: Job, on: date) -> tuple[JobAnswer, ...]:
    """Who of the people shared with the employer can do a job on a day, and why each other cannot; those who
    can come first."""
    require(Permission.FIND_WHO_CAN, acting=acting)
    answers = [_answer(each, job) for each in _in_sight(site, acting, on=on)]
    return tuple(sorted(answers, key=lambda each: not each.fits))


def _in_sight(site: Site, acting: Acting, *, on: date) -> tuple[QualifiedPerson, ...]:
    with site.database.reading() as work:
        seen = shares.list_people_in_sight(work, employer_id=acting.organisation_id, day=site.today())
        found = qualifications.list_of_people(work, people=[person.person_id for person, _ in seen])
    return tuple(
        QualifiedPerson(
            person_id=person.person_id,
            name=person.name,
            share=share,
            qualifications=tuple(
                view_on(on, qualification=each) for each in found if each.person_id == person.person_id
            ),
        )
        for person, share in seen
    )


def _answer(person: QualifiedPerson, job: Job) -> JobAnswer:
    refusals: list[Reason] = []
    for each in person.qualifications:
        against = _against(each, job)
        if not against:
            return JobAnswer(person_id=person.person_id, name=person.name, fits=True, by=each, reasons=())
        refusals += against
    if not person.qualifications:
        refusals = [reason("no-qualification")]
    return JobAnswer(
        person_id=person.person_id,
        name=person.name,
        fits=False,
        by=None,
        reasons=tuple(dict.fromkeys(refusals)),
    )


def _against(view: QualificationView, job: Job) -> list[Reason]:
    against = list(outside_scope(view.scope, job=job))
    if not view.state.is_in_force:
        against.append(reason("not-in-force-that-day", state=view.state, last_day=view.last_day.isoformat()))
    return against
