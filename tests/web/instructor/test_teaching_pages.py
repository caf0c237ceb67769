"""Classes, modules and assignments by their pages, and results as an instructor reads them."""

import pytest
import training_steps as steps

from trainer.scenario_files import load_content
from trainer.services import assessment, teaching


@pytest.fixture
def instructor(visit_as):
    return visit_as("instructor")


def made_class(instructor, name="Morning class"):
    return instructor.open_page("/instructor/classes").submit("Make the class", **{"Name of the class": name})


def test_a_class_is_made_and_filled_from_the_apprentices_of_the_centre(instructor, world):
    page = made_class(instructor)

    assert page.heading == "Class Morning class"
    assert page.options("Apprentices to add") == [world.apprentice.name, world.second_apprentice.name]

    filled = page.submit("Add to the class", **{"Apprentices to add": [world.apprentice.name]})

    assert [row[0] for row in filled.rows("Members of the class")] == [world.apprentice.name]
    assert world.other_apprentice.name not in filled.text


def test_a_class_needs_a_name_that_is_not_taken(instructor):
    made_class(instructor)

    assert made_class(instructor, "").error_for("Name of the class") == "Give the class a name."
    taken = made_class(instructor)
    assert taken.field("Name of the class") == "Morning class"
    assert "already" in taken.error_for("Name of the class")


def filled_module(page, **changes):
    """The form of a module with one row on dams; rows have labels of their own, so the data is given by name."""
    sending = page.sending("Make the module", Title="Dams and time")
    sending.data |= {
        "rows-0-skill": ["3"], "rows-0-families": ["long-run"], "rows-0-count": ["2"], "rows-0-difficulty": ["0,5"],
        "time_limit": ["30"], "time_limit-unit": ["min"],
    }  # fmt: skip
    sending.data |= changes
    return sending


def test_what_is_critical_is_chosen_and_shown_by_what_it_asks(instructor):
    page = instructor.open_page("/instructor/modules/new")
    offered = page.options("Critical items: a mistake in one fails the attempt")
    (asked,) = (each for each in offered if each.startswith("From your dams: how long"))
    made = instructor.send(filled_module(page, critical_items=["long-run/wait"]))

    assert made.fact("Critical items") == f"Long run: {asked}"


def test_what_can_be_ticked_is_folded_and_what_is_ticked_stands_open(instructor):
    page = instructor.open_page("/instructor/modules/new")
    refused = instructor.send(filled_module(page, title=[""], critical_items=["long-run/wait", "riser/way"]))

    folds = {each.summary.strong.get_text(): each for each in refused.soup.select("#critical_items details")}
    is_open = {name.partition(" (")[0]: each.has_attr("open") for name, each in folds.items()}
    assert (is_open["Long run"], is_open["Riser"], is_open["Trench crossing"]) == (True, True, False)
    assert len(is_open) == len(load_content().families)
    assert all("1 of" in each.summary.get_text() for each in folds.values() if each.has_attr("open"))


def test_a_module_is_made_of_rows_and_given_until_a_day(instructor, world):
    made_class(instructor).submit("Add to the class", **{"Apprentices to add": [world.apprentice.name]})
    page = instructor.send(filled_module(instructor.open_page("/instructor/modules/new")))

    assert page.heading == "Dams and time"
    assert page.row("3 Dams")[2:] == ["2", "0.5", "80 %"]
    assert page.fact("Time limit") == "30 min"

    given = page.submit("Give it", To="Morning class", **{"Due on": "2026-03-20", "Attempts allowed": "2"})

    assert given.row("Morning class")[:3] == ["Morning class", "2026-03-20", "2"]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"title": [""]}, "Give the module a title."),
        ({"rows-0-count": [""]}, "Write a number"),
        ({"rows-0-count": ["2.5"]}, "not a whole number"),
        ({"rows-0-count": ["999"]}, "outside 1 to 12"),
        ({"rows-0-difficulty": ["nan"]}, "not a number"),
        ({"rows-0-difficulty": ["2"]}, "outside 0 to 1"),
        ({"rows-0-families": []}, "Tick at least one family."),
        ({"rows-0-skill": ["1"]}, "does not ask skill"),
        ({"rows-0-skill": ["99"]}, "Not a valid choice"),
        ({"rows-0-families": ["no-such"]}, "not a valid choice"),
        ({"pass_mark": ["1e999"]}, "not a number"),
        ({"time_limit": ["9 h"]}, "outside what is accepted"),
        ({"time_limit": ["5 m"]}, "metres"),
        ({"rows-0-skill": ["3"], "rows-0-families": [], "rows-0-count": [""], "rows-0-difficulty": [""]}, "at least one row"),
    ],
)  # fmt: skip
def test_a_module_that_does_not_hold_is_refused_with_everything_kept(instructor, changes, said):
    page = instructor.send(filled_module(instructor.open_page("/instructor/modules/new"), **changes))

    assert page.status == 422
    assert any(said in each for each in page.faults), page.faults
    if "title" not in changes:
        assert page.field("Title") == "Dams and time"
    assert instructor.open_page("/instructor/modules").text.startswith("Modules There is no module yet.")


def test_more_rows_keep_what_was_typed(instructor):
    page = instructor.open_page("/instructor/modules/new")
    sending = page.sending("More rows", Title="Dams and time")

    more = instructor.send(sending)

    assert more.field("Title") == "Dams and time"
    assert "4 Row 4" in [" ".join(each.get_text(" ").split()) for each in more.soup.find_all("legend")]


@pytest.mark.parametrize(
    ("filled", "said"),
    [
        ({"Due on": "2020-01-01"}, "lies in the past"),
        ({"Due on": "tomorrow"}, "not a day"),
        ({"Due on": ""}, "Write the day"),
        ({"Due on": "9999-01-01"}, "outside 2000 to 2100"),
        ({"Due on": "2026-03-20", "Attempts allowed": "0"}, "outside 1 to 10"),
    ],
)
def test_an_assignment_that_does_not_hold_is_refused(instructor, things, filled, said):
    page = instructor.open_page(f"/instructor/modules/{things.module_id}").submit(
        "Give it", To="Evening class", **filled
    )

    assert page.status == 422
    assert any(said in each for each in page.faults), page.faults


def test_who_needs_you_names_a_critical_failure_and_leads_to_the_attempt(instructor, world):
    place = steps.School(
        world.founder.acting, world.instructor.acting, world.second_instructor.acting, world.apprentice.acting,
        _class_with(world),
    )  # fmt: skip
    assignment = steps.assigned(world.site, place)
    attempt = assessment.start_assignment(world.site, place.apprentice, assignment_id=assignment)
    steps.handed_in(world.site, place.apprentice, attempt)

    page = instructor.open_page("/instructor/")
    headings = page.headings
    shown = page.follow(f"See the attempt of {world.apprentice.name}")

    assert any(each.startswith("Failed") and each.endswith(": 1") for each in headings)
    assert "Not passed" in shown.text
    assert "no arc was struck" in shown.text


def _class_with(world):
    class_id = teaching.make_class(world.site, world.instructor.acting, name="Night class")
    teaching.add_to_class(
        world.site, world.instructor.acting, class_id=class_id, person_id=world.apprentice.person_id
    )
    return class_id


def test_the_results_of_a_class_show_the_attempt_that_counts(instructor, things, world):
    page = instructor.open_page(f"/instructor/classes/{things.class_id}")

    assert any("passed 100 %" in cell for cell in page.rows("Results")[0])


def override_page(instructor, things):
    attempt = instructor.open_page(f"/instructor/attempts/{things.passed_attempt_id}")
    return attempt.follow("Change the score of item 1, scenario 1")


def test_a_score_is_changed_with_a_reason_and_the_old_marking_stays(instructor, things, world):
    page = override_page(instructor, things).submit(
        "Change the score", **{"Score, 0 to 1": "0,5", "Reason": "The dam was seen to slip"}
    )

    assert "The score is changed, and the record says by whom and why." in page.said
    assert page.row("2")[2:] == [world.instructor.name, page.row("2")[3], "The dam was seen to slip"]
    assert "set by an instructor" in page.text


@pytest.mark.parametrize(
    ("score", "reason", "said"),
    [
        ("0.5", "", "Write the reason"),
        ("1.5", "because", "outside 0 to 1"),
        ("nan", "because", "not a number"),
        ("", "because", "Write a number"),
    ],
)
def test_an_override_without_reason_or_with_a_score_that_is_none_changes_nothing(
    instructor, things, score, reason, said
):
    page = override_page(instructor, things).submit(
        "Change the score", **{"Score, 0 to 1": score, "Reason": reason}
    )

    assert page.status == 422
    assert any(said in each for each in page.faults)
    assert "Markings" not in instructor.open_page(f"/instructor/attempts/{things.passed_attempt_id}").text


def test_an_override_over_somebody_elses_is_refused_and_says_so(instructor, things):
    form = override_page(instructor, things)
    form.submit("Change the score", **{"Score, 0 to 1": "0.5", "Reason": "first"})

    second = form.submit("Change the score", **{"Score, 0 to 1": "0.25", "Reason": "second"})

    assert second.status == 422
    assert "changed in between" in second.faults[0]
