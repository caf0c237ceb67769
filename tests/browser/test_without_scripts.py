"""The same practice where no script runs: every control is plain HTML, and the result is all there."""

import pytest
import training_steps as steps
from screens import SIZES
from sheets import answer, item_of, open_attempt, scenarios

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_a_scenario_is_practised_to_its_result_without_scripts(screen, crew, site, size):
    one = screen(crew["apprentice"], size=size, java_script_enabled=False)
    one.open_page("/apprentice/practice")
    one.page.locator("label", has_text="Long run").locator("input").check()
    one.tick("One thing at a time")
    one.press("Draw a scenario")
    scenario = scenarios(site, open_attempt(one))[1]
    right = steps.keys(scenario)

    first, *others = scenario.items
    answer(one, scenario, first, right[first.id])
    one.press("Keep answer 1")
    assert "saved " in item_of(one, scenario, first).inner_text()
    for item in others:
        answer(one, scenario, item, right[item.id])
    one.press("Strike the arc")

    assert one.heading == f"Result: {scenario.title}"
    assert one.text.count("Score right, 100 %") == len(scenario.items)
    assert len(one.rows("Oxygen against time")) >= 10
    assert one.page.locator("dl.figures data").count() == 4
    assert one.page.get_by_role("link", name="Your set-up as a file (JSON)").is_visible()


def test_a_fault_without_scripts_stands_at_the_item_with_what_was_typed(screen, crew, site):
    one = screen(crew["apprentice"], java_script_enabled=False)
    one.open_page("/apprentice/practice")
    one.page.locator("label", has_text="Long run").locator("input").check()
    one.tick("One thing at a time")
    one.press("Draw a scenario")
    scenario = scenarios(site, open_attempt(one))[1]
    place = item_of(one, scenario, scenario.items[1])

    one.fill("Answer 2", "1,500 min", within=place)
    with one.refused(422):
        one.press("Strike the arc")

    assert "can be read in two ways" in item_of(one, scenario, scenario.items[1]).inner_text()
    assert place.get_by_label("Answer 2", exact=True).input_value() == "1,500 min"
