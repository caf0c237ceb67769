"""Gas, supply and cost on the page of a result, line by line and in the reader's units."""

import pytest
import training_steps as steps
from answering import answers_for, fill_in
from set_up_examples import run_of

from trainer.services import practice
from trainer.web.gas_account import gas_account

DEWAR = {
    "kind": "liquid dewar", "water_volume": "180 L", "pressure": "10 bar", "fill": 0.9, "joints_wanted": 60,
    "joint_every": "4 h",
}  # fmt: skip


@pytest.fixture
def told(app):
    """What a page says of a run, for somebody who is not signed in."""

    def lines(**changes):
        with app.test_request_context():
            return {
                each.label: (_plain(each.words), _plain(each.beside))
                for each in gas_account(run_of(**changes))
            }

    return lines


def _plain(words):
    return words.replace("\xa0", " ")


def test_the_result_of_a_long_run_lists_gas_and_supply(visit_as, world):
    attempt_id = practice.start_practice(
        world.site, world.apprentice.acting, family="long-run", difficulty=0.5
    )
    scenario = steps.drawn(world.site, attempt_id)[1]
    page = visit_as("apprentice").open_page(f"/apprentice/attempts/{attempt_id}")

    result = page.submit("Strike the arc", **fill_in(scenario, answers_for(scenario)))

    assert "Gas, supply and cost" in result.text
    assert "argon" in result.row("Purge gas")
    assert "recommended" in result.row("For this material")
    assert "15 °C, 1 bar" in result.row("Gas that can be drawn")[-1]


def test_what_the_gas_is_stands_first(told):
    lines = told(
        gas={"symbol": "R1", "composition": "ArH-5", "purity": "99.996 %", "frost_point": "-50 degC"}
    )
    assert lines["Purge gas"] == ("argon with 5 % hydrogen", "1.31 times as heavy as air, gathers low")
    assert lines["Oxygen in the gas"] == ("5 ppm", "at most 40 ppm by its purity")
    assert lines["Water in the gas"][0] == "38.9 ppm"
    assert lines["For this material"][0] == "only where a qualified procedure says so"


def test_a_dewar_is_told_with_what_it_loses(told):
    lines = told(supply=DEWAR)
    assert lines["Boils off in a day"][1] == "into wherever the vessel stands"
    assert lines["Change it before a joint below"][0].endswith("% full")
    assert lines["Supplies for the job"][0] == "1"
    assert lines["Joints in it"][0].isdigit()


def test_costs_are_told_in_the_money_of_the_prices(told):
    lines = told(prices={"gas_per_m3": 8, "labour_per_h": 60, "lost_joint": 2500}, wait="1 min")
    assert lines["Cost of waiting"] == ("1.00", "in the money of the prices")
    assert lines["Cost of the lost joint"][0] == "2500.00"
    assert "Cost of the lost joint" not in told(prices={"lost_joint": 2500}, wait="10 min")


def test_what_is_not_known_has_no_line(told):
    assert "Gas after the weld" not in told()
    assert "Gas that can be drawn" not in told(supply=None)
    assert told(**dict.fromkeys(("gas", "supply", "hose", "flow"))) == {}
    assert gas_account(None) == ()
