"""Whatever spool people may lay out: its run is finite and holds together, or it is refused as documented."""

import pytest
from example_counts import tried
from hypothesis import given
from set_up_examples import POLICY
from set_up_strategies import spool_set_ups
from sound_runs import assert_sound

from trainer.domain.quantities import NEVER
from trainer.domain.run_set_up import run
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.set_up_files import read_set_up, write_set_up


@pytest.mark.slow
@tried(60)
@given(spool_set_ups)
def test_a_spool_that_fits_together_is_answered_soundly_and_drawn(made):
    there = read_set_up(made)
    assert set_up_drawing(there).startswith("<svg")
    assert read_set_up(write_set_up(there)) is not None
    try:
        answered = run(there, policy=POLICY)
    except UnusableSetUp:
        return  # what the core cannot follow, such as a vent too small for the flow
    assert_sound(answered)
    if answered.purge is None:
        return
    purge = answered.purge
    dead = [leg for leg in purge.dead_legs if not leg.crossed]
    dead_m3 = sum(leg.volume_m3 for leg in dead)
    assert dead_m3 < answered.section.volume_m3
    # What lies beyond the vents holds every dead leg whole, and what stands higher than the vents besides.
    assert dead_m3 / answered.section.volume_m3 - 1e-9 <= answered.section.pocket_beyond_vent_frac <= 1.0
    assert ("dead-leg" in [each.code for each in answered.cautions]) <= bool(dead)
    assert purge.worst_place in {"body", *(leg.place for leg in dead)}
    if dead and purge.time_to_target_s is not NEVER:
        assert purge.time_to_target_s.expected >= purge.body_time_to_target_s.expected * (1 - 1e-6) or made[
            "joint"
        ].get("at")
