"""An own job in real browsers: typed with a fault, mended, published, practised and read; without scripts too."""

import pytest
from playwright.sync_api import expect
from screens import PHONE, SIZES, Screen
from sheets import answer_all, open_attempt, scenarios

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

TITLE, PLACE = "Feed line", "at the north wall"
FIELDS = {
    "Title": TITLE,
    "Where: the second half of the title": PLACE,
    "What the apprentice finds, in two or three sentences": "The line is dammed. Argon stands by.",
    "Nominal pipe size (NPS)": "6",
    "Schedule": "10S",
    "Joint to the dam on the inlet's side": "12 in",
    "Joint to the dam on the vent's side": "300",
    "Height of the inlet (0 lowest, 1 highest)": "0,12",
    "Inside of the inlet tube": "6 mm",
    "Face that the gas comes out of": "20 cm^2",
    "Height of the vent (0 lowest, 1 highest)": "0.88",
    "Diameter of a vent hole": "6 mm",
    "Number of vent holes": "1",
    "Gas by ISO 14175": "I1",
    "Purge flow": "15 L/min",
    "Oxygen at arc strike, at most": "0.1 %",
}
FAULTY = {"Purge flow": "plenty", "Diameter of a vent hole": "9 m"}


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_a_job_is_typed_mended_published_practised_and_read(screen, crew, site, size):
    teacher, learner = screen(crew["instructor"], size=size), screen(crew["apprentice"], size=size)

    type_job(teacher, **FAULTY)
    with teacher.refused(422):
        teacher.press("Save as a draft")
    faults = teacher.page.get_by_role("alert").get_by_role("link").all_inner_texts()
    assert [each.partition(":")[0] for each in faults] == ["Diameter of a vent hole", "Purge flow"]
    assert box(teacher, "Purge flow").input_value() == "plenty"
    assert box(teacher, "Joint to the dam on the inlet's side").input_value() == "12 in"
    assert teacher.overhang_px() == 0
    assert teacher.accessibility_faults() == []
    teacher.page.get_by_role("alert").get_by_role("link").last.click()
    expect(box(teacher, "Purge flow")).to_be_visible()

    for label in FAULTY:
        teacher.fill(label, FIELDS[label])
    teacher.press("Save as a draft")
    assert teacher.heading == TITLE
    assert "A draft: apprentices do not see it yet." in teacher.text
    teacher.page.get_by_text("Key and working of 1").click()
    assert "The answer:" in teacher.text
    learner.open_page("/apprentice/practice")
    assert TITLE not in learner.text

    teacher.press("Publish version 1")
    assert "Published: apprentices draw this version." in teacher.text

    learner.open_page("/apprentice/practice")
    learner.page.locator("label", has_text=TITLE).locator("input").check()
    learner.tick("One thing at a time")
    learner.press("Draw a scenario")
    assert learner.heading == f"{TITLE}, {PLACE}"
    assert learner.fact("Purge flow") == "15 L/min"
    answer_all(learner, scenarios(site, open_attempt(learner))[1])
    learner.press("Strike the arc")
    assert learner.heading == f"Result: {TITLE}, {PLACE}"
    assert "You struck after" in learner.page.locator("p.verdict").first.inner_text()
    assert learner.overhang_px() == 0


def test_enter_saves_and_a_button_adds_one_question_where_the_page_then_stands(screen, crew):
    teacher = screen(crew["instructor"])
    teacher.open_page("/instructor/own-jobs/new")
    add(teacher, "Purge time")
    add(teacher, "Root colour")
    expect(teacher.page.locator("#question-2")).to_be_in_viewport()
    offered = teacher.page.get_by_label("Question to add").locator("option").all_inner_texts()
    assert "Purge time" not in offered

    teacher.press("Take question 2 out")
    assert teacher.page.locator("[id^=question-][id$=-head]").count() == 1
    with teacher.refused(422), teacher.page.expect_navigation():
        box(teacher, "Title").press("Enter")
    assert teacher.page.locator("[id^=question-][id$=-head]").count() == 1
    assert "Title: Write a few words here." in teacher.page.get_by_role("alert").inner_text()


def test_a_job_that_loses_the_root_has_to_be_meant_so_before_it_is_given_out(screen, crew):
    teacher = screen(crew["instructor"], size=PHONE)
    type_job(teacher, "Root colour", **{"Time from gas on to the arc": "1 min"})
    teacher.press("Save as a draft")
    warning = teacher.page.get_by_role("group", name="Before you publish")
    assert "The root is lost" in warning.inner_text()

    with teacher.refused(422):
        teacher.press("Publish version 1")
    assert "Not published" in warning.inner_text()
    for each in warning.get_by_role("checkbox").all():
        each.check()
    teacher.press("Publish version 1")
    assert "Published: apprentices draw this version." in teacher.text


def test_the_form_works_without_scripts(screen, crew):
    teacher = screen(crew["instructor"], size=PHONE, java_script_enabled=False)
    type_job(teacher)
    teacher.press("Save as a draft")
    assert teacher.heading == TITLE


def type_job(teacher: Screen, question: str = "Purge time", **changes: str) -> None:
    """The form with one question, filled in and not yet sent."""
    teacher.open_page("/instructor/own-jobs")
    teacher.follow("Write a job")
    add(teacher, question)
    teacher.choose("Material", "austenitic stainless")
    teacher.choose("End of the inlet", "diffuser")
    for label, value in {**FIELDS, **changes}.items():
        teacher.fill(label, value)


def add(teacher: Screen, question: str) -> None:
    teacher.choose("Question to add", question)
    teacher.press("Add this question")


def box(screen: Screen, label: str):
    return screen.page.get_by_label(label, exact=True)
