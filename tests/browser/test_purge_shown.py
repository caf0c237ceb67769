"""The purge shown happening: what the script moves, against the frames that the core made."""

import json

import pytest
import training_steps as steps
from playwright.sync_api import expect
from screens import SIZES, Screen
from sheets import answer_all, open_attempt, scenarios

from trainer.services.site import Site

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

FAMILY = "Long run"


@pytest.fixture(params=SIZES, ids=lambda size: size.name)
def result(request, screen, crew, site) -> Screen:
    """The result of a family with a straight section."""
    return result_of(screen(crew["apprentice"], size=request.param), site)


def result_of(one: Screen, site: Site) -> Screen:
    one.open_page("/apprentice/practice")
    one.page.locator("label", has_text=FAMILY).locator("input").check()
    one.tick("One thing at a time")
    one.press("Draw a scenario")
    scenario = scenarios(site, open_attempt(one))[1]
    assert steps.keys(scenario)
    answer_all(one, scenario)
    one.press("Strike the arc")
    return one


def frames_of(one: Screen) -> list[dict]:
    return json.loads(one.page.locator("[data-purge]").get_attribute("data-purge"))


def expect_frame(one: Screen, number: int) -> None:
    """Everything on the page stands at this frame."""
    sheet = one.page.locator("[data-purge]")
    frame = frames_of(one)[number]
    classes = sheet.get_attribute("data-classes").split()
    bands = sheet.locator("[data-part=gas] [data-band]")
    shown = bands.evaluate_all("all => all.map((one) => one.getAttribute('class').split(' ')[1])")
    assert shown == [classes[int(place)] for place in frame["bands"]]
    expect(sheet.locator("[data-part=moment]")).to_have_attribute("transform", f"translate({frame['x']:g} 0)")
    expect(sheet.locator("[data-told]")).to_have_text(frame["told"])
    expect(sheet.locator("[data-time]")).to_have_value(str(number))
    expect(sheet.locator("[data-time]")).to_have_attribute("aria-valuetext", frame["told"])


def test_the_page_opens_at_the_strike(result):
    opens_with = int(result.page.locator("[data-purge]").get_attribute("data-opens-with"))
    expect_frame(result, opens_with)
    expect(result.page.locator("[data-root-at-strike]")).to_be_visible()


def test_slider_steps_and_keys_move_gas_line_root_and_words_together(result):
    slider = result.page.locator("[data-time]")
    slider.focus()
    slider.press("Home")
    expect_frame(result, 0)
    result.page.get_by_role("button", name="A moment later").click()
    expect_frame(result, 1)
    slider.press("ArrowRight")
    expect_frame(result, 2)
    result.page.get_by_role("button", name="A moment earlier").click()
    expect_frame(result, 1)

    frame = frames_of(result)[1]
    root = result.page.locator(f"[data-root='{frame['root']}']")
    expect(root).to_be_visible()
    expect(root).to_contain_text(frame["oxygen"])
    expect(result.page.locator("[data-root-at-strike]")).to_be_hidden()
    assert result.accessibility_faults() == []


def test_it_plays_from_the_start_to_the_end_and_can_be_held(result):
    result.page.locator("[data-speed]").select_option("600")
    play = result.page.get_by_role("button", name="Let the gas flow")
    play.click()
    hold = result.page.get_by_role("button", name="Hold it there")
    expect(hold).to_have_attribute("aria-pressed", "true")
    hold.click()
    expect(result.page.get_by_role("button", name="Let the gas flow")).to_be_visible()
    held_at = int(result.page.locator("[data-time]").input_value())
    expect_frame(result, held_at)

    result.page.get_by_role("button", name="Let the gas flow").click()
    last = len(frames_of(result)) - 1
    expect(result.page.locator("[data-time]")).to_have_value(str(last), timeout=30_000)
    expect(result.page.get_by_role("button", name="Let the gas flow")).to_be_visible()
    expect_frame(result, last)


def test_where_motion_is_not_wanted_stills_show_the_same_and_nothing_plays(screen, crew, site):
    still = result_of(screen(crew["apprentice"], reduced_motion="reduce"), site)
    expect(still.page.locator(".stills figure")).to_have_count(4)
    expect(still.page.locator(".stills figure").first).to_be_visible()
    expect(still.page.locator("[data-play]")).to_be_hidden()
    still.page.locator("[data-time]").focus()
    still.page.locator("[data-time]").press("End")
    expect_frame(still, len(frames_of(still)) - 1)


def test_without_scripts_the_stills_stand_and_no_control_does_nothing(screen, crew, site):
    path = result_of(screen(crew["apprentice"]), site).path
    plain = screen(crew["apprentice"], java_script_enabled=False)
    plain.open_page(path)
    expect(plain.page.locator(".stills figure").first).to_be_visible()
    expect(plain.page.locator("[data-purge-controls]")).to_be_hidden()
