"""What the core says of purges, readings and spools that cannot be, to the letter."""

import math
from dataclasses import replace

import pytest
from purge_cases import base_case
from spool_cases import BORE, spool_case, spool_with_branch, straight_spool

from trainer.core.changeover import supply_plan
from trainer.core.dewar import Dewar
from trainer.core.dilution import purge
from trainer.core.errors import CompositionNeeded, OutOfRange, UnknownSize
from trainer.core.gas import gas
from trainer.core.interval import Interval
from trainer.core.liquid_supply import LiquidSupply, liquid_lasts_s
from trainer.core.purge_parts import FlowSegment, InLeak, PurgeSection
from trainer.core.purge_time import volume_changes_count, wait_still_s
from trainer.core.spool_case import Point, Spool, SpoolVent
from trainer.core.spool_parts import Cap, Elbow, Run, Tee
from trainer.core.spool_pieces import spool_pieces

ENDLESS = FlowSegment(flow_m3_s=2.5e-4, duration_s=math.inf)
MINUTE = FlowSegment(flow_m3_s=2.5e-4, duration_s=60.0)
RUN = Run(name="run", bore_m=BORE, length_m=0.6)
GOES_ON = "it goes on in the direction in which the part before it ends; an elbow turns the path"
FLOOR = "waiting does not bring the oxygen to its floor or below; find what lets the air in"
NO_FALL = "the oxygen does not fall between the readings; look for a leak before waiting longer"


def _wait(**changes):
    readings = {"earlier_o2_frac": 0.1, "apart_s": 60.0, "target_o2_frac": 0.001, "floor_o2_frac": 0.0}
    return wait_still_s(changes.pop("later_o2_frac", 0.01), **(readings | changes))


def _spool(*path, vents=None, inlet="run"):
    vents = [SpoolVent(at=Point(part="run", along_frac=1.0), diameter_m=0.006)] if vents is None else vents
    return Spool(path=path, inlet_at=Point(part=inlet, along_frac=0.0), vents=tuple(vents))


def _elbow(angle_deg, to_slope_deg):
    return Elbow(
        name="elbow", bore_m=BORE, bend_radius_m=0.2286, angle_deg=angle_deg, to_slope_deg=to_slope_deg
    )


def _tight_vessel():
    vessel = Dewar(gas=gas("I1"), volume_m3=0.18, fill_frac=0.95, pressure_pa=10e5)
    return LiquidSupply(vessel=vessel, daily_loss_frac=0.0)


REFUSALS = [
    (
        lambda: base_case(segments=()),
        "number of flow segments is 0 but must be at least 1: a purge needs a flow",
    ),
    (
        lambda: base_case(segments=(ENDLESS, MINUTE)),
        "duration is inf s but must be at least 0 s: only the last flow may last for ever",
    ),
    (
        lambda: base_case(flow_m3_s=0.0),
        "purge flow is 0 m3/s but must be at least 1e-09 m3/s: without any flow there is no purge to follow",
    ),
    (
        lambda: FlowSegment(flow_m3_s=2.5e-4, duration_s=-1.0),
        "duration is -1 s but must be at least 0 s: time does not run backwards",
    ),
    (
        lambda: FlowSegment(flow_m3_s=2.5e-4, duration_s=math.nan),
        "duration is nan s but must be at least 0 s: time does not run backwards",
    ),
    (
        lambda: base_case(bore_m=0.2, vent_diameter_m=0.02, vent_height_frac=0.96),
        "height of the vent's centre is 0.96 but must be between 0.05 and 0.95: a hole of 20 mm must lie within the "
        "bore of 200 mm",
    ),
    (
        lambda: PurgeSection(bore_m=0.2, length_m=1.0, joint_from_inlet_dam_m=1.1),
        "distance from inlet dam to joint is 1.1 m but must be between 0 and 1 m: the joint lies between the dams",
    ),
    (
        lambda: purge(base_case(segments=(MINUTE,))).oxygen_at(61.0),
        "time since the gas was turned on is 61 s but must be between 0 and 60 s: the flows given say nothing about "
        "any other time",
    ),
    (
        lambda: purge(base_case()).oxygen_at(-1.0),
        "time since the gas was turned on is -1 s but must be at least 0 s: the flows given say nothing about any "
        "other time",
    ),
    (
        lambda: Interval(1.0, 2.0, 3.0),
        "expected value is 1 but must be between 2 and 3: the ends of an interval are positive and lie on either side "
        "of it",
    ),
    (
        lambda: _wait(apart_s=0.0),
        "time between the readings is 0 s but must be at least 1e-06 s: take two readings, one later",
    ),
    (
        lambda: _wait(floor_o2_frac=-0.1),
        "floor is -0.1 but must be between 0 and 1: oxygen is a fraction of the gas",
    ),
    (
        lambda: _wait(floor_o2_frac=0.001),
        f"oxygen wanted is 0.001 but must be between 0.001 and 1: {FLOOR}",
    ),
    (
        lambda: _wait(later_o2_frac=0.002, floor_o2_frac=0.002, target_o2_frac=0.003),
        f"later reading is 0.002 but must be between 0.002 and 1: {FLOOR}",
    ),
    (
        lambda: _wait(earlier_o2_frac=0.01),
        f"earlier reading is 0.01 but must be between 0.01 and 1: {NO_FALL}",
    ),
    (
        lambda: _wait(earlier_o2_frac=1.1),
        f"earlier reading is 1.1 but must be between 0.01 and 1: {NO_FALL}",
    ),
    (
        lambda: volume_changes_count(1.0, flow_m3_s=1e-4, volume_m3=0.0),
        "volume between the dams is 0 m3 but must be at least 1e-12 m3: there has to be a section",
    ),
    (
        lambda: supply_plan(0.0, gas_per_joint_m3=0.2, joints_count=3),
        "usable gas of one supply is 0 m3 but must be at least 1e-09 m3: an empty supply gives no joint",
    ),
    (
        lambda: liquid_lasts_s(_tight_vessel(), flow_m3_s=0.0),
        "gas leaving the vessel is 0 m3/s but must be at least 1e-12 m3/s: with neither draw nor loss it lasts for "
        "ever",
    ),
    (
        lambda: SpoolVent(at=Point(part="run"), diameter_m=0.006, count=0),
        "number of vent holes is 0 but must be between 1 and 1000: air needs a way out",
    ),
    (lambda: _spool(), "number of parts is 0 but must be at least 1: a spool is made of parts"),
    (
        lambda: _spool(RUN, vents=()),
        "number of vents is 0 but must be at least 1: without a vent the pressure only rises",
    ),
    (
        lambda: _spool(RUN, RUN),
        "parts named run is 2 but must be at most 1: points are told apart by name",
    ),
    (
        lambda: _spool(RUN, vents=[SpoolVent(at=Point(part="run"), diameter_m=0.2)]),
        "vent hole is 0.2 m but must be at most 0.161 m: a vent on run is not wider than its bore",
    ),
    (lambda: _spool(RUN, inlet="riser"), "'riser' is not a known part of the spool; accepted: run"),
    (
        lambda: spool_case(
            replace(straight_spool(0.0), joint_at=None), leaks=(InLeak(height_frac=None, flow_m3_s=1e-6),)
        ),
        "height of the leak is nan but must be a finite number: a gap all round a joint lies where the joint does: "
        "say where",
    ),
    (
        lambda: _elbow(0.5, 0.5),
        "angle of the bend is 0.5 deg but must be between 1 and 180 deg: an elbow turns the pipe",
    ),
    (
        lambda: _spool(RUN, Run(name="next", bore_m=BORE, length_m=0.6, slope_deg=10.0)),
        f"slope of next is 10 deg but must be between -0.1 and 0.1 deg: {GOES_ON}",
    ),
    (
        lambda: _spool(Cap(name="run", bore_m=BORE)),
        "slope of run is nan deg but must be a finite number: a path begins with a run, which gives it its direction",
    ),
    (
        lambda: _spool(RUN, _elbow(45.0, 90.0)),
        "angle of elbow is 45 deg but must be between 89.9 and 90.1 deg: it turns the path from 0 to 90 deg of slope",
    ),
]


@pytest.mark.parametrize(("wrong", "words"), REFUSALS, ids=range(len(REFUSALS)))
def test_refusal_of_a_purge_names_quantity_value_limits_and_reason(wrong, words):
    with pytest.raises(ValueError) as refused:  # noqa: PT011 (which error it is says less than its words)
        wrong()
    assert str(refused.value) == words


def test_an_inlet_tube_has_to_lie_within_the_bore_too_but_a_diffuser_has_no_hole():
    diffuser = base_case(bore_m=0.2, inlet_height_frac=0.01)
    assert diffuser.inlet.height_frac == 0.01
    with pytest.raises(
        ValueError, match="height of the inlet's centre is 0.01 but must be between 0.015875 and"
    ):
        replace(diffuser, inlet=replace(diffuser.inlet, end="open tube"))


def test_a_hole_that_just_touches_the_wall_is_inside():
    assert base_case(bore_m=0.2, vent_diameter_m=0.02, vent_height_frac=0.95).vent.height_frac == 0.95
    assert base_case(bore_m=0.2, vent_diameter_m=0.02, vent_height_frac=0.05).vent.height_frac == 0.05


def test_names_inside_a_branch_count_as_names_of_the_spool():
    branch = (Run(name="run", bore_m=BORE, length_m=0.3, slope_deg=90.0),)
    tee = Tee(
        name="tee", bore_m=BORE, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=90.0, branch=branch
    )
    with pytest.raises(ValueError, match="parts named run is 2"):
        _spool(RUN, tee)
    with pytest.raises(ValueError, match="parts named tee outlet is 2"):
        _spool(replace(RUN, name="tee outlet"), replace(tee, branch=()))
    assert len({piece.part for piece in spool_with_branch(90.0).pieces}) == 6


def test_errors_carry_what_a_page_needs():
    size = UnknownSize("NPS 7", schedule="10S", known=[])
    assert (size.size, size.schedule, size.known) == ("NPS 7", "10S", ())
    assert str(size) == "NPS 7 schedule 10S is not in the pipe tables; known: none"
    mixture = CompositionNeeded("I3", accepted=["ArHe-25", "ArHe-50"])
    assert (mixture.symbol, mixture.accepted) == ("I3", ("ArHe-25", "ArHe-50"))
    assert str(mixture) == "I3 is a range of mixtures; say which: ArHe-25, ArHe-50"


@pytest.mark.parametrize("slope_deg", [90.0, -90.0, 30.0])
def test_an_outlet_steeper_than_at_right_angles_to_its_run_is_refused(slope_deg):
    tee = Tee(name="tee", bore_m=BORE, run_length_m=0.286, outlet_m=0.143, outlet_slope_deg=80.0)
    with pytest.raises(OutOfRange, match="right angles to a run"):
        spool_pieces([Run(name="run", bore_m=BORE, length_m=0.5, slope_deg=slope_deg), tee])
