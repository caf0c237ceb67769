"""Explanations to grade: the list, one with its rubric, what is refused, and what the writer then reads."""

import pytest
import training_steps as steps

GOOD = {"weight": "3", "air-stays": "2", "find-out": "3", "plain": "3"}


@pytest.fixture
def instructor(visit_as):
    return visit_as("instructor")


@pytest.fixture
def form(instructor, things):
    return instructor.open_page("/instructor/to-grade").follow("Grade explanation 1")


def sent(form, levels=GOOD, comment=""):
    sending = form.sending("Record the grade", **{"Comment for the writer, if any": comment})
    sending.data |= {f"level-{key}": [value] for key, value in levels.items()}
    return form._client.send(sending)


def test_what_waits_stands_first_on_the_instructors_page(instructor, things):
    page = instructor.open_page("/instructor/")
    listed = page.follow("To grade: one explanation")

    assert listed.heading == "Explanations to grade"
    assert listed.headings[0].startswith("Your helper asks why the inlet and the vent")
    assert len(listed.soup.find("main").find_all("tr")) == 2  # its head and one explanation


def test_the_page_has_the_text_the_rubric_and_no_name(instructor, form, world):
    assert steps.EXPLAINED in form.text
    assert "Which of the two is heavier, and where the gas gathers" in form.text
    assert "0: Nothing about weight, or the wrong way round." in form.text
    for who in (world.apprentice, world.second_apprentice):
        assert who.name not in form.html
        assert str(who.person_id) not in form.html


def test_a_grade_is_recorded_and_the_writer_reads_levels_and_comment(form, things, visit_as, world):
    listed = sent(form, comment="Say next time\nwhere the probe is.")
    result = visit_as("apprentice").open_page(f"/apprentice/attempts/{things.waiting_attempt_id}/result")

    assert "The grade is on the record, and the verdict reckoned again." in listed.said
    assert "No explanation waits for a grade." in listed.text
    assert "Passed" in result.text
    assert result.fact("Where air stays with holes in the wrong place") == (
        "2 of 3: Names the side where it stays."
    )
    assert "Say next time where the probe is." in result.text
    assert f"Graded by {world.instructor.name}" in result.text


def test_a_form_without_every_level_is_refused_and_keeps_what_was_chosen(form, instructor):
    refused = sent(form, {"weight": "3", "find-out": "7"}, comment="So far good")

    assert refused.status == 422
    assert "Choose a level for: Words that the helper can follow." in refused.faults
    assert len(refused.faults) == 3
    assert refused.soup.find(id="level-weight-3").has_attr("checked")
    assert refused.field("Comment for the writer, if any") == "So far good"
    assert instructor.open_page("/instructor/to-grade").has_link("Grade explanation 1")


def test_the_same_form_twice_is_one_grade(form):
    sent(form)

    again = sent(form)

    assert again.status == 200
    assert "The grade is on the record, and the verdict reckoned again." in again.said


def test_a_second_grader_is_told_and_shown_what_stands(form, visit_as, things, world):
    other = visit_as("second_instructor")
    second = other.open_page(form.path)
    sent(form)

    refused = sent(second, {**GOOD, "weight": "0"})

    assert refused.status == 422
    assert "graded in between" in refused.faults[0]
    assert f"Graded by {world.instructor.name}" in refused.text
    assert other.open_page(form.path).fact("Where air stays with holes in the wrong place").startswith("2:")


def test_an_attempt_that_waits_says_so_wherever_it_is_listed(instructor, things, visit_as, world):
    attempt = instructor.open_page(f"/instructor/attempts/{things.waiting_attempt_id}")
    person = instructor.open_page(f"/instructor/apprentices/{things.person_id}")
    home = visit_as("apprentice").open_page("/apprentice/assignments")
    result = visit_as("apprentice").open_page(f"/apprentice/attempts/{things.waiting_attempt_id}/result")

    assert "Waits to be graded" in attempt.text
    assert attempt.has_link("see what waits")
    assert "waits to be graded" in person.text
    assert "waits to be graded" in home.text
    assert "It waits for your instructor." in result.text


def test_the_form_for_another_score_refuses_an_explanation_that_waits(instructor, things):
    path = f"/instructor/attempts/{things.waiting_attempt_id}/scenarios/1/items/{things.explanation_id}/score"

    refused = instructor.open_page(path).submit(
        "Change the score", **{"Score, 0 to 1": "1", "Reason": "good enough"}
    )

    assert refused.status == 422
    assert "grade it by its rubric" in refused.faults[0]
