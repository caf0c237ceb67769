"""Set-ups with a path: sizes of spools, their purge, their dead legs, and what several vents share."""

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_up_examples import A_RISER_WITHOUT_VENT, codes, document, run_of

from trainer.domain.quantities import NEVER
from trainer.set_up_files import SetUpFaults, read_set_up

FLOW_CHECKS = Path(__file__).parent.parent / "reference" / "flow_checks.csv"
L_MIN = 1e-3 / 60.0
FEW = settings(max_examples=15, deadline=None)


def run_part(name, length, **more):
    return {"name": name, "part": "run", "length": length, **more}


def elbow(name, slope, angle="90 deg", radius="228.6 mm"):
    return {"name": name, "part": "elbow", "angle": angle, "bend_radius": radius, "slope": slope}


def spool(path, inlet="first", vent="last", **changes):
    """The base set-up as a spool: inlet at the beginning of one part, vent at the end of another."""
    placed = {"inlet__at": inlet, "inlet__along": 0, "vent__at": vent, "vent__along": 1, "dams": None}
    return {"section": {"path": path}, **placed, **changes}


def several_vents(*vents, **changes):
    return {**changes, "vent": None, "vents": list(vents)}


def tee(slope, *, name="tee", branch=None, **more):
    closed = [run_part("branch", "400 mm"), {"name": "cap", "part": "cap"}]
    return {
        "name": name, "part": "tee", "length": "286 mm", "outlet": "143 mm", "slope": slope,
        "branch": closed if branch is None else branch, **more,
    }  # fmt: skip


def with_branch(slope, **changes):
    return spool([run_part("first", "500 mm"), tee(slope), run_part("last", "500 mm")], **changes)


def arch(**changes):
    """Level, up by an elbow, over the top, down again, level."""
    return spool(
        [
            run_part("first", "500 mm"), elbow("foot", "90 deg"), run_part("up", "500 mm"), elbow("shoulder", "0 deg"),
            run_part("top", "400 mm"), elbow("far shoulder", "-90 deg"), run_part("down", "500 mm"),
            elbow("far foot", "0 deg"), run_part("last", "500 mm"),
        ],
        **changes,
    )  # fmt: skip


def reference_litres(row_id):
    with FLOW_CHECKS.open(encoding="utf-8") as file:
        rows = {row["id"]: row for row in csv.DictReader(line for line in file if not line.startswith("#"))}
    row = rows[row_id]
    return float(row[next(key for key in row if key in ("expected", "value"))])


BORES = {
    161.5: {"outside_diameter": "168.3 mm", "wall": "3.4 mm"},
    108.2: {"outside_diameter": "114.3 mm", "wall": "3.05 mm"},
    154.1: {"outside_diameter": "168.1 mm", "wall": "7 mm"},
}


# Each row of flow_checks.csv names its own source: Pappus, Steinmetz, frustum, half ellipsoid.
@pytest.mark.parametrize(
    ("row_id", "bore_mm", "part"),
    [
        ("V-04", 161.5, elbow("part", "90 deg")),
        ("V-05", 161.5, elbow("part", "90 deg", radius="152.4 mm")),
        ("V-06", 108.2, elbow("part", "45 deg", angle="45 deg", radius="152.4 mm")),
        ("V-07", 154.1, tee("90 deg", name="part", branch=[])),
        ("V-09", 161.5, {"name": "part", "part": "reducer", "length": "140 mm", "to_bore": "108.2 mm"}),
        ("V-10", 161.5, {"name": "part", "part": "cap"}),
        ("V-11", 161.5, {"name": "part", "part": "cap", "straight_flange": "45 mm"}),
    ],
)
def test_a_part_adds_the_volume_of_its_reference_row(row_id, bore_mm, part):
    answered = run_of(pipe=BORES[bore_mm], section={"path": [run_part("first", "1 m"), part]}, dams=None)
    run_litres = math.pi / 4.0 * (bore_mm / 100.0) ** 2 * 10.0
    assert 1000.0 * answered.section.volume_m3 - run_litres == pytest.approx(
        reference_litres(row_id), rel=1e-5
    )
    assert answered.section.parts_count == 2


def test_a_narrow_outlet_adds_what_stands_outside_the_run():
    narrow = tee("90 deg", branch=[], length="300 mm", outlet="150 mm", to_bore="52.5 mm")
    answered = run_of(pipe=BORES[154.1], section={"path": [run_part("first", "1 m"), narrow]}, dams=None)
    run_litres = math.pi / 4.0 * 1.541**2 * 13.0
    assert 1000.0 * answered.section.volume_m3 - run_litres == pytest.approx(
        reference_litres("V-08"), rel=1e-4
    )


def test_the_length_is_that_of_the_centre_line_without_branches():
    # By hand: five runs of 2.4 m and four quarter bends of 228.6 mm; a tee counts its run.
    assert run_of(**arch()).section.length_m == pytest.approx(2.4 + 4 * math.pi / 2 * 0.2286)
    assert run_of(**with_branch("90 deg")).section.length_m == pytest.approx(1.286)


@pytest.mark.parametrize("slope", ["0 deg", "4 deg", "30 deg", "90 deg", "-90 deg", "-20 deg"])
def test_a_path_of_one_run_is_the_straight_section(slope):
    upright = {} if slope == "0 deg" else {"joint__at": "first", "joint__along": 0.5}
    path = [run_part("first", "600 mm", slope=slope)]
    one = run_of(**spool(path, vent="first", **upright))
    straight = run_of(section__slope=slope, dams=None)
    assert one.section.volume_m3 == pytest.approx(straight.section.volume_m3)
    assert one.section.pocket_beyond_vent_frac == pytest.approx(
        straight.section.pocket_beyond_vent_frac, abs=1e-6
    )
    assert {name: value for name, value in vars(one.vent).items() if value is not None} == pytest.approx(
        {name: value for name, value in vars(straight.vent).items() if value is not None}, rel=1e-9
    )
    assert one.purge.dead_legs == ()
    # Layers of another depth.
    assert one.purge.time_to_target_s.expected == pytest.approx(
        straight.purge.time_to_target_s.expected, rel=0.03
    )


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


def test_an_open_joint_is_reckoned_with_where_it_lies_and_not_without():
    told = run_of(**with_branch("0 deg", joint__at="first", joint__along=0.5, joint__taped=0.9))
    untold = run_of(**with_branch("0 deg", joint__taped=0.9))
    assert told.purge is not None
    assert told.vent.velocity_m_s < run_of(**with_branch("0 deg")).vent.velocity_m_s
    assert untold.purge is None
    tape = [{"where": "joint tape", "area": "5 mm^2"}]
    assert run_of(**with_branch("0 deg", leaks=tape)).purge.floor_frac > 1e-5


def test_what_is_not_known_of_a_spool_leaves_the_rest_answered():
    answered = run_of(**with_branch("90 deg", vent__along=None))
    assert answered.purge is None
    assert answered.section.volume_m3 > 0.03
    assert answered.section.pocket_beyond_vent_frac is None
    assert answered.gas_used is not None
    assert run_of(**with_branch("90 deg", pipe=None)).section is None


def test_a_riser_filled_from_below_is_sooner_clear_than_one_filled_from_above():
    up = [run_part("first", "300 mm"), elbow("foot", "90 deg"), run_part("last", "600 mm")]
    down = [run_part("first", "300 mm"), elbow("head", "-90 deg"), run_part("last", "600 mm")]
    joint = {"joint__at": "last", "joint__along": 0.5, "vent__height": 0.5}
    rising, falling = (run_of(**spool(path, **joint)).purge for path in (up, down))
    assert rising.dead_legs == ()
    assert falling.time_to_target_s.expected > rising.time_to_target_s.expected


def test_a_reducer_goes_on_with_its_own_bore():
    path = [
        run_part("first", "500 mm"), {"name": "in", "part": "reducer", "length": "140 mm", "to_bore": "108.2 mm"},
        run_part("last", "500 mm"),
    ]  # fmt: skip
    answered = run_of(**spool(path, vent__height=0.9))
    by_hand = math.pi / 4.0 * (1.615**2 * 5.0 + 1.082**2 * 5.0) + 2.02552369
    assert 1000.0 * answered.section.volume_m3 == pytest.approx(by_hand, rel=1e-6)
    assert answered.purge is not None
    with pytest.raises(SetUpFaults) as refused:
        read_set_up(document(**spool(path, vent__diameter="120 mm", vent__height=0.5)))
    assert "does not fit" in str(refused.value) or "do not fit into the bore of 108.2 mm" in str(
        refused.value
    )


def test_stages_and_the_hold_go_on_in_a_spool():
    stages = [
        {"kind": "purge", "for": "10 min"},
        {"kind": "pinched hose", "for": "5 min", "flow": "1 L/min"},
        {"kind": "hold"},
    ]
    purge = run_of(**with_branch("0 deg", flow__hold_for=None, flow__stages=stages)).purge
    assert [each.kind for each in purge.stages] == ["purge", "pinched hose", "hold"]
    held = run_of(**with_branch("90 deg", joint__at="first", joint__along=0.5)).purge
    # The hold flow thins what the leg gives off three times less than the purge flow.
    assert held.highest_in_hold_frac > 2.0 * held.oxygen_after_wait_frac.expected


def test_the_gas_flows_and_people_breathe_as_before():
    there, here = run_of(**A_RISER_WITHOUT_VENT), run_of()
    assert there.gas_used.before_arc_m3 == here.gas_used.before_arc_m3
    assert there.gas_used.total_m3 == here.gas_used.total_m3
    assert there.breathing == here.breathing
    assert there.hose == here.hose


@FEW
@given(
    slope=st.floats(-90, 90), share=st.floats(0.2, 0.8), symbol=st.sampled_from(["I1", "I2"]),
    end=st.sampled_from(["diffuser", "open tube"]),
)  # fmt: skip
def test_splitting_a_run_changes_nothing(slope, share, symbol, end):
    whole = [run_part("first", "1 m", slope=f"{slope!r} deg")]
    split = [run_part("first", f"{share!r} m", slope=f"{slope!r} deg"), run_part("last", f"{1 - share!r} m")]
    given_ends = {"gas__symbol": symbol, "inlet__end": end, "inlet__height": 0.5, "vent__height": 0.5}
    one = run_of(**spool(whole, vent="first", **given_ends))
    two = run_of(**spool(split, **given_ends))
    assert two.section.volume_m3 == pytest.approx(one.section.volume_m3)
    assert two.purge.dead_legs == one.purge.dead_legs == ()
    if one.purge.time_to_target_s is NEVER:
        assert two.purge.time_to_target_s is NEVER
    else:
        assert two.purge.time_to_target_s.expected == pytest.approx(
            one.purge.time_to_target_s.expected, rel=1e-3
        )


@FEW
@given(slope=st.floats(-90, 90), along=st.floats(0.1, 0.9), share=st.floats(-1, 1))
def test_turned_upside_down_with_the_gas_turned_over_the_same_places_stay_dead(slope, along, share):
    outlet = share * (90.0 - abs(slope))  # as steep as at right angles it can be

    def turned(sign, symbol):
        path = [
            run_part("first", "500 mm", slope=f"{sign * slope!r} deg"), tee(f"{sign * outlet!r} deg"), run_part("last", "500 mm"),
        ]  # fmt: skip
        placed = {"inlet__height": 0.5, "vent__height": 0.5, "vent__along": along, "gas__symbol": symbol}
        return run_of(**spool(path, **placed))

    argon, helium = turned(1.0, "I1"), turned(-1.0, "I2")
    assert helium.section.pocket_beyond_vent_frac == pytest.approx(
        argon.section.pocket_beyond_vent_frac, abs=1e-9
    )
    assert [(leg.place, leg.mouth) for leg in helium.purge.dead_legs] == [
        (leg.place, leg.mouth) for leg in argon.purge.dead_legs
    ]
    for one, other in zip(argon.purge.dead_legs, helium.purge.dead_legs, strict=True):
        assert (other.volume_m3, other.length_m) == pytest.approx((one.volume_m3, one.length_m))


@FEW
@given(slope=st.floats(10, 90), symbol=st.sampled_from(["I1", "I2"]))
def test_a_vent_where_the_air_stays_takes_the_dead_leg_away(slope, symbol):
    way, height = (slope, 0.95) if symbol == "I1" else (-slope, 0.05)
    open_end = tee(f"{way!r} deg", branch=[run_part("branch", "400 mm")])
    path = [run_part("first", "500 mm"), open_end, run_part("last", "500 mm")]
    low = {"at": "last", "along": 1, "height": 0.5, "diameter": "6 mm"}
    given_ends = {"gas__symbol": symbol, "inlet__height": 0.5}
    (leg,) = run_of(**several_vents(low, **spool(path, **given_ends))).purge.dead_legs
    there = {"at": leg.place, "along": 1, "height": height, "diameter": "6 mm"}
    assert run_of(**several_vents(low, there, **spool(path, **given_ends))).purge.dead_legs == ()


def test_a_spool_says_that_none_was_simulated():
    assert "beyond-tested-range" in codes(**with_branch("0 deg"))


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
