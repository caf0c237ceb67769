"""Parts are moved on the drawing by mouse, by finger and by keys to one and the same response, which the site keeps."""

from math import dist

import pytest
from playwright.sync_api import expect
from screens import DESKTOP, PHONE, SIZES
from sheets import expect_all_kept, expect_saved, item_of, of_kind
from shown_figures import as_unit
from test_practising_by_hand import LONG_RUN, begin, kept

from trainer.domain.scenario import ItemKind

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

LEAST_CSS_PX = 10.9
HEIGHTS = "End plates"


def pixels_per_unit(one) -> float:
    return one.page.locator("svg.d-picture").first.evaluate("svg => svg.getScreenCTM().a")


def middle_of(one, grip, *, brings_in_sight: bool = True) -> tuple[float, float]:
    ring = grip.locator(".d-handle")
    if brings_in_sight:
        ring.scroll_into_view_if_needed()
    box = ring.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def by_mouse(one, start, end) -> None:
    one.page.mouse.move(*start)
    one.page.mouse.down()
    one.page.mouse.move(*end, steps=6)
    one.page.mouse.up()


def by_finger(one, start, end) -> None:
    finger = one.context.new_cdp_session(one.page)
    way = [
        (start[0] + (end[0] - start[0]) * i / 6, start[1] + (end[1] - start[1]) * i / 6) for i in range(1, 7)
    ]
    for kind, at in (("touchStart", start), *(("touchMove", each) for each in way), ("touchEnd", None)):
        points = [] if at is None else [{"x": at[0], "y": at[1]}]
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


WAYS = [(DESKTOP, by_mouse), (PHONE, by_finger)]


@pytest.mark.parametrize(("size", "drag"), WAYS, ids=["mouse on a desktop", "finger on a phone"])
def test_a_dam_dragged_and_a_dam_stepped_come_to_the_same_kept_response(screen, crew, site, size, drag):
    one = screen(crew["apprentice"], size=size)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    place = item_of(one, scenario, item)
    left, right = (one.page.get_by_role("slider", name=each.label) for each in item.handles)
    boxes = [place.get_by_label(each.label, exact=True) for each in item.handles]

    start = middle_of(one, left)
    drag(one, start, (start[0] + 60 * pixels_per_unit(one), start[1]))
    expect_saved(place)
    dragged_mm = as_unit(boxes[0].input_value(), "mm")
    assert dragged_mm % 10 == pytest.approx(0)  # whole 10 mm
    assert left.get_attribute("aria-valuetext").replace("\u00a0", " ") == f"{dragged_mm:g} mm from the joint"
    assert (
        place.locator(f'[data-handle-says="{item.handles[0].id}"]').inner_text().startswith(f"{dragged_mm:g}")
    )

    right.focus()
    right.press("Home")
    for _ in range(round((dragged_mm - as_unit(boxes[1].input_value(), "mm")) // 100)):
        right.press("PageUp")
    while as_unit(boxes[1].input_value(), "mm") < dragged_mm:
        right.press("ArrowRight")
    expect_all_kept(one)

    found = kept(site, one)[item.id]
    assert found[item.handles[0].id] == found[item.handles[1].id] == boxes[0].input_value()
    for grip in (left, right):
        assert as_unit(grip.get_attribute("aria-valuetext").split(" from")[0], "mm") == dragged_mm


@pytest.mark.parametrize(("size", "drag"), WAYS, ids=["mouse on a desktop", "finger on a phone"])
def test_a_vent_dragged_up_says_its_height_and_its_hour(screen, crew, site, size, drag):
    one = screen(crew["apprentice"], size=size)
    scenario = begin(one, site, HEIGHTS)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    place = item_of(one, scenario, item)
    handle = next(each for each in item.handles if each.sets == "vent.height")
    grip = one.page.get_by_role("slider", name=handle.label)

    start = middle_of(one, grip)
    drag(one, start, (start[0], start[1] - 200 * pixels_per_unit(one)))
    expect_saved(place)
    assert kept(site, one)[item.id][handle.id] == f"{handle.high:g}"
    assert "of the bore's height" in grip.get_attribute("aria-valuetext")
    assert "near 1 o'clock" in grip.get_attribute("aria-valuetext") or "2 o'clock" in grip.get_attribute(
        "aria-valuetext"
    )

    grip.press("ArrowDown")
    grip.press("ArrowUp")
    expect_all_kept(one)
    assert kept(site, one)[item.id][handle.id] == f"{handle.high:g}"


FINGER_CSS_PX = 44


# Dams on a level pipe and on one that stands, holes on both ends, and both on the closures of one short piece.
EVERY_KIND_OF_GRIP = (LONG_RUN, HEIGHTS, "Riser", "Socket weld", "Dairy line", "Nozzle in a vessel")


@pytest.mark.parametrize("family", EVERY_KIND_OF_GRIP)
def test_a_grip_on_a_phone_is_as_large_as_a_finger_and_takes_no_touch_of_another(screen, crew, site, family):
    one = screen(crew["apprentice"], size=PHONE)
    scenario = begin(one, site, family)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    labels = [each.label for each in item.handles]
    grips = {each: one.page.get_by_role("slider", name=each) for each in labels}
    for label in labels:
        for side in ((1, 0), (-1, 0), (0, 1), (0, -1)):
            middle = middle_of(one, grips[label])  # which moves with what is pushed
            middles = {each: middle_of(one, grips[each], brings_in_sight=False) for each in labels}
            at = tuple(middle[i] + side[i] * 0.95 * FINGER_CSS_PX / 2 for i in (0, 1))
            one.page.mouse.move(*at)
            one.page.mouse.down()
            held = [each for each in labels if grips[each].get_attribute("data-held")]
            one.page.mouse.up()
            assert held == [near_of(middles, at)], (label, side)


def test_dams_put_against_the_joint_are_each_moved_by_a_finger(screen, crew, site):
    one = screen(crew["apprentice"], size=PHONE)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    place = item_of(one, scenario, item)
    grips = [one.page.get_by_role("slider", name=each.label) for each in item.handles]
    for grip in grips:
        grip.press("Home")
    expect_all_kept(one)
    for grip, handle, way in zip(grips, item.handles, (-1, 1), strict=True):
        others = [place.get_by_label(each.label, exact=True) for each in item.handles if each is not handle]
        stood = [each.input_value() for each in others]
        start = middle_of(one, grip)
        inwards = (
            start[0] - way * 0.9 * FINGER_CSS_PX / 2,
            start[1],
        )  # on the side where the other one stands
        by_finger(one, inwards, (inwards[0] + way * 60 * pixels_per_unit(one), start[1]))
        expect_saved(place)
        assert as_unit(place.get_by_label(handle.label, exact=True).input_value(), "mm") > handle.low * 1000
        assert [each.input_value() for each in others] == stood
        grip.press("Home")
    expect_all_kept(one)


AT_PLACE = """([x, y]) => document.elementFromPoint(x, y).closest("[data-hazard]")?.dataset.hazard"""


def test_each_sign_on_a_phone_takes_the_touch_of_a_finger(screen, crew, site):
    one = screen(crew["apprentice"], size=PHONE)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.HAZARDS)
    corners = [(1, 1), (-1, 1), (1, -1), (-1, -1)]
    for number, thing in enumerate(item.objects):
        sign = one.page.locator(f'[data-hazard="{thing.id}"]')
        # the whole of it, in a drawing that stays in sight and scrolls by itself
        sign.evaluate('each => each.scrollIntoView({ block: "center", behavior: "instant" })')
        box = sign.locator(".d-hit").bounding_box()
        assert min(box["width"], box["height"]) >= FINGER_CSS_PX
        far = 0.95 * FINGER_CSS_PX / 2
        middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        touched = [(middle[0] + across * far, middle[1] + down * far) for across, down in corners]
        assert [one.page.evaluate(AT_PLACE, each) for each in touched] == [thing.id] * 4
        one.page.touchscreen.tap(*touched[number % 4])
        expect(sign).to_have_attribute("aria-checked", "true")
    expect_all_kept(one)
    assert kept(site, one)[item.id] == [each.id for each in item.objects]


@pytest.mark.parametrize("family", EVERY_KIND_OF_GRIP[2:])
def test_a_grip_moved_by_a_finger_and_by_keys_leaves_the_other_where_it_stood(screen, crew, site, family):
    one = screen(crew["apprentice"], size=PHONE)
    scenario = begin(one, site, family)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    place = item_of(one, scenario, item)
    for handle in item.handles:
        grip = one.page.get_by_role("slider", name=handle.label)
        others = [place.get_by_label(each.label, exact=True) for each in item.handles if each is not handle]
        stood = [each.input_value() for each in others]
        grip.press("Home")
        lowest = float(grip.get_attribute("aria-valuenow"))
        start = middle_of(one, grip)
        grip.press("End")
        end = middle_of(one, grip)
        grip.press("Home")
        by_finger(one, middle_of(one, grip), tuple(start[i] + (end[i] - start[i]) * 0.5 for i in (0, 1)))
        expect_saved(place)
        assert float(grip.get_attribute("aria-valuenow")) > lowest
        dragged = float(grip.get_attribute("aria-valuenow"))
        grip.press("ArrowUp")
        assert float(grip.get_attribute("aria-valuenow")) > dragged
        assert [each.input_value() for each in others] == stood
    expect_all_kept(one)


def near_of(middles, at) -> str:
    return min(middles, key=lambda each: dist(middles[each], at))


def test_half_inches_for_who_reads_inches(screen, crew, site):
    one = screen(crew["apprentice"])
    one.open_page("/account")
    one.tick("US (inch, pound)")
    one.press("Keep")
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    grip = one.page.get_by_role("slider", name=item.handles[0].label)
    start = middle_of(one, grip)
    by_mouse(one, start, (start[0] + 50, start[1]))
    expect_all_kept(one)
    inches = as_unit(kept(site, one)[item.id][item.handles[0].id], "inch")
    assert (2 * inches) % 1 == pytest.approx(0)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_marks_carry_the_numbers_of_the_list_and_the_line_under_it_keeps_them(screen, crew, site, size):
    one = screen(crew["apprentice"], size=size)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.HAZARDS)
    place = item_of(one, scenario, item)
    signs = [one.page.locator(f'[data-hazard="{each.id}"]') for each in item.objects]
    line = place.locator("[data-marked]")
    expect(line).to_have_text("Nothing marked yet")

    signs[2].tap() if size.touch else signs[2].click()
    signs[0].press("Enter")
    expect(line).to_have_text("Marked: 1, 3")
    for number, (sign, thing) in enumerate(zip(signs, item.objects, strict=True), start=1):
        label = place.locator("label", has=one.page.locator(f'input[value="{thing.id}"]'))
        assert sign.locator("text.d-badge-figure").text_content() == str(number)
        assert label.locator(".item-number").inner_text() == str(number)
    expect_all_kept(one)
    assert kept(site, one)[item.id] == [item.objects[0].id, item.objects[2].id]

    one.page.reload()
    expect(line).to_have_text("Marked: 1, 3")
    expect(signs[2]).to_have_attribute("aria-checked", "true")


def test_marks_and_their_numbers_are_there_without_scripts(screen, crew, site):
    one = screen(crew["apprentice"], java_script_enabled=False)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.HAZARDS)
    place = item_of(one, scenario, item)
    place.locator(f'input[value="{item.objects[1].id}"]').check()
    number = list(scenario.items).index(item) + 1
    one.press(f"Keep answer {number}")
    assert item_of(one, scenario, item).locator("[data-marked]").inner_text() == "Marked: 2"
    sign = one.page.locator(f'[data-hazard="{item.objects[1].id}"]')
    assert sign.get_attribute("aria-checked") == "true"
    assert one.page.locator('[data-part="mark 2"]').count() == 1


def test_words_of_a_drawing_are_legible_on_a_phone(screen, crew, site):
    one = screen(crew["apprentice"], size=PHONE)
    begin(one, site, LONG_RUN)
    sizes = one.page.locator("svg.d-picture").first.evaluate(
        """svg => [...svg.querySelectorAll("text")].map(
             text => [text.textContent, parseFloat(getComputedStyle(text).fontSize) * svg.getScreenCTM().a])"""
    )
    assert sizes
    assert [each for each in sizes if each[1] < LEAST_CSS_PX] == []
