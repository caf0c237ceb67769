"""Trace, root, filling and bars. The grades here are made up for the test; the core's own come from its table."""

from xml.etree.ElementTree import fromstring

import pytest

from tests.drawing.set_ups import SVG, described, parts, words
from trainer.core.oxidation import grade, grade_thresholds
from trainer.core.terms import MaterialGroup, RootGrade
from trainer.drawing.bars import skill_bar
from trainer.drawing.filling_drawing import Still, filling_drawing
from trainer.drawing.oxygen_scale import grade_bands
from trainer.drawing.reader import Reader
from trainer.drawing.root_drawing import root_drawing
from trainer.drawing.trace_plot import TraceMarks, trace_legend, trace_plot, trace_rows
from trainer.drawing.trace_scales import scales_for

TRACE = [(t * 10.0, 0.2 * 0.8**t + 1e-5, 0.2 * 0.75**t + 1e-5, 0.2 * 0.7**t + 1e-5) for t in range(40)]


def grade_of(oxygen_frac: float) -> RootGrade:
    limits = [
        (1e-4, RootGrade.BRIGHT),
        (1e-3, RootGrade.STRAW),
        (1e-2, RootGrade.BLUE),
        (0.1, RootGrade.BLACK),
    ]
    return next((grade for limit, grade in limits if oxygen_frac <= limit), RootGrade.SUGARED)


def plotted(**marks):
    return fromstring(trace_plot(TRACE, marks=TraceMarks(**marks), grade_of=grade_of, reader=Reader()))


def test_the_three_lines_are_named_and_told_apart_by_their_dashes():
    picture = plotted()
    assert {"root", "mean", "vent"} <= set(words(picture))
    dashes = [
        each.get("stroke-dasharray") for each in picture.iter() if each.get("data-line") in ("mean", "vent")
    ]
    assert len(set(dashes)) == 2


def test_target_floor_and_strike_are_drawn_and_labelled():
    picture = plotted(target_frac=1e-3, floor_frac=2e-5, strike_s=180.0, shaded_s=(200.0, 300.0))
    for name in ("target", "floor", "arc strike", "interval"):
        assert len(parts(picture, name)) == 1
    assert {"target 0.1 %", "floor 20 ppm", "arc"} <= set(words(picture))
    assert "0.1 %" in described(picture)


def test_nothing_is_marked_that_was_not_given():
    picture = plotted()
    assert not any(parts(picture, name) for name in ("target", "floor", "arc strike", "interval"))


def test_a_lower_target_lies_lower():
    ys = [float(parts(plotted(target_frac=each), "target")[0].get("y1", "nan")) for each in (1e-3, 5e-5)]
    assert ys[1] > ys[0] + 50


def test_the_root_line_changes_colour_where_the_grade_does():
    lines = [each.get("class") or "" for each in plotted().iter(f"{SVG}polyline")]
    assert [each.split()[-1] for each in lines] == [
        "oxygen-sugared", "oxygen-black", "oxygen-blue", "oxygen-straw", "oxygen-bright",
    ]  # fmt: skip
    assert "straw" in trace_legend(TRACE, grade_of=grade_of, reader=Reader())


def test_no_more_than_seven_times_are_written():
    for until_s in (20.0, 90.0, 400.0, 5000.0, 90000.0):
        scales = scales_for([(0.0, 0.2, 0.2, 0.2), (until_s, 1e-4, 1e-4, 1e-4)], others_frac=[])
        assert 2 <= len(scales.times()) <= 7


def test_the_table_begins_and_ends_with_the_trace():
    rows = trace_rows(TRACE, reader=Reader())
    assert len(rows) == 12
    assert (rows[0][0], rows[-1][0]) == ("0.0", "6.5")
    assert trace_rows([], reader=Reader()) == []


def test_an_empty_trace_draws_its_axes():
    assert "No trace." in trace_plot([], marks=TraceMarks(), grade_of=grade_of, reader=Reader())


@pytest.mark.parametrize(
    ("oxygen_frac", "written"),
    [(0.2095, "21 %"), (0.001, "0.1 %"), (5e-4, "500 ppm"), (1.2e-5, "12 ppm")],
)
def test_oxygen_is_written_as_on_site(oxygen_frac, written):
    assert Reader().oxygen(oxygen_frac).replace("\u00a0", " ") == written


def test_bands_of_the_scale_meet_at_the_grades_limits():
    bands = grade_bands(grade_of, low_frac=1e-6, high_frac=0.2)
    assert [grade for grade, _, _ in bands] == [
        RootGrade.BRIGHT, RootGrade.STRAW, RootGrade.BLUE, RootGrade.BLACK, RootGrade.SUGARED,
    ]  # fmt: skip
    assert [high for _, _, high in bands] == pytest.approx([1e-4, 1e-3, 1e-2, 0.1, 0.2], rel=1e-4)


@pytest.mark.parametrize("grade", list(RootGrade))
def test_the_root_shows_each_colour_from_metal_to_its_peak_with_its_word(grade):
    picture = fromstring(root_drawing(grade, peak_colour=None, oxygen_words="0.5 %", reader=Reader()))
    banded = {each.get("data-band") for each in picture.iter() if each.get("data-band")}
    order = list(RootGrade)
    assert banded == {each.value for each in order[: order.index(grade) + 1]}
    assert {grade.value, "0.5 %"} <= set(words(picture))
    assert bool(parts(picture, "sugar")) is (grade is RootGrade.SUGARED)


def test_the_peak_takes_the_films_own_colour():
    text = root_drawing(RootGrade.BLUE, peak_colour="#3c69aa", oxygen_words="", reader=Reader())
    assert "#3c69aa" in text


def a_still(**changes):
    usual = {
        "time_s": 90.0,
        "heights_m": [0.02, 0.06, 0.1],
        "oxygen_frac": [1e-5, 1e-3, 0.2],
        "height_m": 0.12,
    }
    return Still(**{**usual, **changes})


@pytest.mark.parametrize("is_upright", [False, True])
def test_the_section_is_filled_from_the_bottom_layer_up(is_upright):
    still = a_still(is_upright=is_upright)
    picture = fromstring(filling_drawing(still, grade_of=grade_of, reader=Reader()))
    layers = list(parts(picture, "layers")[0])
    tops = [float(each.get("y", "nan")) for each in layers]
    assert tops == sorted(tops, reverse=True)
    assert [each.get("class", "").split()[-1] for each in layers] == [
        "oxygen-bright",
        "oxygen-straw",
        "oxygen-sugared",
    ]
    assert words(picture) == ["20 %", "0.1 %", "10 ppm", "1.5 min"]


def test_a_bar_grows_with_the_share_and_says_what_it_is_told():
    low, high = (
        fromstring(skill_bar(each, interval=(0.1, 0.9), cut=0.8, told="a share")) for each in (0.25, 0.75)
    )
    widths = [float(each.findall(f"{SVG}rect")[1].get("width", "nan")) for each in (low, high)]
    assert widths[1] == pytest.approx(3 * widths[0])
    assert high.get("aria-label") == "a share"


def test_a_skill_without_evidence_has_an_empty_rail():
    empty = fromstring(skill_bar(None, interval=None, cut=0.8, told="not tried yet"))
    assert len(empty.findall(f"{SVG}rect")) == 1


def test_a_bar_shades_where_the_true_share_may_lie():
    picture = fromstring(skill_bar(0.5, interval=(0.25, 0.75), cut=0.8, told="half"))
    shade = next(each for each in picture.iter() if each.get("data-part") == "interval")
    rect, *ends = list(shade)
    assert (float(rect.get("x")), float(rect.get("width"))) == (50.0, 100.0)
    assert [float(each.get("x1")) for each in ends] == [50.0, 150.0]


@pytest.mark.parametrize("group", [each for each in MaterialGroup if each is not MaterialGroup.CARBON_STEEL])
def test_the_cores_own_grades_colour_a_trace_from_air_down(group):
    thresholds = grade_thresholds(group)
    trace = [(0.0, 0.2095, 0.2095, 0.2095), *TRACE[1:]]
    picture = fromstring(
        trace_plot(
            trace,
            marks=TraceMarks(target_frac=1e-3),
            grade_of=lambda oxygen_frac: grade(oxygen_frac, thresholds=thresholds),
            reader=Reader(),
        )
    )
    assert "sugared" in words(picture)
