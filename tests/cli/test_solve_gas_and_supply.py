"""`trainer solve` on mixtures, liquid supplies and prices: one set-up in, its keys out; a bad one, every fault."""

import json

import pytest
from click.testing import CliRunner
from set_up_examples import document

from trainer.cli import main

DEWAR = {
    "kind": "liquid dewar", "water_volume": "180 L", "pressure": "10 bar", "fill": 0.9, "daily_loss": "2 %",
    "largest_draw": "160 L/min", "joints_wanted": 60, "joint_every": "4 h",
}  # fmt: skip


def _solve(given, *options):
    return CliRunner().invoke(main, ["solve", "-", *options], input=json.dumps(given))


def test_a_dewar_of_argon_and_the_prices_are_answered_under_their_keys():
    given = document(
        supply=DEWAR,
        prices={"gas_per_m3": 6, "labour_per_h": 55, "lost_joint": 1800},
        flow__after_for="5 min",
    )
    result = _solve(given)
    assert (result.exit_code, result.stderr) == (0, "")
    answer = json.loads(result.stdout)
    assert set(answer["supply"]) == {
        "contents_l", "usable_l", "runs_for_min", "joints", "reference", "deliverable_l_min", "evaporates_l_per_day",
        "supplies_needed", "left_over_l", "change_below_fill", "residual_fraction", "daily_loss_percent",
        "evaporates_between_joints_l", "joints_last_h",
    }  # fmt: skip
    assert set(answer["gas_used"]) == {"before_arc_l", "during_arc_l", "after_arc_l", "total_l", "wasted_l"}
    assert set(answer["cost"]) == {"gas", "wasted_gas", "waiting", "total"}
    # 2 % of the contents a day, of which a sixth boils off in 4 h: by hand.
    assert answer["supply"]["evaporates_l_per_day"] == pytest.approx(0.02 * answer["supply"]["contents_l"])
    assert answer["supply"]["evaporates_between_joints_l"] == pytest.approx(
        answer["supply"]["evaporates_l_per_day"] / 6
    )
    assert answer["cost"]["waiting"] == pytest.approx(5.5)


def test_a_mixture_is_answered_with_what_is_said_of_it():
    given = document(
        gas={"symbol": "N5", "composition": "NH-5", "purity": "99.99 %", "frost_point": "-60 degC"},
        material="duplex",
    )
    answer = json.loads(_solve(given).stdout)
    assert answer["gas"]["name"] == "nitrogen with 5 % hydrogen"
    assert answer["gas"]["lies"] == "high"
    assert answer["gas"]["verdict"] == "never"
    assert {"gas-not-for-material", "hydrogen-burns"} <= {each["code"] for each in answer["cautions"]}


def test_every_fault_of_gas_meter_flow_and_supply_is_told_at_once():
    given = document(
        gas={"symbol": "R1", "composition": "ArH-20", "purity": "99.999 %", "oxygen": "50 ppm"},
        meter={"reads": "15 L/min", "calibrated_for": "ArCO2"},
        flow={"purge": "15 L/min", "after_for": "5 min"},
        supply={**DEWAR, "fill": 1.0, "stop_pressure": "2 bar", "pressure": "30 bar"},
    )
    result = _solve(given)
    assert (result.exit_code, result.stdout) == (2, "")
    assert [line.partition(":")[0] for line in result.stderr.splitlines()] == [
        "gas.composition", "gas.oxygen", "meter.calibrated_for", "flow.after_for", "supply.stop_pressure",
        "supply.fill", "supply.pressure",
    ]  # fmt: skip


def test_the_help_says_what_is_taken_where_it_is_left_out():
    shown = " ".join(_solve({}, "--help").output.split())
    for words in ("2 bar", "5 % of the liquid", "3 % a day", "any currency"):
        assert words in shown
