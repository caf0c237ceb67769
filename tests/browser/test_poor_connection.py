"""A line that goes and comes: answers wait on the device, are sent by themselves, and are never lost or doubled."""

import time
from collections.abc import Callable
from uuid import UUID

import pytest
import training_steps as steps
from crew import PASSWORD
from playwright.sync_api import Route, expect
from screens import PATIENCE_MS, SIZES, Screen, Size
from sheets import answer, expect_all_kept, expect_saved, item_of, of_kind, open_attempt, scenarios

from trainer.domain.scenario import Item, ItemKind, Scenario
from trainer.services.site import Site
from trainer.storage import attempts

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

WAITS = "not sent yet: no connection, kept on this device"


@pytest.fixture(params=SIZES, ids=lambda each: each.name)
def size(request: pytest.FixtureRequest) -> Size:
    return request.param


@pytest.fixture
def practising(screen: Callable[..., Screen], crew, size: Size) -> Screen:
    """An apprentice at a practice scenario."""
    one = screen(crew["apprentice"], size=size)
    one.open_page("/apprentice/practice")
    one.page.locator('input[name="family"][value="long-run"]').check()
    one.press("Draw a scenario")
    return one


def drawn(site: Site, screen: Screen) -> Scenario:
    return scenarios(site, open_attempt(screen))[1]


def versions(site: Site, screen: Screen, *, of: str = "") -> dict[str, int]:
    """How often an answer was taken for each item of the attempt at this path, or of the open one."""
    attempt_id = UUID(of.split("/")[3]) if of else open_attempt(screen)
    with site.database.reading() as work:
        kept = attempts.list_latest_responses(work, attempt_id=attempt_id)
    return {each.item_id: each.version for each in kept}


def state(screen: Screen) -> str:
    """What the page says of the line, or nothing."""
    shown = screen.page.locator("[data-waiting]")
    return shown.inner_text().strip() if shown.is_visible() else ""


def give(screen: Screen, scenario: Scenario, item: Item) -> None:
    answer(screen, scenario, item, steps.keys(scenario)[item.id])


def test_answers_given_offline_are_sent_once_when_the_line_is_back(site, practising):
    scenario = drawn(site, practising)
    with practising.cut_off():
        practising.context.set_offline(True)
        for item in scenario.items:
            give(practising, scenario, item)
            said = item_of(practising, scenario, item).get_by_role("status")
            expect(said).to_have_text(WAITS)
        count = len(scenario.items)
        assert state(practising).startswith(f"No connection. Answers that wait on this device: {count}.")
        assert versions(site, practising) == {}
        practising.page.get_by_role("button", name="Strike the arc").click()
        # as it is seen: the states that are not shown stand in the page too, and on the line the form would leave
        line = practising.page.locator("[data-waiting]")
        expect(line).to_contain_text("so this page stays open", use_inner_text=True)
        practising.context.set_offline(False)
        expect_all_kept(practising)
    assert state(practising) == "The line is back: what waited on this device has been sent."
    assert versions(site, practising) == {each.id: 1 for each in scenario.items}
    practising.press("Strike the arc")
    assert practising.path.endswith("/result")
    assert practising.accessibility_faults() == []


def test_a_lost_acknowledgement_doubles_nothing(site, practising):
    scenario = drawn(site, practising)
    item, arrived = of_kind(scenario, ItemKind.CHOICE), []

    def taken_but_not_heard(route: Route) -> None:
        arrived.append(route.fetch().status)
        route.abort("connectionreset")

    address = item_of(practising, scenario, item).get_attribute("data-keep-at")
    with practising.cut_off():
        practising.page.route(f"**{address}", taken_but_not_heard)
        give(practising, scenario, item)
        expect(item_of(practising, scenario, item).get_by_role("status")).to_have_text(WAITS)
        assert arrived[0] == 200
        practising.page.unroute(f"**{address}")
        expect_saved(item_of(practising, scenario, item))
    assert versions(site, practising) == {item.id: 1}


def test_a_closed_tab_loses_nothing_that_was_typed_without_a_line(site, practising):
    scenario = drawn(site, practising)
    quantity, choice = of_kind(scenario, ItemKind.QUANTITY), of_kind(scenario, ItemKind.CHOICE)
    right, path = steps.keys(scenario), practising.path
    leave_with_answers_waiting(practising, scenario, quantity, choice)

    practising.page.route("**/items/*", lambda _: None)  # a line so slow that nothing comes back
    practising.open_page(path)
    box = item_of(practising, scenario, quantity).locator("input[type=text]")
    unit = item_of(practising, scenario, quantity).locator("select")
    assert right[quantity.id].startswith(box.input_value())
    assert right[quantity.id].endswith(unit.input_value())
    chosen = item_of(practising, scenario, choice).locator("input:checked")
    assert chosen.get_attribute("value") == right[choice.id]
    expect(item_of(practising, scenario, choice).get_by_role("status")).to_have_text(WAITS)

    practising.page.unroute("**/items/*")
    practising.open_page("/apprentice/")  # the first page with a line sends both, one after the other
    both = {quantity.id: 1, choice.id: 1}
    until = time.monotonic() + PATIENCE_MS / 1000
    while versions(site, practising, of=path) != both and time.monotonic() < until:
        practising.page.wait_for_timeout(50)
    practising.open_page(path)
    expect_saved(item_of(practising, scenario, quantity))
    expect_saved(item_of(practising, scenario, choice))
    assert versions(site, practising) == both


def test_what_one_apprentice_left_on_a_shared_tablet_is_not_sent_by_the_next(site, practising, crew):
    scenario = drawn(site, practising)
    choice, path = of_kind(scenario, ItemKind.CHOICE), practising.path
    leave_with_answers_waiting(practising, scenario, choice)

    practising.context.clear_cookies()
    with practising.refused(404), practising.page.expect_console_message():
        practising.sign_in(crew["second_apprentice"].email, PASSWORD)  # the answer is not theirs to send
    assert versions(site, practising, of=path) == {}

    practising.context.clear_cookies()
    with practising.page.expect_response("**/items/*"):
        practising.sign_in(crew["apprentice"].email, PASSWORD)
    practising.open_page(path)
    expect_saved(item_of(practising, scenario, choice))
    assert versions(site, practising) == {choice.id: 1}


def leave_with_answers_waiting(screen: Screen, scenario: Scenario, *items: Item) -> None:
    """Answers these without a line and closes the page."""
    with screen.cut_off():
        screen.page.route("**/items/*", lambda route: route.abort("internetdisconnected"))
        for each in items:
            give(screen, scenario, each)
            expect(item_of(screen, scenario, each).get_by_role("status")).to_have_text(WAITS)
        screen.page.goto("about:blank")
        screen.page.unroute("**/items/*")
