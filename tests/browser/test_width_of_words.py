"""The widths that drawings are laid out with are at least those that the browser gives the words."""

import pytest

from trainer.domain.families import draw
from trainer.drawing.asked import Asked
from trainer.drawing.reader import Reader
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.drawing.text_width import ASCENT, DESCENT, LARGEST_TYPE, text_width
from trainer.scenario_files import load_content

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

DRAWINGS = 20
ROUNDED_UNITS = 0.6

MEASURE = """([svgs, type]) => svgs.flatMap(svg => {
  document.body.innerHTML = svg;
  const drawn = document.querySelector("svg");
  drawn.style.width = "800px";
  return [...drawn.querySelectorAll("text:not(.d-badge-figure)")].map(text => {
    text.style.fontSize = `${type}px`;
    const box = text.getBBox();
    return [text.textContent, box.width, Number(text.getAttribute("y")) - box.y, box.height];
  });
})"""


def some_drawings() -> list[str]:
    content = load_content()
    svgs = []
    for number, family in enumerate(list(content.families)[:: max(1, len(content.families) // DRAWINGS)]):
        scenario = draw(
            content.family(family),
            seed=number,
            difficulty=0.5,
            policy=content.policy,
            hazards=content.hazards,
        )
        asked = Asked(handles=tuple(handle for item in scenario.items for handle in item.handles))
        units = ("metric", "us")[number % 2]
        svgs.append(set_up_drawing(scenario.set_up, asked=asked, reader=Reader(units=units)))
    return svgs


def test_no_word_comes_out_wider_than_it_was_reckoned(browser):
    page = browser.new_page()
    page.set_content("<!doctype html><title>widths</title><body></body>")
    measured = page.evaluate(MEASURE, [some_drawings(), LARGEST_TYPE])
    page.close()
    assert len(measured) > 5 * DRAWINGS
    for words, width, _, height in measured:
        assert width <= text_width(words) + ROUNDED_UNITS, words
        assert width >= 0.6 * text_width(words), words  # reckoned wide enough, and not much wider
        assert height <= 1.3 * (ASCENT + DESCENT) * LARGEST_TYPE  # the browser's box holds the leading too
