"""Gas lying in a pipe of any slope: volumes by hand, and level, sloping and upright as one family."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from shape import SHAPE

from trainer.core.errors import OutOfRange
from trainer.core.pipe_pool import PipeInside
from trainer.core.pool import pipe_pool_depth_m

BORES = st.floats(0.05, 2.0)
LENGTHS = st.floats(0.1, 100.0)
SLOPES = st.floats(-90.0, 90.0)
SHARES = st.floats(0.0, 1.0)


def test_a_level_pipe_is_the_segment_of_its_bore():
    pipe = PipeInside(bore_m=0.6, length_m=6.0)
    assert pipe.depth_m(0.5) == pipe_pool_depth_m(0.5, bore_m=0.6, length_m=6.0)
    assert pipe.height_m == 0.6
    assert pipe.volume_below_m3(0.3) == pytest.approx(pipe.volume_m3 / 2)


def test_an_upright_pipe_is_a_column():
    """0.5 m3 on pi / 4 x 0.6^2 = 0.28274 m2: 1.7684 m; by hand."""
    for slope in (90.0, -90.0):
        pipe = PipeInside(bore_m=0.6, length_m=6.0, slope_deg=slope)
        assert pipe.depth_m(0.5) == pytest.approx(1.7684, rel=1e-4)
        assert pipe.height_m == 6.0


@pytest.mark.parametrize("slope", [2.0, 20.0, 70.0])
def test_a_sloping_pipe_holds_what_its_slices_hold(slope):
    """Each slice square to the axis is a segment up to the gas's level surface; integrated by scipy's quad."""
    bore, length, tilt = 0.6, 6.0, math.radians(slope)
    pipe = PipeInside(bore_m=bore, length_m=length, slope_deg=slope)
    depth = 0.4 * pipe.height_m

    def slice_m2(along):
        # height of the surface above the bottom line there, measured square to the axis
        deep = min(max((depth - along * math.sin(tilt)) / math.cos(tilt), 0.0), bore)
        theta = 2.0 * math.acos(1.0 - 2.0 * deep / bore)
        return bore**2 / 8.0 * (theta - math.sin(theta))

    ends = [(depth - part * bore * math.cos(tilt)) / math.sin(tilt) for part in (0.0, 1.0)]
    inside = [each for each in ends if 0.0 < each < length] or None
    by_quad, _ = quad(slice_m2, 0.0, length, points=inside, limit=200)
    assert pipe.volume_below_m3(depth) == pytest.approx(by_quad, rel=1e-6)
    assert pipe.depth_m(by_quad) == pytest.approx(depth, rel=1e-6)


@SHAPE
@given(BORES, LENGTHS, SLOPES, SHARES)
def test_depth_is_the_height_below_which_so_much_lies(bore, length, slope, share):
    pipe = PipeInside(bore_m=bore, length_m=length, slope_deg=slope)
    gas = share * pipe.volume_m3
    depth = pipe.depth_m(gas)
    assert 0.0 <= depth <= pipe.height_m * (1 + 1e-12)
    assert pipe.volume_below_m3(min(depth, pipe.height_m)) == pytest.approx(gas, abs=1e-6 * pipe.volume_m3)


@SHAPE
@given(BORES, LENGTHS, SLOPES, SHARES, SHARES)
def test_more_gas_is_never_less_deep(bore, length, slope, share, other):
    pipe = PipeInside(bore_m=bore, length_m=length, slope_deg=slope)
    less, more = sorted((share, other))
    assert pipe.depth_m(less * pipe.volume_m3) <= pipe.depth_m(more * pipe.volume_m3) + 1e-9 * pipe.height_m


def test_what_the_pipe_cannot_hold_runs_out():
    for slope in (0.0, 30.0, 90.0):
        pipe = PipeInside(bore_m=0.6, length_m=6.0, slope_deg=slope)
        assert pipe.depth_m(10.0) == pytest.approx(pipe.height_m)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: PipeInside(bore_m=0.6, length_m=0.001),
        lambda: PipeInside(bore_m=4.0, length_m=1.0),
        lambda: PipeInside(bore_m=0.6, length_m=1.0, slope_deg=91.0),
        lambda: PipeInside(bore_m=0.6, length_m=1.0, slope_deg=30.0).depth_m(-1.0),
        lambda: PipeInside(bore_m=0.6, length_m=1.0).volume_below_m3(0.7),
    ],
)
def test_what_is_no_pipe_is_refused(wrong):
    with pytest.raises(OutOfRange):
        wrong()
