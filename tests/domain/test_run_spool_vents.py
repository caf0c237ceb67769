"""What several vents of a spool share, and where they let air in."""

import pytest
from set_up_examples import codes, run_of
from spool_examples import L_MIN, elbow, run_part, several_vents, spool, with_branch

from trainer.domain.quantities import NEVER


def test_vents_stand_under_one_pressure_and_share_by_area():
    small = {"at": "last", "along": 1, "height": 0.9, "diameter": "6 mm", "count": 2}
    large = {"at": "first", "along": 0.5, "height": 1, "diameter": "10 mm"}
    vent = run_of(**several_vents(small, large, **with_branch("0 deg"))).vent
    # By hand: 15 L/min through 2 x 6 mm and 10 mm, 135.1 mm2; 1.661 kg/m3 (ideal gas, 39.948 g/mol, 20 degC);
    # orifice equation with Cd 0.61 (ISO 5167-2, Cd from memory).
    assert vent.velocity_m_s == pytest.approx(15.0 * L_MIN / 135.09e-6, rel=1e-3)
    assert vent.pressure_rise_pa == pytest.approx(1.661 / 2.0 * (vent.velocity_m_s / 0.61) ** 2, rel=2e-3)


def holding(*vents):
    return run_of(**several_vents(*vents, **with_branch("0 deg"))).vent.flow_that_holds_air_out_m3_s / L_MIN


def test_a_hole_in_the_crown_needs_no_flow_over_argon_and_one_below_the_most():
    hole = {"at": "first", "along": 0.5, "diameter": "25 mm"}
    crown, side, below = (holding({**hole, "height": height}) for height in (1.0, 0.5, 0.0))
    assert crown == pytest.approx(0.0, abs=1e-6)
    # Linden 1999, as the hole in a level pipe's dam: 4.1 L/min through 25 mm.
    assert side == pytest.approx(4.14, abs=0.02)
    assert below > 1.5 * side
    # Two holes at one height have twice the flow between them before either lets air in.
    assert holding({**hole, "height": 0.5}, {**hole, "height": 0.5, "along": 0.6}) == pytest.approx(
        2.0 * side
    )


def test_a_wide_vent_at_the_side_lets_air_into_a_spool_at_its_own_height():
    low = {"at": "first", "along": 0.5, "height": 0.5, "diameter": "40 mm"}
    high = {"at": "last", "along": 1, "height": 0.8, "diameter": "40 mm"}
    answered = run_of(**several_vents(low, high, **with_branch("0 deg")))
    assert answered.purge.floor_frac > 0.01
    assert "vent-too-large" in [each.code for each in answered.cautions]


def test_wide_vents_one_above_the_other_draw_air_through_a_riser():
    path = [run_part("first", "300 mm"), elbow("foot", "90 deg"), run_part("last", "600 mm")]
    low = {"at": "first", "along": 0.5, "height": 1, "diameter": "19 mm"}
    high = {"at": "last", "along": 1, "height": 0.5, "diameter": "19 mm"}
    one, two = (run_of(**several_vents(*vents, **spool(path))) for vents in ((high,), (low, high)))
    assert one.purge.floor_frac == pytest.approx(5e-6)
    assert two.purge.floor_frac > 0.001
    assert "vent-too-large" in [each.code for each in two.cautions]
    assert two.vent.flow_that_holds_air_out_m3_s > 15.0 * L_MIN
    narrow = [{**each, "diameter": "4 mm"} for each in (low, high)]
    assert run_of(**several_vents(*narrow, **spool(path))).purge.floor_frac == pytest.approx(5e-6)


def test_one_blocked_vent_of_several_is_no_shut_in_section():
    vents = [
        {"at": "last", "along": 1, "height": 0.9, "diameter": "6 mm", "blocked": blocked}
        for blocked in (True, False)
    ]
    assert "vent-blocked" not in codes(**several_vents(*vents, **with_branch("0 deg")))
    both = [{**each, "blocked": True} for each in vents]
    shut = run_of(**several_vents(*both, **with_branch("0 deg")))
    assert "vent-blocked" in [each.code for each in shut.cautions]
    assert shut.purge.time_to_target_s is NEVER
