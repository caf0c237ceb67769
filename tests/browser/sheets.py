"""The page of an open attempt: what is asked, giving each answer, and waiting for its acknowledgement."""

import re
from typing import Any
from uuid import UUID

import training_steps as steps
from playwright.sync_api import Locator, expect
from screens import PATIENCE_MS, Screen

from trainer.domain.scenario import Item, ItemKind, Scenario
from trainer.services.site import Site

SAVED = re.compile(r"^saved \d\d:\d\d:\d\d$")


def open_attempt(screen: Screen) -> UUID:
    """The attempt whose page is open."""
    found = re.search(r"/attempts/([0-9a-f-]{36})", screen.path)
    assert found, screen.path
    return UUID(found.group(1))


def scenarios(site: Site, attempt_id: UUID) -> dict[int, Scenario]:
    """The scenarios of an attempt by number, with the answers that no page gives out."""
    return steps.drawn(site, attempt_id)


def item_of(screen: Screen, scenario: Scenario, item: Item) -> Locator:
    """The place of an item on the page."""
    number = scenario.items.index(item) + 1
    return screen.group(f"{number} {' '.join(item.text.split())}")


def answer(screen: Screen, scenario: Scenario, item: Item, raw: Any) -> None:
    """Gives an answer with the controls of the item, without scripts too."""
    place = item_of(screen, scenario, item)
    if item.diagnosis is not None:
        for step in raw:
            place.locator(f'input[type="radio"][value="{step}"]').check()
            step_button = place.get_by_role(
                "button", name=f"Take this step of {scenario.items.index(item) + 1}"
            )
            with screen.page.expect_navigation():
                step_button.click()
    elif item.rubric:
        place.locator("textarea").fill(raw)
        place.locator("textarea").blur()
    else:
        _decide(screen, scenario, item, raw)


def _decide(screen: Screen, scenario: Scenario, item: Item, raw: Any) -> None:
    place = item_of(screen, scenario, item)
    if item.dimension is not None:
        screen.fill(f"Answer {scenario.items.index(item) + 1}", str(raw), within=place)
    elif item.kind is ItemKind.PLACEMENT:
        for handle in item.handles:
            screen.fill(handle.label, str(raw[handle.id]), within=place)
    elif item.kind is ItemKind.ORDER:
        for number, step in enumerate(raw, start=1):
            place.locator(f'select[name="item-{item.id}-{step}"]').select_option(str(number))
    elif item.options:
        place.locator(f'input[value="{raw}"]').check()
    else:
        for value in raw or ["none-here"]:
            place.locator(f'input[value="{value}"]').check()


def answer_all(screen: Screen, scenario: Scenario) -> None:
    """Gives the right answer to every item and waits until each is acknowledged."""
    right = steps.keys(scenario)
    for item in scenario.items:
        answer(screen, scenario, item, right[item.id])
        expect_saved(item_of(screen, scenario, item))
    expect_all_kept(screen)


def expect_all_kept(screen: Screen) -> None:
    """Waits until nothing on the page waits for its acknowledgement any more."""
    expect(screen.page.locator("[data-unsaved]")).to_have_count(0, timeout=PATIENCE_MS)


def expect_saved(place: Locator) -> None:
    """Waits until the site says beside an item when it kept the answer."""
    expect(place.get_by_role("status")).to_have_text(SAVED, timeout=PATIENCE_MS)


def of_kind(scenario: Scenario, kind: ItemKind) -> Item:
    """The first item of a kind."""
    return next(each for each in scenario.items if each.kind is kind)
