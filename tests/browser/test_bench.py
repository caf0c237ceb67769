"""The bench at a real browser: live results, stale answers, comparing, sharing, printing, and without scripts."""

import re
import time

import pytest
from playwright.sync_api import Route, expect
from screens import PHONE, SIZES, Screen, folded

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

PAGES_OF_A_PDF = re.compile(rb"/Type\s*/Page\b")
CROWDED = (
    "v=1&start=spool-branch&material=titanium&gas.symbol=N1&gas.oxygen=2000+ppm&wait=2+min&hose.open_fraction=0.1"
    "&surroundings.kind=trench&surroundings.volume=10+m^3&surroundings.floor_area=6+m^2&scene.vent_leads_to=trench"
    "&scene.people.0.where=trench&scene.people.0.face_height=0.3+m&supply.pressure=12+bar&joint.taped=0.5"
)


@pytest.fixture(params=SIZES, ids=lambda size: size.name)
def bench(request, screen) -> Screen:
    one = screen(size=request.param)
    one.open_page("/bench/set-up?v=1&start=shop")
    return one


def box(one: Screen, path: str):
    return one.page.locator(f'[id="{path}"]')


def summary(one: Screen):
    return one.page.locator("[data-summary]")


def test_what_is_typed_shows_at_once_without_a_new_page(bench):
    bench.page.evaluate("window.sameOne = true")
    box(bench, "wait").fill("2")
    expect(summary(bench)).to_contain_text("Struck after 2 min")
    expect(bench.page.locator("[data-figure=oxygen]")).to_contain_text("beyond its limit")
    assert bench.page.evaluate("window.sameOne") is True
    assert bench.path == "/bench/set-up?v=1&start=shop&wait=2+min"
    assert bench.overhang_px() == 0


def test_the_drawing_stays_in_sight_while_the_form_is_changed(bench):
    box(bench, "wait").scroll_into_view_if_needed()
    top = bench.page.locator("[data-live]").bounding_box()["y"]
    assert 0 <= top < bench.size.height / 2


def test_a_fault_stands_at_its_field_and_the_last_good_result_stays_marked_as_old(bench):
    box(bench, "wait").fill("3")
    expect(summary(bench)).to_contain_text("Struck after 3 min")
    box(bench, "flow.purge").fill("12 kg")
    field = bench.page.locator(".field", has=box(bench, "flow.purge"))
    expect(field.locator(".field-error")).to_contain_text("kg")
    expect(box(bench, "flow.purge")).to_have_value("12 kg")
    expect(bench.page.locator("[data-stale-words]")).to_be_visible()
    expect(summary(bench)).to_contain_text("Struck after 3 min")
    assert bench.accessibility_faults() == []
    box(bench, "flow.purge").fill("18")
    expect(bench.page.locator("[data-stale-words]")).to_be_hidden()
    expect(field.locator(".field-error")).to_have_count(0)
    expect(box(bench, "flow.purge")).not_to_have_attribute("aria-invalid", "true")


def test_an_answer_that_comes_too_late_is_not_shown(screen):
    one = screen()
    one.open_page("/bench/set-up?v=1&start=shop")
    held: list[Route] = []

    def hold_the_first(route: Route) -> None:
        if "wait=2&" in route.request.url:
            held.append(route)
        else:
            route.continue_()

    one.page.route("**/bench/set-up/results?*", hold_the_first)
    box(one, "wait").fill("2")
    deadline = time.monotonic() + 30
    while not held and time.monotonic() < deadline:
        one.page.wait_for_timeout(20)
    box(one, "wait").fill("4")
    expect(summary(one)).to_contain_text("Struck after 4 min")
    # The request for 2 min was given up by the page; even answered now, nothing of it is shown.
    assert one.page.evaluate(
        "performance.getEntriesByType('resource').filter((e) => e.name.includes('wait=2&')).every((e) => !e.responseStatus)"
    )
    held[0].abort()
    one.page.wait_for_timeout(200)
    expect(summary(one)).to_contain_text("Struck after 4 min")
    expect(one.page.locator("[data-lost-words]")).to_be_hidden()


def test_when_no_answer_comes_the_page_says_so_and_goes_on_afterwards(screen):
    one = screen()
    one.open_page("/bench/set-up?v=1&start=shop")
    with one.cut_off():
        one.context.set_offline(True)
        box(one, "wait").fill("2")
        expect(one.page.locator("[data-lost-words]")).to_be_visible()
        expect(summary(one)).to_contain_text("Struck after 5 min")
        one.context.set_offline(False)
        box(one, "wait").fill("3")
        expect(summary(one)).to_contain_text("Struck after 3 min")
    expect(one.page.locator("[data-lost-words]")).to_be_hidden()


def test_two_set_ups_are_compared_live(bench):
    bench.follow("Keep this one as A and change B")
    box(bench, "flow.purge").fill("25")
    expect(bench.page.get_by_role("heading", name="A and B side by side")).to_be_visible()
    expect(bench.page.locator("table", has_text="What differs in the set-up")).to_contain_text("25 L/min")
    assert bench.rows("What differs in the set-up") == [["Purge flow", "15 L/min", "25 L/min"]]
    expect(bench.page.locator("[data-live] .drawing")).to_have_count(2)
    assert bench.overhang_px() == 0
    assert bench.accessibility_faults() == []


def test_a_link_opened_elsewhere_shows_the_same(bench, screen):
    box(bench, "wait").fill("2.5")
    expect(summary(bench)).to_contain_text("Struck after 2 min 30 s")
    said = bench.page.locator("[data-live], [data-said]").all_inner_texts()
    other = screen(size=bench.size)
    other.open_page(bench.path)
    assert other.page.locator("[data-live], [data-said]").all_inner_texts() == said
    assert box(other, "wait").input_value() == "2.5"


def test_the_core_tries_changes_and_one_press_makes_the_best(screen):
    one = screen()
    one.open_page("/bench/set-up?v=1&start=trench")
    one.page.get_by_role("link", name="Let the core try them").click()
    first = one.page.locator(".bench-changes > li").first
    expect(first).to_contain_text("Lead the vent's gas outside by a hose.")
    with one.page.expect_navigation():
        first.get_by_role("link").click()
    assert box(one, "scene.vent_leads_to").input_value() == "open air"
    assert one.accessibility_faults() == []


def test_changes_come_a_little_later_where_too_many_asked_at_once(screen):
    one = screen()
    one.open_page("/bench/set-up?v=1&start=trench")
    turned_away: list[Route] = []

    def turn_the_first_away(route: Route) -> None:
        if turned_away:
            route.continue_()
        else:
            turned_away.append(route)
            route.fulfill(status=429)

    one.page.route("**/bench/set-up/help?*", turn_the_first_away)
    with one.refused(429):
        one.page.get_by_role("link", name="Let the core try them").click()
        expect(one.page.locator(".bench-changes > li").first).to_be_visible()
    assert turned_away
    expect(one.page.locator("[data-trying]")).to_be_hidden()


def test_where_no_script_may_copy_the_link_none_is_offered(screen):
    one = screen()
    one.context.add_init_script(
        "Object.defineProperty(Navigator.prototype, 'clipboard', { value: undefined })"
    )
    one.open_page("/bench/set-up?v=1&start=shop")
    expect(one.page.get_by_text("Purge card to print")).to_be_visible()
    expect(one.page.get_by_role("button", name="Copy the link")).to_be_hidden()


def test_the_gas_flows_when_asked_for_and_is_asked_for_anew_after_a_change(screen):
    one = screen()
    one.open_page("/bench/set-up?v=1&start=shop")
    one.page.get_by_role("link", name="Show it happening").click()
    slider = one.page.locator("#filling [data-time]")
    slider.focus()
    slider.press("Home")
    expect(one.page.locator("#filling [data-told]")).to_contain_text("0.0 min")
    box(one, "wait").fill("3")
    expect(slider).to_have_count(0)
    expect(one.page.get_by_role("link", name="Show it happening")).to_be_visible()


def test_a_part_of_another_kind_asks_for_other_fields(screen):
    one = screen()
    one.open_page("/bench/set-up?v=1&start=spool-riser")
    with one.refused(422), one.page.expect_navigation():
        box(one, "section.path.0.part").select_option("reducer")
    assert box(one, "section.path.0.to_bore").is_visible()


def test_the_bench_works_without_scripts(screen):
    one = screen(java_script_enabled=False)
    one.open_page("/bench/set-up")
    one.fill("Purge flow", "25")
    one.press("Work it out")
    assert one.path == "/bench/set-up?v=1&start=shop&flow.purge=25+L/min"
    assert "Struck after 5 min" in folded(summary(one).inner_text())
    one.follow("Let the core try them")
    assert one.page.locator(".bench-changes > li").count() >= 1
    one.follow("Show it happening")
    assert one.page.locator("#filling .stills figure").first.is_visible()
    one.follow("Keep this one as A and change B")
    assert "A and B side by side" in one.text


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
@pytest.mark.parametrize("query", ["v=1&start=shop", "v=1&start=spool-over-us&units=inch-pound", CROWDED])
def test_the_purge_card_is_one_page(screen, query, sheet):
    one = screen()
    one.open_page(f"/bench/set-up/card?{query}")
    assert one.heading == "Purge card"
    assert len(PAGES_OF_A_PDF.findall(one.page.pdf(format=sheet))) == 1


def test_the_card_is_read_on_a_phone_too(screen):
    one = screen(size=PHONE)
    one.open_page("/bench/set-up/card?v=1&start=shop")
    assert one.overhang_px() == 0
    assert one.accessibility_faults() == []
