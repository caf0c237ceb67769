"""Pipe sizes against each other, and volumes against numerical integration."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from shape import SHAPE

from trainer.core.errors import OutOfRange, UnknownSize
from trainer.core.fittings import (
    branch_stub_volume_m3,
    cap_volume_m3,
    elbow_volume_m3,
    foam_air_m3,
    length_between_dams_m,
    long_radius_m,
    reducer_volume_m3,
    tee_volume_m3,
)
from trainer.core.pipe import (
    bore_area_m2,
    known_schedules,
    pipe_from_wall,
    pipe_size,
    pipe_size_by_dn,
    pocket_frac,
    sanitary_tube,
    section_volume_m3,
    segment_area_m2,
)
from trainer.core.tables import table_rows

BORES = st.floats(0.005, 1.0)
SHARES = st.floats(0.0, 1.0)


@pytest.mark.parametrize("written", ["1-1/2", "1 1/2", "1.5", '1-1/2"', " 1.5 "])
def test_a_size_may_be_written_in_several_ways(written):
    assert pipe_size(nps=written, schedule="40S") == pipe_size(nps="1.5", schedule="40S")


@pytest.mark.parametrize(
    ("nps", "plain", "stainless"), [("14", "10", "10S"), ("12", "40", "40S"), ("10", "80", "80S")]
)
def test_a_schedule_is_not_its_stainless_namesake(nps, plain, stainless):
    assert pipe_size(nps=nps, schedule=plain).wall_m > pipe_size(nps=nps, schedule=stainless).wall_m


@pytest.mark.parametrize("row", table_rows("nominal_sizes"), ids=lambda row: f"DN {row['dn']}")
def test_each_dn_has_its_nps_in_the_tables(row):
    schedules = known_schedules(row["nps"])
    by_dn = pipe_size_by_dn(dn=row["dn"], schedule=schedules[0])
    assert by_dn == pipe_size(nps=row["nps"], schedule=schedules[0])
    assert by_dn.bore_m == pytest.approx(by_dn.outside_diameter_m - 2 * by_dn.wall_m, abs=1.1e-4)


def test_unknown_schedule_names_those_that_exist():
    with pytest.raises(UnknownSize) as refused:
        pipe_size(nps="1/4", schedule="5S")
    assert refused.value.known == known_schedules("1/4")
    assert (refused.value.size, refused.value.schedule) == ("NPS 1/4", "5S")


@pytest.mark.parametrize("nps", ["7", "six", "", "1/0", "1-1-1", "nan", "1e400"])
def test_unknown_size_names_those_that_exist(nps):
    with pytest.raises(UnknownSize, match="1-1/2"):
        pipe_size(nps=nps, schedule="10S")


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: pipe_size_by_dn(dn="DN 155", schedule="10S"),
        lambda: sanitary_tube("5"),
        lambda: long_radius_m("7"),
    ],
)
def test_other_sizes_outside_the_tables_are_refused(wrong):
    with pytest.raises(UnknownSize):
        wrong()


@SHAPE
@given(BORES, SHARES)
def test_segment_agrees_with_an_integration(bore, share):
    height = share * bore
    expected, _ = quad(lambda z: 2 * math.sqrt(max(z * (bore - z), 0.0)), 0.0, height, epsabs=0.0)
    assert segment_area_m2(bore, height_m=height) == pytest.approx(expected, rel=1e-5, abs=1e-12)


@SHAPE
@given(BORES, SHARES)
def test_pockets_above_and_below_a_vent_make_the_whole(bore, height):
    above = pocket_frac(bore, vent_height_frac=height, gas_sinks=True)
    below = pocket_frac(bore, vent_height_frac=height, gas_sinks=False)
    assert above + below == pytest.approx(1.0)


@SHAPE
@given(BORES, st.floats(0.0, 50.0))
def test_section_volume_grows_in_proportion_to_its_length(bore, length):
    whole = section_volume_m3(bore, length_m=2 * length)
    assert whole == pytest.approx(2 * section_volume_m3(bore, length_m=length))


@SHAPE
@given(BORES, st.floats(0.05, 1.0), st.floats(0.5, 3.0))
def test_branch_stub_agrees_with_an_integration(run_bore, share, reach):
    bore, end = share * run_bore, reach * run_bore
    radius, run_radius = bore / 2, run_bore / 2

    def strip(x):
        return 2 * math.sqrt(max(radius**2 - x**2, 0.0)) * (end - math.sqrt(max(run_radius**2 - x**2, 0.0)))

    expected, _ = quad(strip, -radius, radius, epsabs=0.0, epsrel=1e-8, limit=200)
    ours = branch_stub_volume_m3(bore, run_bore_m=run_bore, end_m=end)
    assert ours == pytest.approx(expected, rel=1e-4)


@SHAPE
@given(BORES, st.floats(0.0, 1.0))
def test_reducer_between_equal_bores_is_a_cylinder(bore, length):
    cylinder = section_volume_m3(bore, length_m=length)
    assert reducer_volume_m3(bore, other_bore_m=bore, length_m=length) == pytest.approx(cylinder)


def test_tee_with_its_outlet_cut_at_the_crossing_keeps_half_a_steinmetz_solid_less():
    """A (2C + r) - (8/3) r^3 with r = 0.05 and 2C = 0.2: 0.00785398 x 0.25 - 0.000333333, by hand."""
    assert tee_volume_m3(0.1, run_length_m=0.2, outlet_m=0.05) == pytest.approx(0.001630162, rel=1e-6)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: pipe_from_wall(outside_diameter_m=0.02, wall_m=0.01),
        lambda: bore_area_m2(0.0),
        lambda: section_volume_m3(0.1, length_m=-1.0),
        lambda: segment_area_m2(0.1, height_m=0.11),
        lambda: pocket_frac(0.1, vent_height_frac=1.1, gas_sinks=True),
        lambda: length_between_dams_m(
            0.02, right_centre_m=0.3, left_thickness_m=0.09, right_thickness_m=0.09
        ),
        lambda: elbow_volume_m3(0.1, bend_radius_m=0.04, angle_rad=1.0),
        lambda: elbow_volume_m3(0.1, bend_radius_m=0.15, angle_rad=4.0),
        lambda: tee_volume_m3(0.1, run_length_m=0.05, outlet_m=0.1),
        lambda: branch_stub_volume_m3(0.2, run_bore_m=0.1, end_m=0.2),
        lambda: cap_volume_m3(0.1, straight_flange_m=-0.01),
        lambda: foam_air_m3(0.1, thickness_m=0.1, void_frac=1.5),
    ],
)
def test_what_makes_no_sense_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
