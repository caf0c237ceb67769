"""The plot of what people breathe: lines, levels and names against the numbers that were given."""

from xml.etree.ElementTree import fromstring

import pytest

from tests.drawing.set_ups import described, words
from trainer.domain.air_over_time import AirMoment, AirOverTime
from trainer.drawing.air_plot import FIELD, HIGHEST_FRAC, air_plot, air_rows
from trainer.drawing.reader import Reader

FALLING = AirOverTime(
    moments=tuple(
        AirMoment(time_s=60.0 * t, mixed_frac=0.209 - 0.001 * t, faces_frac=(0.209 - 0.004 * t, None))
        for t in range(33)
    ),
    after_s=960.0,
)


def lines(picture):
    return {each.get("data-line"): each.get("d") for each in picture.iter() if each.get("data-line")}


def test_a_line_for_the_mixed_air_and_one_for_each_face_that_is_known():
    picture = fromstring(air_plot(FALLING, reader=Reader()))
    assert set(lines(picture)) == {"if it mixes", "person 1"}
    assert "least 19.5 %" in words(picture)


def test_the_points_are_where_the_numbers_say():
    drawn = lines(fromstring(air_plot(FALLING, reader=Reader())))["person 1"].split()
    x, y = float(drawn[-2]), float(drawn[-1])
    left, top, right, bottom = FIELD
    assert x == pytest.approx(right)
    assert y == pytest.approx(bottom - (bottom - top) * (0.209 - 0.128) / HIGHEST_FRAC, abs=0.1)


def test_the_names_at_the_ends_stand_apart():
    close = AirOverTime(
        moments=tuple(
            AirMoment(time_s=60.0 * t, mixed_frac=0.196, faces_frac=(0.1955, 0.195)) for t in range(3)
        ),
        after_s=60.0,
    )
    picture = fromstring(air_plot(close, reader=Reader()))
    named = {"if it mixes", "person 1", "person 2", "least 19.5 %"}
    ys = sorted(
        float(each.get("y")) for each in picture.iter() if (each.text or "").replace("\u00a0", " ") in named
    )
    assert len(ys) == 4
    assert min(b - a for a, b in zip(ys, ys[1:], strict=False)) >= 20.0


def test_the_words_say_what_the_lines_show():
    told = described(fromstring(air_plot(FALLING, reader=Reader())))
    assert "person 1: from 20.9 % to 8.1 %." in told


def test_the_rows_hold_the_same():
    rows = air_rows(FALLING, reader=Reader())
    assert rows[0] == ("0", "20.9\u00a0%", "20.9\u00a0%", "–")
    assert rows[-1][0] == "32"
