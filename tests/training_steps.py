"""Steps through the loop of training on real content, for tests of services: teach, take, award."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from itertools import count
from typing import Any
from uuid import UUID, uuid4

import factories
import pytest

from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.grades import Grade
from trainer.domain.modules import Blueprint, BlueprintRow
from trainer.domain.people import Acting, Language
from trainer.domain.qualifications import Observation
from trainer.domain.reasons import RefusedFor
from trainer.domain.scenario import ItemKind, Scenario
from trainer.scenario_files import Content, load_content, response_document, scenario_from_document
from trainer.services import assessment, explanations, grading, keying, paper, qualifying, teaching
from trainer.services.paper import Printing
from trainer.services.qualifying import Award
from trainer.services.site import Site
from trainer.services.teaching import Giving
from trainer.storage import attempts, ledger
from trainer.storage import paper as stored_paper

numbers = count(1)


@cache
def content() -> Content:
    return load_content()


@dataclass(frozen=True)
class School:
    """A training provider with its administrator, two instructors and an apprentice in a class."""

    founder: Acting
    instructor: Acting
    second: Acting
    apprentice: Acting
    class_id: UUID


def school(site: Site) -> School:
    founder = factories.provider(site)
    instructor = factories.member(site, founder, role=factories.Role.INSTRUCTOR)
    second = factories.member(site, founder, role=factories.Role.INSTRUCTOR)
    apprentice = factories.member(site, founder)
    class_id = teaching.make_class(site, instructor, name=f"Class {next(numbers)}")
    teaching.add_to_class(site, instructor, class_id=class_id, person_id=apprentice.person_id)
    return School(founder, instructor, second, apprentice, class_id)


def row(skill: int, family: str, *, how_many: int = 1, difficulty: float = 0.0) -> BlueprintRow:
    return BlueprintRow(skill=skill, families=(family,), count=how_many, difficulty=difficulty)


# Dams, inlet and vent, and time, three scenarios each way: what a first qualification takes.
WHOLE_PURGE = (row(3, "long-run", how_many=3), row(4, "end-plates", how_many=3))


def assigned(
    site: Site,
    place: School,
    *,
    rows: tuple[BlueprintRow, ...] = (row(3, "long-run"),),
    time_limit_s: int | None = 1800,
    attempts_allowed: int = 1,
    pass_mark_frac: float = 0.8,
) -> UUID:
    """A module made, and given to the class for a week."""
    blueprint = Blueprint(rows=rows, pass_mark_frac=pass_mark_frac, time_limit_s=time_limit_s)
    module_id = teaching.make_module(
        site, place.instructor, title=f"Module {next(numbers)}", blueprint=blueprint
    )
    giving = Giving(
        module_id=module_id,
        due_on=site.today() + timedelta(days=7),
        attempts_allowed=attempts_allowed,
    )
    return teaching.assign_to_class(site, place.instructor, giving=giving, class_id=place.class_id)


def printed(  # noqa: PLR0913 - what a form of printing asks
    site: Site,
    place: School,
    assignment_id: UUID,
    *,
    blank_count: int = 0,
    named: bool = True,
    language: Language = Language.ENGLISH,
) -> UUID:
    """Sheets of paper for an assignment: one for the apprentice by name, and blank ones."""
    printing = Printing(
        paper_set_id=uuid4(),
        person_ids=(place.apprentice.person_id,) if named else (),
        blank_count=blank_count,
        language=language,
    )
    return paper.print_sheets(site, place.instructor, assignment_id=assignment_id, printing=printing)


def sheet_codes(site: Site, place: School, paper_set_id: UUID) -> list[str]:
    """The codes of a set's sheets, by number."""
    page = paper.set_page(site, place.instructor, paper_set_id=paper_set_id)
    return [each.code for each in page.sheets]


def key_in_right(site: Site, by: Acting, code: str, *, but: Iterable[str] = ()) -> None:
    """Keys in every key of a sheet, as it could have been written, leaving out the items named."""
    with site.database.reading() as work:
        sheet = stored_paper.get_sheet(work, code=code, organisation_id=by.organisation_id)
        scenarios = stored_paper.list_scenarios(work, sheet_id=sheet.sheet_id)
    for number, each in enumerate(scenarios, start=1):
        for item_id, raw in keys(scenario_from_document(each.drawn)).items():
            if item_id not in but:
                keying.keep_keyed(site, by, code=code, at=(number, item_id), raw=raw)


def drawn(site: Site, attempt_id: UUID) -> dict[int, Scenario]:
    """The scenarios of an attempt with their answers, which no service gives out before marking."""
    with site.database.reading() as work:
        found = attempts.list_drawn(work, attempt_id=attempt_id)
    return {number: scenario_from_document(document) for number, document in found}


# What is typed where a person has to read it: an explanation has no key.
EXPLAINED = "Argon is heavier than air and gathers at the bottom, so the air leaves by a vent at the top."


def keys(scenario: Scenario) -> dict[str, Any]:
    """The right response to every item, as it could have been typed."""
    right = {item.id: response_document(item, scenario.answers[item.id].key) for item in scenario.items}
    return right | {item.id: EXPLAINED for item in scenario.items if item.rubric}


def wrong_answer(scenario: Scenario) -> tuple[str, Any]:
    """A choice item with a wrong option."""
    item = next(each for each in scenario.items if each.kind is ItemKind.CHOICE)
    key = scenario.answers[item.id].key
    return item.id, next(each.id for each in item.options if each.id != key)


def answer_right(site: Site, who: Acting, attempt_id: UUID, *, but: Iterable[str] = ()) -> None:
    """Answers everything with the keys, leaving out the items named."""
    for number, scenario in drawn(site, attempt_id).items():
        for item_id, raw in keys(scenario).items():
            if item_id not in but:
                assessment.keep_response(
                    site, who, attempt_id=attempt_id, scenario_no=number, item_id=item_id, raw=raw
                )


def handed_in(site: Site, who: Acting, attempt_id: UUID) -> assessment.HandedIn:
    page = assessment.attempt_page(site, who, attempt_id=attempt_id)
    return assessment.hand_in(site, who, attempt_id=attempt_id, token=page.hand_in_token)


def passed_attempt(site: Site, place: School, *, rows: tuple[BlueprintRow, ...] = WHOLE_PURGE) -> UUID:
    """An assessed attempt that the apprentice has passed with the keys."""
    assignment_id = assigned(site, place, rows=rows)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    answer_right(site, place.apprentice, attempt_id)
    assert handed_in(site, place.apprentice, attempt_id).passed
    return attempt_id


def explained(site: Site, place: School) -> UUID:
    """An assessed attempt with everything right and an explanation in scenario 1, which nobody has graded."""
    assignment_id = assigned(site, place, rows=(row(4, "end-plates", difficulty=0.5),), attempts_allowed=2)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    answer_right(site, place.apprentice, attempt_id)
    assert handed_in(site, place.apprentice, attempt_id).passed is None
    return attempt_id


def graded(site: Site, place: School, *, level: int = 3) -> UUID:
    """The same with every criterion of its explanation at one level, given by the second instructor."""
    attempt_id = explained(site, place)
    item = next(each for each in drawn(site, attempt_id)[1].items if each.rubric)
    given = Grade(scenario_no=1, item_id=item.id, levels={each.id: level for each in item.rubric})
    explanations.grade_explanation(site, place.second, attempt_id=attempt_id, grade=given)
    return attempt_id


def observation(
    site: Site, by: Acting, *, of: Acting, observed_on: date | None = None, **changes: Any
) -> Observation:
    """An observation of a good purge on 6 in stainless with argon, not yet recorded."""
    values = {
        "observation_id": uuid4(),
        "person_id": of.person_id,
        "organisation_id": by.organisation_id,
        "observed_by": by.person_id,
        "observed_on": observed_on or site.today(),
        "material": MaterialGroup.AUSTENITIC_STAINLESS,
        "gas": "I1",
        "outside_diameter_m": 0.1683,
        "oxygen_at_strike_frac": 300e-6,
        "root_grade": RootGrade.STRAW,
        "confined_space": False,
        "accepted": True,
    }
    return Observation(**{**values, **changes})


def observed(site: Site, by: Acting, *, of: Acting, **changes: Any) -> UUID:
    return grading.record_observation(site, by, observation=observation(site, by, of=of, **changes))


def award_of(person: Acting, *, attempt_ids: tuple[UUID, ...], observation_ids: tuple[UUID, ...]) -> Award:
    return Award(
        person_id=person.person_id,
        attempt_ids=attempt_ids,
        observation_ids=observation_ids,
        award_token=uuid4(),
    )


def qualified(site: Site, place: School, *, by: Acting | None = None) -> UUID:
    """A qualification that the apprentice has earned, awarded by the second instructor."""
    signer = by or place.second
    attempt_id = passed_attempt(site, place)
    seen = observed(site, signer, of=place.apprentice)
    award = award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,))
    return qualifying.award(site, signer, award=award)


def refused(act: Callable[[], object]) -> list[str]:
    """The codes that an act is refused with."""
    with pytest.raises(RefusedFor) as refusal:
        act()
    return [each.code for each in refusal.value.because]


def entries(site: Site, place: School) -> list[dict]:
    """The school's ledger, the newest first."""
    with site.database.reading() as work:
        return list(
            ledger.list_latest(work, organisation_id=place.apprentice.organisation_id, before=None, limit=100)
        )
