"""What is expected of a purge, asked alone, is what stands between the ends."""

import math
from dataclasses import replace

import pytest
from set_up_examples import set_up
from spool_examples import arch, with_branch

from trainer.core.dilution import BASE_CASE, FlowSegment, InLeak, purge
from trainer.domain.run_purge import purge_course_of

STAGES = tuple(
    FlowSegment(flow_m3_s=flow, duration_s=lasts_s) for flow, lasts_s in ((2.5e-4, 120.0), (1e-4, 300.0), (2.5e-4, math.inf))
)  # fmt: skip
PURGES = {
    "straight": lambda: purge(BASE_CASE),
    "stages": lambda: purge(replace(BASE_CASE, segments=STAGES)),
    "leaking": lambda: purge(replace(BASE_CASE, leaks=(InLeak(height_frac=1.0, flow_m3_s=1e-6),))),
    "dead leg": lambda: purge_course_of(set_up(**with_branch("90 deg"))).purge,
    "joint in a dead leg": lambda: (
        purge_course_of(
            set_up(**with_branch("90 deg", joint={"gap": "2 mm", "taped": 1.0, "at": "branch", "along": 0.5}))
        ).purge
    ),
    "crossed": lambda: purge_course_of(set_up(**arch())).purge,
}


@pytest.mark.parametrize("made", PURGES)
def test_time_and_oxygen_are_those_between_the_ends(made):
    asked, alone = PURGES[made](), PURGES[made]()
    for o2_frac in (0.05, 0.01, 1e-3, 1e-4):
        time = asked.time_to(o2_frac)
        assert alone.expected_time_s(o2_frac) == (None if time is None else time.expected)
    for time_s in (0.0, 60.0, 600.0, 7200.0):
        assert alone.expected_o2_frac(time_s) == asked.oxygen_at(time_s).expected


def test_a_level_that_is_never_reached_has_no_expected_time():
    assert PURGES["leaking"]().expected_time_s(1e-6) is None
