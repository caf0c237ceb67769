"""Several vents: shares by area at one height, a draught through them at two."""

import pytest
from example_counts import tried
from hypothesis import given
from hypothesis import strategies as st

from trainer.core.errors import OutOfRange
from trainer.core.gas import gas
from trainer.core.interruption import Draining, draining_m3_s
from trainer.core.several_vents import PlacedVent, flow_that_holds_all_m3_s, vent_flows_m3_s

L_MIN = 1e-3 / 60.0
ARGON = {"gas": gas("I1"), "temperature_k": 293.15}


def vents(*placed):
    return [PlacedVent(area_m2=area, above_pool_m=height) for area, height in placed]


def test_at_one_height_they_share_by_area():
    flows = vent_flows_m3_s(15 * L_MIN, vents=vents((1e-4, 0.3), (2e-4, 0.3)), **ARGON)
    assert [each / L_MIN for each in flows] == pytest.approx([5.0, 10.0])


def test_without_flow_the_gas_drains_and_air_takes_its_place():
    # Linden 1999, two openings: worked by the one equation for both, as the section that drains.
    out, into = vent_flows_m3_s(0.0, vents=vents((1e-4, 0.0), (3e-4, 0.8)), **ARGON)
    by_hand = draining_m3_s(Draining(gas_side_area_m2=1e-4, air_side_area_m2=3e-4, apart_m=0.8), **ARGON)
    assert (out, -into) == pytest.approx((by_hand, by_hand), rel=1e-6)


def test_the_head_of_half_a_metre_of_argon_is_worked_by_hand():
    # 1.661 and 1.204 kg/m3 (ideal gas, 20 degC): 0.457 x 9.81 x 0.5 = 2.24 Pa; a vent of 2.8 cm2 at the bottom lets
    # 0.61 x 2.8e-4 x sqrt(2 x 2.24 / 1.661) = 16.8 L/min out before the other one, above it, lets any.
    held = flow_that_holds_all_m3_s([0.0, 0.0], vents=vents((2.8e-4, 0.0), (2.8e-4, 0.5)), **ARGON)
    assert held / L_MIN == pytest.approx(16.8, abs=0.05)


def test_no_area_and_no_negative_flow():
    with pytest.raises(OutOfRange, match="area of a vent"):
        vents((0.0, 0.1))
    with pytest.raises(OutOfRange, match="flow"):
        vent_flows_m3_s(-1.0, vents=vents((1e-4, 0.1)), **ARGON)


# The same height, or heights that a rule can tell apart: the lift of less is lost beside any pressure.
HEIGHTS_M = st.just(0.0) | st.floats(1e-6, 5.0)


@tried(200)
@given(
    flow=st.floats(0.0, 40.0), apart=HEIGHTS_M, low=st.floats(1e-5, 1e-2), high=st.floats(1e-5, 1e-2),
    symbol=st.sampled_from(["I1", "I2", "N1"]),
)  # fmt: skip
def test_all_that_comes_in_goes_out_and_the_far_vent_lets_least(flow, apart, low, high, symbol):
    used = {"gas": gas(symbol), "temperature_k": 293.15}
    near, far = vent_flows_m3_s(flow * L_MIN, vents=vents((low, 0.0), (high, apart)), **used)
    assert near + far == pytest.approx(flow * L_MIN, abs=1e-9)
    assert far / high <= near / low + 1e-9
    held = flow_that_holds_all_m3_s([0.0, 0.0], vents=vents((low, 0.0), (high, apart)), **used)
    if flow * L_MIN > held * (1 + 1e-6):
        assert far >= 0.0
    elif flow * L_MIN < held * (1 - 1e-6):
        assert far < 0.0
