"""The main loop without mouse or finger: every key goes to whatever has the focus, and the focus is always seen."""

import pytest
import training_steps as steps
from crew import PASSWORD
from playwright.sync_api import Page
from sheets import expect_saved, item_of, open_attempt, scenarios
from test_practising_by_hand import LONG_RUN, kept

from trainer.domain.scenario import Item, ItemKind

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

MOST_STOPS = 150  # of the tab key on one page
FOCUSED = """() => {
    const here = document.activeElement;
    const outlined = [here, here.querySelector(".d-handle")].filter((each) => each).map((each) => getComputedStyle(each))
        .some((style) => style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2);
    const label = here.labels && here.labels.length ? here.labels[0].textContent : "";
    const words = here.getAttribute("aria-label") || label || here.textContent || here.value || "";
    const box = here.getBoundingClientRect();
    return {
        words: words.trim().replace(/\\s+/g, " "), name: here.getAttribute("name") || "",
        value: here.getAttribute("value") || "", role: here.getAttribute("role") || (here.type === "range" ? "slider" : here.localName),
        isSeen: outlined || here.localName === "body",
        isInWindow: box.bottom > 0 && box.top < window.innerHeight,
    };
}"""


class Keys:
    """Somebody at the keys of one page."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def to(self, **wanted: str) -> dict[str, str]:
        """Goes on by the tab key to what has these words, name, value or role; fails where focus is lost to sight."""
        for _ in range(MOST_STOPS):
            self.page.keyboard.press("Tab")
            here = self.page.evaluate(FOCUSED)
            assert here["isSeen"], f"nobody sees that {here} has the focus"
            assert here["isInWindow"], f"{here} has the focus out of sight"
            if all(here[key] == value for key, value in wanted.items()):
                return here
        raise AssertionError(f"{MOST_STOPS} stops of the tab key and none at {wanted}")

    def press(self, *keys: str) -> None:
        for each in keys:
            self.page.keyboard.press(each)

    def follow(self) -> None:
        """Enter, and the page that it leads to."""
        with self.page.expect_navigation():
            self.page.keyboard.press("Enter")


def test_from_signing_in_to_the_result_by_keys_alone(screen, crew, site):
    one = screen()
    keys = Keys(one.page)
    one.open_page("/account/sign-in")
    keys.to(words="E-mail")
    one.page.keyboard.type(crew["apprentice"].email)
    keys.to(words="Password")
    one.page.keyboard.type(PASSWORD)
    keys.follow()

    keys.to(words="Practice", role="a")
    keys.follow()
    begin_by_keys(one, keys)
    scenario = scenarios(site, open_attempt(one))[1]
    right = steps.keys(scenario)
    for item in scenario.items:
        answer_by_keys(one, keys, scenario.items.index(item) + 1, item, right[item.id])
        expect_saved(item_of(one, scenario, item))

    found = kept(site, one)
    assert set(found) == {each.id for each in scenario.items}
    keys.to(words="Strike the arc")
    keys.follow()
    assert one.heading == f"Result: {scenario.title}"
    assert one.text.count("Score right, 100 %") == len(scenario.items)

    keys.to(role="slider", words="Time")
    said = "document.activeElement.getAttribute('aria-valuetext')"
    before = one.page.evaluate(said)
    keys.press("ArrowLeft")
    assert one.page.evaluate(said) != before


def begin_by_keys(one, keys: Keys) -> None:
    """A round is reached by the tab key, the others of its group by the arrows."""
    keys.to(name="family")
    while LONG_RUN not in one.page.evaluate(FOCUSED)["words"]:
        keys.press("ArrowDown")
    keys.to(name="difficulty")
    while one.page.evaluate(FOCUSED)["words"] != "One thing at a time":
        keys.press("ArrowUp")
    keys.to(words="Draw a scenario")
    keys.follow()


def answer_by_keys(one, keys: Keys, number: int, item: Item, right) -> None:
    if item.kind is ItemKind.PLACEMENT:
        place_by_keys(one, keys, item, right)
    elif item.dimension is not None:
        keys.to(words=f"Answer {number}")
        keys.press("Control+a")
        one.page.keyboard.type(str(right))
        keys.press("Tab")
    elif item.options:
        here = keys.to(name=f"item-{item.id}")
        keys.press("Space")
        while here["value"] != right:
            keys.press("ArrowDown")
            here = one.page.evaluate(FOCUSED)
    elif item.kind is ItemKind.ORDER:
        for step, wanted in enumerate(right, start=1):
            keys.to(name=f"item-{item.id}-{wanted}")
            one.page.keyboard.type(str(step))
    else:
        for box in (each.id for each in item.objects if each.id in right):
            keys.to(role="input", value=box)
            keys.press("Space")


def place_by_keys(one, keys: Keys, item: Item, right) -> None:
    """Each grip is stepped to one end and a step back, then its box typed into: both are ways in."""
    for handle in item.handles:
        keys.to(words=handle.label, role="slider")
        keys.press("Home", "ArrowRight")
        at = one.page.evaluate("document.activeElement.getAttribute('aria-valuenow')")
        unit = 1.0 if handle.dimension is None else 1000.0
        assert float(at) == pytest.approx((handle.low + handle.step) * unit, rel=1e-6)
    for handle in item.handles:
        keys.to(words=handle.label, role="input")
        keys.press("Control+a")
        one.page.keyboard.type(str(right[handle.id]))
        keys.press("Tab")
