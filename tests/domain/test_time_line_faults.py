"""Stages and readings that contradict themselves, each in words, and all at once."""

import pytest
from set_up_examples import document

from trainer.set_up_files import SetUpFaults, read_set_up


def _faults(**changes):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(**changes))
    return {each.path: each.message for each in caught.value.faults}


PURGE = {"kind": "purge", "for": "5 min"}
HOLD = {"kind": "hold"}


def _line(*stages, **more):
    return {"flow": {"purge": "15 L/min", "hold": "5 L/min", "stages": [*stages]} | more}


@pytest.mark.parametrize(
    ("changes", "path", "says"),
    [
        (_line(PURGE, {"for": "2 min"}, HOLD), "flow.stages.1.kind", "each stage says what happens: purge, hold, pinched"),
        (_line({"kind": "purge"}, HOLD), "flow.stages.0.for", "only the last stage may be without end"),
        (
            _line(PURGE, {"kind": "line out", "for": "1 min", "opening": "8 mm", "flow": "2 L/min"}, HOLD),
            "flow.stages.1.flow",
            "2 L/min contradicts a line that is out",
        ),
        (_line(PURGE, {"kind": "line out", "for": "1 min"}, HOLD), "flow.stages.1.opening", "give its diameter"),
        (
            _line(PURGE, {"kind": "line out", "for": "1 min", "opening": "0 mm"}, HOLD),
            "flow.stages.1.opening",
            "give its diameter",
        ),
        (_line(PURGE, {"kind": "hold", "opening": "8 mm"}), "flow.stages.1.opening", "8 mm is left by a line that is out"),
        (_line(PURGE, {"kind": "hold", "open_fraction": 0.5}), "flow.stages.1.open_fraction", "only a pinch leaves 0.5"),
        (_line(PURGE, {"kind": "pinched hose"}), "flow.stages.1.open_fraction", "or its own flow"),
        (
            _line(PURGE, {"kind": "pinched hose", "open_fraction": 0.1, "flow": "2 L/min"}),
            "flow.stages.1.open_fraction",
            "keep one of them",
        ),
        (
            _line(PURGE, {"kind": "pinched hose", "open_fraction": 0.1}) | {"hose": {"bore": "0.25 in"}},
            "flow.stages.1.open_fraction",
            "needs hose.length, hose.inlet_pressure",
        ),
        (
            _line(PURGE, {"kind": "pinched hose", "open_fraction": 0.1}) | {"hose": None},
            "flow.stages.1.open_fraction",
            "needs hose.bore, hose.length, hose.inlet_pressure",
        ),
        (
            _line(PURGE, {"kind": "pinched hose", "flow": "16 L/min"}),
            "flow.stages.1.flow",
            "16 L/min is more than the purge flow of 15 L/min",
        ),
        (_line({"kind": "line out", "for": "1 min", "opening": "8 mm"}, PURGE), "flow.stages.0", "its first stage needs a flow"),
        (_line({"kind": "purge", "flow": "0 L/min"}), "flow.stages.0", "its first stage needs a flow"),
        (_line(PURGE) | {"wait": "5.1 min"}, "wait", "5.1 min lies beyond the stages, which end after 5 min"),
        (_line(PURGE, HOLD, hold_for="20 min"), "flow.hold_for", "20 min stands beside flow.stages"),
        (_line(PURGE, HOLD, after_for="20 min"), "flow.after_for", "20 min stands beside flow.stages"),
    ],
    ids=lambda value: str(value)[:50],
)  # fmt: skip
def test_a_line_that_contradicts_itself_says_what_to_do(changes, path, says):
    assert says in _faults(**changes)[path]


def _readings(*minutes_and_oxygen, **more):
    read = [{"after": f"{minutes} min", "oxygen": oxygen} for minutes, oxygen in minutes_and_oxygen]
    return {"readings": read, "analyser": {"uncertainty": "5 %"}} | more


@pytest.mark.parametrize(
    ("changes", "path", "says"),
    [
        (_readings((5, "1 %")), "readings", "one reading tells no rate"),
        (_readings((6, "1 %"), (5, "0.5 %")), "readings.1.after", "5 min is not after the one before it, at 6 min"),
        (_readings((5, "1 %"), (5, "0.5 %")), "readings.1.after", "is not after the one before it"),
        (_readings((5, "1 %"), (6, "4 ppm")), "readings.1.oxygen", "4 ppm is below the 5 ppm that the gas carries"),
        (_readings((5, "1 %"), (6, "0.5 %"), analyser=None), "analyser.uncertainty", "such as 5 %"),
        (_readings((5, "1 %"), (6, "0.5 %"), analyser={}), "analyser.uncertainty", "such as 5 %"),
        (_readings((5, "1 %"), (6, "0.5 %"), target=None), "target.oxygen", "needs the oxygen wanted, such as 0.1 %"),
        (
            {"readings": [{"after": "5 min"}, {"oxygen": "1 %"}], "analyser": {"uncertainty": "5 %"}},
            "readings.0.oxygen",
            "say what the analyser showed",
        ),
        (
            {"readings": [{"after": "5 min"}, {"oxygen": "1 %"}], "analyser": {"uncertainty": "5 %"}},
            "readings.1.after",
            "say how long after the gas was turned on",
        ),
        (
            _readings((4, "1 %"), (6, "0.5 %")) | _line(PURGE, HOLD),
            "readings.1.after",
            "the flow changed, at 5 min; take two at one flow",
        ),
    ],
    ids=lambda value: str(value)[:50],
)  # fmt: skip
def test_readings_that_tell_nothing_say_what_is_missing(changes, path, says):
    assert says in _faults(**changes)[path]


def test_a_reading_that_the_analyser_s_uncertainty_allows_is_no_fault():
    made = document(**_readings((5, "1 %"), (6, "4.8 ppm")))
    assert read_set_up(made).readings[1].oxygen_frac == pytest.approx(4.8e-6)


def test_a_wait_that_another_unit_puts_a_digit_past_the_end_is_within_the_stages():
    stages = [{"kind": "purge", "for": "6 min"}]
    assert read_set_up(document(**_line(*stages), wait="0.1 h")).wait_s == pytest.approx(360.0)


def test_every_fault_of_a_line_is_told_at_once():
    found = _faults(
        flow={
            "purge": "15 L/min",
            "hold": "5 L/min",
            "hold_for": "10 min",
            "stages": [
                {"kind": "line out", "for": "1 min", "flow": "2 L/min"},
                {"kind": "pinched hose", "flow": "30 L/min"},
                {"opening": "8 mm", "for": "1 min"},
            ],
        },
        wait="6 min",
        readings=[{"after": "3 min", "oxygen": "1 ppm"}],
        target=None,
    )
    assert set(found) == {
        "flow.stages.0.flow", "flow.stages.0.opening", "flow.stages.0", "flow.stages.1.for", "flow.stages.1.flow",
        "flow.stages.2.kind", "flow.hold_for", "readings", "readings.0.oxygen", "analyser.uncertainty", "target.oxygen",
    }  # fmt: skip


def test_a_stage_that_cannot_be_read_is_not_blamed_for_what_follows_from_it():
    found = _faults(**_line(PURGE, {"kind": "line out", "for": "1 min", "opening": "8 furlongs"}, HOLD))
    assert set(found) == {"flow.stages.1.opening"}
    assert "furlong" in found["flow.stages.1.opening"]
