"""The table of agreement: what is close, what is held, and that nothing is counted twice."""

import pytest

from trainer.core.agreement import Agreement, agreement_share, agreements
from trainer.core.interval import Interval


def agreement(simulated, expected, lower, upper):
    return Agreement(
        run="X", description="", judges="judge", target_o2_frac=0.01, simulated_count=simulated,
        modelled=Interval(expected, lower, upper),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("simulated", "is_close"), [(4.0, True), (5.0, True), (5.01, False), (3.2, True), (3.19, False)]
)
def test_close_is_a_quarter_either_way(simulated, is_close):
    assert agreement(simulated, 4.0, 1.0, 9.0).is_close is is_close


def test_a_time_on_the_end_of_the_interval_is_held():
    assert agreement(3.0, 4.0, 3.0, 5.0).is_held
    assert not agreement(2.99, 4.0, 3.0, 5.0).is_held


def test_shares_count_each_time_once():
    rows = [agreement(4.0, 4.0, 3.0, 5.0), agreement(8.0, 4.0, 3.0, 5.0)]
    share = agreement_share(rows)
    assert (share.times_count, share.close_count, share.held_count) == (2, 1, 1)


def test_the_table_has_runs_of_both_sorts_and_each_target_once():
    rows = agreements()
    assert {each.judges for each in rows} == {"judge", "fit"}
    keys = [(each.run, each.target_o2_frac) for each in rows]
    assert len(keys) == len(set(keys))
