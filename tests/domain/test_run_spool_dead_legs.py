"""Places of a spool that the gas does not fall to: which they are, what they give off, what is said of them."""

import math

import pytest
from set_up_examples import run_of
from spool_examples import L_MIN, arch, several_vents, with_branch

from trainer.domain.quantities import NEVER


def test_an_unvented_arch_beyond_the_vent_is_a_dead_leg_with_all_that_hangs_on_it():
    closed = run_of(**{**arch(vent="first"), "vent__along": 0.9})
    (leg,) = closed.purge.dead_legs
    assert (leg.place, leg.crossed) == ("top", False)
    # By hand: from the first foot, whose bend climbs, up, over the top, down, and to the end of the last run.
    assert leg.length_m == pytest.approx(0.5 + 0.4 + 0.5 + 0.5 + 4 * math.pi / 2 * 0.2286, abs=0.25)
    assert closed.purge.worst_place == "top"
    assert "dead-leg" in [each.code for each in closed.cautions]


def test_an_unvented_arch_before_the_vent_is_crossed_and_a_vent_at_its_top_clears_it():
    closed = run_of(**arch())
    (high,) = closed.purge.dead_legs
    assert (high.place, high.crossed) == ("top", True)
    raised = [each.code for each in closed.cautions]
    assert "high-point-crossed" in raised
    assert "dead-leg" not in raised
    assert "vent-beyond-pool" not in raised
    assert high.time_to_target_s <= closed.purge.time_to_target_s.expected
    assert high.time_with_vent_there_s < closed.purge.time_to_target_s.expected
    untested = next(each for each in closed.cautions if each.code == "beyond-tested-range")
    assert "spool: gas crosses a high point without a vent" in dict(untested.facts)["reasons"]
    top = {"at": "top", "along": 0.5, "height": 1, "diameter": "6 mm"}
    vented = run_of(**several_vents(top, **arch()))
    assert vented.purge.dead_legs == ()
    assert vented.purge.worst_place == "body"
    assert "dead-leg" not in [each.code for each in vented.cautions]


@pytest.mark.parametrize(
    ("slope", "symbol", "is_dead"),
    [("90 deg", "I1", True), ("-90 deg", "I1", False), ("-90 deg", "I2", True), ("90 deg", "I2", False), ("0 deg", "I1", False)],
)  # fmt: skip
def test_a_capped_branch_is_dead_where_the_gas_does_not_fall_to(slope, symbol, is_dead):
    heights = {} if symbol == "I1" else {"inlet__height": 0.9, "vent__height": 0.05}
    answered = run_of(**with_branch(slope, gas__symbol=symbol, gas__oxygen="5 ppm", **heights))
    assert [leg.place for leg in answered.purge.dead_legs] == (["cap"] if is_dead else [])
    assert ("dead-leg" in [each.code for each in answered.cautions]) is is_dead


def test_the_words_say_where_the_air_stays_and_which_way_round():
    argon, helium = (
        next(each for each in run_of(**changes).cautions if each.code == "dead-leg")
        for changes in (
            with_branch("90 deg"),
            with_branch("-90 deg", gas__symbol="I2", inlet__height=0.9, vent__height=0.05),
        )
    )
    assert dict(argon.facts)["part"] == dict(helium.facts)["part"] == "cap"
    assert (dict(argon.facts)["which"], dict(helium.facts)["which"]) == ("high", "low")


def test_a_dead_leg_bleeds_into_the_body_for_as_long_as_it_lasts():
    tight = run_of(**with_branch("-90 deg")).purge.time_to_target_s.expected
    bleeding = run_of(**with_branch("90 deg", joint__at="first", joint__along=0.5)).purge
    assert bleeding.body_time_to_target_s.expected < 1.5 * tight
    assert bleeding.time_to_target_s.expected > 5.0 * bleeding.body_time_to_target_s.expected
    (leg,) = bleeding.dead_legs
    assert leg.time_to_target_s > bleeding.time_to_target_s.expected
    # Crank, The Mathematics of Diffusion (1975), equation 4.18 late: F = V D/L2 2 exp(-pi2 D t / 4 L2); stirred
    # through, the root sees F / Q of air. D of argon in air 1.89e-5 m2/s at 20 degC, from memory.
    mixed = run_of(
        **with_branch("90 deg", joint__at="first", joint__along=0.5, model="perfect mixing", wait="2 h")
    ).purge
    (leg,) = mixed.dead_legs
    per_s = 1.89e-5 / leg.length_m**2
    given_off = leg.volume_m3 * per_s * 2.0 * math.exp(-(math.pi**2) / 4.0 * per_s * 7200.0)
    expected = 5e-6 + 0.2095 * given_off / (15.0 * L_MIN)
    assert mixed.oxygen_after_wait_frac.expected == pytest.approx(expected, rel=0.05)


def test_a_joint_in_the_dead_leg_sees_what_stays_there():
    inside = run_of(**with_branch("90 deg", joint__at="branch", joint__along=0.5)).purge
    (leg,) = inside.dead_legs
    assert inside.oxygen_after_wait_frac.expected == pytest.approx(leg.oxygen_after_wait_frac, rel=1e-3)
    assert inside.time_to_target_s.expected >= leg.time_to_target_s
    without_word = run_of(**with_branch("90 deg")).purge
    assert without_word.time_to_target_s.expected == pytest.approx(inside.time_to_target_s.expected, rel=0.01)


def test_a_target_below_the_gas_s_own_oxygen_is_never_reached_by_any_place():
    purge = run_of(**with_branch("90 deg", target__oxygen="4 ppm")).purge
    assert purge.time_to_target_s is NEVER
    assert purge.dead_legs[0].time_to_target_s is NEVER


def test_a_blocked_vent_serves_no_high_point():
    top = {"at": "cap", "along": 1, "height": 0.5, "diameter": "6 mm"}
    low = {"at": "last", "along": 1, "height": 0.95, "diameter": "6 mm"}
    assert run_of(**several_vents(top, low, **with_branch("90 deg"))).purge.dead_legs == ()
    blocked = several_vents({**top, "blocked": True}, low, **with_branch("90 deg"))
    assert [leg.place for leg in run_of(**blocked).purge.dead_legs] == ["cap"]
