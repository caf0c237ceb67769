"""Explanations graded by people: what waits, without names; one marking a grade; nobody grades themselves."""

import json
from dataclasses import replace
from uuid import UUID

import factories
import pytest
import training_steps as steps
from sqlalchemy import text
from test_two_at_once import at_once
from training_steps import School

from trainer.domain.errors import Conflict, Missing, NotAllowed, WrongState
from trainer.domain.grades import Grade
from trainer.domain.overrides import Override
from trainer.domain.people import Role
from trainer.domain.standing import SkillStanding
from trainer.services import (
    apprentice_home,
    assessment,
    class_results,
    explanations,
    grading,
    practice,
    qualifying,
    results,
    teaching,
)
from trainer.services.class_results import NeedKind
from trainer.services.records import verify_ledgers
from trainer.services.site import Site
from trainer.storage import ledger

ALL_OF_IT = {"weight": 3, "air-stays": 3, "find-out": 3, "plain": 3}
NOTHING = dict.fromkeys(ALL_OF_IT, 0)


def grade(**changes: object) -> Grade:
    values = {
        "scenario_no": 1,
        "item_id": "say-why",
        "levels": ALL_OF_IT,
        "comment": "Say where the probe is",
    }
    return Grade(**{**values, **changes})


def give(site: Site, who: factories.Acting, attempt_id: UUID, **changes: object) -> int:
    return explanations.grade_explanation(site, who, attempt_id=attempt_id, grade=grade(**changes))


def test_handing_in_leaves_the_pass_open_and_the_marks_without_a_score(
    teaching_site: Site, place: School
) -> None:
    attempt_id = steps.explained(teaching_site, place)
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.verdict.passed is None
    assert page.marking.passed is None
    assert page.marking.total_frac is None
    assert page.scenarios[0].passed is None
    assert page.scenarios[0].mark("say-why").waits_for_grade
    assert page.scenarios[0].mark("holes").score == 1.0


def test_the_same_on_the_database_itself(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    with teaching_site.database.reading() as work:
        found = work.session.execute(text("SELECT item_id, correct FROM outcome WHERE score IS NULL")).all()
        passed = work.session.scalar(text("SELECT count(*) FROM marking WHERE passed IS NULL"))
    assert [(item, bool(correct)) for item, correct in found] == [("say-why", False)]
    assert passed == 1
    assert explanations.to_grade(teaching_site, place.instructor)[0].attempt_id == attempt_id


def test_what_was_never_written_is_graded_already(teaching_site: Site, place: School) -> None:
    assignment_id = steps.assigned(teaching_site, place, rows=(steps.row(4, "end-plates", difficulty=0.5),))
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(teaching_site, place.apprentice, attempt_id, but=("say-why",))
    assert steps.handed_in(teaching_site, place.apprentice, attempt_id).passed is False
    assert explanations.to_grade(teaching_site, place.instructor) == ()
    with pytest.raises(WrongState, match="nothing was written"):
        give(teaching_site, place.instructor, attempt_id)


def test_the_list_goes_question_by_question_and_names_nobody(teaching_site: Site, place: School) -> None:
    second = replace(place, apprentice=_classmate(teaching_site, place))
    first_id = steps.explained(teaching_site, place)
    second_id = steps.explained(teaching_site, second)
    waiting = explanations.to_grade(teaching_site, place.instructor)
    assert {each.attempt_id for each in waiting} == {first_id, second_id}
    assert {each.item_id for each in waiting} == {"say-why"}
    page = explanations.grading_page(
        teaching_site, place.instructor, attempt_id=first_id, scenario_no=1, item_id="say-why"
    )
    assert page.written == steps.EXPLAINED
    assert page.waiting
    assert page.grade is None
    assert not any(name in str(page) + str(waiting) for name in _names(teaching_site, place))
    assert str(place.apprentice.person_id) not in str(page) + str(waiting)


def test_a_grade_is_a_new_marking_with_the_verdict_reckoned_again(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    assert give(teaching_site, place.instructor, attempt_id) == 2
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    first, second = page.history
    assert (first.passed, second.passed) == (None, True)
    assert second.marked_by == place.instructor.person_id
    assert second.total_frac == 1.0
    assert page.scenarios[0].passed is True
    assert page.scenarios[0].mark("say-why").correct
    given = page.scenarios[0].grades["say-why"]
    assert (given.grade, given.version, given.graded_by) == (grade(), 2, place.instructor.person_id)
    assert explanations.to_grade(teaching_site, place.second) == ()


def test_a_poor_explanation_fails_the_skill_that_it_belongs_to(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    give(teaching_site, place.instructor, attempt_id, levels=NOTHING)
    verdict = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id).verdict
    assert verdict.passed is False
    assert {each.skill: each.reached for each in verdict.skills}[4] is False


def test_the_ledger_has_the_levels_and_keeps_the_words_out(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    marked = _latest(teaching_site, place)
    give(teaching_site, place.instructor, attempt_id)
    entry = _latest(teaching_site, place)
    assert entry["type"] == "explanation-graded"
    assert entry["supersedes"] == marked["seq"]
    assert marked["body"]["passed"] is None
    assert marked["body"]["total"] is None
    assert entry["body"]["levels"] == ALL_OF_IT
    assert (entry["body"]["to"], entry["body"]["passed"]) == ("1.000", True)
    assert "probe" not in json.dumps(entry)
    assert entry["commitment"] is not None
    assert all(each.proof.holds for each in verify_ledgers(teaching_site.database))


def test_the_same_form_twice_counts_once(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    assert [give(teaching_site, place.instructor, attempt_id) for _ in range(2)] == [2, 2]


@pytest.mark.parametrize("levels", [ALL_OF_IT, NOTHING])
def test_a_second_grader_is_told_that_another_was_quicker(
    teaching_site: Site, place: School, levels: dict[str, int]
) -> None:
    attempt_id = steps.explained(teaching_site, place)
    give(teaching_site, place.instructor, attempt_id)
    with pytest.raises(Conflict, match="graded in between"):
        give(teaching_site, place.second, attempt_id, levels=levels)


def test_of_two_graders_at_once_one_is_told_and_one_marking_is_made(
    teaching_site: Site, place: School
) -> None:
    attempt_id = steps.explained(teaching_site, place)
    ends = at_once(
        lambda: give(teaching_site, place.instructor, attempt_id),
        lambda: give(teaching_site, place.second, attempt_id, levels=NOTHING),
    )
    assert sorted(ends, key=str) == sorted([None, Conflict], key=str)
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert len(page.history) == 2


def test_a_grade_without_every_level_is_refused(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    codes = steps.refused(lambda: give(teaching_site, place.instructor, attempt_id, levels={"weight": 2}))
    assert codes == ["level-missing"] * 3
    assert len(explanations.to_grade(teaching_site, place.instructor)) == 1


def test_nobody_grades_themselves_or_finds_their_own_in_the_list(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    both = replace(place.apprentice, roles=frozenset({Role.APPRENTICE, Role.INSTRUCTOR}))
    assert explanations.to_grade(teaching_site, both) == ()
    with pytest.raises(Missing):
        give(teaching_site, both, attempt_id)
    with pytest.raises(Missing):
        explanations.grading_page(
            teaching_site, both, attempt_id=attempt_id, scenario_no=1, item_id="say-why"
        )


def test_only_an_instructor_of_the_same_provider_grades(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    stranger = factories.provider(teaching_site)
    with pytest.raises(Missing):
        give(teaching_site, stranger, attempt_id)
    assert explanations.to_grade(teaching_site, stranger) == ()
    with pytest.raises(NotAllowed):
        give(teaching_site, place.apprentice, attempt_id)
    with pytest.raises(NotAllowed):
        explanations.to_grade(teaching_site, place.apprentice)


def test_an_item_that_is_no_explanation_is_missing(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    with pytest.raises(Missing):
        give(teaching_site, place.instructor, attempt_id, item_id="holes")
    with pytest.raises(Missing):
        give(teaching_site, place.instructor, attempt_id, scenario_no=2)


def test_an_explanation_is_not_overridden_before_it_is_graded(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    override = Override(
        scenario_no=1, item_id="say-why", score_frac=1.0, critical_missed=False, reason="Good", of_version=1
    )
    with pytest.raises(WrongState, match="rubric"):
        grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override)
    give(teaching_site, place.instructor, attempt_id, levels=NOTHING)
    again = replace(override, of_version=2)
    assert grading.override_score(teaching_site, place.second, attempt_id=attempt_id, override=again) == 3


def test_another_item_may_be_put_right_while_the_explanation_waits(
    teaching_site: Site, place: School
) -> None:
    attempt_id = steps.explained(teaching_site, place)
    override = Override(
        scenario_no=1, item_id="wait", score_frac=0.9, critical_missed=False, reason="Misread", of_version=1
    )
    grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override)
    assert give(teaching_site, place.second, attempt_id) == 3
    assert results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id).verdict.passed is True


def test_nothing_is_awarded_on_an_attempt_that_waits(teaching_site: Site, place: School) -> None:
    steps.passed_attempt(teaching_site, place)
    waiting = steps.explained(teaching_site, place)
    seen = steps.observed(teaching_site, place.second, of=place.apprentice)
    award = steps.award_of(place.apprentice, attempt_ids=(waiting,), observation_ids=(seen,))
    codes = steps.refused(lambda: qualifying.award(teaching_site, place.second, award=award))
    assert "attempt-does-not-count" in codes


def test_an_attempt_that_waits_is_neither_failed_nor_to_be_done_again(
    teaching_site: Site, place: School
) -> None:
    attempt_id = steps.explained(teaching_site, place)
    needs = class_results.who_needs_you(teaching_site, place.instructor)
    assert not any(each.kind in (NeedKind.FAILED, NeedKind.READY_TO_QUALIFY) for each in needs)
    home = apprentice_home.apprentice_home(teaching_site, place.apprentice)
    (due,) = home.assignments
    assert due.waits_for_grade
    assert not due.passed
    assert home.next_thing is not None
    assert home.next_thing.step is apprentice_home.NextStep.PRACTISE
    assert home.latest[0].attempt_id == attempt_id
    assert home.latest[0].waits_for_grade


def test_means_leave_out_what_waits(teaching_site: Site, place: School) -> None:
    attempt_id = steps.explained(teaching_site, place)
    before = _standing(teaching_site, place)
    give(teaching_site, place.instructor, attempt_id, levels=NOTHING)
    assert before.scenarios_count == 1
    assert before.right_count == 1
    assert _standing(teaching_site, place).right_count == 0


def test_practice_is_not_graded(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="end-plates", difficulty=0.5)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    assert steps.handed_in(teaching_site, place.apprentice, attempt_id).passed is None
    assert explanations.to_grade(teaching_site, place.instructor) == ()
    with pytest.raises(WrongState, match="practice"):
        give(teaching_site, place.instructor, attempt_id)


def _standing(site: Site, place: School) -> SkillStanding:
    home = apprentice_home.apprentice_home(site, place.apprentice)
    return next(each for each in home.skills if each.skill == 4)


def _classmate(site: Site, place: School) -> factories.Acting:
    other = factories.member(site, place.founder)
    teaching.add_to_class(site, place.instructor, class_id=place.class_id, person_id=other.person_id)
    return other


def _names(site: Site, place: School) -> set[str]:
    rows = class_results.class_results(site, place.instructor, class_id=place.class_id).rows
    return {each.person.name for each in rows}


def _latest(site: Site, place: School) -> dict:
    with site.database.reading() as work:
        (entry,) = ledger.list_latest(
            work, organisation_id=place.founder.organisation_id, before=None, limit=1
        )
    return entry
