"""Pressure of the gas on the bead, the last of the joint, and a vent that is blocked."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import codes, run_of

from trainer.domain.quantities import NEVER

_SHAPE = settings(max_examples=60, deadline=None)

_BLOCKED = {"vent__blocked": True}


def _vent(**changes):
    return run_of(**changes).vent


def test_pool_head_and_bridging_pressure_are_the_reference_rows():
    """O-06 and O-07 of flow_checks.csv: 3 mm of liquid steel 203.0 Pa, a 3 mm gap 1066.7 Pa."""
    found = _vent(joint__pool_depth="3 mm")
    assert found.pool_head_pa == pytest.approx(202.997655, rel=1e-4)
    assert found.bridging_pressure_pa == pytest.approx(1066.66667, rel=1e-6)
    titanium = _vent(joint__pool_depth="3 mm", material="titanium")
    assert titanium.pool_head_pa == pytest.approx(121.0, rel=2e-3)  # 4110 x 9.80665 x 0.003, by hand


def test_all_flow_goes_through_the_vent_and_the_last_of_the_joint():
    """By hand, 15 L/min of argon: 10 mm of a 3 mm gap and a 6 mm hole are 58.27 mm2, so 4.290 m/s and
    1.6618 / 2 x (4.290 / 0.61)^2 = 41.1 Pa; through the piece of root alone 8.333 m/s and 155 Pa."""
    last = {"joint__left_open": "10 mm", "flow__hold": "15 L/min"}
    assert _vent(**last).pressure_at_last_of_joint_pa == pytest.approx(41.1, rel=2e-3)
    assert _vent(**last, **_BLOCKED).pressure_at_last_of_joint_pa == pytest.approx(155.1, rel=2e-3)


def test_with_no_root_left_the_vent_takes_it_all():
    found = _vent(joint__left_open="0 mm")
    assert found.pressure_at_last_of_joint_pa == pytest.approx(found.pressure_while_welding_pa)


def test_the_purge_flow_presses_where_nobody_turns_it_down():
    """O-01 of flow_checks.csv: 15 L/min of argon through 6 mm, 174.6 Pa."""
    unheld = {"flow__hold": None, "flow__hold_for": None}
    assert _vent(**unheld).pressure_while_welding_pa == pytest.approx(174.578, rel=5e-3)
    assert _vent(flow__hold="0 L/min").pressure_while_welding_pa == 0.0


def test_the_largest_hold_of_a_time_line_presses_on_the_bead():
    """O-01 of flow_checks.csv, 175 Pa at 15 L/min through 6 mm; pressure goes with the square, so 4/9 of it at 10."""
    stages = [
        {"kind": "purge", "for": "6 min", "flow": "15 L/min"},
        {"kind": "hold", "for": "5 min", "flow": "10 L/min"},
        {"kind": "hold", "flow": "4 L/min"},
    ]
    found = _vent(flow={"purge": "15 L/min", "stages": stages})
    assert found.pressure_while_welding_pa == pytest.approx(174.578 * 4 / 9, rel=5e-3)


def test_shut_in_the_pool_is_lifted_within_a_moment():
    """By hand: 12.29 L x 203.0 Pa / (101 325 Pa x 5 L/min) = 0.2955 s."""
    shut = {"joint__left_open": "0 mm", "joint__pool_depth": "3 mm", **_BLOCKED}
    found = _vent(**shut)
    assert found.reaches_pool_head_s == pytest.approx(0.2955, rel=1e-3)
    assert found.pressure_at_last_of_joint_pa is None
    assert {"vent-blocked", "blows-the-bead"} <= set(codes(**shut))
    assert _vent(**{**shut, "vent__blocked": False}).reaches_pool_head_s is None
    assert _vent(**{**shut, "joint__left_open": "1 cm"}).reaches_pool_head_s is None


def test_a_blocked_vent_with_a_closed_joint_purges_nothing_ever():
    run = run_of(**_BLOCKED)
    assert run.purge.time_to_target_s is NEVER
    assert run.purge.never_because == ("vent-blocked",)
    assert run.purge.trace == ()
    assert run.purge.floor_frac is None
    assert run.root is None
    assert run.vent.velocity_m_s is None
    assert run.vent.flow_that_holds_air_out_m3_s is None
    assert run.section.pocket_beyond_vent_frac is None


@pytest.mark.parametrize(
    "changes",
    [
        {"joint__taped": 0.5},
        {"leaks": [{"where": "dam edge", "area": "5 mm^2"}]},
        {"dams": [{"side": "left", "kind": "foam", "thickness": "100 mm", "age": "old"}]},
    ],
)
def test_a_blocked_vent_with_another_way_out_is_given_no_time(changes):
    run = run_of(**_BLOCKED, **changes)
    assert run.purge is None
    assert "vent-blocked" in [each.code for each in run.cautions]


def test_a_leaking_hose_is_no_way_out_of_the_section():
    assert run_of(**_BLOCKED, leaks=[{"where": "hose fitting", "area": "5 mm^2"}]).purge is not None


def test_through_an_open_joint_a_blocked_vent_still_lets_the_pressure_off():
    """By hand: half of 161.5 mm round at 3 mm is 761 mm2; 250e-6 / 761e-6 = 0.3285 m/s, 0.241 Pa."""
    assert _vent(**_BLOCKED, joint__taped=0.5).pressure_rise_pa == pytest.approx(0.241, rel=3e-3)


def test_a_vent_that_is_not_blocked_is_as_if_nothing_had_been_said():
    assert run_of(vent__blocked=False) == run_of()


@pytest.mark.parametrize("hold", ["3 L/min", "15 L/min"])
def test_the_bead_is_blown_from_the_pools_own_head(hold):
    """1 mm of gap and the vent: 31.27 mm2; 15 L/min press with 143 Pa, 3 L/min with 5.7; 2 mm of pool hold 135."""
    raised = codes(joint__left_open="1 mm", joint__pool_depth="2 mm", flow__hold=hold)
    assert ("blows-the-bead" in raised) is (hold == "15 L/min")


@_SHAPE
@given(st.floats(0.0, 100.0), st.floats(0.0, 100.0), st.booleans())
def test_more_left_open_never_presses_harder(one, other, blocked):
    less, more = (
        _vent(joint__left_open=f"{mm!r} mm", vent__blocked=blocked).pressure_at_last_of_joint_pa
        for mm in sorted((max(one, 1.0), max(other, 1.0)))
    )
    assert more <= less


@_SHAPE
@given(st.floats(5.0, 100.0))
def test_blocking_the_vent_never_lowers_the_pressure_on_the_bead(left_open_mm):
    open_vent, blocked = (
        _vent(joint__left_open=f"{left_open_mm!r} mm", vent__blocked=each).pressure_at_last_of_joint_pa
        for each in (False, True)
    )
    assert blocked > open_vent


@pytest.mark.parametrize(
    ("missing", "absent"),
    [
        ({"joint__gap": None, "joint__left_open": "5 mm", "joint__pool_depth": "2 mm"},
         {"pressure_at_last_of_joint_pa", "bridging_pressure_pa"}),
        ({"material": None, "arc": None, "joint__left_open": "5 mm", "joint__pool_depth": "2 mm"},
         {"pool_head_pa", "bridging_pressure_pa"}),
        ({"joint__pool_depth": "2 mm"}, {"pressure_at_last_of_joint_pa"}),
        ({"joint__left_open": "5 mm"}, {"pool_head_pa"}),
        ({"vent__diameter": None, "joint__left_open": "5 mm", "joint__pool_depth": "2 mm"},
         {"pressure_while_welding_pa", "pressure_at_last_of_joint_pa"}),
    ],
)  # fmt: skip
def test_what_is_left_out_is_not_guessed(missing, absent):
    asked = {
        "pressure_while_welding_pa", "pressure_at_last_of_joint_pa", "pool_head_pa", "bridging_pressure_pa",
    }  # fmt: skip
    found = _vent(**missing)
    assert {name for name in asked if getattr(found, name) is None} == absent
