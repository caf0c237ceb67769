"""Teaching: classes, modules and assignments of one training provider."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from trainer.domain.errors import Missing, WrongState
from trainer.domain.modules import Blueprint, FamilyOutline, ItemOutline, Module, blueprint_faults
from trainer.domain.people import Acting, Role
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.reasons import Reason, reason, refuse_for
from trainer.scenario_files.records import from_json, to_json
from trainer.services.family_library import known_families, offered_families
from trainer.services.site import Site
from trainer.storage import memberships, modules
from trainer.storage.database import Work
from trainer.storage.modules import (
    AssignmentSummary,
    ClassSummary,
    NamedPerson,
    NewAssignment,
    NewModule,
    StoredModule,
)

MOST_ATTEMPTS = 10
LONGEST_NAME = 200


@dataclass(frozen=True, kw_only=True)
class ClassPage:
    """A class with its members, the apprentices who could join it, and what it was given."""

    summary: ClassSummary
    members: tuple[NamedPerson, ...]
    others: tuple[NamedPerson, ...]
    assignments: tuple[AssignmentSummary, ...]


@dataclass(frozen=True, kw_only=True)
class ModulePage:
    """A module with the assignments of it."""

    module: Module
    assignments: tuple[AssignmentSummary, ...]


@dataclass(frozen=True, kw_only=True)
class Giving:
    """A module to be given out: until when, and how many attempts each person may make."""

    module_id: UUID
    due_on: date
    attempts_allowed: int = 1


def make_class(site: Site, acting: Acting, *, name: str) -> UUID:
    """A new class; raises Duplicate for a name in use."""
    _require(acting, Permission.MANAGE_CLASS, "class")
    refuse_for(_name_faults(name))
    with site.database.work() as work:
        return modules.add_class(
            work,
            organisation_id=acting.organisation_id,
            name=name.strip(),
            made_by=acting.person_id,
            now=site.now(),
        )


def classes(site: Site, acting: Acting) -> tuple[ClassSummary, ...]:
    """The classes of the organisation acted in, by name."""
    _require(acting, Permission.MANAGE_CLASS, "class")
    with site.database.reading() as work:
        return modules.list_classes(work, organisation_id=acting.organisation_id)


def class_page(site: Site, acting: Acting, *, class_id: UUID) -> ClassPage:
    """One class of the organisation acted in."""
    _require(acting, Permission.MANAGE_CLASS, "class")
    with site.database.reading() as work:
        summary = modules.get_class(work, class_id=class_id, organisation_id=acting.organisation_id)
        members = modules.list_class_members(work, class_id=class_id)
        given = modules.list_assignments(work, organisation_id=acting.organisation_id)
        everybody = apprentices_of(site, work, acting.organisation_id)
    return ClassPage(
        summary=summary,
        members=members,
        others=tuple(each for each in everybody if each not in members),
        assignments=tuple(each for each in given if each.class_id == class_id),
    )


def apprentices(site: Site, acting: Acting) -> tuple[NamedPerson, ...]:
    """The apprentices of the organisation acted in today, by name."""
    _require(acting, Permission.READ_RESULTS, "apprentice")
    with site.database.reading() as work:
        return apprentices_of(site, work, acting.organisation_id)


def apprentices_of(site: Site, work: Work, organisation_id: UUID) -> tuple[NamedPerson, ...]:
    """Everybody who is an apprentice of the organisation today, by name."""
    return tuple(
        NamedPerson(person_id=each.person.person_id, name=each.person.name)
        for each in memberships.list_members(work, organisation_id=organisation_id)
        if any(held.role is Role.APPRENTICE and held.holds_on(site.today()) for held in each.memberships)
    )


def add_to_class(site: Site, acting: Acting, *, class_id: UUID, person_id: UUID) -> None:
    """Puts an apprentice of the organisation into a class; twice is once."""
    _require(acting, Permission.MANAGE_CLASS, "class")
    with site.database.work() as work:
        modules.get_class(work, class_id=class_id, organisation_id=acting.organisation_id)
        _require_apprentice(site, work, acting, person_id)
        modules.add_class_member(work, class_id=class_id, person_id=person_id, now=site.now())


def remove_from_class(site: Site, acting: Acting, *, class_id: UUID, person_id: UUID) -> None:
    """Takes a person out of a class; what they were given through it goes with it, their attempts stay."""
    _require(acting, Permission.MANAGE_CLASS, "class")
    with site.database.work() as work:
        modules.get_class(work, class_id=class_id, organisation_id=acting.organisation_id)
        modules.remove_class_member(work, class_id=class_id, person_id=person_id)


def family_titles(site: Site, acting: Acting) -> dict[str, str]:
    """The titles of every family by id, of own jobs that were withdrawn too: old modules name them."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    with site.database.reading() as work:
        known = known_families(site, work, organisation_id=acting.organisation_id)
    return {each.id: each.title for each in known.values()}


def question_texts(site: Site, acting: Acting) -> dict[tuple[str, str], str]:
    """What each item of every family asks, by family and item, before anything is drawn into it."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    with site.database.reading() as work:
        known = known_families(site, work, organisation_id=acting.organisation_id)
    return {(each.id, item.id): item.text for each in known.values() for item in each.items}


def family_outlines(site: Site, acting: Acting) -> dict[str, FamilyOutline]:
    """What a module can be made of: every family and own job with its items, by id."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    with site.database.reading() as work:
        offered = offered_families(site, work, organisation_id=acting.organisation_id)
    return {
        each.id: FamilyOutline(
            family=each.id,
            title=each.title,
            items=tuple(
                ItemOutline(
                    item_id=item.id,
                    skill=item.skill,
                    difficulty_from=item.span.low,
                    difficulty_to=item.span.high,
                )
                for item in each.items
            ),
        )
        for each in offered.values()
    }


def make_module(site: Site, acting: Acting, *, title: str, blueprint: Blueprint) -> UUID:
    """A new module; raises RefusedFor with every fault at once, Duplicate for a title in use."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    faults = blueprint_faults(blueprint, families=family_outlines(site, acting))
    refuse_for((*_name_faults(title), *faults))
    new = NewModule(
        organisation_id=acting.organisation_id,
        title=title.strip(),
        blueprint=to_json(blueprint),
        made_by=acting.person_id,
    )
    with site.database.work() as work:
        return modules.add_module(work, new, now=site.now())


def modules_here(site: Site, acting: Acting) -> tuple[Module, ...]:
    """The modules of the organisation acted in by title, those in use first."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    with site.database.reading() as work:
        found = modules.list_modules(work, organisation_id=acting.organisation_id)
    return tuple(_module(each) for each in found)


def module_page(site: Site, acting: Acting, *, module_id: UUID) -> ModulePage:
    """One module with its assignments."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    with site.database.reading() as work:
        found = modules.get_module(work, module_id=module_id, organisation_id=acting.organisation_id)
        given = modules.list_assignments(work, organisation_id=acting.organisation_id)
    return ModulePage(
        module=_module(found), assignments=tuple(each for each in given if each.module_id == module_id)
    )


def _module(stored: StoredModule) -> Module:
    return Module(**{**vars(stored), "blueprint": from_json(Blueprint, stored.blueprint)})


def retire_module(site: Site, acting: Acting, *, module_id: UUID) -> None:
    """Takes a module out of use; what was given stays."""
    _require(acting, Permission.MANAGE_MODULE, "module")
    with site.database.work() as work:
        modules.retire_module(
            work, module_id=module_id, organisation_id=acting.organisation_id, now=site.now()
        )


def assign_to_class(site: Site, acting: Acting, *, giving: Giving, class_id: UUID) -> UUID:
    """Gives a module to a class; raises Duplicate where it has the same until the same day."""
    _require(acting, Permission.ASSIGN_MODULE, "class")
    with site.database.work() as work:
        modules.get_class(work, class_id=class_id, organisation_id=acting.organisation_id)
        return _assign(site, work, _assignment(acting, giving, class_id=class_id))


def assign_to_person(site: Site, acting: Acting, *, giving: Giving, person_id: UUID) -> UUID:
    """Gives a module to one apprentice; raises Duplicate where they have the same until the same day."""
    _require(acting, Permission.ASSIGN_MODULE, "person")
    with site.database.work() as work:
        _require_apprentice(site, work, acting, person_id)
        return _assign(site, work, _assignment(acting, giving, person_id=person_id))


def _assignment(
    acting: Acting, giving: Giving, *, class_id: UUID | None = None, person_id: UUID | None = None
) -> NewAssignment:
    return NewAssignment(
        organisation_id=acting.organisation_id,
        module_id=giving.module_id,
        due_on=giving.due_on,
        attempts_allowed=giving.attempts_allowed,
        assigned_by=acting.person_id,
        class_id=class_id,
        person_id=person_id,
    )


def _assign(site: Site, work: Work, new: NewAssignment) -> UUID:
    module = modules.get_module(work, module_id=new.module_id, organisation_id=new.organisation_id)
    if module.retired_at is not None:
        raise WrongState("this module has been taken out of use")
    faults = []
    if new.due_on < site.today():
        faults.append(reason("due-in-the-past", due_on=new.due_on.isoformat()))
    if not 1 <= new.attempts_allowed <= MOST_ATTEMPTS:
        faults.append(reason("attempts-allowed-out-of-range", value=new.attempts_allowed, most=MOST_ATTEMPTS))
    refuse_for(tuple(faults))
    return modules.add_assignment(work, new, now=site.now())


def _name_faults(name: str) -> tuple[Reason, ...]:
    if not name.strip():
        return (reason("name-missing"),)
    if len(name.strip()) > LONGEST_NAME:
        return (reason("name-too-long", most=LONGEST_NAME),)
    return ()


def _require(acting: Acting, permission: Permission, what: str) -> None:
    require(permission, acting=acting, thing=Thing(organisation_id=acting.organisation_id), what=what)


def _require_apprentice(site: Site, work: Work, acting: Acting, person_id: UUID) -> None:
    everybody = apprentices_of(site, work, acting.organisation_id)
    if all(each.person_id != person_id for each in everybody):
        raise Missing("apprentice")
