"""Printing: a module as sheets of paper, one for each apprentice by name or blank ones, and their keys."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from trainer.domain.attempts import AttemptKind
from trainer.domain.errors import Missing
from trainer.domain.family import ScenarioFamily
from trainer.domain.marking import mark
from trainer.domain.modules import Blueprint, drawn_families
from trainer.domain.paper import MOST_BLANK_SHEETS, OnPaper, on_paper, unfolds
from trainer.domain.people import Acting, Language, UnitSystem
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.policy import Policy
from trainer.domain.purge_run import Caution
from trainer.domain.reasons import reason, refuse_for
from trainer.domain.scenario import Scenario
from trainer.scenario_files import scenario_from_document
from trainer.scenario_files.records import from_json, to_json
from trainer.services.drawn_scenarios import ForWhom, Wanted, drawn_for_whom
from trainer.services.family_library import known_families
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.storage import modules, open_attempts, paper, people
from trainer.storage.database import Work
from trainer.storage.modules import AssignmentSummary, NamedPerson
from trainer.storage.paper import NewPaperSet, NewSheet, PaperSet, PaperSheet


@dataclass(frozen=True, kw_only=True)
class PrintPage:
    """What may be printed for an assignment, for whom, and what was printed before."""

    assignment: AssignmentSummary
    on_paper: OnPaper
    left_out_titles: tuple[str, ...]
    people: tuple[NamedPerson, ...]
    sets: tuple[PaperSet, ...]


@dataclass(frozen=True, kw_only=True)
class Printing:
    """What is to be printed, and in which language: sheets for people by name, and so many that are blank."""

    paper_set_id: UUID
    person_ids: tuple[UUID, ...] = ()
    blank_count: int = 0
    blank_units: UnitSystem = UnitSystem.METRIC
    language: Language = Language.ENGLISH


@dataclass(frozen=True, kw_only=True)
class ShownSheet:
    """One sheet as it is printed: its scenarios hold no answers and no seed."""

    sheet: PaperSheet
    scenarios: tuple[Scenario, ...]


@dataclass(frozen=True, kw_only=True)
class KeyedScenario:
    """One scenario with its answers, and what the core cautions of when every key is given."""

    scenario: Scenario
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, kw_only=True)
class SheetKey:
    """The answers to one sheet."""

    sheet: PaperSheet
    scenarios: tuple[KeyedScenario, ...]


@dataclass(frozen=True, kw_only=True)
class SetPage:
    """A set with its sheets; `left_out` are the skills that its module asks and the sheets do not."""

    paper_set: PaperSet
    assignment: AssignmentSummary
    sheets: tuple[PaperSheet, ...]


def print_page(site: Site, acting: Acting, *, assignment_id: UUID) -> PrintPage:
    """The assignment, ready to be printed."""
    _require(acting, Permission.PRINT_ON_PAPER, "assignment")
    with site.database.reading() as work:
        assignment = _assignment(work, acting, assignment_id)
        known = known_families(site, work, organisation_id=acting.organisation_id)
        printed = _printable(work, acting, assignment, known)
        sets = paper.list_sets(work, organisation_id=acting.organisation_id, assignment_id=assignment_id)
        takers = _takers(work, assignment)
    return PrintPage(
        assignment=assignment,
        on_paper=printed,
        left_out_titles=tuple(known[each].title for each in printed.families_left_out if each in known),
        people=takers,
        sets=sets,
    )


def print_sheets(site: Site, acting: Acting, *, assignment_id: UUID, printing: Printing) -> UUID:
    """Draws and stores the sheets of a set; the same form sent twice prints once.

    Raises RefusedFor where there is nobody to print for, or nothing of the module can be put on paper.
    """
    _require(acting, Permission.PRINT_ON_PAPER, "assignment")
    with site.database.reading() as work:
        if _is_there(work, acting, printing):
            return printing.paper_set_id
        assignment = _assignment(work, acting, assignment_id)
        known = known_families(site, work, organisation_id=acting.organisation_id)
        printed = _printable(work, acting, assignment, known)
        whom = _whom(work, acting, assignment, printing)
        turns = [_turn(work, each.person_id, assignment_id) for each in whom]
    _refuse(printing, printed, whom)
    sheets = _drawn_sheets(site, whom, printed.blueprint, turns)
    new = NewPaperSet(
        paper_set_id=printing.paper_set_id,
        organisation_id=acting.organisation_id,
        assignment_id=assignment_id,
        title=assignment.module_title,
        language=printing.language,
        blueprint=to_json(printed.blueprint),
        left_out=list(printed.left_out),
        made_by=acting.person_id,
        made_at=site.now(),
    )
    with site.database.work() as work:
        if not _is_there(work, acting, printing):
            paper.add_set(work, new, sheets=sheets)
    return printing.paper_set_id


def _is_there(work: Work, acting: Acting, printing: Printing) -> bool:
    found = paper.find_set(work, paper_set_id=printing.paper_set_id, organisation_id=acting.organisation_id)
    return found is not None


def _assignment(work: Work, acting: Acting, assignment_id: UUID) -> AssignmentSummary:
    return modules.get_assignment(work, assignment_id=assignment_id, organisation_id=acting.organisation_id)


def _printable(
    work: Work, acting: Acting, assignment: AssignmentSummary, known: Mapping[str, ScenarioFamily]
) -> OnPaper:
    """What of an assignment's module can be asked on paper, of the families that there are."""
    module = modules.get_module(work, module_id=assignment.module_id, organisation_id=acting.organisation_id)
    blueprint: Blueprint = from_json(Blueprint, module.blueprint)

    def unfolding(family: str, difficulty: float) -> bool:
        return family in known and unfolds(known[family], difficulty=difficulty)

    return on_paper(blueprint, unfolding=unfolding)


def _takers(work: Work, assignment: AssignmentSummary) -> tuple[NamedPerson, ...]:
    """Who was given an assignment, by name."""
    if assignment.class_id is not None:
        return modules.list_class_members(work, class_id=assignment.class_id)
    assert assignment.person_id is not None  # one of the two
    person = people.get_person(work, assignment.person_id)
    return (NamedPerson(person_id=person.person_id, name=person.name),)


def takers(site: Site, acting: Acting, *, assignment_id: UUID) -> tuple[NamedPerson, ...]:
    """Whom a blank sheet of this assignment can be keyed in for: not for oneself."""
    _require(acting, Permission.KEY_IN_SHEET, "assignment")
    with site.database.reading() as work:
        found = _takers(work, _assignment(work, acting, assignment_id))
    return tuple(each for each in found if each.person_id != acting.person_id)


def _whom(work: Work, acting: Acting, assignment: AssignmentSummary, printing: Printing) -> list[ForWhom]:
    """For whom each sheet is drawn, in its owner's edition; raises Missing for who was not given it."""
    given = [each.person_id for each in _takers(work, assignment)]
    if not set(printing.person_ids) <= set(given):
        raise Missing("apprentice")
    named = [
        ForWhom(
            organisation_id=acting.organisation_id,
            person_id=each,
            edition=people.get_person(work, each).units,
        )
        for each in given
        if each in printing.person_ids
    ]
    blank = ForWhom(organisation_id=acting.organisation_id, person_id=None, edition=printing.blank_units)
    return [*named, *[blank] * printing.blank_count]


def _turn(work: Work, person_id: UUID | None, assignment_id: UUID) -> int:
    """Which families of a row come first: another attempt goes on where the one before it stopped."""
    if person_id is None:
        return 0
    return open_attempts.count_attempts(work, person_id=person_id, assignment_id=assignment_id)


def _refuse(printing: Printing, printed: OnPaper, whom: Sequence[ForWhom]) -> None:
    faults = []
    if not printed.blueprint.rows:
        faults.append(reason("nothing-for-paper"))
    if not 0 <= printing.blank_count <= MOST_BLANK_SHEETS:
        faults.append(reason("blank-sheets-out-of-range", most=MOST_BLANK_SHEETS))
    if not whom:
        faults.append(reason("nobody-to-print-for"))
    refuse_for(tuple(faults))


def _drawn_sheets(
    site: Site, whom: Sequence[ForWhom], blueprint: Blueprint, turns: Sequence[int]
) -> list[NewSheet]:
    """The sheets, each with variants of its own as far as the families have as many."""
    sheets: list[NewSheet] = []
    beside: frozenset[str] = frozenset()
    for each, turn in zip(whom, turns, strict=True):
        wanted = [
            Wanted(family=family, difficulty=row.difficulty)
            for family, row in drawn_families(blueprint, turn=turn)
        ]
        drawn = drawn_for_whom(
            site, replace(each, elsewhere=beside), kind=AttemptKind.ASSESSED, wanted=wanted
        )
        beside |= {one.fingerprint for one in drawn}
        sheets.append(NewSheet(person_id=each.person_id, units=each.edition, scenarios=drawn))
    return sheets


def set_page(site: Site, acting: Acting, *, paper_set_id: UUID) -> SetPage:
    """A set of sheets: for whom, and which of them were handed in."""
    _require(acting, Permission.PRINT_ON_PAPER, "set of sheets")
    with site.database.reading() as work:
        found = paper.get_set(work, paper_set_id=paper_set_id, organisation_id=acting.organisation_id)
        return SetPage(
            paper_set=found,
            assignment=_assignment(work, acting, found.assignment_id),
            sheets=paper.list_sheets(work, paper_set_id=paper_set_id),
        )


def shown_sheets(site: Site, acting: Acting, *, paper_set_id: UUID) -> tuple[ShownSheet, ...]:
    """The sheets of a set as they are printed, without their answers."""
    _require(acting, Permission.PRINT_ON_PAPER, "set of sheets")
    with site.database.reading() as work:
        paper.get_set(work, paper_set_id=paper_set_id, organisation_id=acting.organisation_id)
        sheets = paper.list_sheets(work, paper_set_id=paper_set_id)
        shown = paper.list_shown_of_set(work, paper_set_id=paper_set_id)
    return tuple(
        ShownSheet(
            sheet=each,
            scenarios=tuple(scenario_from_document(document) for _, document in shown[each.sheet_id]),
        )
        for each in sheets
    )


def sheet_keys(site: Site, acting: Acting, *, paper_set_id: UUID) -> tuple[SheetKey, ...]:
    """The answers to the sheets of a set, save to one that was printed for the reader."""
    _require(acting, Permission.READ_ANSWER_KEY, "set of sheets")
    with site.database.reading() as work:
        paper.get_set(work, paper_set_id=paper_set_id, organisation_id=acting.organisation_id)
        policy = policy_of(work, site, organisation_id=acting.organisation_id)
        others = [
            each
            for each in paper.list_sheets(work, paper_set_id=paper_set_id)
            if each.person_id != acting.person_id
        ]
        drawn = {each.sheet_id: paper.list_scenarios(work, sheet_id=each.sheet_id) for each in others}
    return tuple(
        SheetKey(
            sheet=each,
            scenarios=tuple(
                _keyed(scenario_from_document(one.drawn), policy) for one in drawn[each.sheet_id]
            ),
        )
        for each in others
    )


def _keyed(scenario: Scenario, policy: Policy) -> KeyedScenario:
    keys = {item_id: answer.key for item_id, answer in scenario.answers.items() if answer.key is not None}
    marked = mark(scenario, responses=keys, policy=policy)
    return KeyedScenario(scenario=scenario, cautions=() if marked.run is None else marked.run.cautions)


def _require(acting: Acting, permission: Permission, what: str) -> None:
    require(permission, acting=acting, thing=Thing(organisation_id=acting.organisation_id), what=what)
