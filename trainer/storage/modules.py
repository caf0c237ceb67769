"""Classes, modules and assignments: queries and writers. Everything belongs to one training provider."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, delete, func, or_, select

from trainer.domain.errors import Missing
from trainer.storage.database import Work
from trainer.storage.tables.people import PersonRow
from trainer.storage.tables.training import AssignmentRow, ClassMemberRow, ModuleRow, TrainingClassRow


@dataclass(frozen=True, kw_only=True)
class ClassSummary:
    """A class as a list shows it."""

    class_id: UUID
    name: str
    members_count: int


@dataclass(frozen=True, kw_only=True)
class NamedPerson:
    """A person by id and name."""

    person_id: UUID
    name: str


@dataclass(frozen=True, kw_only=True)
class NewModule:
    """A module about to be made; the blueprint is a document."""

    organisation_id: UUID
    title: str
    blueprint: dict[str, Any]
    made_by: UUID


@dataclass(frozen=True, kw_only=True)
class StoredModule:
    """A module with its blueprint as a document."""

    module_id: UUID
    organisation_id: UUID
    title: str
    blueprint: dict[str, Any]
    made_by: UUID
    made_at: datetime
    retired_at: datetime | None


@dataclass(frozen=True, kw_only=True)
class NewAssignment:
    """A module to be given to a class or to a person."""

    organisation_id: UUID
    module_id: UUID
    due_on: date
    attempts_allowed: int
    assigned_by: UUID
    class_id: UUID | None = None
    person_id: UUID | None = None


@dataclass(frozen=True, kw_only=True)
class AssignmentSummary:
    """An assignment with the names that a list shows."""

    assignment_id: UUID
    organisation_id: UUID
    module_id: UUID
    module_title: str
    class_id: UUID | None
    class_name: str | None
    person_id: UUID | None
    person_name: str | None
    due_on: date
    attempts_allowed: int
    assigned_by: UUID


def add_class(work: Work, *, organisation_id: UUID, name: str, made_by: UUID, now: datetime) -> UUID:
    """A new class; raises Duplicate for a name that the organisation has already given."""
    row = TrainingClassRow(organisation_id=organisation_id, name=name, made_by=made_by, made_at=now)
    work.session.add(row)
    work.session.flush()
    return row.class_id


def get_class(work: Work, *, class_id: UUID, organisation_id: UUID) -> ClassSummary:
    """The class of this organisation."""
    found = work.session.execute(
        _classes(organisation_id).where(TrainingClassRow.class_id == class_id)
    ).one_or_none()
    if found is None:
        raise Missing("class", class_id)
    return ClassSummary(class_id=found[0], name=found[1], members_count=found[2])


def list_classes(work: Work, *, organisation_id: UUID) -> tuple[ClassSummary, ...]:
    """The organisation's classes by name."""
    rows = work.session.execute(_classes(organisation_id))
    return tuple(ClassSummary(class_id=each[0], name=each[1], members_count=each[2]) for each in rows)


def _classes(organisation_id: UUID) -> Select[UUID, str, int]:
    members = func.count(ClassMemberRow.person_id)
    return (
        select(TrainingClassRow.class_id, TrainingClassRow.name, members)
        .outerjoin(ClassMemberRow, ClassMemberRow.class_id == TrainingClassRow.class_id)
        .where(TrainingClassRow.organisation_id == organisation_id)
        .group_by(TrainingClassRow.class_id, TrainingClassRow.name)
        .order_by(TrainingClassRow.name, TrainingClassRow.class_id)
    )


def add_class_member(work: Work, *, class_id: UUID, person_id: UUID, now: datetime) -> None:
    """Puts a person into a class; being in it already is no fault."""
    if work.session.get(ClassMemberRow, (class_id, person_id)) is None:
        work.session.add(ClassMemberRow(class_id=class_id, person_id=person_id, joined_at=now))
        work.session.flush()


def remove_class_member(work: Work, *, class_id: UUID, person_id: UUID) -> None:
    """Takes a person out of a class; not being in it is no fault."""
    work.session.execute(
        delete(ClassMemberRow).where(
            ClassMemberRow.class_id == class_id, ClassMemberRow.person_id == person_id
        )
    )


def list_class_members(work: Work, *, class_id: UUID) -> tuple[NamedPerson, ...]:
    """The people of a class by name."""
    rows = work.session.execute(
        select(PersonRow.person_id, PersonRow.name)
        .join(ClassMemberRow, ClassMemberRow.person_id == PersonRow.person_id)
        .where(ClassMemberRow.class_id == class_id)
        .order_by(PersonRow.name, PersonRow.person_id)
    )
    return tuple(NamedPerson(person_id=each[0], name=each[1]) for each in rows)


def add_module(work: Work, new: NewModule, *, now: datetime) -> UUID:
    """A new module; raises Duplicate for a title that the organisation has already given."""
    row = ModuleRow(**vars(new), made_at=now)
    work.session.add(row)
    work.session.flush()
    return row.module_id


def get_module(work: Work, *, module_id: UUID, organisation_id: UUID) -> StoredModule:
    """The module of this organisation."""
    row = work.session.scalar(
        select(ModuleRow).where(
            ModuleRow.module_id == module_id, ModuleRow.organisation_id == organisation_id
        )
    )
    if row is None:
        raise Missing("module", module_id)
    return _module(row)


def list_modules(work: Work, *, organisation_id: UUID) -> tuple[StoredModule, ...]:
    """The organisation's modules by title, those in use before the retired ones."""
    rows = work.session.scalars(
        select(ModuleRow)
        .where(ModuleRow.organisation_id == organisation_id)
        .order_by(ModuleRow.retired_at.is_not(None), ModuleRow.title, ModuleRow.module_id)
    )
    return tuple(_module(each) for each in rows)


def retire_module(work: Work, *, module_id: UUID, organisation_id: UUID, now: datetime) -> None:
    """No new assignments from here on; what was assigned stays."""
    row = work.session.scalar(
        select(ModuleRow).where(
            ModuleRow.module_id == module_id, ModuleRow.organisation_id == organisation_id
        )
    )
    if row is None:
        raise Missing("module", module_id)
    row.retired_at = row.retired_at or now


def _module(row: ModuleRow) -> StoredModule:
    return StoredModule(
        module_id=row.module_id,
        organisation_id=row.organisation_id,
        title=row.title,
        blueprint=row.blueprint,
        made_by=row.made_by,
        made_at=row.made_at,
        retired_at=row.retired_at,
    )


def add_assignment(work: Work, new: NewAssignment, *, now: datetime) -> UUID:
    """Gives a module out; raises Duplicate where the same was given to the same until the same day."""
    row = AssignmentRow(**vars(new), assigned_at=now)
    work.session.add(row)
    work.session.flush()
    return row.assignment_id


def get_assignment(work: Work, *, assignment_id: UUID, organisation_id: UUID) -> AssignmentSummary:
    """The assignment of this organisation."""
    return _one_assignment(work, assignment_id, AssignmentRow.organisation_id == organisation_id)


def get_assignment_for(
    work: Work, *, assignment_id: UUID, person_id: UUID, organisation_id: UUID
) -> AssignmentSummary:
    """The assignment, if it was given to this person or to a class that they are in."""
    return _one_assignment(
        work, assignment_id, AssignmentRow.organisation_id == organisation_id, given_to(person_id)
    )


def _one_assignment(work: Work, assignment_id: UUID, *conditions: ColumnElement[bool]) -> AssignmentSummary:
    found = work.session.execute(
        _assignments().where(AssignmentRow.assignment_id == assignment_id, *conditions)
    ).one_or_none()
    if found is None:
        raise Missing("assignment", assignment_id)
    return _summary(*found)


def list_assignments(work: Work, *, organisation_id: UUID) -> tuple[AssignmentSummary, ...]:
    """The organisation's assignments, the latest due first."""
    rows = work.session.execute(
        _assignments()
        .where(AssignmentRow.organisation_id == organisation_id)
        .order_by(AssignmentRow.due_on.desc(), ModuleRow.title, AssignmentRow.assignment_id)
    )
    return tuple(_summary(*each) for each in rows)


def list_assignments_for(
    work: Work, *, person_id: UUID, organisation_id: UUID
) -> tuple[AssignmentSummary, ...]:
    """What one person was given, directly or through a class, the first due first."""
    rows = work.session.execute(
        _assignments()
        .where(AssignmentRow.organisation_id == organisation_id, given_to(person_id))
        .order_by(AssignmentRow.due_on, ModuleRow.title, AssignmentRow.assignment_id)
    )
    return tuple(_summary(*each) for each in rows)


def given_to(person_id: UUID) -> ColumnElement[bool]:
    """The condition that an assignment was given to a person, directly or through a class."""
    classes = select(ClassMemberRow.class_id).where(ClassMemberRow.person_id == person_id)
    return or_(AssignmentRow.person_id == person_id, AssignmentRow.class_id.in_(classes))


def _assignments() -> Select[AssignmentRow, str, str, str]:
    return (
        select(AssignmentRow, ModuleRow.title, TrainingClassRow.name, PersonRow.name)
        .join(ModuleRow, ModuleRow.module_id == AssignmentRow.module_id)
        .outerjoin(TrainingClassRow, TrainingClassRow.class_id == AssignmentRow.class_id)
        .outerjoin(PersonRow, PersonRow.person_id == AssignmentRow.person_id)
    )


def _summary(
    row: AssignmentRow, module_title: str, class_name: str | None, person_name: str | None
) -> AssignmentSummary:
    return AssignmentSummary(
        assignment_id=row.assignment_id,
        organisation_id=row.organisation_id,
        module_id=row.module_id,
        module_title=module_title,
        class_id=row.class_id,
        class_name=class_name,
        person_id=row.person_id,
        person_name=person_name,
        due_on=row.due_on,
        attempts_allowed=row.attempts_allowed,
        assigned_by=row.assigned_by,
    )
