"""The oxygen scale: one set of colours in core, drawings and style sheet; told apart by everybody, with words beside.

Three deficiencies are simulated at full severity by Machado, Oliveira and Fernandes (2009), "A physiologically-based
model for simulation of color vision deficiency", IEEE TVCG 15(6), as colour-science 0.4.7 carries its matrices; for
tritan its authors call the model an approximation. What is asserted is that steps beside each other in the scale
differ by CIE Delta E 2000 of at least 5, twice what is told apart side by side with care (about 2.3, Mahy 1994, from
memory), since in a trace they meet edge to edge. In print without colour the scale does *not* grow steadily darker
(blue and grey lie within a few units of lightness): there the word carries it, so every drawing must write it.
"""

import re
import warnings
from pathlib import Path
from xml.etree.ElementTree import fromstring

import numpy as np
import pytest

from tests.drawing.set_ups import words
from trainer.core.oxidation import film_colour
from trainer.core.terms import MaterialGroup, RootGrade
from trainer.drawing.oxygen_scale import FILM, ORDER, film_legend
from trainer.drawing.reader import Reader
from trainer.drawing.root_drawing import root_drawing

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it wants a plotting library, and says that tritan is an approximation
    import colour
    from colour.blindness import matrix_cvd_Machado2009

    SEEN_BY = {
        "full colour vision": np.eye(3),
        "protan": matrix_cvd_Machado2009("Protanomaly", 1.0),
        "deutan": matrix_cvd_Machado2009("Deuteranomaly", 1.0),
        "tritan": matrix_cvd_Machado2009("Tritanomaly", 1.0),
    }

TOKENS = Path(__file__).parents[2] / "static" / "styles" / "tokens.css"
# Thickness that each step of the scale stands for; from grey on the core's tones of scale.
FILM_NM = {
    "bright": 0, "straw": 15, "gold": 25, "brown": 30, "violet": 40, "blue": 50, "grey": 200,
    "black": 400, "sugared": 800,
}  # fmt: skip
APART = 5.0
NEIGHBOURS = list(zip(ORDER, ORDER[1:], strict=False))
names = [f"{one.value} and {other.value}" for one, other in NEIGHBOURS]


def computed(word: str) -> str:
    return film_colour(FILM_NM[word] * 1e-9, group=MaterialGroup.AUSTENITIC_STAINLESS)


def lab(hexed: str, seen_by: str = "full colour vision") -> np.ndarray:
    """CIE L*a*b* of an sRGB colour as somebody sees it; the model works on linear light."""
    encoded = np.array([int(hexed[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    seen = SEEN_BY[seen_by] @ colour.cctf_decoding(encoded, function="sRGB")
    return colour.XYZ_to_Lab(colour.RGB_to_XYZ(np.clip(seen, 0, 1), "sRGB", apply_cctf_decoding=False))


def apart(one: str, other: str, seen_by: str) -> float:
    return float(colour.delta_E(lab(one, seen_by), lab(other, seen_by), method="CIE 2000"))


@pytest.mark.parametrize("grade", RootGrade)
def test_drawings_use_the_colours_of_the_cores_film(grade):
    assert FILM[grade] == computed(grade.value)


@pytest.mark.parametrize("word", FILM_NM)
def test_the_style_sheet_has_the_colours_of_the_cores_film(word):
    found = re.search(rf"--oxygen-{word}: (#[0-9a-f]{{6}});", TOKENS.read_text(encoding="utf-8"))
    assert found
    assert found.group(1) == computed(word)


def test_the_style_sheet_has_no_other_oxygen_colours():
    listed = set(re.findall(r"--oxygen-(\w+):", TOKENS.read_text(encoding="utf-8")))
    assert listed == set(FILM_NM)


@pytest.mark.parametrize("seen_by", SEEN_BY)
@pytest.mark.parametrize(("one", "other"), NEIGHBOURS, ids=names)
def test_steps_beside_each_other_are_told_apart(one, other, seen_by):
    assert apart(FILM[one], FILM[other], seen_by) >= APART


@pytest.mark.parametrize("seen_by", SEEN_BY)
def test_no_two_steps_of_the_whole_scale_are_taken_for_each_other(seen_by):
    pairs = [(one, other) for place, one in enumerate(ORDER) for other in ORDER[:place]]
    assert min(apart(FILM[one], FILM[other], seen_by) for one, other in pairs) >= APART


def test_the_simulation_does_change_what_is_seen():
    """Red and green of equal lightness, the usual trap: far apart for most, close for protan and deutan."""
    red, green = "#c43a3a", "#6f7a2e"
    full = apart(red, green, "full colour vision")
    assert full > 30
    assert apart(red, green, "deutan") < full / 2


def test_without_colour_some_steps_are_alike_so_that_words_must_stand_beside():
    grey = {each: float(lab(FILM[each])[0]) for each in ORDER}
    alike = [(one, other) for one, other in NEIGHBOURS if abs(grey[one] - grey[other]) < APART]
    assert (RootGrade.BLUE, RootGrade.GREY) in alike


@pytest.mark.parametrize("grade", RootGrade)
def test_the_legend_and_the_root_write_the_word_of_each_colour(grade):
    assert f" {grade.value}</li>" in film_legend([grade], reader=Reader())
    root = fromstring(root_drawing(grade, peak_colour=None, oxygen_words="12 ppm", reader=Reader()))
    assert grade.value in words(root)
