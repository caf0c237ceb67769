"""Practice in a real browser, and every figure of its result held against the command `trainer solve`.

The figures are read off the page with their units; the answer comes from the set-up that the page offers as a
file, piped into the real command in a process of its own.
"""

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest
import training_steps as steps
from playwright.sync_api import expect
from screens import DESKTOP, PHONE, SIZES, Screen, folded
from serving import TRAINER, own_environment
from sheets import (
    answer,
    answer_all,
    expect_all_kept,
    expect_saved,
    item_of,
    of_kind,
    open_attempt,
    scenarios,
)
from shown_figures import as_unit, figures_in, same, same_or_over, same_or_under

from trainer.domain.scenario import ItemKind, Scenario
from trainer.services.site import Site
from trainer.storage import attempts

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

LONG_RUN, PUMP_PIT = "Long run", "Pump pit"


def begin(screen: Screen, site: Site, family: str, *, how_hard: str = "One thing at a time") -> Scenario:
    """Starts to practise a family by the form, and looks up what was drawn."""
    screen.open_page("/apprentice/practice")
    screen.page.locator("label", has_text=family).locator("input").check()
    screen.tick(how_hard)
    screen.press("Draw a scenario")
    return scenarios(site, open_attempt(screen))[1]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_a_handle_is_dragged_and_stepped_and_its_box_and_the_site_follow(screen, crew, site, size):
    one = screen(crew["apprentice"], size=size)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.PLACEMENT)
    place = item_of(one, scenario, item)
    grip = one.page.get_by_role("slider", name=item.handles[0].label)
    box = place.get_by_label(item.handles[0].label, exact=True)

    drag(one, grip, by_px=-12)
    dragged = float(grip.get_attribute("aria-valuenow"))
    expect_saved(place)

    assert as_unit(box.input_value(), "mm") == as_unit(grip.get_attribute("aria-valuetext"), "mm")
    assert same(as_unit(box.input_value(), "mm"), dragged)
    assert box.input_value() == kept(site, one)[item.id][item.handles[0].id]

    step_mm = item.handles[0].step * 1000
    for key, steps_count in (("ArrowRight", 1), ("ArrowLeft", -1), ("PageUp", 10), ("ArrowDown", -1)):
        before = as_unit(box.input_value(), "mm")
        grip.press(key)
        assert as_unit(box.input_value(), "mm") == pytest.approx(before + steps_count * step_mm), key
    grip.press("Home")
    assert as_unit(box.input_value(), "m") == pytest.approx(item.handles[0].low)
    grip.press("End")
    assert as_unit(box.input_value(), "m") == pytest.approx(item.handles[0].high)
    place.get_by_role("button", name=f"{item.handles[0].label}: less").click()
    assert as_unit(box.input_value(), "m") == pytest.approx(item.handles[0].high - item.handles[0].step)

    one.fill(item.handles[0].label, "1234 mm", within=place)
    expect_all_kept(one)
    assert as_unit(grip.get_attribute("aria-valuetext"), "mm") == pytest.approx(1234, abs=step_mm)
    assert kept(site, one)[item.id][item.handles[0].id] == "1234 mm"


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_a_sign_of_the_drawing_and_its_tick_box_are_one(screen, crew, site, size):
    one = screen(crew["apprentice"], size=size)
    scenario = begin(one, site, LONG_RUN)
    item = of_kind(scenario, ItemKind.HAZARDS)
    place = item_of(one, scenario, item)
    sign = one.page.locator(f'[data-hazard="{item.objects[0].id}"]')
    box = place.locator(f'input[value="{item.objects[0].id}"]')

    sign.tap() if size.touch else sign.click()
    expect(box).to_be_checked()
    expect_saved(place)
    assert kept(site, one)[item.id] == [item.objects[0].id]

    with one.refused(422):  # no tick at all is no answer, and is said to be none
        sign.press("Space")
        expect(box).not_to_be_checked()
        expect(place).to_contain_text("Nothing was answered; what was kept before still counts.")
    box.check()
    expect(sign).to_have_attribute("aria-checked", "true")
    expect_saved(place)
    assert kept(site, one)[item.id] == [item.objects[0].id]


@pytest.mark.parametrize(
    ("family", "size", "units"),
    [
        (LONG_RUN, DESKTOP, "metric"), (LONG_RUN, PHONE, "US (inch, pound)"),
        (PUMP_PIT, PHONE, "metric"), (PUMP_PIT, DESKTOP, "US (inch, pound)"),
    ],
    ids=lambda each: getattr(each, "name", each),
)  # fmt: skip
def test_every_figure_of_a_result_is_what_solve_answers_for_the_same_set_up(
    screen, crew, site, *, family, size, units, tmp_path
):
    one = screen(crew["apprentice"], size=size)
    one.open_page("/account")
    one.tick(units)
    one.press("Keep")
    scenario = begin(one, site, family)
    answer_all(one, scenario)
    one.press("Strike the arc")

    assert one.heading == f"Result: {scenario.title}"
    set_up = downloaded(one, tmp_path)
    answered = solved(set_up)
    compare_four_figures(one, answered)
    compare_sentences(one, set_up, answered)
    compare_trace(one, answered)
    compare_root(one, answered)
    compare_cautions(one, answered)


def test_a_late_strike_and_a_sugared_root_are_told_with_the_same_figures(screen, crew, site, tmp_path):
    one = screen(crew["apprentice"])
    scenario = begin(one, site, LONG_RUN)
    right = steps.keys(scenario)
    wait = of_kind(scenario, ItemKind.QUANTITY)
    for item in scenario.items:
        answer(one, scenario, item, "1 min" if item is wait else right[item.id])
        expect_saved(item_of(one, scenario, item))
    one.press("Strike the arc")

    set_up = downloaded(one, tmp_path)
    answered = solved(set_up)
    assert set_up["wait"] in {"60 s", "1 min"}
    assert answered["purge"]["oxygen_after_wait_ppm"]["expected"] > as_unit(set_up["target"]["oxygen"], "ppm")
    compare_four_figures(one, answered)
    compare_sentences(one, set_up, answered)
    compare_trace(one, answered)
    compare_root(one, answered)
    compare_cautions(one, answered)


def drag(screen: Screen, grip: Any, *, by_px: int) -> None:
    """By mouse, or with a finger where there is one."""
    grip.scroll_into_view_if_needed()
    box = grip.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    if not screen.size.touch:
        screen.page.mouse.move(x, y)
        screen.page.mouse.down()
        screen.page.mouse.move(x + by_px / 2, y)
        screen.page.mouse.move(x + by_px, y)
        screen.page.mouse.up()
        return
    finger = screen.context.new_cdp_session(screen.page)
    for kind, at in (
        ("touchStart", x),
        ("touchMove", x + by_px / 2),
        ("touchMove", x + by_px),
        ("touchEnd", None),
    ):
        points = [] if at is None else [{"x": at, "y": y}]
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


def kept(site: Site, screen: Screen) -> dict[str, Any]:
    """The responses that the site has, by item."""
    expect_all_kept(screen)
    with site.database.reading() as work:
        found = attempts.list_latest_responses(work, attempt_id=open_attempt(screen))
    return {each.item_id: each.raw for each in found}


def downloaded(screen: Screen, folder: Path) -> dict[str, Any]:
    """The set-up that the page offers as a file."""
    with screen.page.expect_download() as download:
        screen.page.get_by_role("link", name="Your set-up as a file (JSON)").click()
    path = folder / "set-up.json"
    download.value.save_as(path)
    return json.loads(path.read_text(encoding="utf-8"))


def solved(set_up: dict[str, Any]) -> dict[str, Any]:
    """What the command answers."""
    done = subprocess.run(
        [TRAINER, "solve", "-"], input=json.dumps(set_up), capture_output=True, text=True, check=True, env=own_environment()
    )  # fmt: skip
    return json.loads(done.stdout)


def compare_four_figures(screen: Screen, answered: dict[str, Any]) -> None:
    told = {
        folded(row.locator("dt").inner_text()): (
            folded(row.locator("data").inner_text()), folded(row.locator("dd").inner_text())
        )
        for row in screen.page.locator("dl.figures > div").all()
    }  # fmt: skip
    assert list(told) == [
        "Oxygen at strike", "Gas used until the arc", "Pressure on the bead", "Lowest oxygen to breathe nearby",
    ]  # fmt: skip
    oxygen = answered["purge"]["oxygen_after_wait_ppm"]
    shown, beside = told["Oxygen at strike"]
    assert same_or_over(as_unit(shown, "ppm"), oxygen["expected"])
    # ends that read alike are not told twice: both are what stands there
    ends = [f"{number} {unit}" for number, unit in figures_in(beside)[1:]] or [shown, shown]
    assert len(ends) == 2
    assert same_or_over(as_unit(ends[0], "ppm"), oxygen["lower"])
    assert same_or_over(as_unit(ends[1], "ppm"), oxygen["upper"])
    assert answered["root"]["grade"] in beside
    assert same(as_unit(told["Gas used until the arc"][0], "liter"), answered["gas_used"]["before_arc_l"])
    assert same(as_unit(told["Pressure on the bead"][0], "Pa"), answered["vent"]["pressure_rise_pa"])
    compare_breathing(*told["Lowest oxygen to breathe nearby"], answered.get("breathing", {}))


def compare_breathing(shown: str, beside: str, answered: dict[str, Any]) -> None:
    faces = [each.get("oxygen_percent") for each in answered.get("people", [])]
    known = [each for each in (*faces, answered.get("oxygen_mixed_percent")) if each is not None]
    if not known:
        assert shown == "–"
        return
    assert same_or_under(as_unit(shown, "percent"), min(known))
    if min(known) in faces:
        assert beside.endswith(f"at the face of person {faces.index(min(known)) + 1}")
        return
    depth = figures_in(beside)[1:]
    assert len(depth) == (1 if answered.get("pool_depth_m") else 0)
    assert all(same(as_unit(f"{n} {unit}", "m"), answered["pool_depth_m"]) for n, unit in depth)


def compare_sentences(screen: Screen, set_up: dict[str, Any], answered: dict[str, Any]) -> None:
    """The first sentence: how long the wait was, the oxygen, and how much longer would have been sure."""
    said = folded(screen.page.locator("p.verdict").last.inner_text())
    struck, _, rest = said.partition(". ")
    seen, _, remedy = rest.partition(":")
    oxygen, needed = answered["purge"]["oxygen_after_wait_ppm"], answered["purge"]["time_to_target_s"]
    target = as_unit(set_up["target"]["oxygen"], "ppm")
    assert abs(as_unit(struck, "s") - as_unit(set_up["wait"], "s")) <= 0.5
    assert same_or_over(as_unit(seen, "ppm"), oxygen["expected"])
    assert answered["root"]["grade"] in remedy
    if "more would have made" not in remedy:
        return
    more, _, sure = remedy.partition(" more would ")
    assert abs(as_unit(more, "s") - (needed["upper"] - as_unit(set_up["wait"], "s"))) <= 30
    assert same(as_unit(sure, "ppm"), target)


def compare_trace(screen: Screen, answered: dict[str, Any]) -> None:
    """Every row of the trace's table is a row of the answer: minutes, then root, mean and vent."""
    rows = screen.rows("Oxygen against time")
    trace = answered["purge"]["trace"]
    assert len(rows) >= 10
    for minutes, *levels in rows:
        near = [row for row in trace if abs(row[0] / 60 - float(minutes)) <= 0.0501]
        shown = [as_unit(each, "ppm") for each in levels]
        assert any(all(same_or_over(a, b) for a, b in zip(shown, row[1:], strict=True)) for row in near), (
            minutes,
            levels,
        )
    assert as_unit(rows[0][1], "percent") == pytest.approx(20.95, abs=0.1)


def compare_root(screen: Screen, answered: dict[str, Any]) -> None:
    """The drawing of the root says its colour and the oxygen in words, for those who do not see it."""
    drawing = screen.page.locator("figure", has_text="The root as computed").locator("svg")
    told = folded(
        f"{drawing.locator('title').first.text_content()} {drawing.locator('desc').first.text_content()}"
    )
    assert answered["root"]["grade"] in told
    shown = [as_unit(f"{n} {unit}", "ppm") for n, unit in figures_in(told) if unit in {"ppm", "%"}]
    assert any(
        same_or_over(each, answered["purge"]["oxygen_after_wait_ppm"]["expected"]) for each in shown
    ), told


def compare_cautions(screen: Screen, answered: dict[str, Any]) -> None:
    assert screen.page.locator("p.caution").count() == len(answered["cautions"])
