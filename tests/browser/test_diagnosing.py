"""A diagnosis in a real browser, with scripts and without: each step comes back with what it led to."""

import pytest
import training_steps as steps
from playwright.sync_api import expect
from screens import DESKTOP, PHONE
from sheets import answer, expect_saved, item_of, of_kind, open_attempt, scenarios

from trainer.domain.scenario import ItemKind

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

WAYS = {"desktop": (DESKTOP, True), "phone": (PHONE, True), "phone without scripts": (PHONE, False)}


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("family", ["Came back", "Man down"])
def test_a_diagnosis_is_gone_through_to_its_result(screen, crew, site, way, family):
    size, scripts = WAYS[way]
    one = screen(crew["apprentice"], size=size, java_script_enabled=scripts)
    one.open_page("/apprentice/practice")
    one.page.locator("label", has_text=family).locator("input").check()
    one.tick("One thing at a time")
    one.press("Draw a scenario")
    scenario = scenarios(site, open_attempt(one))[1]
    right, item = steps.keys(scenario), of_kind(scenario, ItemKind.DIAGNOSIS)

    answer(one, scenario, item, right[item.id][:1])
    if scripts:
        assert one.accessibility_faults() == []
        assert one.overhang_px() <= 0
    answer(one, scenario, item, right[item.id][1:])
    expect_saved(item_of(one, scenario, item))
    expect(item_of(one, scenario, item).locator("tbody tr")).to_have_count(len(right[item.id]) + 1)
    for each in scenario.items:
        if each is not item:
            answer(one, scenario, each, right[each.id])
    one.press("Hand in")

    assert scenario.answers[item.id].diagnosis.drawn.words in one.text
    assert one.text.count("Score right, 100 %") == len(scenario.items)
    if scripts:
        assert one.accessibility_faults() == []
        assert one.overhang_px() <= 0
