"""The apprentice's first screen: the next thing, what is due, skills and own qualifications."""

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.errors import NotAllowed
from trainer.domain.standing import Standing
from trainer.services import assessment, practice
from trainer.services.apprentice_home import NextStep, apprentice_home
from trainer.services.site import Site


def test_newcomer_is_sent_to_practise(teaching_site: Site, place: School) -> None:
    home = apprentice_home(teaching_site, place.apprentice)
    assert home.next_thing is not None
    assert home.next_thing.step is NextStep.PRACTISE
    assert home.next_thing.family in teaching_site.content.families
    assert [each.skill for each in home.skills] == list(range(1, 13))
    assert {each.standing for each in home.skills} == {Standing.NOT_SHOWN}
    assert home.assignments == home.qualifications == home.latest == ()


def test_assignment_comes_before_practice_and_an_open_attempt_before_both(
    teaching_site: Site, place: School
) -> None:
    assignment_id = steps.assigned(teaching_site, place)
    given = apprentice_home(teaching_site, place.apprentice)
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    begun = apprentice_home(teaching_site, place.apprentice)
    assert given.next_thing is not None
    assert given.next_thing.step is NextStep.START_ASSIGNMENT
    assert given.next_thing.assignment_id == assignment_id
    assert begun.next_thing is not None
    assert begun.next_thing.step is NextStep.GO_ON
    assert begun.next_thing.attempt_id == attempt_id
    assert begun.assignments[0].open_attempt_id == attempt_id


def test_passed_assignment_is_done_and_counted(teaching_site: Site, place: School, clock) -> None:
    steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    clock.go_on(days=2)
    home = apprentice_home(teaching_site, place.apprentice)
    (due,) = home.assignments
    assert (due.passed, due.may_start, due.days_left) == (True, False, 5)
    assert home.next_thing is not None
    assert home.next_thing.step is NextStep.PRACTISE
    assert home.latest[0].passed


def test_skills_are_counted_by_scenario_and_shown_with_enough_of_them(
    teaching_site: Site, place: School
) -> None:
    """Three of three leaves 0.59 for a share of 0.8: likely (1 - 0.8^4, worked by hand)."""
    steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run", how_many=3),))
    dams = apprentice_home(teaching_site, place.apprentice).skills[2]
    assert (dams.scenarios_count, dams.right_count) == (3, 3)
    assert dams.chance_frac == pytest.approx(0.5904, abs=5e-5)
    assert dams.standing is Standing.LIKELY


def test_attempt_whose_time_is_up_no_longer_comes_next(teaching_site: Site, place: School, clock) -> None:
    assignment_id = steps.assigned(teaching_site, place, time_limit_s=600)
    assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    clock.go_on(minutes=10)
    home = apprentice_home(teaching_site, place.apprentice)
    assert home.next_thing is not None
    assert home.next_thing.step is NextStep.PRACTISE
    assert home.assignments[0].attempts[0].passed is False


def test_own_qualifications_are_shown_with_their_days(teaching_site: Site, place: School, clock) -> None:
    steps.qualified(teaching_site, place)
    clock.go_on(days=10)
    (view,) = apprentice_home(teaching_site, place.apprentice).qualifications
    assert view.days_left == (view.last_day - teaching_site.today()).days


def test_nothing_of_a_colleague_is_shown(teaching_site: Site, place: School) -> None:
    steps.qualified(teaching_site, place)
    colleague = factories.member(teaching_site, place.founder)
    home = apprentice_home(teaching_site, colleague)
    assert home.assignments == home.qualifications == home.latest == ()
    assert sum(each.scenarios_count for each in home.skills) == 0


def test_instructor_has_another_first_screen(teaching_site: Site, place: School) -> None:
    with pytest.raises(NotAllowed):
        apprentice_home(teaching_site, place.instructor)
