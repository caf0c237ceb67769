"""Pressure on the bead and heat at dams and ropes on the page of a result, in the reader's units."""

import pytest
import training_steps as steps
from answering import answers_for, fill_in
from set_up_examples import run_of, set_up

from trainer.services import practice
from trainer.web.bead_and_heat import bead_and_heat


@pytest.fixture
def told(app):
    """What a page says of a run, for somebody who is not signed in."""

    def lines(**changes):
        with app.test_request_context():
            found = bead_and_heat(set_up(**changes), run_of(**changes))
            return {each.label: (_plain(each.words), _plain(each.beside)) for each in found}

    return lines


def _plain(words):
    return words.replace("\xa0", " ")


def test_a_result_lists_the_heat_at_its_dams(visit_as, world):
    attempt_id = practice.start_practice(
        world.site, world.apprentice.acting, family="end-plates", difficulty=0.5
    )
    scenario = steps.drawn(world.site, attempt_id)[1]
    page = visit_as("apprentice").open_page(f"/apprentice/attempts/{attempt_id}")

    result = page.submit("Strike the arc", **fill_in(scenario, answers_for(scenario)))

    assert "Pressure on the bead, heat at dams and ropes" in result.text


def test_the_last_of_the_joint_stands_beside_what_the_pool_weighs(told):
    lines = told(joint__left_open="10 mm", joint__pool_depth="3 mm", flow__hold="15 L/min")
    # By hand and O-06 of flow_checks.csv, as in the tests of the run.
    assert lines["Pressure at the last of the joint"][0] == "41.1 Pa"
    assert lines["What the pool weighs"][0] == "203 Pa"
    assert "Shut in, the pool lifts after" not in lines


def test_shut_in_it_says_how_soon_the_pool_lifts(told):
    lines = told(vent__blocked=True, joint__left_open="0 mm", joint__pool_depth="3 mm")
    assert lines["Shut in, the pool lifts after"] == ("0.295 s", "nothing lets the gas out, and it rises on")


def test_dams_ropes_and_parts_near_the_weld_tell_heat_and_distance(told):
    lines = told(
        section__left_end="3 m",
        dams=[{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "new", "rope": "2 m"}],
        near_heat=[{"what": "draw rope", "material": "polypropylene", "distance": "60 mm"}],
    )
    assert lines["Heat at the left dam"] == ("57 °C", "stands 100 °C, so at least 139 mm from the weld")
    assert lines["Rope of the left dam"][0] == "too short to lead out"
    assert lines["Heat at draw rope"] == ("205 °C", "stands 170 °C, so at least 74 mm from the weld")


def test_a_foam_dam_tells_the_pressure_that_it_holds_soft_or_hard(told):
    foam = {"kind": "foam", "thickness": "100 mm", "age": "new", "density": "30 kg/m^3", "oversize": "20 mm"}
    lines = told(pipe={"outside_diameter": "168 mm", "wall": "4 mm"}, dams=[{"side": "left", **foam}])
    words, beside = lines["Pressure that the left dam holds"]
    assert (words, beside) == ("527 Pa", "soft foam holds no more, hard foam up to 14.1 kPa")


def test_without_a_run_there_is_nothing_to_tell(app):
    with app.test_request_context():
        assert bead_and_heat(set_up(), None) == ()
