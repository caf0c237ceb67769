"""Sentences in a real browser: kept at a pause in typing, and still there when the page is opened again."""

import pytest
from playwright.sync_api import expect
from sheets import PATIENCE_MS, expect_all_kept, expect_saved, item_of, scenarios

from trainer.domain.scenario import ItemKind
from trainer.services import practice

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]


def test_what_is_typed_is_kept_at_a_pause_without_leaving_the_box(screen, crew, site):
    attempt_id = practice.start_practice(site, crew["apprentice"].acting, family="end-plates", difficulty=0.5)
    one = screen(crew["apprentice"])
    one.open_page(f"/apprentice/attempts/{attempt_id}/scenarios/1")
    scenario = scenarios(site, attempt_id)[1]
    item = next(each for each in scenario.items if each.kind is ItemKind.EXPLANATION)
    place = item_of(one, scenario, item)
    box = place.get_by_role("textbox")

    box.press_sequentially("Argon sinks, so the air leaves at the top.")
    expect_saved(place)
    expect(box).to_be_focused()
    expect_all_kept(one)
    one.page.reload()

    expect(item_of(one, scenario, item).get_by_role("textbox")).to_have_value(
        "Argon sinks, so the air leaves at the top.", timeout=PATIENCE_MS
    )
