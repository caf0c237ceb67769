"""Grades and colours of the root: order, limits and interpolation."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shape import SHAPE

from trainer.core.errors import OutOfRange
from trainer.core.oxidation import (
    film_band,
    film_colour,
    film_thickness_m,
    grade,
    grade_thresholds,
    root_band,
    root_colour,
)
from trainer.core.tables import table_rows
from trainer.core.terms import MaterialGroup, RootGrade

GROUPS = st.sampled_from(list(MaterialGroup))
OXYGEN = st.floats(0.0, 0.2095)
STAINLESS = MaterialGroup.AUSTENITIC_STAINLESS
RANK = list(RootGrade)


def channels(colour):
    return [int(colour[i : i + 2], 16) for i in (1, 3, 5)]


@SHAPE
@given(GROUPS, OXYGEN, OXYGEN)
def test_more_oxygen_never_gives_a_better_grade_or_a_thinner_film(group, one, other):
    low, high = sorted((one, other))
    limits = grade_thresholds(group)
    assert RANK.index(grade(low, thresholds=limits)) <= RANK.index(grade(high, thresholds=limits))
    assert film_thickness_m(low, group=group) <= film_thickness_m(high, group=group)


@SHAPE
@given(GROUPS, st.floats(0.0, 1500.0))
def test_colour_has_no_jump_along_the_film(group, thickness_nm):
    here, near = (film_colour(nm * 1e-9, group=group) for nm in (thickness_nm, thickness_nm + 0.01))
    assert max(abs(a - b) for a, b in zip(channels(here), channels(near), strict=True)) <= 1


@pytest.mark.parametrize("group", list(MaterialGroup))
def test_each_group_grades_every_name_and_reaches_sugar(group):
    limits = grade_thresholds(group)
    assert list(limits) == RANK[:-1]
    assert [grade(upper, thresholds=limits) for upper in limits.values()] == RANK[:-1]
    assert grade(0.0, thresholds=limits) is RootGrade.BRIGHT
    assert grade(0.2095, thresholds=limits) is RootGrade.SUGARED


def test_samples_of_the_aws_order_never_come_out_better_with_more_oxygen():
    """AWS D18.2:2009, oxygen of its ten samples in ppm; the standard ranks them, it sets no limit."""
    samples = [10, 25, 50, 100, 200, 500, 1000, 5000, 12500, 25000]
    ranks = [RANK.index(grade(ppm * 1e-6, thresholds=grade_thresholds(STAINLESS))) for ppm in samples]
    assert ranks == sorted(ranks)
    assert ranks[0] == RANK.index(RootGrade.BRIGHT)
    assert ranks[-1] == RANK.index(RootGrade.BLACK)


def test_bright_straw_and_blue_look_it():
    limits = grade_thresholds(STAINLESS)
    red, green, blue = channels(root_colour(5e-6, group=STAINLESS, thresholds=limits))
    assert max(red, green, blue) - min(red, green, blue) < 50
    red, _, blue = channels(root_colour(60e-6, group=STAINLESS, thresholds=limits))
    assert red > blue
    red, _, blue = channels(root_colour(1000e-6, group=STAINLESS, thresholds=limits))
    assert blue > red


def test_thick_scale_is_grey_then_black_then_sugar_not_a_second_straw():
    limits = grade_thresholds(STAINLESS)
    tones = [root_colour(ppm * 1e-6, group=STAINLESS, thresholds=limits) for ppm in (5000, 25000, 100000)]
    assert tones == [row["colour"] for row in table_rows("scale_tones")]
    assert film_colour(1e-4, group=STAINLESS) == tones[-1]


def test_a_site_may_set_its_own_limits_but_not_in_the_wrong_order():
    own = {RootGrade.BRIGHT: 20e-6, RootGrade.BLUE: 1e-3}
    assert [grade(x, thresholds=own) for x in (1e-5, 5e-4, 0.1)] == [
        RootGrade.BRIGHT,
        RootGrade.BLUE,
        RootGrade.SUGARED,
    ]
    with pytest.raises(OutOfRange, match="worse grade"):
        grade(1e-5, thresholds={RootGrade.BRIGHT: 1e-3, RootGrade.BLUE: 1e-5})


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: grade(0.3, thresholds=grade_thresholds(STAINLESS)),
        lambda: grade(-1e-6, thresholds=grade_thresholds(STAINLESS)),
        lambda: film_thickness_m(0.3, group=STAINLESS),
        lambda: film_colour(-1e-9, group=STAINLESS),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()


def test_each_line_of_the_grades_says_where_it_comes_from():
    for row in table_rows("root_grades"):
        assert row["source"]
        assert row["status"]


@SHAPE
@given(GROUPS, OXYGEN)
def test_band_beside_a_root_runs_from_its_colour_to_bare_metal(group, oxygen):
    limits = grade_thresholds(group)
    band = root_band(oxygen, group=group, thresholds=limits)
    assert band[0] == (0.0, root_colour(oxygen, group=group, thresholds=limits))
    assert band[-1] == (1.0, film_colour(0.0, group=group))
    assert [place for place, _ in band] == sorted(place for place, _ in band)


def test_blue_root_shows_violet_brown_and_straw_on_its_way_to_bare_metal():
    """Order of heat tints, common practice: straw < brown < purple < blue."""
    band = film_band(55e-9, group=STAINLESS, stops_count=56)
    by_nm = {round(55 * (1 - place)): colour for place, colour in band}
    for thickness_nm in (20, 30, 40, 50):
        assert by_nm[thickness_nm] == film_colour(thickness_nm * 1e-9, group=STAINLESS)


def test_band_needs_two_ends():
    assert len(film_band(0.0, group=STAINLESS, stops_count=2)) == 2
    with pytest.raises(OutOfRange, match="two ends"):
        film_band(10e-9, group=STAINLESS, stops_count=1)


@pytest.mark.parametrize("group", list(MaterialGroup))
def test_interference_fades_into_the_tones_of_scale(group):
    tones = {row["from_thickness_nm"]: row["colour"] for row in table_rows("scale_tones")}
    for thickness_nm, colour in tones.items():
        assert film_colour(float(thickness_nm) * 1e-9, group=group) == colour
    between = channels(film_colour(300e-9, group=group))
    assert channels(tones["400"]) < between < channels(tones["200"])


def test_film_grows_to_violet_at_the_anchor_of_each_group():
    """data/film_growth.csv, a proposal: 40 nm at the anchor, doubled at 2 ^ (1 / 0.3) = 10.08 times its oxygen."""
    for row in table_rows("film_growth"):
        group, anchor = MaterialGroup(row["group"]), float(row["anchor_ppm"]) * 1e-6
        assert film_thickness_m(anchor, group=group) == pytest.approx(40e-9, rel=1e-12)
        assert film_thickness_m(anchor * 2 ** (1 / 0.3), group=group) == pytest.approx(80e-9, rel=1e-12)


def test_limits_of_the_grades_are_those_of_their_table():
    for row in table_rows("root_grades"):
        limits = grade_thresholds(MaterialGroup(row["group"]))
        assert limits[RootGrade(row["grade"])] == float(row["upper_ppm"]) / 1e6


def test_equal_limits_of_two_grades_are_allowed_and_the_better_one_is_given():
    own = {RootGrade.STRAW: 1e-4, RootGrade.GOLD: 1e-4, RootGrade.BLUE: 1e-3}
    assert grade(1e-4, thresholds=own) is RootGrade.STRAW


def test_bands_have_as_many_stops_as_asked_and_25_when_not():
    limits = grade_thresholds(STAINLESS)
    assert len(film_band(40e-9, group=STAINLESS)) == 25
    assert len(root_band(1e-4, group=STAINLESS, thresholds=limits)) == 25
    assert len(root_band(1e-4, group=STAINLESS, thresholds=limits, stops_count=9)) == 9
