"""`trainer solve` for a purge in stages and for readings of an analyser: keys out, and every fault at once."""

import json

import pytest
from click.testing import CliRunner
from set_up_examples import document

from trainer.cli import main


def _solve(given):
    return CliRunner().invoke(main, ["solve", "-"], input=json.dumps(given))


STAGES = [
    {"kind": "purge", "for": "6 min"},
    {"kind": "line out", "for": "90 s", "opening": "8 mm"},
    {"kind": "recovery", "for": "5 min", "flow": "20 L/min"},
    {"kind": "hold"},
]


def test_a_line_of_stages_is_answered_stage_by_stage():
    answer = json.loads(_solve(document(flow__hold_for=None, flow__stages=STAGES, wait="10 min")).stdout)
    stages = answer["purge"]["stages"]
    assert [each["kind"] for each in stages] == ["purge", "line out", "recovery", "hold"]
    assert [each["starts_s"] for each in stages] == [0.0, 360.0, 450.0, 750.0]
    assert [each.get("ends_s") for each in stages] == [360.0, 450.0, 750.0, None]
    assert [each["flow_l_min"] for each in stages] == pytest.approx([15.0, 0.0, 20.0, 5.0])
    assert set(stages[1]["oxygen_at_end_ppm"]) == {"expected", "lower", "upper"}
    assert stages[1]["highest_oxygen_ppm"] > 100.0 * stages[0]["oxygen_at_end_ppm"]["expected"]
    assert "oxygen_at_end_ppm" not in stages[3]
    assert answer["purge"]["time_to_target_s"]["expected"] > 450.0
    assert answer["purge"]["highest_in_hold_ppm"] == stages[3]["highest_oxygen_ppm"]
    # By hand: 15 x 6 + 20 x 2.5 L.
    assert answer["gas_used"]["before_arc_l"] == pytest.approx(140.0)
    assert "total_l" not in answer["gas_used"]
    assert {360.0, 450.0, 600.0, 750.0} <= {row[0] for row in answer["purge"]["trace"]}


def test_two_readings_are_answered_with_the_time_still_to_wait():
    given = {
        "readings": [{"after": "5 min", "oxygen": "10 %"}, {"after": "6 min", "oxygen": "1 %"}],
        "analyser": {"uncertainty": "5 %"},
        "target": {"oxygen": "0.1 %"},
    }
    answer = json.loads(_solve(given).stdout)
    assert answer["readings"]["wait_still_s"]["expected"] == pytest.approx(60.0)
    assert answer["readings"]["floor_reached"] is False
    stuck = given | {
        "readings": [{"after": "5 min", "oxygen": "0.2 %"}, {"after": "9 min", "oxygen": "0.3 %"}]
    }
    answer = json.loads(_solve(stuck).stdout)
    assert answer["readings"]["wait_still_s"] is None
    assert [each["code"] for each in answer["cautions"]] == ["oxygen-rising"]
    assert answer["cautions"][0]["text"] == "Air is getting in: the reading rose from 0.2 % to 0.3 %."


def test_a_bad_line_prints_every_fault_on_its_own_line():
    stages = [
        {"kind": "line out", "for": "1 min"},
        {"kind": "purge"},
        {"kind": "pinched hose", "for": "3 min"},
    ]
    result = _solve(document(flow__stages=stages, readings=[{"after": "5 min", "oxygen": "1 %"}]))
    assert result.exit_code == 2
    assert result.stdout == ""
    assert [line.partition(": ")[0] for line in result.stderr.splitlines()] == [
        "flow.stages.0.opening", "flow.stages.1.for", "flow.stages.2.open_fraction", "flow.stages.0",
        "flow.hold_for", "readings", "analyser.uncertainty",
    ]  # fmt: skip
