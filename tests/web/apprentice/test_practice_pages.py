"""Practice by its pages: choose, answer, be asked again, strike the arc, see what happened."""

import json
import re

import pytest
import training_steps as steps
from answering import answers_for, fill_in

from trainer.services import practice


@pytest.fixture
def apprentice(visit_as):
    return visit_as("apprentice")


@pytest.fixture
def started(apprentice, world):
    """A practice scenario on a long run, and its page."""
    attempt_id = practice.start_practice(
        world.site, world.apprentice.acting, family="long-run", difficulty=0.5
    )
    return attempt_id, apprentice.open_page(f"/apprentice/attempts/{attempt_id}")


def scenario_of(world, attempt_id):
    return steps.drawn(world.site, attempt_id)[1]


def test_where_things_are_decided_stands_what_is_never_left_to_an_exercise(started):
    _, page = started
    assert "test the air at the bottom before anyone goes in" in page.text
    assert (
        "Local codes, the site's permit system and the gas's safety data sheet decide, not this exercise."
        in page.text
    )


def test_choosing_a_family_draws_a_scenario_with_its_drawing_facts_and_items(apprentice, world):
    page = apprentice.open_page("/apprentice/practice")
    chosen = next(
        each for each in page.options("What do you want to practise?") if each.startswith("Long run")
    )

    drawn = page.submit(
        "Draw a scenario",
        **{"What do you want to practise?": chosen, "How hard?": "Some things interact"},
    )

    assert drawn.path.endswith("/scenarios/1")
    assert "What you know" in drawn.headings
    assert drawn.soup.find("figure").find("svg").find("title") is not None
    assert drawn.fact("Oxygen at arc strike, at most")
    assert drawn.has_button("Strike the arc")


def test_the_choice_says_how_often_a_family_was_practised_once_it_was(apprentice):
    def long_run() -> str:
        offered = apprentice.open_page("/apprentice/practice").options("What do you want to practise?")
        return next(each for each in offered if each.startswith("Long run"))

    said = []
    for _ in range(3):
        said.append(long_run().rpartition("(")[2])
        drawn = apprentice.open_page("/apprentice/practice").submit(
            "Draw a scenario",
            **{"What do you want to practise?": long_run(), "How hard?": "Some things interact"},
        )
        drawn.submit("Strike the arc")
    assert "practised" not in said[0]
    assert said[1].endswith("; practised once)")
    assert said[2].endswith("; practised 2 times)")


def test_only_what_trains_one_skill_is_shown_when_asked_for(apprentice):
    whole = apprentice.open_page("/apprentice/practice").options("What do you want to practise?")

    page = apprentice.open_page("/apprentice/practice").submit(
        "Show", **{"Show what trains": "Air to breathe"}
    )
    shown = page.options("What do you want to practise?")

    assert 0 < len(shown) < len(whole)
    assert shown == [each for each in whole if "Air to breathe" in each]
    again = page.submit("Draw a scenario")
    assert again.status == 422
    assert again.options("What do you want to practise?") == shown
    drawn = again.submit(
        "Draw a scenario", **{"What do you want to practise?": shown[0], "How hard?": "As on a bad day"}
    )
    assert drawn.path.endswith("/scenarios/1")


@pytest.mark.parametrize("asked", ["99", "-1", "air", "", "1e3", "%00"])
def test_a_skill_that_nothing_trains_shows_everything(apprentice, asked):
    whole = apprentice.open_page("/apprentice/practice").options("What do you want to practise?")
    page = apprentice.open_page(f"/apprentice/practice?skill={asked}")
    assert page.options("What do you want to practise?") == whole


def test_choosing_nothing_is_said_at_both_groups(apprentice):
    page = apprentice.open_page("/apprentice/practice").submit("Draw a scenario", **{"How hard?": []})

    assert page.status == 422
    assert page.faults == ["Choose how hard.", "Choose one."]


def test_the_page_of_an_open_attempt_holds_no_key_seed_or_solution(started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)

    assert str(scenario.seed) not in page.html
    assert "seed" not in page.html.lower()
    for answer in scenario.answers.values():
        for step in answer.solution:
            for words in (step.formula, step.numbers, step.rule):
                assert len(words) < 12 or words not in page.html
        for hazard in answer.hazards:
            assert hazard.why not in page.html
        for belief in (answer.misconceptions or {}).values():
            assert belief not in page.html
    for secret in ("band_ratio", "unsafe_zero", "misconception", "is_hazard", "critical"):
        assert secret not in page.html


def test_answering_everything_right_shows_the_own_set_up_through_the_core(started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)

    result = page.submit("Strike the arc", **fill_in(scenario, answers_for(scenario)))

    assert result.heading.startswith("Result:")
    assert result.text.startswith(f"{result.heading} You struck after")
    assert "The working" in result.text
    assert re.search(r"Oxygen at strike [\d.]+ (ppm|%)", result.text.replace("\xa0", " "))
    assert [row[0] for row in result.rows("Oxygen against time, scenario 1")][0] == "0.0"
    assert result.text.count("100 %") >= len(scenario.items)


def test_the_set_up_is_offered_as_the_solve_command_takes_it(apprentice, started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)
    result = page.submit("Strike the arc", **fill_in(scenario, answers_for(scenario)))

    answer = apprentice.client.get(result.link("Your set-up as a file (JSON)"))
    document = json.loads(answer.get_data(as_text=True))

    assert answer.mimetype == "application/json"
    assert document["section"]["left_dam"]
    assert document["wait"]


def test_what_is_typed_is_kept_item_by_item_without_scripts(started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)
    typed = fill_in(scenario, answers_for(scenario))
    label, value = next((k, v) for k, v in typed.items() if k == "Answer 2")

    again = page.submit("Keep answer 2", **{label: value})

    assert again.field("Answer 2") == value.split()[0] or again.field("Answer 2") == value
    assert "saved 09:00:00" in again.text or "saved" in again.text


def test_a_bare_number_takes_the_unit_beside_it_and_a_wrong_unit_is_asked_again(started):
    _, page = started

    refused = page.submit("Keep answer 2", **{"Answer 2": "5 kg"})
    kept = refused.submit("Keep answer 2", **{"Answer 2": "5", "Unit of Answer 2": "min"})

    assert refused.status == 422
    assert refused.field("Answer 2") == "5 kg"
    assert "kg" in refused.faults[0]
    assert kept.status == 200
    assert kept.field("Answer 2") == "5"
    assert kept.field("Unit of Answer 2") == "min"


@pytest.mark.parametrize(
    "typed", ["-5", "nan", "1e999", "1,500", "9" * 200, "five", "5 m", "0", "<script>alert(1)</script>"]
)
def test_what_cannot_be_an_answer_is_kept_in_the_box_and_scores_nothing(started, world, typed):
    attempt_id, page = started

    refused = page.submit("Strike the arc", **{"Answer 2": typed})

    assert refused.status == 422
    assert refused.field("Answer 2") == typed
    assert len(refused.faults) == 1
    assert "<script>alert" not in refused.html
    assert refused.has_button("Strike the arc")


def test_marks_and_no_hazard_at_once_are_asked_again(started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)
    place, item = next((n, i) for n, i in enumerate(scenario.items, 1) if i.kind == "hazards")

    refused = page.submit(
        f"Keep answer {place}", **{f"1 {item.objects[0].text}": True, "I see no hazard here": True}
    )

    assert refused.status == 422
    assert "not both" in refused.faults[0]


def test_a_missed_hazard_is_told_once(started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)
    item = next(each for each in scenario.items if each.kind == "hazards")
    missed = next(each for each in scenario.answers[item.id].hazards if each.is_hazard)

    result = page.submit("Strike the arc", **fill_in(scenario, {**answers_for(scenario), item.id: []}))

    section = next(
        each for each in result.soup.select("section.item") if item.text in " ".join(each.text.split())
    )
    said = " ".join(section.text.split())
    assert f"Missed: {missed.why}" in said
    assert "The belief behind it" not in said


def test_striking_twice_from_the_same_page_leads_to_the_same_result(apprentice, started, world):
    attempt_id, page = started
    scenario = scenario_of(world, attempt_id)
    sending = page.sending("Strike the arc", **fill_in(scenario, answers_for(scenario)))

    first = apprentice.send(sending)
    second = apprentice.send(sending)

    assert first.path == second.path
    assert first.text == second.text


def test_keeping_one_answer_by_script_is_acknowledged_with_the_servers_time(apprentice, started):
    attempt_id, _ = started
    path = f"/apprentice/attempts/{attempt_id}/scenarios/1/items/wait"
    data = {"csrf_token": apprentice.token(), "item-wait": "5", "item-wait-unit": "min"}

    kept = apprentice.client.post(path, data=data, headers={"Accept": "application/json"})
    refused = apprentice.client.post(
        path, data={**data, "item-wait": "5 kg"}, headers={"Accept": "application/json"}
    )
    nothing = apprentice.client.post(
        path, data={**data, "item-wait": ""}, headers={"Accept": "application/json"}
    )

    assert kept.get_json()["kept"].startswith("saved ")
    assert (refused.status_code, "kg" in refused.get_json()["error"]) == (422, True)
    assert nothing.status_code == 422


def test_a_result_before_striking_leads_back_to_the_attempt(apprentice, started):
    attempt_id, _ = started

    assert apprentice.open_page(f"/apprentice/attempts/{attempt_id}/result").path.endswith("/scenarios/1")


def test_us_units_are_shown_to_whoever_chose_them(apprentice, started):
    attempt_id, _ = started
    account = apprentice.open_page("/account")
    account.submit("Keep", Units="US (inch, pound)", Colours="Light")

    page = apprentice.open_page(f"/apprentice/attempts/{attempt_id}/scenarios/1")

    assert page.fact("Units") == "US (inch, pound)"
    assert "cfh" in page.text or "ft" in page.text
    assert page.soup.html["data-theme"] == "light"
