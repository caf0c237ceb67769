"""Few slow modes against the exponential of the whole matrix (scipy.linalg.expm), which knows nothing of modes."""

import math

import numpy as np
import pytest
from example_counts import tried
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from purge_cases import base_case
from scipy.linalg import expm
from shape import L_MIN

from trainer.core.dilution import BASE_CASE, InLeak
from trainer.core.layer_solution import MODES_UP_TO
from trainer.core.layer_stack import log_scale_of
from trainer.core.layers import Mixing
from trainer.core.level_stack import BalanceStack, level_balances, level_columns
from trainer.core.root_stack import RootStack
from trainer.core.slow_modes import slow_modes

EXPM = settings(tried(100), derandomize=True)
MIXINGS = st.builds(
    Mixing,
    diffusivity_m2_s=st.floats(1e-5, 9e-5),
    stirring_m2_s=st.floats(1e-5, 3e-2),
    beyond_vent_ratio=st.floats(0.1, 1.0),
    short_cut_ratio=st.floats(1.0, 1.5),
)
STIRRED = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=6e-5, beyond_vent_ratio=0.185)


def balances_of(mixing=STIRRED, flow_m3_s=15.0 * L_MIN, case=BASE_CASE):
    return level_balances(level_columns([case]), rows=[0], flows_m3_s=[flow_m3_s], mixings=[mixing])


def air_by_expm(balances, time_s):
    """Air fraction of every layer, all of them full of air at first; no air leaks in."""
    rise, fall, loss, volume = (
        each[0] for each in (balances.rise_m3_s, balances.fall_m3_s, balances.loss_m3_s, balances.volume_m3)
    )
    matrix = (np.diag(rise, -1) + np.diag(fall, 1) - np.diag(loss)) / volume[:, np.newaxis]
    return expm(matrix * time_s) @ np.ones_like(volume)


def volume_changes_s(balances, count):
    return count * float(balances.volume_m3.sum() / balances.outflow_m3_s[0])


@EXPM
@given(mixing=MIXINGS, flow=st.floats(2.0, 40.0), modes=st.integers(2, 12), changes=st.floats(0.0, 12.0))
def test_few_modes_are_off_by_no_more_than_their_doubt(mixing, flow, modes, changes):
    balances = balances_of(mixing, flow * L_MIN)
    found = slow_modes(balances, log_scale=log_scale_of(balances), modes_count=modes)
    time_s = volume_changes_s(balances, changes)
    left = np.exp(-found.rate_per_s[0] * time_s)
    off = abs(found.amplitude_frac[0] @ left - air_by_expm(balances, time_s)[-1])
    assert off <= found.doubt_frac[0] @ left + 1e-10


@EXPM
@given(mixing=MIXINGS, flow=st.floats(2.0, 40.0), changes=st.floats(0.0, 12.0))
def test_layer_farthest_from_the_pool_holds_the_most_where_nothing_leaks(mixing, flow, changes):
    balances = balances_of(mixing, flow * L_MIN)
    air = air_by_expm(balances, volume_changes_s(balances, changes))
    assert air[-1] >= air.max() - 1e-12


@EXPM
@given(mixing=MIXINGS, changes=st.floats(0.0, 8.0), level=st.floats(1e-4, 0.5))
def test_root_is_right_at_the_earliest_time_asked_however_early(mixing, changes, level):
    balances = balances_of(mixing)
    asked_s = volume_changes_s(balances, changes)
    stack = RootStack(balances, level_frac=np.array([level]), earliest_s=np.array([asked_s]))
    assume(stack.log_spread[0] <= MODES_UP_TO)
    later_s = asked_s + volume_changes_s(balances, 0.5)
    expected = [air_by_expm(balances, time_s).max() for time_s in (asked_s, later_s)]
    assert stack.root_air_frac(np.array([[asked_s, later_s]]))[0] == pytest.approx(expected, abs=1e-9)
    at_level = air_by_expm(balances, float(stack.last_time_above_s[0])).max()
    assert at_level == pytest.approx(level, rel=1e-8)


def test_root_is_right_where_the_gas_enters_on_the_far_side():
    balances = balances_of()
    turned = BalanceStack(
        volume_m3=balances.volume_m3[:, ::-1],
        rise_m3_s=balances.fall_m3_s[:, ::-1],
        fall_m3_s=balances.rise_m3_s[:, ::-1],
        loss_m3_s=balances.loss_m3_s[:, ::-1],
        leak_m3_s=balances.leak_m3_s[:, ::-1],
        outflow_m3_s=balances.outflow_m3_s,
    )
    late_s = volume_changes_s(balances, 4.0)
    stack = RootStack(turned, level_frac=np.array([0.01]), earliest_s=np.array([late_s]))
    air = air_by_expm(turned, late_s)
    assert air[0] > 1.5 * air[-1]
    assert stack.root_air_frac(np.array([[late_s]])) == pytest.approx(air[0], abs=1e-9)


def test_well_stirred_layers_have_one_mode_and_no_doubt():
    """Stirred tank, c = exp(-Q t / V): Levenspiel, Chemical Reaction Engineering."""
    # Stirred ten times harder, the last digits of the inverse would differ by processor in the sixth place.
    balances = balances_of(Mixing(diffusivity_m2_s=1e3, stirring_m2_s=0.0))
    found = slow_modes(balances, log_scale=log_scale_of(balances))
    assert found.rate_per_s[0, 0] == pytest.approx(1.0 / volume_changes_s(balances, 1.0), rel=1e-6)
    assert found.amplitude_frac[0] == pytest.approx([1.0, *[0.0] * 7], abs=1e-6)
    late = np.exp(-found.rate_per_s[0] * volume_changes_s(balances, 0.1))
    assert found.doubt_frac[0] @ late < 1e-9


def test_leaky_root_settles_at_its_floor_and_is_timed_only_above_it():
    balances = balances_of(case=base_case(leaks=(InLeak(height_frac=1.0, flow_m3_s=1e-6),)))
    levels = np.array([0.5, 1e-4])
    pair = level_balances(
        level_columns([base_case(leaks=(InLeak(height_frac=1.0, flow_m3_s=1e-6),))] * 2),
        rows=[0, 1], flows_m3_s=[15.0 * L_MIN] * 2, mixings=[STIRRED] * 2,
    )  # fmt: skip
    stack = RootStack(pair, level_frac=levels, earliest_s=np.zeros(2))
    assert math.isfinite(stack.last_time_above_s[0])
    assert math.isinf(stack.last_time_above_s[1])
    long_s = volume_changes_s(balances, 1e4)
    # Steady state, M c = b: what leaks in at the top stays behind there.
    matrix = np.diag(pair.loss_m3_s[0]) - np.diag(pair.rise_m3_s[0], -1) - np.diag(pair.fall_m3_s[0], 1)
    floor = np.linalg.solve(matrix, pair.leak_m3_s[0]).max()
    assert stack.root_air_frac(np.full((2, 1), long_s)) == pytest.approx(np.full((2, 1), floor), rel=1e-9)
