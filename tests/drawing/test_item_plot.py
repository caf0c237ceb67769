"""Items by difficulty and discrimination: each lies where its figures say, and those that ask have a number."""

from xml.etree.ElementTree import fromstring

import pytest

from tests.drawing.set_ups import SVG, described, words
from trainer.drawing.item_plot import FIELD, ItemMark, item_plot
from trainer.drawing.reader import Reader


def plotted(*items: ItemMark):
    return fromstring(item_plot(items, reader=Reader(prefix="items")))


def mark(
    *, difficulty: float = 0.5, discrimination: float = 0.3, asks: bool = False, number: int = 1
) -> ItemMark:
    return ItemMark(number=number, difficulty_frac=difficulty, discrimination=discrimination, asks=asks)


def circle(picture):
    (found,) = picture.iter(f"{SVG}circle")
    return float(found.get("cx")), float(found.get("cy"))


def test_the_middle_of_the_scale_is_the_middle_of_the_field():
    left, top, right, bottom = FIELD
    x, y = circle(plotted(mark(difficulty=0.5, discrimination=0.25)))
    assert (x, y) == pytest.approx(((left + right) / 2, (top + bottom) / 2))


def test_easier_lies_to_the_right_and_what_tells_better_lies_higher():
    (hard_x, weak_y), (easy_x, good_y) = (
        circle(plotted(mark(difficulty=d, discrimination=r))) for d, r in ((0.3, 0.1), (0.9, 0.5))
    )
    assert hard_x < easy_x
    assert good_y < weak_y


@pytest.mark.parametrize("difficulty", [0.0, 1.0])
def test_all_wrong_and_all_right_stand_on_the_edges(difficulty):
    x, y = circle(plotted(mark(difficulty=difficulty, discrimination=-1.0)))
    assert x == FIELD[0] if difficulty == 0.0 else x == FIELD[2]
    assert y == FIELD[3]


def test_only_what_asks_for_a_look_is_numbered():
    picture = plotted(mark(number=7, asks=True), mark(number=8))
    assert "7" in words(picture)
    assert "8" not in words(picture)
    assert "2 items with enough answers, 1 of them" in described(picture)
