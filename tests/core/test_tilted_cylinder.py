"""Slices of a sloping section against integration in space, and the openings at their true heights."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from purge_cases import base_case
from scipy.integrate import quad

from trainer.core.dilution import InLeak
from trainer.core.errors import OutOfRange
from trainer.core.gas_column import gas_column
from trainer.core.sloped_column import vent_above_pool_frac
from trainer.core.tilted_cylinder import TiltedCylinder, tilted_pocket_frac

BORE, LENGTH = 0.161, 0.6
TILTS = [0.01, 1.0, 5.0, 14.0, 45.0, 80.0, 89.99]


def cylinder(tilt_deg):
    return TiltedCylinder(bore_m=BORE, length_m=LENGTH, tilt_deg=tilt_deg)


def volume_by_discs(tilt_deg, height_m):
    """Volume below a height, disc by disc along the axis; each disc is cut at its own height."""
    sine, cosine, radius = math.sin(math.radians(tilt_deg)), math.cos(math.radians(tilt_deg)), BORE / 2.0

    def disc(along):
        v = min(max((height_m - along * sine) / cosine - radius, -radius), radius)
        return radius**2 * math.acos(-v / radius) + v * math.sqrt(radius**2 - v**2)

    # The points where the cut reaches the crown or the bottom of the disc, so that the rule sees the corners.
    corners = [(height_m - BORE * cosine) / sine, height_m / sine]
    inside = sorted({0.0, LENGTH, *(min(max(c, 0.0), LENGTH) for c in corners)})
    pieces = zip(inside[:-1], inside[1:], strict=True)
    return sum(quad(disc, low, high, epsabs=1e-12, limit=200)[0] for low, high in pieces)


@pytest.mark.parametrize("tilt_deg", TILTS)
@pytest.mark.parametrize("share", [0.03, 0.3, 0.5, 0.77, 1.0])
def test_volume_below_a_height_is_that_of_the_discs(tilt_deg, share):
    section = cylinder(tilt_deg)
    height = share * section.height_m
    below = section.volume_below_m3(np.array([height]))[0]
    whole = math.pi / 4.0 * BORE**2 * LENGTH
    assert below == pytest.approx(volume_by_discs(tilt_deg, height), abs=1e-8 * whole)
    if share == 1.0:
        assert below == pytest.approx(whole, rel=1e-9)


@pytest.mark.parametrize("tilt_deg", [1.0, 10.0, 60.0])
def test_the_slice_is_the_growth_of_the_volume(tilt_deg):
    section = cylinder(tilt_deg)
    heights = np.linspace(0.05, 0.95, 31) * section.height_m
    step = 1e-6
    growth = (section.volume_below_m3(heights + step) - section.volume_below_m3(heights - step)) / (
        2.0 * step
    )
    assert section.slice_area_m2(heights) == pytest.approx(growth, rel=1e-4)


def test_a_slice_across_a_pipe_of_45_degrees_is_an_ellipse():
    # By hand: the axes are D and D / sin 45.
    section = cylinder(45.0)
    middle = section.slice_area_m2(np.array([section.height_m / 2.0]))[0]
    assert middle == pytest.approx(math.pi / 4.0 * BORE**2 * math.sqrt(2.0))


@given(tilt_deg=st.floats(1e-6, 90.0 - 1e-6))
def test_slices_add_up_to_the_pipe_at_every_tilt(tilt_deg):
    section = cylinder(tilt_deg)
    edges = np.linspace(0.0, section.height_m, 65)
    layers = np.diff(section.volume_below_m3(edges))
    assert layers.min() > -1e-9
    assert layers.sum() == pytest.approx(math.pi / 4.0 * BORE**2 * LENGTH, rel=1e-6)
    assert section.slice_area_m2(edges).min() >= 0.0


@pytest.mark.parametrize("tilt_deg", [0.0, 90.0, -5.0, math.nan])
def test_level_and_upright_have_slices_of_their_own(tilt_deg):
    with pytest.raises(OutOfRange, match="tilt"):
        cylinder(tilt_deg)


def test_the_pocket_beyond_a_vent_is_the_rest_of_the_section():
    section = cylinder(5.0)
    share = tilted_pocket_frac(section, vent_above_m=0.1)
    assert share == pytest.approx(1.0 - volume_by_discs(5.0, 0.1) / volume_by_discs(5.0, section.height_m))
    with pytest.raises(OutOfRange, match="height of the vent"):
        tilted_pocket_frac(section, vent_above_m=0.5)


def test_the_vent_s_hole_spans_its_true_heights():
    # By hand, 30 degrees: the end's centre lies at 0.6 sin 30 + 0.161/2 cos 30, the hole 19 mm cos 30 high.
    case = base_case(slope_deg=30.0, vent_height_frac=0.5)
    column = gas_column(case, layers_count=4000)
    middle = (column.edge_m[1:] + column.edge_m[:-1]) / 2.0
    spanned = middle[column.exit_frac > 1e-6]
    assert column.exit_frac @ middle == pytest.approx(0.3 + 0.0805 * math.cos(math.pi / 6.0), abs=1e-4)
    assert spanned.max() - spanned.min() == pytest.approx(0.019 * math.cos(math.pi / 6.0), rel=0.02)


@pytest.mark.parametrize(("slope_deg", "symbol"), [(20.0, "I1"), (-20.0, "I2")])
def test_the_joint_s_ring_and_a_leak_all_round_it_span_its_true_heights(slope_deg, symbol):
    leaks = (InLeak(height_frac=None, flow_m3_s=1e-6),)
    case = base_case(slope_deg=slope_deg, symbol=symbol, joint_from_inlet_dam_m=0.2, leaks=leaks)
    column = gas_column(case, layers_count=2000)
    middle = (column.edge_m[1:] + column.edge_m[:-1]) / 2.0
    low = 0.2 * math.sin(math.radians(20.0))
    high = low + BORE * math.cos(math.radians(20.0))
    ring = sorted(column.root_weight_frac @ middle)
    assert ring[0] == pytest.approx(low, abs=1e-3)
    assert ring[-1] == pytest.approx(high, abs=1e-3)
    leaking = middle[column.leak_m3_s > 0.0]
    assert (leaking.min(), leaking.max()) == pytest.approx((low, high), abs=1e-3)
    assert column.leak_m3_s @ middle / 1e-6 == pytest.approx((low + high) / 2.0, abs=1e-4)


def test_a_falling_vent_lies_low_however_high_on_its_dam():
    assert vent_above_pool_frac(base_case(slope_deg=-20.0)) < 0.45
    assert vent_above_pool_frac(base_case(slope_deg=20.0)) > 0.95
    assert vent_above_pool_frac(base_case(slope_deg=20.0, symbol="I2")) < 0.1
