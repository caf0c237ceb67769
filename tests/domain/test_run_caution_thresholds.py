"""Each caution is raised exactly at its threshold, by the default policy's table and by nothing else."""

import math

import judged_examples as made
import pytest
from set_up_examples import POLICY

from trainer.domain.policy import Compare

# The value at the threshold, and whether exactly there the caution is raised; figures as the policy file names
# their sources (29 CFR 1910.146(b): less than 19.5 % is deficient, so that 19.5 % itself is not).
_AT = [
    ("asphyxiation", made.breathed, 0.195, Compare.BELOW),
    ("asphyxiation", made.face_in_pool, 0.5, Compare.AT_LEAST),
    ("collects-at-ceiling", made.face_under_ceiling, 0.5, Compare.AT_LEAST),
    ("supply-could-empty-here", made.emptied, 0.18, Compare.BELOW),
    ("boil-off-collects", made.boil_off, 0.195, Compare.BELOW),
    ("enriched-air", made.fresh, 0.235, Compare.ABOVE),
    ("floor-above-target", made.floor, 0.001, Compare.AT_LEAST),
    ("root-lost", lambda frac: made.after_wait(made.STEEL, frac), 0.01, Compare.AT_LEAST),
    ("oxygen-above-target", lambda frac: made.after_wait(made.TARGET, frac), 0.001, Compare.ABOVE),
    ("hold-lets-air-in", made.hold_floor, 0.001, Compare.AT_LEAST),
    ("oxygen-comes-back", made.highest_after_wait, 0.001, Compare.ABOVE),
    ("hold-lets-air-in", made.highest_in_hold, 0.001, Compare.ABOVE),
    ("dead-leg", made.dead_leg, 0.001, Compare.ABOVE),
    ("dead-leg", made.leg_time, 600.0, Compare.AT_LEAST),
    ("high-point-crossed", made.crossed, 600.0, Compare.ABOVE),
    # Two readings off by 5 % each, independently: e^(sqrt(2) 0.05), JCGM 100:2008, 5.1.2.
    ("oxygen-rising", made.reading_rise, math.exp(math.sqrt(2.0) * 0.05), Compare.ABOVE),
    ("floor-reached", made.stopped, 0.001, Compare.ABOVE),
    ("supply-runs-out", made.usable, 0.25, Compare.BELOW),
    ("change-before-next-joint", made.left_for_next, 0.25, Compare.BELOW),
    ("supply-cannot-deliver", made.deliverable, 2.5e-4, Compare.BELOW),
    ("boils-off-unused", made.boils_off, 0.25, Compare.ABOVE),
    ("gas-is-damp", made.moist, 127e-6, Compare.ABOVE),
    ("hose-starves-flow", made.hose, 2.5e-4, Compare.BELOW),
    ("dam-too-close", made.hot, 100.0, Compare.AT_LEAST),
    ("vent-beyond-pool", made.pocket, 0.10, Compare.AT_LEAST),
    ("vent-too-small", made.rise, 1000.0, Compare.AT_LEAST),
    ("pressure-on-bead", made.welding, 100.0, Compare.AT_LEAST),
    ("blows-the-bead", made.last, 200.0, Compare.AT_LEAST),
    ("dams-heat-up", made.heats_up, 100.0, Compare.AT_LEAST),
    ("rope-too-short", made.rope, 2.0, Compare.AT_MOST),
    ("burns-near-weld", made.near, 170.0, Compare.AT_LEAST),
    ("vent-too-large", made.vent_out, 1e-5, Compare.BELOW),
    ("vent-reading-flatters", made.reading, 1.5, Compare.AT_LEAST),
    ("beyond-tested-range", made.target, 1e-4, Compare.BELOW),
]


@pytest.mark.parametrize(
    ("code", "given", "value", "compare"), _AT, ids=[f"{row[0]} {row[2]}" for row in _AT]
)
def test_a_caution_is_raised_exactly_at_its_threshold(code, given, value, compare):
    for judged_value in (value * (1 - 1e-12), value, value * (1 + 1e-12)):
        assert (code in made.raised(**given(judged_value))) is compare.holds(judged_value, threshold=value)


def test_every_row_of_the_table_is_tried_here_or_is_a_fact_of_the_set_up():
    facts = {
        "vent.leads_to_closed_place", "gas.ruled_out", "gas.needs_procedure", "gas.hydrogen", "material.needs_no_purge", "gas.density_difference",
        "purge.untested_counts", "people.in_purged_pipe", "vent.shut_in_counts", "vent.blocked_counts",
    }  # fmt: skip
    assert len([each for each in POLICY.thresholds if each.quantity not in facts]) == len(_AT)


def test_the_sign_of_the_table_decides_what_happens_at_the_threshold():
    at = {compare: compare.holds(1.0, threshold=1.0) for compare in Compare}
    assert at == {Compare.AT_LEAST: True, Compare.AT_MOST: True, Compare.ABOVE: False, Compare.BELOW: False}


@pytest.mark.parametrize(("count", "raised"), [(0, False), (1, True), (2, True)])
def test_nobody_is_inside_a_pipe_that_is_purged(count, raised):
    assert ("inside-purged-pipe" in made.raised(**made.in_purged_pipe(count))) is raised
