"""Classes, modules and assignments of a training provider."""

from datetime import date, datetime
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from trainer.storage.tables.base import Base, Document, UtcDateTime


class TrainingClassRow(Base):
    """A group of apprentices that modules are assigned to together."""

    __tablename__ = "training_class"

    class_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    name: Mapped[str] = mapped_column(String(200))
    made_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    made_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (
        CheckConstraint("name <> ''", name="name_given"),
        UniqueConstraint("organisation_id", "name"),
    )


class ClassMemberRow(Base):
    """One apprentice in one class."""

    __tablename__ = "class_member"

    class_id: Mapped[UUID] = mapped_column(ForeignKey("training_class.class_id"), primary_key=True)
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"), primary_key=True, index=True)
    joined_at: Mapped[datetime] = mapped_column(UtcDateTime)


class ModuleRow(Base):
    """A blueprint under a title. It is never changed, since attempts refer to it; it can be retired."""

    __tablename__ = "module"

    module_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    title: Mapped[str] = mapped_column(String(200))
    blueprint: Mapped[dict[str, Any]] = mapped_column(Document)
    made_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    made_at: Mapped[datetime] = mapped_column(UtcDateTime)
    retired_at: Mapped[datetime | None] = mapped_column(UtcDateTime)

    __table_args__ = (
        CheckConstraint("title <> ''", name="title_given"),
        UniqueConstraint("organisation_id", "title"),
    )


class AssignmentRow(Base):
    """A module given to a class or to one person, until a day."""

    __tablename__ = "assignment"

    assignment_id: Mapped[UUID] = mapped_column(primary_key=True, default=uuid4)
    organisation_id: Mapped[UUID] = mapped_column(ForeignKey("organisation.organisation_id"))
    module_id: Mapped[UUID] = mapped_column(ForeignKey("module.module_id"), index=True)
    class_id: Mapped[UUID | None] = mapped_column(ForeignKey("training_class.class_id"), index=True)
    person_id: Mapped[UUID | None] = mapped_column(ForeignKey("person.person_id"), index=True)
    due_on: Mapped[date]
    attempts_allowed: Mapped[int]
    assigned_by: Mapped[UUID] = mapped_column(ForeignKey("person.person_id"))
    assigned_at: Mapped[datetime] = mapped_column(UtcDateTime)

    __table_args__ = (
        CheckConstraint("(class_id IS NULL) <> (person_id IS NULL)", name="to_class_or_person"),
        CheckConstraint("attempts_allowed BETWEEN 1 AND 10", name="attempts_allowed_1_to_10"),
        UniqueConstraint("module_id", "class_id", "due_on"),
        UniqueConstraint("module_id", "person_id", "due_on"),
        Index(None, "organisation_id", "due_on"),
    )
