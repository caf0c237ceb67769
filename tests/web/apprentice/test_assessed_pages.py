"""An assessed attempt by its pages: limits before the start, each answer kept, the clock, handing in once."""

from uuid import UUID

import pytest
import training_steps as steps
from answering import answers_for, fill_in

from trainer.services import teaching


@pytest.fixture
def place(world):
    people = world.people
    return steps.School(
        people["founder"].acting, people["instructor"].acting, people["second_instructor"].acting,
        people["apprentice"].acting, _class_of(world),
    )  # fmt: skip


def _class_of(world):
    class_id = teaching.make_class(world.site, world.instructor.acting, name="Morning class")
    teaching.add_to_class(
        world.site, world.instructor.acting, class_id=class_id, person_id=world.apprentice.person_id
    )
    return class_id


@pytest.fixture
def before_start(visit_as, place, world):
    steps.assigned(world.site, place, rows=(steps.row(3, "long-run", how_many=2),), time_limit_s=1800)
    return visit_as("apprentice").open_page("/apprentice/").follow("See its limits and start")


def attempt_id_of(page):
    return UUID(page.path.split("/")[3])


def test_the_limits_are_stated_before_the_clock_runs(before_start):
    assert before_start.heading.startswith("Before you start:")
    assert before_start.fact("Scenarios") == "2"
    assert before_start.fact("Time limit") == "30 min"
    assert before_start.fact("Pass mark") == "80 %"
    assert before_start.fact("Attempts made") == "0 of 1"


def test_starting_twice_goes_on_with_the_same_attempt(before_start):
    sending = before_start.sending("Start the attempt")

    first = before_start._client.send(sending)
    second = before_start._client.send(sending)

    assert first.path == second.path
    assert "30:00" in first.text


def test_every_scenario_is_answered_page_by_page_and_handed_in_for_good(before_start, world):
    page = before_start.submit("Start the attempt")
    scenarios = steps.drawn(world.site, attempt_id_of(page))

    second = page.submit("Go on to scenario 2", **fill_in(scenarios[1], answers_for(scenarios[1])))
    last = second.submit("Go on to hand in", **fill_in(scenarios[2], answers_for(scenarios[2])))
    result = last.submit("Hand in")

    assert last.row("Scenario 2")[3] == "0"
    assert "Handed in and marked." in result.said
    assert "Passed" in result.text
    assert result.row("3 Dams")[4] == "✓ reached" or "reached" in result.row("3 Dams")[4]


def test_unanswered_items_are_counted_before_handing_in(before_start):
    page = before_start.submit("Start the attempt")

    last = page._client.open_page(f"/apprentice/attempts/{attempt_id_of(page)}/hand-in")

    assert "items are unanswered" in last.text


def test_an_answer_after_the_limit_is_refused_and_what_was_kept_before_counts(before_start, world, clock):
    page = before_start.submit("Start the attempt")
    scenario = steps.drawn(world.site, attempt_id_of(page))[1]
    kept = page.submit("Keep answer 1", **fill_in(scenario, answers_for(scenario)))

    clock.go_on(minutes=31)
    late = kept._client.post(
        f"/apprentice/attempts/{attempt_id_of(page)}/scenarios/1/items/{scenario.items[0].id}",
        {"item-dams-left_dam": "300 mm"},
        headers={"Accept": "application/json"},
    )
    result = kept._client.open_page(f"/apprentice/attempts/{attempt_id_of(page)}", settles=True)

    assert late.status == 409
    assert "time was up" in late.html
    assert result.heading.startswith("Result:")
    assert "Not passed" in result.text
    assert "items were not answered" in result.text
    assert "100 %" in result.text


def test_going_on_after_the_limit_shows_the_result_and_says_why(before_start, world, clock):
    page = before_start.submit("Start the attempt")
    scenario = steps.drawn(world.site, attempt_id_of(page))[1]
    sending = page.sending("Go on to scenario 2", **fill_in(scenario, answers_for(scenario)))

    clock.go_on(minutes=31)
    result = page._client.send(sending)

    assert result.heading.startswith("Result:")
    assert any("time was up" in each for each in result.said)


def test_all_attempts_used_up_is_said_and_nothing_starts(before_start, world, place):
    page = before_start.submit("Start the attempt")
    steps.handed_in(world.site, place.apprentice, attempt_id_of(page))

    again = page._client.send(before_start.sending("Start the attempt"))

    assert again.path == "/apprentice/assignments"
    assert any("Not started" in each for each in again.said)


def test_the_pages_of_an_assessed_attempt_hold_no_key_and_no_seed(before_start, world):
    page = before_start.submit("Start the attempt")
    for number, scenario in steps.drawn(world.site, attempt_id_of(page)).items():
        shown = page._client.open_page(f"/apprentice/attempts/{attempt_id_of(page)}/scenarios/{number}")
        assert str(scenario.seed) not in shown.html
        for answer in scenario.answers.values():
            worked = [words for step in answer.solution for words in (step.formula, step.numbers, step.rule)]
            assert not any(words in shown.html for words in worked if len(words) >= 12)
            assert not any(each.why in shown.html for each in answer.hazards)
