"""An explanation on the sheet: its box, its rubric, kept like any answer, and what practice makes of it."""

from uuid import UUID

import pytest
import training_steps as steps

from trainer.services import practice
from trainer.storage import attempts

BOX = "Answer {}, in a few sentences"


@pytest.fixture
def sheet(visit_as, world):
    attempt_id = practice.start_practice(
        world.site, world.apprentice.acting, family="end-plates", difficulty=0.5
    )
    return visit_as("apprentice").open_page(f"/apprentice/attempts/{attempt_id}")


@pytest.fixture
def number(sheet, world):
    scenario = steps.drawn(world.site, attempt_id_of(sheet))[1]
    return next(place for place, each in enumerate(scenario.items, start=1) if each.rubric)


def attempt_id_of(sheet):
    return UUID(sheet.path.split("/")[3])


def test_the_rubric_is_open_to_whoever_writes(sheet):
    assert "How it is graded" in sheet.text
    assert "Names the side where it stays." in sheet.text


def test_what_was_written_is_kept_line_by_line_without_scripts(sheet, number):
    text = "Argon sinks.\nThe air leaves at the top <not below>."
    kept = sheet.submit(f"Keep answer {number}", **{BOX.format(number): text})

    assert kept.field(BOX.format(number)) == text
    assert kept.text.count("saved ") == 1


def test_the_same_text_sent_again_is_not_kept_again(sheet, number, world):
    kept = sheet.submit(f"Keep answer {number}", **{BOX.format(number): "Argon sinks.\r\nAir rises."})
    kept.submit("Strike the arc", **{BOX.format(number): "Argon sinks.\nAir rises."})

    with world.site.database.reading() as work:
        found = attempts.list_latest_responses(work, attempt_id=attempt_id_of(sheet))
    assert [(each.item_id, each.version) for each in found] == [("say-why", 1)]


@pytest.mark.parametrize(
    ("text", "said"),
    [("x" * 2001, "2001 characters"), ("Argon\x07sinks", "cannot be stored")],
    ids=["too long", "a bell"],
)
def test_a_text_that_cannot_be_kept_is_shown_again_with_why(sheet, number, text, said):
    refused = sheet.submit(f"Keep answer {number}", **{BOX.format(number): text})

    assert said in refused.text
    assert "saved " not in refused.text
    assert refused.field(BOX.format(number)) == text


def test_in_practice_the_writer_holds_it_against_the_rubric(sheet, number):
    result = sheet.submit("Strike the arc", **{BOX.format(number): "Argon sinks."})

    assert "In practice nobody grades it" in result.text
    assert "not graded" in result.text
    assert "Argon sinks." in result.text
