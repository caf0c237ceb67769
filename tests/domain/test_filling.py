"""The section as it fills: what the moments hold against the course that they were taken from."""

import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st
from set_up_examples import A_RISER_WITHOUT_VENT, set_up

from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.domain.filling import BANDS_COUNT, filling_of
from trainer.domain.run_purge import purge_course_of

UNTIL_S, CLOSELY_S = 3600.0, 600.0


def filled(**changes):
    return filling_of(set_up(**changes), until_s=UNTIL_S, closely_until_s=CLOSELY_S, also_s=[137.0])


def test_it_begins_full_of_air_and_ends_when_asked():
    filling = filled()
    first, last = filling.moments[0], filling.moments[-1]
    assert first.time_s == 0.0
    assert first.bands_frac == pytest.approx([O2_IN_DRY_AIR_FRAC] * BANDS_COUNT)
    assert last.time_s == UNTIL_S
    assert 137.0 in [each.time_s for each in filling.moments]


def test_half_of_it_is_shown_while_there_is_much_to_see():
    times = [each.time_s for each in filled().moments]
    assert times == sorted(set(times))
    assert sum(each <= CLOSELY_S for each in times) > len(times) / 2


def test_the_root_is_the_course_at_each_moment():
    filling = filled()
    course = purge_course_of(set_up())
    for moment in filling.moments[1::7]:
        assert moment.root_frac == pytest.approx(course.purge.oxygen_at(moment.time_s).expected)


def test_argon_lies_at_the_bottom_and_helium_under_the_crown():
    argon = filled().moments[8].bands_frac
    helium = filled(gas={"symbol": "I2"}, inlet__height=0.9, vent__height=0.05).moments[8].bands_frac
    assert argon[0] < argon[-1] / 5
    assert helium[-1] < helium[0] / 5


@pytest.mark.parametrize(("slope", "height_m"), [("0 deg", 0.1615), ("90 deg", 0.6), ("30 deg", 0.4399)])
def test_its_height_is_that_of_the_pipe_as_it_lies(slope, height_m):
    # NPS 6 Sch 10S: 168.3 mm outside, 3.4 mm wall (ASME B36.19M); 600 mm long; L sin + D cos by hand
    assert filled(section__slope=slope).height_m == pytest.approx(height_m, abs=5e-5)


def test_a_spool_has_a_root_at_each_moment_and_no_bands():
    filling = filled(**A_RISER_WITHOUT_VENT)
    assert filling.height_m is None
    assert {each.bands_frac for each in filling.moments} == {()}
    assert filling.moments[0].root_frac > 0.2


def test_without_a_flow_there_is_nothing_to_show():
    assert filled(flow=None) is None


@tried(60)
@given(slope=st.floats(-90.0, 90.0), height=st.floats(0.05, 0.95))
def test_oxygen_in_the_bands_is_never_more_than_air_nor_less_than_the_source(slope, height):
    filling = filling_of(
        set_up(section__slope=f"{slope} deg", inlet__height=height),
        until_s=900.0,
        closely_until_s=300.0,
    )
    levels = [each for moment in filling.moments for each in moment.bands_frac]
    assert min(levels) >= 5e-6 * (1 - 1e-9)
    assert max(levels) <= O2_IN_DRY_AIR_FRAC * (1 + 1e-9)
