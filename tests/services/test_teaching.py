"""Classes, modules and assignments: what may be made, who may be given what, and whose it is."""

from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.errors import Duplicate, Missing, NotAllowed, WrongState
from trainer.domain.modules import Blueprint
from trainer.domain.reasons import RefusedFor
from trainer.services import apprentice_home, teaching
from trainer.services.site import Site
from trainer.services.teaching import Giving


def test_class_shows_its_members_and_who_could_join(teaching_site: Site, place: School) -> None:
    newcomer = factories.member(teaching_site, place.founder)
    page = teaching.class_page(teaching_site, place.instructor, class_id=place.class_id)
    assert [each.person_id for each in page.members] == [place.apprentice.person_id]
    assert [each.person_id for each in page.others] == [newcomer.person_id]
    assert page.summary.members_count == 1


def test_joining_twice_is_joining_once(teaching_site: Site, place: School) -> None:
    teaching.add_to_class(
        teaching_site, place.instructor, class_id=place.class_id, person_id=place.apprentice.person_id
    )
    page = teaching.class_page(teaching_site, place.instructor, class_id=place.class_id)
    assert len(page.members) == 1


def test_class_name_is_given_once_in_an_organisation(teaching_site: Site, place: School) -> None:
    teaching.make_class(teaching_site, place.instructor, name="Autumn")
    with pytest.raises(Duplicate):
        teaching.make_class(teaching_site, place.instructor, name=" Autumn ")
    other = steps.school(teaching_site)
    assert teaching.make_class(teaching_site, other.instructor, name="Autumn")


@pytest.mark.parametrize(("name", "code"), [("  ", "name-missing"), ("x" * 201, "name-too-long")])
def test_class_without_a_proper_name_is_refused(
    teaching_site: Site, place: School, name: str, code: str
) -> None:
    with pytest.raises(RefusedFor, match=code):
        teaching.make_class(teaching_site, place.instructor, name=name)


def test_only_todays_apprentices_of_the_organisation_join_a_class(
    teaching_site: Site, place: School, clock
) -> None:
    left = factories.member(teaching_site, place.founder, ends=teaching_site.today())
    stranger = steps.school(teaching_site).apprentice
    clock.go_on(days=1)
    for person in (left, stranger, place.second):
        with pytest.raises(Missing):
            teaching.add_to_class(
                teaching_site, place.instructor, class_id=place.class_id, person_id=person.person_id
            )


def test_leaving_a_class_takes_its_assignments_along(teaching_site: Site, place: School) -> None:
    steps.assigned(teaching_site, place)
    before = apprentice_home.apprentice_home(teaching_site, place.apprentice)
    teaching.remove_from_class(
        teaching_site, place.instructor, class_id=place.class_id, person_id=place.apprentice.person_id
    )
    after = apprentice_home.apprentice_home(teaching_site, place.apprentice)
    assert (len(before.assignments), len(after.assignments)) == (1, 0)


def test_module_with_several_faults_is_refused_with_all_of_them(teaching_site: Site, place: School) -> None:
    blueprint = Blueprint(
        rows=(
            steps.row(5, "long-run"),
            replace(steps.row(3, "none such"), count=0, difficulty=0.123),
            replace(steps.row(99, "long-run"), families=(), cut_frac=1.5),
        ),
        pass_mark_frac=0.0,
        critical_items=("long-run/none",),
        time_limit_s=5,
    )
    with pytest.raises(RefusedFor) as refused:
        teaching.make_module(teaching_site, place.instructor, title="", blueprint=blueprint)
    assert [each.code for each in refused.value.because] == [
        "name-missing",
        "family-does-not-ask-skill",
        "row-count-out-of-range",
        "difficulty-out-of-range",
        "unknown-family",
        "unknown-skill",
        "cut-out-of-range",
        "row-without-families",
        "pass-mark-out-of-range",
        "time-limit-out-of-range",
        "unknown-critical-item",
    ]


def test_module_comes_back_as_it_was_made(teaching_site: Site, place: School) -> None:
    blueprint = Blueprint(
        rows=(replace(steps.row(3, "long-run", how_many=2, difficulty=0.25), cut_frac=0.9),),
        pass_mark_frac=0.75,
        critical_items=("long-run/look",),
        time_limit_s=900,
    )
    module_id = teaching.make_module(teaching_site, place.instructor, title="  Dams ", blueprint=blueprint)
    page = teaching.module_page(teaching_site, place.instructor, module_id=module_id)
    assert (page.module.title, page.module.blueprint) == ("Dams", blueprint)
    assert page.assignments == ()


def test_same_module_goes_to_the_same_class_once_until_the_same_day(
    teaching_site: Site, place: School
) -> None:
    giving = _giving(teaching_site, place)
    teaching.assign_to_class(teaching_site, place.instructor, giving=giving, class_id=place.class_id)
    with pytest.raises(Duplicate):
        teaching.assign_to_class(teaching_site, place.instructor, giving=giving, class_id=place.class_id)
    later = replace(giving, due_on=giving.due_on + timedelta(days=1))
    assert teaching.assign_to_class(teaching_site, place.instructor, giving=later, class_id=place.class_id)


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"days": -1}, "due-in-the-past"),
        ({"attempts_allowed": 0}, "attempts-allowed-out-of-range"),
        ({"attempts_allowed": 11}, "attempts-allowed-out-of-range"),
    ],
)
def test_assignment_in_bad_form_is_refused(
    teaching_site: Site, place: School, changes: dict, code: str
) -> None:
    giving = replace(
        _giving(teaching_site, place),
        due_on=teaching_site.today() + timedelta(days=changes.get("days", 7)),
        attempts_allowed=changes.get("attempts_allowed", 1),
    )
    with pytest.raises(RefusedFor, match=code):
        teaching.assign_to_class(teaching_site, place.instructor, giving=giving, class_id=place.class_id)


def test_retired_module_is_not_given_out_and_comes_last(teaching_site: Site, place: School) -> None:
    giving = _giving(teaching_site, place)
    other = _giving(teaching_site, place)
    teaching.retire_module(teaching_site, place.instructor, module_id=giving.module_id)
    with pytest.raises(WrongState):
        teaching.assign_to_person(
            teaching_site, place.instructor, giving=giving, person_id=place.apprentice.person_id
        )
    listed = [each.module_id for each in teaching.modules_here(teaching_site, place.instructor)]
    assert listed == [other.module_id, giving.module_id]


def test_another_providers_class_and_module_are_missing(teaching_site: Site, place: School) -> None:
    stranger = steps.school(teaching_site)
    giving = _giving(teaching_site, place)
    own = _giving(teaching_site, stranger)
    with pytest.raises(Missing):
        teaching.class_page(teaching_site, stranger.instructor, class_id=place.class_id)
    with pytest.raises(Missing):
        teaching.module_page(teaching_site, stranger.instructor, module_id=giving.module_id)
    with pytest.raises(Missing):
        teaching.retire_module(teaching_site, stranger.instructor, module_id=giving.module_id)
    with pytest.raises(Missing):
        teaching.assign_to_class(
            teaching_site, stranger.instructor, giving=giving, class_id=stranger.class_id
        )
    with pytest.raises(Missing):
        teaching.assign_to_class(teaching_site, stranger.instructor, giving=own, class_id=place.class_id)
    with pytest.raises(Missing):
        teaching.assign_to_person(
            teaching_site, stranger.instructor, giving=own, person_id=place.apprentice.person_id
        )
    with pytest.raises(Missing):
        teaching.class_page(teaching_site, place.instructor, class_id=uuid4())
    assert [each.class_id for each in teaching.classes(teaching_site, stranger.instructor)] == [
        stranger.class_id
    ]
    page = teaching.class_page(teaching_site, stranger.instructor, class_id=stranger.class_id)
    assert page.assignments == ()


def test_apprentice_does_not_teach(teaching_site: Site, place: School) -> None:
    with pytest.raises(NotAllowed):
        teaching.classes(teaching_site, place.apprentice)
    with pytest.raises(NotAllowed):
        teaching.make_class(teaching_site, place.apprentice, name="Mine")
    with pytest.raises(NotAllowed):
        teaching.apprentices(teaching_site, place.apprentice)


def _giving(site: Site, place: School) -> Giving:
    blueprint = Blueprint(rows=(steps.row(3, "long-run"),), pass_mark_frac=0.8)
    module_id = teaching.make_module(
        site, place.instructor, title=f"Giving {next(steps.numbers):04}", blueprint=blueprint
    )
    return Giving(module_id=module_id, due_on=site.today() + timedelta(days=7))
