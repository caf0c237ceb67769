"""Sheets printed for answering by hand: queries and writers."""

import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, exists, func, select
from sqlalchemy.orm import aliased, undefer

from trainer.domain.errors import Missing
from trainer.domain.people import Language, UnitSystem
from trainer.domain.verification_code import NUMBER_BITS, code_for
from trainer.storage.attempts import DrawnScenario
from trainer.storage.database import Work
from trainer.storage.shown_scenarios import get_shown_of, list_shown_of
from trainer.storage.tables.paper import PaperAnswerRow, PaperScenarioRow, PaperSetRow, PaperSheetRow
from trainer.storage.tables.people import PersonRow


@dataclass(frozen=True, kw_only=True)
class NewPaperSet:
    """Sheets about to be printed; the id is the form's own, so that a form sent twice prints once."""

    paper_set_id: UUID
    organisation_id: UUID
    assignment_id: UUID
    title: str
    language: Language
    blueprint: dict[str, Any]
    left_out: list[int]
    made_by: UUID
    made_at: datetime


@dataclass(frozen=True, kw_only=True)
class NewSheet:
    """One sheet about to be printed, for a person or for nobody yet."""

    person_id: UUID | None
    units: UnitSystem
    scenarios: tuple[DrawnScenario, ...]


@dataclass(frozen=True, kw_only=True)
class PaperSet:
    """Sheets that were printed together, with how many there are and how many were handed in."""

    paper_set_id: UUID
    organisation_id: UUID
    assignment_id: UUID
    title: str
    language: Language
    blueprint: dict[str, Any]
    left_out: tuple[int, ...]
    made_by_name: str
    made_at: datetime
    sheets_count: int
    handed_in_count: int


@dataclass(frozen=True, kw_only=True)
class PaperSheet:
    """One sheet: for whom, and once it was handed in, which attempt came of it, when sat, keyed by whom."""

    sheet_id: UUID
    paper_set_id: UUID
    sheet_no: int
    code: str
    person_id: UUID | None
    person_name: str | None
    units: UnitSystem
    attempt_id: UUID | None
    sat_on: date | None
    keyed_by: UUID | None
    keyed_by_name: str | None
    keyed_at: datetime | None
    is_begun: bool  # an answer was keyed in

    @property
    def is_handed_in(self) -> bool:
        """Whether its answers are on the record."""
        return self.attempt_id is not None


def add_set(work: Work, new: NewPaperSet, *, sheets: Sequence[NewSheet]) -> None:
    """A set with its sheets, numbered from 1, each under a code that nobody can guess."""
    work.session.add(PaperSetRow(**vars(new)))
    work.session.flush()
    for number, each in enumerate(sheets, start=1):
        row = PaperSheetRow(
            paper_set_id=new.paper_set_id,
            sheet_no=number,
            code=code_for(secrets.randbits(NUMBER_BITS)),
            person_id=each.person_id,
            units=each.units,
        )
        work.session.add(row)
        work.session.flush()
        work.session.add_all(
            PaperScenarioRow(sheet_id=row.sheet_id, scenario_no=place, **vars(drawn))
            for place, drawn in enumerate(each.scenarios, start=1)
        )
    work.session.flush()


def find_set(work: Work, *, paper_set_id: UUID, organisation_id: UUID) -> PaperSet | None:
    """The set of that id, where this organisation has it."""
    found = _list(work, organisation_id, PaperSetRow.paper_set_id == paper_set_id)
    return found[0] if found else None


def get_set(work: Work, *, paper_set_id: UUID, organisation_id: UUID) -> PaperSet:
    """The same; raises Missing."""
    found = find_set(work, paper_set_id=paper_set_id, organisation_id=organisation_id)
    if found is None:
        raise Missing("set of sheets", paper_set_id)
    return found


def list_sets(work: Work, *, organisation_id: UUID, assignment_id: UUID) -> tuple[PaperSet, ...]:
    """The sets printed for one assignment, the latest first."""
    return _list(work, organisation_id, PaperSetRow.assignment_id == assignment_id)


def _list(work: Work, organisation_id: UUID, condition: ColumnElement[bool]) -> tuple[PaperSet, ...]:
    counts = func.count(PaperSheetRow.sheet_id), func.count(PaperSheetRow.attempt_id)
    counted = select(PaperSheetRow.paper_set_id, *counts).group_by(PaperSheetRow.paper_set_id).subquery()
    rows = work.session.execute(
        select(PaperSetRow, PersonRow.name, counted.c[1], counted.c[2])
        .join(PersonRow, PersonRow.person_id == PaperSetRow.made_by)
        .join(counted, counted.c.paper_set_id == PaperSetRow.paper_set_id)
        .where(PaperSetRow.organisation_id == organisation_id, condition)
        .order_by(PaperSetRow.made_at.desc(), PaperSetRow.paper_set_id)
    )
    return tuple(
        PaperSet(
            paper_set_id=row.paper_set_id,
            organisation_id=row.organisation_id,
            assignment_id=row.assignment_id,
            title=row.title,
            language=row.language,
            blueprint=row.blueprint,
            left_out=tuple(row.left_out),
            made_by_name=name,
            made_at=row.made_at,
            sheets_count=sheets,
            handed_in_count=handed_in,
        )
        for row, name, sheets, handed_in in rows
    )


_KEYER = aliased(PersonRow)


def _sheets() -> Select[PaperSheetRow, str, str, bool]:
    is_begun = exists().where(PaperAnswerRow.sheet_id == PaperSheetRow.sheet_id)
    return (
        select(PaperSheetRow, PersonRow.name, _KEYER.name, is_begun)
        .outerjoin(PersonRow, PersonRow.person_id == PaperSheetRow.person_id)
        .outerjoin(_KEYER, _KEYER.person_id == PaperSheetRow.keyed_by)
        .order_by(PaperSheetRow.sheet_no)
    )


def list_sheets(work: Work, *, paper_set_id: UUID) -> tuple[PaperSheet, ...]:
    """The sheets of a set by number."""
    rows = work.session.execute(_sheets().where(PaperSheetRow.paper_set_id == paper_set_id))
    return tuple(_sheet(*each) for each in rows)


def get_sheet(work: Work, *, code: str, organisation_id: UUID) -> PaperSheet:
    """The sheet with that code; raises Missing for another organisation's."""
    return _one(work, _sheets().where(PaperSheetRow.code == code, _of_organisation(organisation_id)), code)


def get_sheet_to_change(work: Work, *, code: str, organisation_id: UUID) -> PaperSheet:
    """The same, held against everybody else's changes until the transaction ends."""
    held = select(PaperSheetRow.sheet_id).where(PaperSheetRow.code == code).with_for_update()
    work.session.execute(held)
    of_code = _sheets().where(PaperSheetRow.code == code, _of_organisation(organisation_id))
    # read anew: somebody may have handed it in before the lock
    return _one(work, of_code.execution_options(populate_existing=True), code)


def find_sheet_of_attempt(work: Work, *, attempt_id: UUID) -> PaperSheet | None:
    """The sheet that an attempt was answered on, if it was answered on paper."""
    found = work.session.execute(_sheets().where(PaperSheetRow.attempt_id == attempt_id)).one_or_none()
    return None if found is None else _sheet(*found)


def _of_organisation(organisation_id: UUID) -> ColumnElement[bool]:
    own = select(PaperSetRow.paper_set_id).where(PaperSetRow.organisation_id == organisation_id)
    return PaperSheetRow.paper_set_id.in_(own)


def _one(work: Work, query: Select[PaperSheetRow, str, str, bool], code: str) -> PaperSheet:
    found = work.session.execute(query).one_or_none()
    if found is None:
        raise Missing("sheet", code)
    return _sheet(*found)


def _sheet(
    row: PaperSheetRow, person_name: str | None, keyed_by_name: str | None, is_begun: bool
) -> PaperSheet:
    return PaperSheet(
        sheet_id=row.sheet_id,
        paper_set_id=row.paper_set_id,
        sheet_no=row.sheet_no,
        code=row.code,
        person_id=row.person_id,
        person_name=person_name,
        units=row.units,
        attempt_id=row.attempt_id,
        sat_on=row.sat_on,
        keyed_by=row.keyed_by,
        keyed_by_name=keyed_by_name,
        keyed_at=row.keyed_at,
        is_begun=is_begun,
    )


def list_shown_of_set(
    work: Work, *, paper_set_id: UUID
) -> dict[UUID, tuple[tuple[int, dict[str, Any]], ...]]:
    """What may be shown of the scenarios of each sheet of a set, by sheet and number."""
    rows = work.session.execute(
        select(PaperScenarioRow.sheet_id, PaperScenarioRow.scenario_no, PaperScenarioRow.shown)
        .join(PaperSheetRow, PaperSheetRow.sheet_id == PaperScenarioRow.sheet_id)
        .where(PaperSheetRow.paper_set_id == paper_set_id)
        .order_by(PaperSheetRow.sheet_no, PaperScenarioRow.scenario_no)
    )
    found: dict[UUID, tuple[tuple[int, dict[str, Any]], ...]] = {}
    for sheet_id, number, shown in rows:
        found[sheet_id] = (*found.get(sheet_id, ()), (number, shown))
    return found


def list_shown(work: Work, *, sheet_id: UUID) -> tuple[tuple[int, dict[str, Any]], ...]:
    """What may be shown of the scenarios of one sheet, by number."""
    return list_shown_of(work, PaperScenarioRow, PaperScenarioRow.sheet_id == sheet_id)


def get_shown(work: Work, *, sheet_id: UUID, scenario_no: int) -> dict[str, Any]:
    """What may be shown of one scenario; raises Missing for a number that the sheet does not have."""
    owned = PaperScenarioRow.sheet_id == sheet_id
    return get_shown_of(work, PaperScenarioRow, owned, scenario_no=scenario_no)


def list_scenarios(work: Work, *, sheet_id: UUID) -> tuple[DrawnScenario, ...]:
    """The scenarios of a sheet with their answers, in their order; for marking and for the answer key."""
    rows = work.session.scalars(
        select(PaperScenarioRow)
        .where(PaperScenarioRow.sheet_id == sheet_id)
        .order_by(PaperScenarioRow.scenario_no)
        .options(undefer(PaperScenarioRow.drawn))
    )
    return tuple(
        DrawnScenario(
            family=row.family,
            seed=row.seed,
            difficulty_percent=row.difficulty_percent,
            fingerprint=row.fingerprint,
            content_version=row.content_version,
            core_version=row.core_version,
            policy_version=row.policy_version,
            shown=row.shown,
            drawn=row.drawn,
        )
        for row in rows
    )


def list_waiting_fingerprints(work: Work, *, person_id: UUID, family: str) -> frozenset[str]:
    """What of a family stands on sheets printed for a person, by fingerprint."""
    query = (
        select(PaperScenarioRow.fingerprint)
        .join(PaperSheetRow, PaperSheetRow.sheet_id == PaperScenarioRow.sheet_id)
        .where(PaperSheetRow.person_id == person_id, PaperScenarioRow.family == family)
    )
    return frozenset(work.session.scalars(query))
