"""Grades of explanations: what waits for one, and the levels given; they are added, never changed."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from sqlalchemy import select

from trainer.domain.attempts import AttemptKind
from trainer.domain.grades import GivenGrade, Grade
from trainer.storage.database import Work
from trainer.storage.markings import stands
from trainer.storage.tables.attempts import AttemptRow, GradeRow, MarkingRow, OutcomeRow
from trainer.storage.tables.people import PersonRow


@dataclass(frozen=True, kw_only=True)
class Waiting:
    """An explanation that waits for a grade: where it is, and whose it is, which no grader is shown."""

    attempt_id: UUID
    person_id: UUID
    scenario_no: int
    item_id: str
    family: str
    handed_in_at: datetime | None


def add_grade(work: Work, *, marking_id: UUID, grade: Grade) -> None:
    """The levels behind a marking that has just been added."""
    work.session.add(
        GradeRow(
            marking_id=marking_id,
            scenario_no=grade.scenario_no,
            item_id=grade.item_id,
            levels=dict(grade.levels),
            comment=grade.comment,
        )
    )
    work.session.flush()


def list_waiting(work: Work, *, organisation_id: UUID, but_of: UUID) -> tuple[Waiting, ...]:
    """What waits in an organisation's assessed attempts: question by question across people, and within one
    the longest first; none of the person's own."""
    rows = work.session.execute(
        select(
            AttemptRow.attempt_id,
            AttemptRow.person_id,
            OutcomeRow.scenario_no,
            OutcomeRow.item_id,
            OutcomeRow.family,
            AttemptRow.ended_at,
        )
        .join(MarkingRow, MarkingRow.attempt_id == AttemptRow.attempt_id)
        .join(OutcomeRow, OutcomeRow.marking_id == MarkingRow.marking_id)
        .where(
            AttemptRow.organisation_id == organisation_id,
            AttemptRow.kind == AttemptKind.ASSESSED,
            AttemptRow.person_id != but_of,
            OutcomeRow.score.is_(None),
            stands(),
        )
        .order_by(
            OutcomeRow.family,
            OutcomeRow.item_id,
            AttemptRow.ended_at,
            AttemptRow.attempt_id,
            OutcomeRow.scenario_no,
        )
    )
    return tuple(
        Waiting(
            attempt_id=attempt_id,
            person_id=person_id,
            scenario_no=number,
            item_id=item_id,
            family=family,
            handed_in_at=ended_at,
        )
        for attempt_id, person_id, number, item_id, family, ended_at in rows
    )


def list_grades(work: Work, *, attempt_id: UUID) -> Mapping[tuple[int, str], GivenGrade]:
    """The grades of an attempt by scenario number and item id."""
    rows = work.session.execute(
        select(GradeRow, MarkingRow, PersonRow.name)
        .join(MarkingRow, MarkingRow.marking_id == GradeRow.marking_id)
        .join(PersonRow, PersonRow.person_id == MarkingRow.marked_by)
        .where(MarkingRow.attempt_id == attempt_id)
        .order_by(MarkingRow.version)
    )
    return {(row.scenario_no, row.item_id): _stored(row, marking, name) for row, marking, name in rows}


def _stored(row: GradeRow, marking: MarkingRow, name: str) -> GivenGrade:
    assert marking.marked_by is not None  # a grade's marking is never the first
    return GivenGrade(
        grade=Grade(
            scenario_no=row.scenario_no, item_id=row.item_id, levels=dict(row.levels), comment=row.comment
        ),
        version=marking.version,
        graded_by=marking.marked_by,
        graded_by_name=name,
        graded_at=marking.marked_at,
    )
