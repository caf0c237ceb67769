"""Set-ups with a path: sizes of spools, and what is answered of them."""

import math

import pytest
from set_up_examples import A_RISER_WITHOUT_VENT, codes, document, run_of
from spool_examples import BORES, arch, elbow, reference_litres, run_part, spool, tee, with_branch

from trainer.set_up_files import SetUpFaults, read_set_up


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


def test_a_spool_says_that_none_was_simulated():
    assert "beyond-tested-range" in codes(**with_branch("0 deg"))
