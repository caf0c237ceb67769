"""What instructors look at: who needs them, results of a class by module, one apprentice's history."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from uuid import UUID

from trainer.domain.errors import Missing
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.qualifications import QualificationState
from trainer.domain.standing import SkillStanding
from trainer.services.apprentice_home import skills_here, standings
from trainer.services.qualification_pages import QualificationView, view_on
from trainer.services.settling import settle_organisation, settle_person
from trainer.services.site import Site
from trainer.services.teaching import apprentices_of
from trainer.storage import memberships, modules, observations, people, qualifications, results
from trainer.storage.database import Work
from trainer.storage.modules import AssignmentSummary, ClassSummary, NamedPerson
from trainer.storage.observations import RecordedObservation
from trainer.storage.results import AttemptSummary


@dataclass(frozen=True, kw_only=True)
class ResultCell:
    """One person's results in one module: the attempt that counts (a pass, else the latest) and how many."""

    attempt: AttemptSummary
    attempts_count: int


@dataclass(frozen=True, kw_only=True)
class ResultRow:
    """One member of a class, with a cell for each module that they have attempted."""

    person: NamedPerson
    cells: Mapping[UUID, ResultCell]


@dataclass(frozen=True, kw_only=True)
class ClassResults:
    """A table of members against the modules that the class was given: (id, title), in order of title."""

    summary: ClassSummary
    modules: tuple[tuple[UUID, str], ...]
    rows: tuple[ResultRow, ...]


@dataclass(frozen=True, kw_only=True)
class ClassSkills:
    """The twelve skills of each member of a class, by name, and of the class taken together."""

    rows: tuple[tuple[NamedPerson, tuple[SkillStanding, ...]], ...]
    whole: tuple[SkillStanding, ...]


@dataclass(frozen=True, kw_only=True)
class ApprenticeHistory:
    """Everything that the organisation knows of one person's work, and all their qualifications from here."""

    person_id: UUID
    name: str
    skills: tuple[SkillStanding, ...]
    assignments: tuple[AssignmentSummary, ...]
    attempts: tuple[AttemptSummary, ...]
    observations: tuple[RecordedObservation, ...]
    qualifications: tuple[QualificationView, ...]


class NeedKind(StrEnum):
    """Why a person needs an instructor."""

    CRITICAL_FAILURE = "critical failure"
    FAILED = "failed"
    OVERDUE = "overdue"
    READY_TO_QUALIFY = "ready to qualify"  # passed assessed work and holds no qualification
    QUALIFICATION_DUE = "qualification due"
    SUSPENDED = "suspended"


@dataclass(frozen=True, kw_only=True)
class Need:
    """One person who needs an instructor, why, about what, and since or until which day."""

    kind: NeedKind
    person_id: UUID
    name: str
    about: str
    day: date
    attempt_id: UUID | None = None
    qualification_id: UUID | None = None


def class_results(site: Site, acting: Acting, *, class_id: UUID) -> ClassResults:
    """The results of a class of the organisation acted in."""
    _require(acting, "class")
    settle_organisation(site, organisation_id=acting.organisation_id)
    here = acting.organisation_id
    with site.database.reading() as work:
        summary = modules.get_class(work, class_id=class_id, organisation_id=here)
        members = modules.list_class_members(work, class_id=class_id)
        given = modules.list_assignments(work, organisation_id=here)
        made = results.list_assessed_attempts(
            work, organisation_id=here, people=[each.person_id for each in members]
        )
    titles = {each.module_id: each.module_title for each in given if each.class_id == class_id}
    return ClassResults(
        summary=summary,
        modules=tuple(sorted(titles.items(), key=lambda each: (each[1], each[0]))),
        rows=tuple(ResultRow(person=each, cells=_cells(each, titles, made)) for each in members),
    )


def _cells(
    person: NamedPerson, titles: Mapping[UUID, str], made: tuple[AttemptSummary, ...]
) -> dict[UUID, ResultCell]:
    cells = {}
    for module_id in titles:
        own = [each for each in made if (each.person_id, each.module_id) == (person.person_id, module_id)]
        if own:
            counts = next((each for each in own if each.passed), own[0])
            cells[module_id] = ResultCell(attempt=counts, attempts_count=len(own))
    return cells


def class_skills(site: Site, acting: Acting, *, class_id: UUID) -> ClassSkills:
    """The skills of a class, from the scenarios marked in the organisation acted in."""
    _require(acting, "class")
    here = acting.organisation_id
    with site.database.reading() as work:
        modules.get_class(work, class_id=class_id, organisation_id=here)
        members = modules.list_class_members(work, class_id=class_id)
        means = results.list_skill_means(
            work, people=[each.person_id for each in members], organisation_id=here
        )
        return ClassSkills(
            rows=tuple(
                (each, standings(site, work, here, [one for one in means if one.person_id == each.person_id]))
                for each in members
            ),
            whole=standings(site, work, here, means),
        )


def apprentice_history(site: Site, acting: Acting, *, person_id: UUID) -> ApprenticeHistory:
    """The history of a person who is or was of the organisation acted in."""
    _require(acting, "person")
    here = acting.organisation_id
    with site.database.reading() as work:
        if not memberships.list_memberships(work, person_id=person_id, organisation_id=here):
            raise Missing("person")
    settle_person(site, person_id=person_id)
    with site.database.reading() as work:
        held = qualifications.list_of_people(work, people=[person_id], organisation_id=here)
        return ApprenticeHistory(
            person_id=person_id,
            name=people.get_person(work, person_id).name,
            skills=skills_here(site, work, person_id=person_id, organisation_id=here),
            assignments=modules.list_assignments_for(work, person_id=person_id, organisation_id=here),
            attempts=results.list_attempts_of_person(work, person_id=person_id, organisation_id=here),
            observations=observations.list_observations(work, person_id=person_id, organisation_id=here),
            qualifications=tuple(view_on(site.today(), qualification=each) for each in held),
        )


def who_needs_you(site: Site, acting: Acting) -> tuple[Need, ...]:
    """The people who need an instructor today, the gravest reason first, then by day and name."""
    _require(acting, "person")
    settle_organisation(site, organisation_id=acting.organisation_id)
    with site.database.reading() as work:
        here = apprentices_of(site, work, acting.organisation_id)
        made = results.list_assessed_attempts(
            work, organisation_id=acting.organisation_id, people=[each.person_id for each in here]
        )
        issued = qualifications.list_of_organisation(work, organisation_id=acting.organisation_id)
        views = tuple(view_on(site.today(), qualification=each) for each in issued)
        needs = [
            *_failed(made),
            *_overdue(site, work, acting, here, made),
            *_ready(made, views),
            *_running_out(views),
        ]
    order = list(NeedKind)
    return tuple(sorted(needs, key=lambda each: (order.index(each.kind), each.day, each.name, each.about)))


def _failed(made: tuple[AttemptSummary, ...]) -> list[Need]:
    """The latest attempt of a person at a module, where it failed and none has passed."""
    needs = []
    for (_, _), own in _by_person_and_module(made).items():
        latest = own[0]
        if any(each.passed for each in own) or latest.passed is None:
            continue
        kind = NeedKind.CRITICAL_FAILURE if latest.critical_failures else NeedKind.FAILED
        needs.append(
            Need(
                kind=kind,
                person_id=latest.person_id,
                name=latest.person_name,
                about=latest.title,
                day=(latest.ended_at or latest.started_at).date(),
                attempt_id=latest.attempt_id,
            )
        )
    return needs


def _by_person_and_module(
    made: tuple[AttemptSummary, ...],
) -> dict[tuple[UUID, UUID | None], list[AttemptSummary]]:
    grouped: dict[tuple[UUID, UUID | None], list[AttemptSummary]] = {}
    for each in made:
        grouped.setdefault((each.person_id, each.module_id), []).append(each)
    return grouped


def _overdue(
    site: Site,
    work: Work,
    acting: Acting,
    here: tuple[NamedPerson, ...],
    made: tuple[AttemptSummary, ...],
) -> list[Need]:
    """Assignments past their day at which a person has not even begun."""
    begun = {(each.person_id, each.assignment_id) for each in made}
    given = modules.list_assignments(work, organisation_id=acting.organisation_id)
    names = {each.person_id: each.name for each in here}
    needs = []
    for each in given:
        if each.due_on >= site.today():
            continue
        for person_id in _given_to(work, each):
            if person_id in names and (person_id, each.assignment_id) not in begun:
                needs.append(
                    Need(
                        kind=NeedKind.OVERDUE,
                        person_id=person_id,
                        name=names[person_id],
                        about=each.module_title,
                        day=each.due_on,
                    )
                )
    return needs


def _given_to(work: Work, given: AssignmentSummary) -> tuple[UUID, ...]:
    if given.person_id is not None:
        return (given.person_id,)
    assert given.class_id is not None  # an assignment has one or the other
    return tuple(each.person_id for each in modules.list_class_members(work, class_id=given.class_id))


def _ready(made: tuple[AttemptSummary, ...], views: tuple[QualificationView, ...]) -> list[Need]:
    """People who have passed assessed work and were never awarded anything."""
    awarded = {each.qualification.person_id for each in views}
    latest: dict[UUID, AttemptSummary] = {}
    for each in made:
        if each.passed and each.person_id not in awarded:
            latest.setdefault(each.person_id, each)
    return [
        Need(
            kind=NeedKind.READY_TO_QUALIFY,
            person_id=each.person_id,
            name=each.person_name,
            about=each.title,
            day=(each.ended_at or each.started_at).date(),
            attempt_id=each.attempt_id,
        )
        for each in latest.values()
    ]


def _running_out(views: tuple[QualificationView, ...]) -> list[Need]:
    kinds = {
        QualificationState.DUE: NeedKind.QUALIFICATION_DUE,
        QualificationState.SUSPENDED: NeedKind.SUSPENDED,
    }
    return [
        Need(
            kind=kinds[each.state],
            person_id=each.qualification.person_id,
            name=each.qualification.person_name,
            about=each.qualification.code,
            day=each.last_day,
            qualification_id=each.qualification.qualification_id,
        )
        for each in views
        if each.state in kinds
    ]


def _require(acting: Acting, what: str) -> None:
    here = Thing(organisation_id=acting.organisation_id)
    require(Permission.READ_RESULTS, acting=acting, thing=here, what=what)
