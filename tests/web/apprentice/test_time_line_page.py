"""A purge in stages and the readings of an analyser on the page of a result."""

from dataclasses import replace

import pytest
import training_steps as steps
from answering import answers_for, fill_in
from flask import get_template_attribute
from set_up_examples import POLICY, run_of, set_up

from trainer.services import practice, results
from trainer.web.results import scenario_view
from trainer.web.time_line_words import hold_in_words, readings_in_words, stages_in_words

STAGES = {
    "flow__hold_for": None,
    "flow__stages": [
        {"kind": "purge", "for": "6 min"},
        {"kind": "line out", "for": "90 s", "opening": "8 mm"},
        {"kind": "recovery"},
    ],
    "model": "perfect mixing",
}
READINGS = {
    "readings": [{"after": "5 min", "oxygen": "10 %"}, {"after": "6 min", "oxygen": "1 %"}],
    "analyser": {"uncertainty": "5 %"},
    "pipe": None,
}


@pytest.fixture
def told(app):
    """What a page says of a set-up, for somebody who is not signed in."""

    def lines(**changes):
        own, run = set_up(**changes), run_of(**changes)
        with app.test_request_context():
            found = (*stages_in_words(run), *hold_in_words(run), *readings_in_words(own, run))
        return [each.replace("\xa0", " ") for each in found]

    return lines


def test_each_stage_is_told_in_a_sentence(told):
    first, second, third = told(**STAGES)
    assert first.startswith(
        "Purge, 15 L/min, from 0 s to 6 min: the root sees up to 21 %"
    )  # 20.95 %, rounded up
    # By hand, mixed: 90 L through 12.29 L leave e^-7.323 of 20.95 %, 138.3 ppm, over the 5 of the gas, told as 144.
    assert "144 ppm at the end" in first
    assert second.startswith("Line out, no gas, from 6 min to 7 min 30 s: the root sees up to ")
    assert third.startswith("Recovery, 15 L/min, from 7 min 30 s on: the root sees up to ")


def test_what_the_root_sees_in_the_hold_is_told_without_stages(told):
    assert told()[-1].startswith("During the hold the root sees up to ")
    assert told(flow={"purge": "15 L/min"}) == []


def test_two_readings_tell_the_time_still_to_wait(told):
    # A decade a minute; the ends as ln 9.5 and ln 10.5 over ln 10 -+ sqrt(2) 0.05, by hand 56.9 s and 63.2 s.
    assert told(**READINGS) == ["By the readings 60 s still to wait for 0.1 %, between 57 s and 63 s."]


def test_readings_that_stand_still_or_lie_low_are_told_so(told):
    stuck = [{"after": "5 min", "oxygen": "0.2 %"}, {"after": "6 min", "oxygen": "0.2 %"}]
    assert told(**READINGS | {"readings": stuck}) == [
        "By the readings no wait brings it down to 0.1 %.",
        "They no longer fall.",
    ]
    low = [{"after": "5 min", "oxygen": "0.2 %"}, {"after": "6 min", "oxygen": "0.05 %"}]
    assert told(**READINGS | {"readings": low}) == ["By the readings it is down to 0.1 %."]
    # Mixed, the rate 1.22 a minute is known: 1000 to 905 ppm stands on 865.3 ppm, told as 866.
    floor = [{"after": "8 min", "oxygen": "1000 ppm"}, {"after": "9 min", "oxygen": "905 ppm"}]
    known = {"model": "perfect mixing", "readings": floor, "analyser": {"uncertainty": "2 %"}}
    assert told(**known, target__oxygen="500 ppm", flow__hold_for=None)[-1] == "They show a floor of 866 ppm."


def test_the_page_lists_the_stages_and_marks_them_in_the_trace(visit_as, world, app):
    attempt_id = practice.start_practice(
        world.site, world.apprentice.acting, family="long-run", difficulty=0.5
    )
    scenario = steps.drawn(world.site, attempt_id)[1]
    page = visit_as("apprentice").open_page(f"/apprentice/attempts/{attempt_id}")
    page.submit("Strike the arc", **fill_in(scenario, answers_for(scenario)))
    (marked,) = results.result_page(world.site, world.apprentice.acting, attempt_id=attempt_id).scenarios

    with app.test_request_context():
        staged = replace(marked, own_set_up=set_up(**STAGES), run=run_of(**STAGES))
        view = scenario_view(staged, policy=POLICY)
        sheet = get_template_attribute("components/scenario_result.html", "scenario_result")(view)

    assert "Stages, numbered as in the trace:" in sheet
    assert sheet.count("<li>") >= 3
    assert "1 purge" in sheet
    assert "Stages: 1 purge from 0.0 minutes, 2 line out from 6.0 minutes" in sheet
