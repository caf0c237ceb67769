"""Explanations to be graded: what waits, one to read without its writer's name, and the grade."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from trainer.domain.attempts import Attempt, score_text
from trainer.domain.errors import Conflict, Missing, WrongState
from trainer.domain.grades import GivenGrade, Grade, grade_faults, graded
from trainer.domain.ledger import EntryType
from trainer.domain.overrides import mark_in
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.reasons import refuse_for
from trainer.domain.scenario import Item, Scenario
from trainer.scenario_files import scenario_from_document
from trainer.services import sight
from trainer.services.reappraisal import reappraise
from trainer.services.remarking import Change, Standing, standing_of, supersede
from trainer.services.settling import settle, settle_organisation
from trainer.services.site import Site
from trainer.storage import attempts, grades
from trainer.storage.database import Work

_REASON = "explanation graded by its rubric"


@dataclass(frozen=True, kw_only=True)
class ToGrade:
    """An explanation that waits: where it is and what was asked, but not who wrote it."""

    attempt_id: UUID
    scenario_no: int
    item_id: str
    scenario: Scenario
    handed_in_at: datetime | None

    @property
    def title(self) -> str:
        """The scenario that it was asked in."""
        return self.scenario.title

    @property
    def question(self) -> str:
        """What was asked."""
        return self.scenario.item(self.item_id).text


@dataclass(frozen=True, kw_only=True)
class GradingPage:
    """One explanation to be graded, with what it was asked about; `grade` is what it has been given already.

    Names stay out of it, so that the text alone is judged.
    """

    attempt_id: UUID
    scenario_no: int
    scenario: Scenario
    item: Item
    written: str
    waiting: bool
    grade: GivenGrade | None


def to_grade(site: Site, acting: Acting) -> tuple[ToGrade, ...]:
    """What waits here for a grade, question by question across people; none of one's own."""
    here = Thing(organisation_id=acting.organisation_id)
    require(Permission.READ_RESULTS, acting=acting, thing=here, what="organisation")
    settle_organisation(site, organisation_id=acting.organisation_id)
    with site.database.reading() as work:
        waiting = grades.list_waiting(work, organisation_id=acting.organisation_id, but_of=acting.person_id)
        shown = {each.attempt_id: _shown(work, each.attempt_id) for each in waiting}
    return tuple(
        ToGrade(
            attempt_id=each.attempt_id,
            scenario_no=each.scenario_no,
            item_id=each.item_id,
            scenario=shown[each.attempt_id][each.scenario_no],
            handed_in_at=each.handed_in_at,
        )
        for each in waiting
    )


def grading_page(
    site: Site, acting: Acting, *, attempt_id: UUID, scenario_no: int, item_id: str
) -> GradingPage:
    """One explanation to read and grade; Missing for what is none, is elsewhere or is one's own."""
    _seen(site, acting, attempt_id)
    settle(site, attempt_id=attempt_id)
    with site.database.reading() as work:
        attempt = attempts.get_attempt(work, attempt_id=attempt_id)
        standing = standing_of(work, attempt)
        scenario = _scenario(work, attempt_id, scenario_no)
        item = _explanation(scenario, item_id)
        kept = attempts.list_latest_responses(work, attempt_id=attempt_id)
        return GradingPage(
            attempt_id=attempt_id,
            scenario_no=scenario_no,
            scenario=scenario,
            item=item,
            written=next(
                (
                    str(each.raw)
                    for each in kept
                    if (each.scenario_no, each.item_id) == (scenario_no, item_id)
                ),
                "",
            ),
            waiting=mark_in(standing.marks, scenario_no=scenario_no, item_id=item_id).waits_for_grade,
            grade=grades.list_grades(work, attempt_id=attempt_id).get((scenario_no, item_id)),
        )


def grade_explanation(site: Site, acting: Acting, *, attempt_id: UUID, grade: Grade) -> int:
    """A new marking with this explanation graded, and its version.

    Qualifications that rest on the attempt are weighed again in the same transaction. The same form sent
    twice makes one marking; Conflict where somebody else has graded it in between.
    """
    with site.database.work() as work:
        attempt = attempts.get_attempt_to_change(work, attempt_id=attempt_id)
        _require(site, work, acting, attempt)
        standing = standing_of(work, attempt)
        item = _explanation(_scenario(work, attempt_id, grade.scenario_no), grade.item_id)
        refuse_for(grade_faults(grade, rubric=item.rubric))
        mark = mark_in(standing.marks, scenario_no=grade.scenario_no, item_id=grade.item_id)
        if not mark.waits_for_grade:
            return _graded_already(work, acting, attempt_id, grade)
        change = _change(standing, grade, item)
        marking_id, version = supersede(site, work, acting, standing=standing, change=change)
        grades.add_grade(work, marking_id=marking_id, grade=grade)
        reappraise(site, work, acting, attempt_id=attempt_id, version=version)
    return version


def _graded_already(work: Work, acting: Acting, attempt_id: UUID, grade: Grade) -> int:
    """The version that the same form led to; raises where nothing is to grade or another was quicker."""
    stored = grades.list_grades(work, attempt_id=attempt_id).get((grade.scenario_no, grade.item_id))
    if stored is None:
        raise WrongState("nothing was written here, so that there is nothing to grade")
    if stored.graded_by == acting.person_id and stored.grade == grade:
        return stored.version
    raise Conflict("this explanation has been graded in between; the first grade stands")


def _change(standing: Standing, grade: Grade, item: Item) -> Change:
    marks = graded(standing.marks, grade=grade, rubric=item.rubric)
    mark = mark_in(marks, scenario_no=grade.scenario_no, item_id=grade.item_id)
    return Change(
        entry_type=EntryType.EXPLANATION_GRADED,
        marks=marks,
        reason=_REASON,
        body={
            "scenario": grade.scenario_no,
            "item": grade.item_id,
            "levels": dict(grade.levels),
            "to": score_text(mark.score),
        },
        details={"comment": grade.comment} if grade.comment else None,
    )


def _seen(site: Site, acting: Acting, attempt_id: UUID) -> None:
    with site.database.reading() as work:
        _require(site, work, acting, attempts.get_attempt(work, attempt_id=attempt_id))


def _require(site: Site, work: Work, acting: Acting, attempt: Attempt) -> None:
    thing = sight.of_attempt(site, work, attempt)
    require(Permission.GRADE_EXPLANATION, acting=acting, thing=thing, what="attempt")


def _shown(work: Work, attempt_id: UUID) -> Mapping[int, Scenario]:
    found = attempts.list_shown(work, attempt_id=attempt_id)
    return {number: scenario_from_document(document) for number, document in found}


def _scenario(work: Work, attempt_id: UUID, scenario_no: int) -> Scenario:
    for number, document in attempts.list_drawn(work, attempt_id=attempt_id):
        if number == scenario_no:
            return scenario_from_document(document)
    raise Missing("scenario")


def _explanation(scenario: Scenario, item_id: str) -> Item:
    for each in scenario.items:
        if each.id == item_id and each.rubric:
            return each
    raise Missing("item", item_id)
