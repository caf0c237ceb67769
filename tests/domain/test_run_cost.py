"""Gas of a joint part by part, and what the joint costs."""

import pytest
from set_up_examples import POLICY, run_of, set_up

from trainer.core.reference_conditions import ReferenceCondition
from trainer.domain.run_set_up import run
from trainer.set_up_files import SetUpFaults, write_run

PRICES = {"gas_per_m3": 8, "labour_per_h": 60, "lost_joint": 2500}
# 20 degC, 1 atm to 15 degC, 1 bar, by hand: 1.01325 x 288.15 / 293.15.
TO_REFERENCE = 1.01325 * 288.15 / 293.15


def test_gas_of_a_joint_is_told_part_by_part():
    # 15 L/min x 6 min, 5 x 25, 5 x 10: by hand.
    used = run_of(flow__after_for="10 min").gas_used
    parts = [used.before_arc_m3, used.during_arc_m3, used.after_arc_m3, used.total_m3]
    assert parts == pytest.approx([0.090, 0.125, 0.050, 0.265])


def test_gas_is_wasted_from_the_moment_that_the_root_is_ready():
    ready_s = run_of().purge.time_to_target_s.expected
    wasted = run_of(wait="20 min").gas_used.wasted_m3
    assert wasted == pytest.approx(2.5e-4 * (1200.0 - ready_s))
    assert run_of(wait="1 min").gas_used.wasted_m3 == 0.0


def test_what_is_wasted_is_not_known_without_a_target_or_where_it_is_never_reached():
    assert run_of(target=None).gas_used.wasted_m3 is None
    assert run_of(target__oxygen="4 ppm").gas_used.wasted_m3 is None


def test_a_hold_after_the_weld_is_part_of_what_the_supply_gives():
    short, long = run_of().supply, run_of(flow__after_for="1 h").supply
    assert long.joints < short.joints


def test_an_unknown_hold_leaves_the_rest_unanswered():
    used = run_of(flow={"purge": "15 L/min"}).gas_used
    assert used.before_arc_m3 == pytest.approx(0.090)
    assert (used.during_arc_m3, used.after_arc_m3, used.total_m3) == (None, None, None)


def test_a_time_after_the_weld_needs_a_hold():
    with pytest.raises(SetUpFaults, match="flow.after_for: a time of 10 min after the weld needs flow.hold"):
        set_up(flow={"purge": "15 L/min", "after_for": "10 min"})


def test_a_joint_costs_its_gas_and_the_wait_for_it():
    # 215 L at 8 a cubic metre; 6 min at 60 an hour: by hand.
    cost = run_of(prices=PRICES).cost
    assert cost.gas == pytest.approx(0.215 * TO_REFERENCE * 8)
    assert cost.waiting == pytest.approx(6.0)
    assert cost.lost_joint is None
    assert cost.total == pytest.approx(cost.gas + 6.0)
    assert 0.0 < cost.wasted_gas < cost.gas


def test_gas_is_priced_at_the_reference_condition():
    # 20 degC, 1 atm to 0 degC, 1 atm: 273.15 / 293.15, by hand.
    normal = run(set_up(prices=PRICES), policy=POLICY, reference=ReferenceCondition.AT_0C_1ATM)
    assert normal.cost.gas == pytest.approx(0.215 * 273.15 / 293.15 * 8)


def test_a_root_that_is_lost_costs_the_joint_on_top():
    run_lost = run_of(prices=PRICES, wait="1 min")
    assert "root-lost" in [each.code for each in run_lost.cautions]
    assert run_lost.cost.lost_joint == 2500
    assert run_lost.cost.total == pytest.approx(run_lost.cost.gas + 1.0 + 2500)
    saved = run_of(prices=PRICES, wait="10 min")
    assert "root-lost" not in [each.code for each in saved.cautions]
    assert saved.cost.lost_joint is None


def test_only_what_has_a_price_is_costed():
    assert run_of().cost is None
    only_gas = run_of(prices={"gas_per_m3": 8}).cost
    assert (only_gas.waiting, only_gas.lost_joint) == (None, None)
    assert only_gas.total == only_gas.gas
    assert run_of(prices={}).cost.total is None


@pytest.mark.parametrize("changes", [{"wait": None}, {"flow__hold_for": None}, {"material": None}])
def test_a_total_is_not_told_where_a_priced_part_is_not_known(changes):
    assert run_of(prices=PRICES, **changes).cost.total is None


def test_costs_are_plain_numbers_in_an_answer():
    answer = write_run(run_of(prices=PRICES, wait="1 min"))
    assert set(answer["cost"]) == {"gas", "wasted_gas", "waiting", "lost_joint", "total"}
    assert all(isinstance(each, int | float) for each in answer["cost"].values())
