"""What instructors look at: results of a class, one apprentice's history, and who needs them."""

from datetime import date
from uuid import UUID

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.errors import Missing, NotAllowed
from trainer.domain.people import Role
from trainer.services import assessment, practice, qualifying, teaching
from trainer.services.class_results import (
    NeedKind,
    apprentice_history,
    class_results,
    class_skills,
    who_needs_you,
)
from trainer.services.site import Site


def test_table_has_a_row_for_each_member_and_a_column_for_each_module(
    teaching_site: Site, place: School
) -> None:
    passed = steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    steps.assigned(teaching_site, place)
    idle = factories.member(teaching_site, place.founder)
    teaching.add_to_class(teaching_site, place.instructor, class_id=place.class_id, person_id=idle.person_id)
    table = class_results(teaching_site, place.instructor, class_id=place.class_id)
    cells = {row.person.person_id: row.cells for row in table.rows}
    module_id = next(iter(cells[place.apprentice.person_id]))
    assert len(table.modules) == 2
    assert cells[idle.person_id] == {}
    assert cells[place.apprentice.person_id][module_id].attempt.attempt_id == passed
    assert cells[place.apprentice.person_id][module_id].attempts_count == 1


def test_pass_counts_over_a_later_failure(teaching_site: Site, place: School, clock) -> None:
    assignment_id = steps.assigned(teaching_site, place, attempts_allowed=2)
    first = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(teaching_site, place.apprentice, first)
    steps.handed_in(teaching_site, place.apprentice, first)
    clock.go_on(days=1)
    _failed(teaching_site, place, assignment_id)
    table = class_results(teaching_site, place.instructor, class_id=place.class_id)
    (cell,) = table.rows[0].cells.values()
    assert (cell.attempt.attempt_id, cell.attempts_count) == (first, 2)


def test_table_settles_what_has_expired(teaching_site: Site, place: School, clock) -> None:
    assignment_id = steps.assigned(teaching_site, place, time_limit_s=600)
    assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    clock.go_on(hours=1)
    table = class_results(teaching_site, place.instructor, class_id=place.class_id)
    (cell,) = table.rows[0].cells.values()
    assert cell.attempt.passed is False


def test_history_holds_practice_and_assessed_work_of_this_provider_alone(
    teaching_site: Site, place: School
) -> None:
    steps.qualified(teaching_site, place)
    practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    history = apprentice_history(teaching_site, place.instructor, person_id=place.apprentice.person_id)
    assert {each.kind.value for each in history.attempts} == {"practice", "assessed"}
    assert len(history.observations) == len(history.qualifications) == len(history.assignments) == 1
    stranger = steps.school(teaching_site)
    with pytest.raises(Missing):
        apprentice_history(teaching_site, stranger.instructor, person_id=place.apprentice.person_id)
    with pytest.raises(NotAllowed):
        apprentice_history(teaching_site, place.apprentice, person_id=place.apprentice.person_id)


def test_critical_failure_comes_first_then_failure_then_overdue(
    teaching_site: Site, place: School, clock
) -> None:
    late = factories.member(teaching_site, place.founder)
    teaching.add_to_class(teaching_site, place.instructor, class_id=place.class_id, person_id=late.person_id)
    plates = steps.assigned(teaching_site, place, rows=(steps.row(4, "end-plates"),))
    _failed(teaching_site, place, plates)
    pit = steps.assigned(teaching_site, place, rows=(steps.row(11, "pump-pit"),))
    _failed(teaching_site, place, pit)
    clock.go_on(days=8)
    needs = who_needs_you(teaching_site, place.instructor)
    assert [(each.kind, each.person_id) for each in needs] == [
        (NeedKind.CRITICAL_FAILURE, place.apprentice.person_id),
        (NeedKind.FAILED, place.apprentice.person_id),
        (NeedKind.OVERDUE, late.person_id),
        (NeedKind.OVERDUE, late.person_id),
    ]
    assert all(each.day == date(2026, 3, 9) for each in needs[2:])


def test_assignment_to_one_person_that_is_past_its_day_is_named(
    teaching_site: Site, place: School, clock
) -> None:
    steps.assigned(teaching_site, place)
    module_id = teaching.modules_here(teaching_site, place.instructor)[0].module_id
    alone = factories.member(teaching_site, place.founder)
    giving = teaching.Giving(module_id=module_id, due_on=teaching_site.today())
    teaching.assign_to_person(teaching_site, place.instructor, giving=giving, person_id=alone.person_id)
    clock.go_on(days=1)
    (need,) = who_needs_you(teaching_site, place.instructor)
    assert (need.kind, need.person_id) == (NeedKind.OVERDUE, alone.person_id)


def test_passed_work_without_an_award_waits_for_one(teaching_site: Site, place: School) -> None:
    attempt_id = steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    (need,) = who_needs_you(teaching_site, place.instructor)
    assert (need.kind, need.attempt_id) == (NeedKind.READY_TO_QUALIFY, attempt_id)


def test_qualification_near_its_last_day_or_suspended_is_named(
    teaching_site: Site, place: School, clock
) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    assert who_needs_you(teaching_site, place.instructor) == ()
    clock.at = clock.at.replace(month=8, day=20)
    (due,) = who_needs_you(teaching_site, place.instructor)
    qualifying.suspend(
        teaching_site, place.second, qualification_id=qualification_id, reason_given="Near miss"
    )
    (suspended,) = who_needs_you(teaching_site, place.instructor)
    assert (due.kind, due.day) == (NeedKind.QUALIFICATION_DUE, date(2026, 9, 2))
    assert suspended.kind is NeedKind.SUSPENDED


def test_another_provider_sees_none_of_it(teaching_site: Site, place: School, clock) -> None:
    steps.assigned(teaching_site, place)
    clock.go_on(days=10)
    stranger = steps.school(teaching_site)
    assert who_needs_you(teaching_site, stranger.instructor) == ()
    with pytest.raises(Missing):
        class_results(teaching_site, stranger.instructor, class_id=place.class_id)


def _failed(site: Site, place: School, assignment_id: UUID) -> UUID:
    """An attempt handed in with nothing answered."""
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    assert not steps.handed_in(site, place.apprentice, attempt_id).passed
    return attempt_id


def test_skills_of_a_class_hold_each_member_and_all_together(teaching_site: Site, place: School) -> None:
    steps.passed_attempt(teaching_site, place, rows=(steps.row(3, "long-run"),))
    idle = factories.member(teaching_site, place.founder)
    teaching.add_to_class(teaching_site, place.instructor, class_id=place.class_id, person_id=idle.person_id)
    found = class_skills(teaching_site, place.instructor, class_id=place.class_id)
    dams = {person.person_id: standings[2] for person, standings in found.rows}
    assert dams[place.apprentice.person_id].share_frac == 1.0
    assert dams[idle.person_id].scenarios_count == 0
    assert found.whole[2].scenarios_count == dams[place.apprentice.person_id].scenarios_count == 1


def test_another_provider_sees_no_skills_of_a_class(teaching_site: Site, place: School) -> None:
    stranger = factories.provider(teaching_site, name="Elsewhere")
    teacher = factories.member(teaching_site, stranger, role=Role.INSTRUCTOR)
    with pytest.raises(Missing):
        class_skills(teaching_site, teacher, class_id=place.class_id)
