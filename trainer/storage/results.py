"""Lists over attempts and their standing marks: histories, results of classes, counts by skill and family."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import ColumnElement, and_, func, select

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.storage.database import Work
from trainer.storage.markings import stands
from trainer.storage.modules import given_to
from trainer.storage.tables.attempts import (
    AttemptRow,
    AttemptScenarioRow,
    MarkedScenarioRow,
    MarkingRow,
    OutcomeRow,
)
from trainer.storage.tables.paper import PaperSheetRow
from trainer.storage.tables.people import PersonRow
from trainer.storage.tables.training import AssignmentRow, ClassMemberRow, TrainingClassRow


@dataclass(frozen=True, kw_only=True)
class AttemptSummary:
    """An attempt as a list shows it; no verdict before it is marked and, where need be, graded."""

    attempt_id: UUID
    person_id: UUID
    person_name: str
    organisation_id: UUID
    kind: AttemptKind
    state: AttemptState
    title: str
    module_id: UUID | None
    assignment_id: UUID | None
    started_at: datetime
    expires_at: datetime | None
    ended_at: datetime | None
    marking_id: UUID | None
    passed: bool | None
    total_frac: float | None
    critical_failures: tuple[str, ...]
    on_paper: bool

    @property
    def waits_for_grade(self) -> bool:
        """Whether it is marked and only a person's grade stands between it and a pass."""
        return self.marking_id is not None and self.passed is None


@dataclass(frozen=True, kw_only=True)
class SkillMean:
    """What one scenario scored in one skill, and when."""

    person_id: UUID
    skill: int
    mean_frac: float
    marked_at: datetime


def list_attempts_of_person(
    work: Work, *, person_id: UUID, kind: AttemptKind | None = None, organisation_id: UUID | None = None
) -> tuple[AttemptSummary, ...]:
    """One person's attempts, the latest first; of one kind or one organisation where asked."""
    conditions = [AttemptRow.person_id == person_id]
    if kind is not None:
        conditions.append(AttemptRow.kind == kind)
    if organisation_id is not None:
        conditions.append(AttemptRow.organisation_id == organisation_id)
    return _attempts(work, *conditions)


def list_assessed_attempts(
    work: Work, *, organisation_id: UUID, people: Sequence[UUID] | None = None
) -> tuple[AttemptSummary, ...]:
    """The organisation's assessed attempts, the latest first; of some people where asked."""
    conditions = [AttemptRow.organisation_id == organisation_id, AttemptRow.kind == AttemptKind.ASSESSED]
    if people is not None:
        conditions.append(AttemptRow.person_id.in_(people))
    return _attempts(work, *conditions)


def _attempts(work: Work, *conditions: ColumnElement[bool]) -> tuple[AttemptSummary, ...]:
    rows = work.session.execute(
        select(AttemptRow, PersonRow.name, MarkingRow, PaperSheetRow.sheet_id)
        .join(PersonRow, PersonRow.person_id == AttemptRow.person_id)
        .outerjoin(MarkingRow, and_(MarkingRow.attempt_id == AttemptRow.attempt_id, stands()))
        .outerjoin(PaperSheetRow, PaperSheetRow.attempt_id == AttemptRow.attempt_id)
        .where(*conditions)
        .order_by(AttemptRow.started_at.desc(), AttemptRow.attempt_id)
    )
    return tuple(_summary(*each) for each in rows)


def _summary(row: AttemptRow, name: str, marking: MarkingRow | None, sheet_id: UUID | None) -> AttemptSummary:
    return AttemptSummary(
        attempt_id=row.attempt_id,
        person_id=row.person_id,
        person_name=name,
        organisation_id=row.organisation_id,
        kind=row.kind,
        state=row.state,
        title=row.title,
        module_id=row.module_id,
        assignment_id=row.assignment_id,
        started_at=row.started_at,
        expires_at=row.expires_at,
        ended_at=row.ended_at,
        marking_id=marking.marking_id if marking else None,
        passed=marking.passed if marking else None,
        total_frac=marking.total_frac if marking else None,
        critical_failures=tuple(marking.critical_failures) if marking else (),
        on_paper=sheet_id is not None,
    )


def list_skill_means(
    work: Work, *, people: Sequence[UUID], organisation_id: UUID | None = None
) -> tuple[SkillMean, ...]:
    """The mean of each skill in each scenario that these people have been marked in, the latest first."""
    # over what is graded: an explanation that waits neither helps nor harms
    weighted = func.sum(OutcomeRow.weight * OutcomeRow.score) / func.sum(OutcomeRow.weight)
    query = (
        select(AttemptRow.person_id, OutcomeRow.skill, weighted, MarkingRow.marked_at)
        .join(MarkingRow, MarkingRow.attempt_id == AttemptRow.attempt_id)
        .join(OutcomeRow, OutcomeRow.marking_id == MarkingRow.marking_id)
        .where(stands(), AttemptRow.person_id.in_(people), OutcomeRow.score.is_not(None))
        .group_by(
            AttemptRow.person_id,
            OutcomeRow.marking_id,
            OutcomeRow.scenario_no,
            OutcomeRow.skill,
            MarkingRow.marked_at,
        )
        .order_by(
            MarkingRow.marked_at.desc(), OutcomeRow.marking_id, OutcomeRow.scenario_no, OutcomeRow.skill
        )
    )
    if organisation_id is not None:
        query = query.where(AttemptRow.organisation_id == organisation_id)
    return tuple(
        SkillMean(person_id=person_id, skill=skill, mean_frac=mean, marked_at=marked_at)
        for person_id, skill, mean, marked_at in work.session.execute(query)
    )


def count_practice_by_family(work: Work, *, person_id: UUID) -> dict[str, int]:
    """How many practice attempts a person has made at each family."""
    rows = work.session.execute(
        select(AttemptScenarioRow.family, func.count())
        .join(AttemptRow, AttemptRow.attempt_id == AttemptScenarioRow.attempt_id)
        .where(AttemptRow.person_id == person_id, AttemptRow.kind == AttemptKind.PRACTICE)
        .group_by(AttemptScenarioRow.family)
    )
    return {each[0]: each[1] for each in rows}


@dataclass(frozen=True, kw_only=True)
class PassedScenario:
    """A passed scenario of a passed assessed attempt: what it shows, as a document."""

    attempt_id: UUID
    marking_id: UUID
    scenario_no: int
    done: dict[str, object]


def list_passed_scenarios(
    work: Work, *, person_id: UUID, organisation_id: UUID, attempts: Sequence[UUID]
) -> tuple[PassedScenario, ...]:
    """The scenarios passed within those of the attempts that are this person's, assessed and passed."""
    rows = work.session.execute(
        select(
            AttemptRow.attempt_id,
            MarkingRow.marking_id,
            MarkedScenarioRow.scenario_no,
            MarkedScenarioRow.done,
        )
        .join(MarkingRow, MarkingRow.attempt_id == AttemptRow.attempt_id)
        .join(MarkedScenarioRow, MarkedScenarioRow.marking_id == MarkingRow.marking_id)
        .where(
            AttemptRow.attempt_id.in_(attempts),
            AttemptRow.person_id == person_id,
            AttemptRow.organisation_id == organisation_id,
            AttemptRow.kind == AttemptKind.ASSESSED,
            MarkingRow.passed.is_(True),
            MarkedScenarioRow.passed.is_(True),
            stands(),
        )
        .order_by(AttemptRow.started_at, AttemptRow.attempt_id, MarkedScenarioRow.scenario_no)
    )
    return tuple(
        PassedScenario(attempt_id=each[0], marking_id=each[1], scenario_no=each[2], done=each[3])
        for each in rows
    )


def is_taught_by(work: Work, *, person_id: UUID, instructor_id: UUID) -> bool:
    """Whether the instructor made a class that the person is in, assigned them a module, or assigned one that
    they have attempted, or supervised them on paper: taking somebody out of a class does not undo that."""
    classes = select(ClassMemberRow.class_id).where(ClassMemberRow.person_id == person_id)
    own_class = select(TrainingClassRow.class_id).where(
        TrainingClassRow.class_id.in_(classes), TrainingClassRow.made_by == instructor_id
    )
    assigned = select(AssignmentRow.assignment_id).where(AssignmentRow.assigned_by == instructor_id)
    attempted = assigned.join(AttemptRow, AttemptRow.assignment_id == AssignmentRow.assignment_id).where(
        AttemptRow.person_id == person_id
    )
    keyed = select(PaperSheetRow.sheet_id).where(
        PaperSheetRow.person_id == person_id, PaperSheetRow.keyed_by == instructor_id
    )
    ways = (own_class, assigned.where(given_to(person_id)), attempted, keyed)
    return any(work.session.execute(each.limit(1)).first() is not None for each in ways)
