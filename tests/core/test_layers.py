"""Layers, their fluxes and the two ways of solving them."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from purge_cases import base_case
from scipy.integrate import quad
from scipy.linalg import expm

from trainer.core.dilution import InLeak
from trainer.core.errors import OutOfRange
from trainer.core.gas_column import gas_column, one_layer
from trainer.core.interval import Interval
from trainer.core.layer_solution import ModeSolution, PowerSolution, solve_layers, steady_air_frac
from trainer.core.layers import Mixing, bernoulli, layer_balance

STILL = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
STIRRED = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=6e-5, beyond_vent_ratio=0.185, short_cut_ratio=1.1)


def balance_of(case, mixing=STIRRED):
    return layer_balance(gas_column(case), flow_m3_s=case.segments[0].flow_m3_s, mixing=mixing)


@given(x=st.floats(1e-6, 300.0))
def test_bernoulli_is_the_ratio_it_stands_for(x):
    assert bernoulli(np.array([x]))[0] == pytest.approx(x / math.expm1(x), rel=1e-9)


def test_bernoulli_has_no_jump_where_its_series_ends_and_vanishes_far_out():
    near = bernoulli(np.array([1e-4 * (1.0 - 1e-9), 1e-4 * (1.0 + 1e-9)]))
    assert near[0] == pytest.approx(near[1], rel=1e-12)
    assert bernoulli(np.array([1e6]))[0] < 1e-290


def test_layers_of_a_level_section_are_circle_segments():
    column = gas_column(base_case())
    low, high = column.edge_m[5], column.edge_m[6]
    area = quad(lambda z: 2.0 * math.sqrt(z * (0.161 - z)), low, high)[0]
    assert column.volume_m3[5] == pytest.approx(0.6 * area, rel=1e-9)
    assert column.total_volume_m3 == pytest.approx(math.pi / 4.0 * 0.161**2 * 0.6, rel=1e-12)


@pytest.mark.parametrize("slope_deg", [0.0, 90.0, -90.0, 0.01, 7.0, -7.0, 60.0, -89.99])
@pytest.mark.parametrize("symbol", ["I1", "I2"])
@pytest.mark.parametrize("leak_height", [None, 0.0, 0.3, 1.0])
def test_supply_exit_leak_and_root_are_shared_out_whole(slope_deg, symbol, leak_height):
    leaks = (InLeak(height_frac=leak_height, flow_m3_s=2e-6),)
    column = gas_column(base_case(slope_deg=slope_deg, symbol=symbol, leaks=leaks))
    assert column.supply_frac.sum() == pytest.approx(1.0)
    assert column.exit_frac.sum() == pytest.approx(1.0)
    assert column.through_leak_m3_s == pytest.approx(2e-6)
    assert min(column.supply_frac.min(), column.exit_frac.min(), column.leak_m3_s.min()) >= 0.0
    if slope_deg:
        assert column.root_weight_frac.sum(axis=1) == pytest.approx(np.ones(len(column.root_weight_frac)))


@pytest.mark.parametrize(("slope_deg", "symbol"), [(90.0, "I1"), (-90.0, "I2")])
def test_a_joint_near_the_inlet_lies_low_in_the_column(slope_deg, symbol):
    column = gas_column(base_case(slope_deg=slope_deg, symbol=symbol, joint_from_inlet_dam_m=0.06))
    middle = (column.edge_m[1:] + column.edge_m[:-1]) / 2.0
    assert column.root_weight_frac[0] @ middle == pytest.approx(0.06)


def test_in_a_very_small_pipe_the_pool_leaves_room_above_it():
    column = gas_column(base_case(bore_m=0.02, vent_diameter_m=0.003, inlet_height_frac=0.3))
    assert column.supply_frac[-1] == 0.0


@pytest.mark.parametrize("vent_height_frac", [0.08, 0.5, 0.925])
def test_all_that_enters_a_layer_leaves_it(vent_height_frac):
    balance = balance_of(base_case(vent_height_frac=vent_height_frac))
    # A section full of air takes in purge gas only: what each layer loses is its own share of that gas.
    flow = base_case().segments[0].flow_m3_s
    loss = -balance.rate_per_s(np.ones(32)) * balance.volume_m3
    assert loss == pytest.approx(gas_column(base_case()).supply_frac * flow / 1.1, abs=1e-15)


@settings(deadline=None)
@given(
    vent_height_frac=st.floats(0.06, 0.94),
    stirring=st.floats(0.0, 1e-3),
    leak_m3_s=st.sampled_from([0.0, 1e-6]),
    changes=st.floats(0.01, 5.0),
)
def test_modes_and_powers_give_the_same_air(vent_height_frac, stirring, leak_m3_s, changes):
    leaks = (InLeak(height_frac=0.8, flow_m3_s=leak_m3_s),)
    case = base_case(vent_height_frac=vent_height_frac, leaks=leaks, flow_m3_s=5.0 / 60_000)
    balance = balance_of(case, replace(STIRRED, stirring_m2_s=stirring))
    times = np.array([0.0, changes * 48.0])
    start = np.linspace(0.2, 1.0, 32)
    modes, powers = (solve(balance).follow(start)(times) for solve in (ModeSolution, PowerSolution))
    assert modes == pytest.approx(powers, abs=1e-8)
    assert modes[:, 0] == pytest.approx(start, abs=1e-8)


@pytest.mark.parametrize("slope_deg", [0.0, 90.0])
def test_powers_meet_the_matrix_exponential(slope_deg):
    balance = balance_of(base_case(slope_deg=slope_deg), STILL)
    matrix = np.diag(balance.rise_m3_s, -1) + np.diag(balance.fall_m3_s, 1) - np.diag(balance.loss_m3_s)
    matrix = matrix / balance.volume_m3[:, np.newaxis]
    start = np.ones(balance.volume_m3.size)
    for time_s in (0.01, 7.0, 60.0):
        air = PowerSolution(balance).follow(start)(np.array([time_s]))[:, 0]
        assert air == pytest.approx(expm(matrix * time_s) @ start, abs=1e-10)


def test_sharp_fronts_are_left_to_powers_and_the_rest_to_modes():
    assert isinstance(solve_layers(balance_of(base_case())), ModeSolution)
    assert isinstance(solve_layers(balance_of(base_case(slope_deg=90.0), STILL)), PowerSolution)
    nothing_falls = replace(STILL, diffusivity_m2_s=1e-12)
    assert isinstance(solve_layers(balance_of(base_case(), nothing_falls)), PowerSolution)


def test_the_steady_state_stands_still():
    balance = balance_of(base_case(leaks=(InLeak(height_frac=0.3, flow_m3_s=1e-6),)))
    steady = steady_air_frac(balance)
    assert steady.min() > 0.0
    assert balance.rate_per_s(steady) == pytest.approx(np.zeros(32), abs=1e-15)


def test_an_interval_widens_as_a_ratio_and_refuses_ends_that_cross():
    assert Interval(2.0, 1.0, 3.0).widened(2.0) == Interval(2.0, 0.5, 4.5)
    assert Interval(0.0, 0.0, 1.0).widened(2.0) == Interval(0.0, 0.0, 1.0)
    for ends in ((1.0, 2.0, 3.0), (1.0, 0.0, 0.5), (math.nan, 0.0, 1.0), (1.0, -1.0, 2.0)):
        with pytest.raises(OutOfRange):
            Interval(*ends)
    with pytest.raises(OutOfRange):
        Interval(2.0, 1.0, 3.0).widened(-1.0)


def test_a_layer_that_empties_beyond_all_bounds_is_refused_and_not_followed_for_ever():
    column = one_layer(base_case())
    next_to_nothing = replace(column, volume_m3=np.full_like(column.volume_m3, 1e-300))
    balance = layer_balance(next_to_nothing, flow_m3_s=2.5e-4, mixing=STILL)
    with pytest.raises(OutOfRange, match="fastest exchange between layers"):
        PowerSolution(balance).follow(np.ones(1))(np.array([60.0]))
