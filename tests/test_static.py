"""The style sheets and scripts: contrast, themes, and nothing that the content security policy would refuse.

Contrast by the formula of WCAG 2.2, "relative luminance" and "contrast ratio"; limits of success criteria
1.4.3 (text 4.5:1) and 1.4.11 (parts of controls and graphics 3:1).
"""

import re
from pathlib import Path

import pytest

from trainer.core.terms import RootGrade
from trainer.drawing.oxygen_scale import FILM
from trainer.drawing.svg import PENS

ROOT = Path(__file__).parents[1]
STATIC = ROOT / "static"
LINKS = (ROOT / "trainer/web/templates/components/style_sheets.html").read_text(encoding="utf-8")
SUBJECTS = re.findall(r'"(\w+)"', LINKS.partition(" in ")[2].partition("]")[0])  # in the order of the cascade
CSS = "\n".join((STATIC / "styles" / f"{each}.css").read_text(encoding="utf-8") for each in SUBJECTS)
SCRIPTS = sorted((STATIC / "scripts").glob("*.js"))

TEXT_PAIRS = [
    ("ink", "paper"), ("ink", "steel-1"), ("steel-5", "paper"), ("steel-5", "steel-1"), ("steel-6", "paper"),
    ("danger", "paper"), ("on-danger", "danger"), ("ask", "paper"), ("on-ask", "ask"), ("paper", "ink"),
    ("ink", "shade-1"), ("ink", "shade-2"), ("ink", "shade-3"), ("paper", "shade-4"),
]  # fmt: skip
GRAPHIC_PAIRS = [
    ("steel-4", "paper"),
    ("ask", "paper"),
    ("danger", "paper"),
    ("ink", "steel-2"),
    ("steel-5", "paper"),
]


def tokens(block: str) -> dict[str, str]:
    return dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6});", block))


def block(selector: str) -> dict[str, str]:
    found = re.search(re.escape(selector) + r"\s*\{(.*?)\}", CSS, re.DOTALL)
    assert found, selector
    return tokens(found.group(1))


LIGHT = block(":root")
THEMES = {
    "light": LIGHT,
    "dark": {**LIGHT, **block(':root[data-theme="dark"]')},
    "outdoor": {**LIGHT, **block(':root[data-theme="outdoor"]')},
}


def luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_every_style_sheet_is_linked():
    assert sorted(SUBJECTS) == sorted(each.stem for each in (STATIC / "styles").glob("*.css"))


def test_contrast_of_black_on_white_is_21():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)  # WCAG 2.2, note on contrast ratio


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize(("front", "back"), TEXT_PAIRS)
def test_text_can_be_read(theme, front, back):
    assert contrast(THEMES[theme][front], THEMES[theme][back]) >= 4.5


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize(("front", "back"), GRAPHIC_PAIRS)
def test_lines_and_shapes_can_be_seen(theme, front, back):
    assert contrast(THEMES[theme][front], THEMES[theme][back]) >= 3.0


def test_outdoor_text_is_at_maximum_contrast():
    assert contrast(THEMES["outdoor"]["ink"], THEMES["outdoor"]["paper"]) == pytest.approx(21.0)


def test_the_system_theme_and_the_chosen_dark_theme_are_the_same():
    system = re.search(r":root:not\(\[data-theme\]\)\s*\{(.*?)\}", CSS, re.DOTALL)
    assert system
    assert tokens(system.group(1)) == block(':root[data-theme="dark"]')


def test_every_grade_has_its_colour_and_the_drawings_use_the_same():
    for grade in RootGrade:
        assert LIGHT[f"oxygen-{grade.value}"] == FILM[grade]
        assert f".oxygen-{grade.value} {{" in CSS


def test_oxygen_colours_are_used_for_nothing_else():
    uses = re.findall(r"var\(--oxygen-\w+\)", CSS)
    set_as_film = re.findall(r"--film: var\(--oxygen-\w+\)", CSS)
    assert len(uses) == len(set_as_film)


@pytest.mark.parametrize("pen", [each for each in PENS if each not in ("hit", "bead", "grain", "broken")])
def test_the_style_sheet_knows_every_pen(pen):
    assert re.search(rf"\.d-{pen}\b", CSS)


def test_documented_classes_exist():
    listed = re.search(r"CLASSES for templates.*?OXYGEN SCALE", CSS, re.DOTALL)
    assert listed
    names = re.findall(r"^     ([a-z][\w-]*(?:, [a-z][\w-]*)*)  ", listed.group(0), re.MULTILINE)
    for name in {each for line in names for each in line.split(", ")}:
        assert re.search(rf"\.{name}\b", CSS.split("*/", 1)[1]), name


def test_nothing_is_fetched_from_elsewhere():
    for text in (CSS, *(each.read_text(encoding="utf-8") for each in SCRIPTS)):
        assert not re.search(r"@import|url\(|https?://|//cdn", text)


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda each: each.name)
def test_scripts_do_nothing_that_the_policy_refuses(script):
    text = script.read_text(encoding="utf-8")
    assert not re.search(
        r"\beval\(|new Function|\.style\b|innerHTML|document\.write|setAttribute\(\"style", text
    )


def test_targets_are_44_pixels_and_focus_is_visible():
    assert "--target: 44px" in CSS
    assert ":focus-visible" in CSS


def test_motion_stops_on_request_and_pages_print():
    assert "prefers-reduced-motion: reduce" in CSS
    assert "@media print" in CSS
