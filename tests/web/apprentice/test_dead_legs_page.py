"""Where air stays in a spool, in words, on the page of a result."""

import pytest
from flask import render_template_string
from set_up_examples import A_RISER_WITHOUT_VENT, OVER_THE_TOP, run_of

from trainer.domain.quantities import Dimension
from trainer.web.dead_legs import crossed_places, dead_legs_in_words, dead_places
from trainer.wording.quantities import UnitSystem, quantity_words


@pytest.fixture
def told(app):
    """What a page says of a run, for somebody who is not signed in."""

    def words(run):
        with app.test_request_context():
            return [each.replace("\xa0", " ") for each in dead_legs_in_words(run)]

    return words


def test_a_riser_without_a_vent_is_named_with_what_it_needs(told):
    run = run_of(**A_RISER_WITHOUT_VENT)
    leg, last = told(run)
    assert leg.startswith("cap: 10.3 L of air that the gas passes at tee; only diffusion clears it.")
    assert "By itself it needs 8 h 50 min." in leg
    assert "When you struck, its end held 21 % oxygen." in leg  # 20.95 %, rounded up
    assert last == "Last to come down to the target: cap."
    assert dead_places(run) == ("cap",)


def test_without_wait_and_target_only_the_place_is_told(told):
    assert told(run_of(**A_RISER_WITHOUT_VENT, wait=None, target=None)) == [
        "cap: 10.3 L of air that the gas passes at tee; only diffusion clears it."
    ]


def _written(time_s):
    return quantity_words(time_s, Dimension.DURATION, system=UnitSystem.METRIC).replace("\xa0", " ")


def test_a_high_point_that_the_gas_crosses_is_told_with_what_a_vent_there_saves(told):
    run = run_of(**OVER_THE_TOP)
    (high,) = told(run)
    assert high.startswith("top: gas comes in from shoulder and has to cross this point")
    assert "diffusion" not in high
    # The vent moved there by hand, to the end where the gas comes in, is a run of its own.
    vented = run_of(**OVER_THE_TOP | {"vent__at": "top", "vent__along": 0, "vent__height": 1})
    saved, whole = (_written(each.purge.time_to_target_s.expected) for each in (vented, run))
    assert f"With the vent there the purge takes {saved} instead of {whole}." in high
    assert vented.purge.time_to_target_s.expected < 0.5 * run.purge.time_to_target_s.expected
    assert run.purge.time_to_target_s.expected < 7200.0  # far less than what diffusion alone would need
    assert "When you struck, it still held 14 % oxygen." in high
    assert (dead_places(run), crossed_places(run)) == ((), ("top",))


def test_a_section_that_the_gas_reaches_all_of_says_nothing(told):
    assert told(run_of()) == told(None) == []
    assert dead_places(None) == ()


def test_the_result_lists_each_place_under_its_heading(app):
    page = (
        '{% from "components/scenario_result.html" import scenario_sheet %}{{ scenario_sheet(view, "", 2) }}'
    )
    view = {"result": {"scenario_no": 1, "items": ()}, "dead_legs": ["cap: stays"], "items": ()}
    with app.test_request_context():
        said = render_template_string(page, view=view)
    assert "Where air stays" in said
    assert "<li>cap: stays</li>" in said
