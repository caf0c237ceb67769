"""Markings of attempts: added, never changed; the one that nothing supersedes stands."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, select
from sqlalchemy.orm import aliased

from trainer.domain.attempts import ItemMark
from trainer.domain.errors import Missing
from trainer.storage.database import Work
from trainer.storage.tables.attempts import MarkedScenarioRow, MarkingRow, OutcomeRow
from trainer.storage.tables.people import PersonRow


@dataclass(frozen=True, kw_only=True)
class NewMarking:
    """A marking about to be added; the first has nobody behind it, a later one says who and why."""

    attempt_id: UUID
    version: int
    marked_at: datetime
    passed: bool | None
    total_frac: float | None
    critical_failures: list[str]
    policy_version: str
    core_version: str
    ledger_seq: int | None
    supersedes: UUID | None = None
    marked_by: UUID | None = None
    reason: str = ""


@dataclass(frozen=True, kw_only=True)
class ScenarioMarks:
    """One scenario within a marking: what it shows of the person, and the marks beside the keys."""

    scenario_no: int
    passed: bool | None
    done: dict[str, Any]
    marked: dict[str, Any]


@dataclass(frozen=True, kw_only=True)
class Marking:
    """A marking as it is read back; `marked_by_name` is empty for the first, which the core made."""

    marking_id: UUID
    attempt_id: UUID
    version: int
    marked_at: datetime
    marked_by: UUID | None
    marked_by_name: str
    reason: str
    passed: bool | None
    total_frac: float | None
    policy_version: str
    core_version: str
    ledger_seq: int | None


def add_marking(
    work: Work, new: NewMarking, *, scenarios: tuple[ScenarioMarks, ...], marks: tuple[ItemMark, ...]
) -> UUID:
    """A marking with its scenarios and outcomes; raises Duplicate where that version exists already."""
    row = MarkingRow(**vars(new))
    work.session.add(row)
    work.session.flush()
    marking_id = row.marking_id
    work.session.add_all(MarkedScenarioRow(marking_id=marking_id, **vars(each)) for each in scenarios)
    work.session.add_all(_outcome(marking_id, number, each) for number, each in enumerate(marks, start=1))
    work.session.flush()
    return marking_id


def _outcome(marking_id: UUID, item_no: int, mark: ItemMark) -> OutcomeRow:
    values = {**vars(mark), "why": list(mark.why), "misconceptions": list(mark.misconceptions)}
    return OutcomeRow(marking_id=marking_id, item_no=item_no, **values)


def stands() -> ColumnElement[bool]:
    """The condition that a marking is the latest of its attempt."""
    later = aliased(MarkingRow)
    return ~select(later.marking_id).where(later.supersedes == MarkingRow.marking_id).exists()


def get_standing_marking(work: Work, *, attempt_id: UUID) -> Marking:
    """The marking that stands; raises Missing before there is any."""
    found = work.session.execute(
        _markings().where(MarkingRow.attempt_id == attempt_id, stands())
    ).one_or_none()
    if found is None:
        raise Missing("marking")
    return _marking(*found)


def list_markings(work: Work, *, attempt_id: UUID) -> tuple[Marking, ...]:
    """Every marking of an attempt, the first one first."""
    rows = work.session.execute(
        _markings().where(MarkingRow.attempt_id == attempt_id).order_by(MarkingRow.version)
    )
    return tuple(_marking(*each) for each in rows)


def _markings() -> Select[MarkingRow, str]:
    return select(MarkingRow, PersonRow.name).outerjoin(
        PersonRow, PersonRow.person_id == MarkingRow.marked_by
    )


def _marking(row: MarkingRow, name: str | None) -> Marking:
    return Marking(
        marking_id=row.marking_id,
        attempt_id=row.attempt_id,
        version=row.version,
        marked_at=row.marked_at,
        marked_by=row.marked_by,
        marked_by_name=name or "",
        reason=row.reason,
        passed=row.passed,
        total_frac=row.total_frac,
        policy_version=row.policy_version,
        core_version=row.core_version,
        ledger_seq=row.ledger_seq,
    )


def list_marks(work: Work, *, marking_id: UUID) -> tuple[ItemMark, ...]:
    """The outcomes of a marking in the order of the items."""
    rows = work.session.scalars(
        select(OutcomeRow).where(OutcomeRow.marking_id == marking_id).order_by(OutcomeRow.item_no)
    )
    return tuple(
        ItemMark(
            scenario_no=each.scenario_no,
            family=each.family,
            item_id=each.item_id,
            skill=each.skill,
            weight=each.weight,
            score=each.score,
            correct=each.correct,
            answered=each.answered,
            critical_missed=each.critical_missed,
            why=tuple(each.why),
            misconceptions=tuple(each.misconceptions),
            overridden=each.overridden,
        )
        for each in rows
    )


def list_scenario_marks(work: Work, *, marking_id: UUID) -> tuple[ScenarioMarks, ...]:
    """The scenarios of a marking by number."""
    rows = work.session.execute(
        select(
            MarkedScenarioRow.scenario_no,
            MarkedScenarioRow.passed,
            MarkedScenarioRow.done,
            MarkedScenarioRow.marked,
        )
        .where(MarkedScenarioRow.marking_id == marking_id)
        .order_by(MarkedScenarioRow.scenario_no)
    )
    return tuple(
        ScenarioMarks(scenario_no=number, passed=passed, done=done, marked=marked)
        for number, passed, done, marked in rows
    )
