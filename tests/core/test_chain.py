"""Stages one after the other: against stirred tanks in series, and what a short cut and a pause do."""

import math

import numpy as np
import pytest

from trainer.core.chain_balance import Stage, StageExit, chain_balance, flows_through
from trainer.core.chain_solution import ChainSolution
from trainer.core.gas_column import one_layer
from trainer.core.layers import Mixing
from trainer.core.purge_case import BASE_CASE

FLOW = 2.5e-4
CHANGE_S = BASE_CASE.section.volume_m3 / FLOW


def tanks(count, *, flow_m3_s=FLOW, short_cut_ratio=1.0, link_m3_s=0.0):
    mixing = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0, short_cut_ratio=short_cut_ratio)
    return [
        Stage(
            column=one_layer(BASE_CASE),
            flow_m3_s=flow_m3_s,
            mixing=mixing,
            exits=(
                StageExit(
                    share_frac=1.0,
                    layer_frac=np.ones(1),
                    feeds=number + 1 if number + 1 < count else None,
                    link_m3_s=link_m3_s,
                ),
            ),
        )
        for number in range(count)
    ]


@pytest.mark.parametrize("count", [1, 2, 4])
def test_mixed_stages_are_stirred_tanks_in_series(count):
    # Levenspiel, Chemical Reaction Engineering, tanks in series: c_N = exp(-n) sum of n^k / k!, k below N.
    changes = np.array([0.0, 0.3, 1.0, 5.0, 20.0])
    air = ChainSolution(chain_balance(tanks(count))).from_full_of_air(changes * CHANGE_S)
    by_hand = [math.exp(-n) * sum(n**k / math.factorial(k) for k in range(count)) for n in changes]
    assert air[-1] == pytest.approx(by_hand, rel=1e-9)


def test_a_short_cut_loses_no_air_on_its_way():
    balance = chain_balance(tanks(3, short_cut_ratio=1.3))
    solution = ChainSolution(balance)
    volume_m3 = BASE_CASE.section.volume_m3
    for at_s in (0.0, CHANGE_S, 4.0 * CHANGE_S):
        air = solution.from_full_of_air(np.array([at_s]))
        held_m3_s = volume_m3 * float((balance.rate_per_s @ air[:, 0]).sum())
        assert -held_m3_s == pytest.approx(FLOW * float(balance.vent_air_frac(air)[0]), rel=1e-9)


def test_the_tail_is_that_of_the_slowest_stage():
    assert ChainSolution(chain_balance(tanks(1))).slowest_per_s == pytest.approx(1.0 / CHANGE_S)


def test_without_flow_air_only_spreads_between_the_stages():
    stages = tanks(2, flow_m3_s=0.0, link_m3_s=1e-5)
    balance = chain_balance(stages)
    assert balance.is_closed
    assert flows_through(stages, number=0) == [(1, 0.0)]
    air = ChainSolution(balance).follow(np.array([1.0, 0.0]))(np.array([0.0, 500.0, 1e6]))
    assert air.sum(axis=0) == pytest.approx([1.0, 1.0, 1.0])
    # By hand: two vessels of one volume come together as exp(-2 g t / V).
    apart = math.exp(-2.0 * 1e-5 * 500.0 / BASE_CASE.section.volume_m3)
    assert air[0, 1] - air[1, 1] == pytest.approx(apart, rel=1e-9)
    assert balance.vent_air_frac(air)[0] == pytest.approx(0.5)
