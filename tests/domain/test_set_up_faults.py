"""Values that are fine each by itself, and contradict each other."""

import math

import pytest
from set_up_examples import POLICY, document

from trainer.core.errors import UnknownGas
from trainer.domain.run_set_up import run
from trainer.domain.set_up import Pipe, SetUp, Vent
from trainer.domain.set_up_faults import UnusableSetUp, fault_from, faults_of
from trainer.set_up_files import SetUpFaults, read_set_up


def _faults(**changes):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(**changes))
    return {each.path: each.message for each in caught.value.faults}


@pytest.mark.parametrize(
    ("changes", "path", "says"),
    [
        ({"pipe": {"nps": "6", "dn": "150", "schedule": "10S"}}, "pipe.dn", "named by nps and by dn at once"),
        ({"pipe": {"nps": "6", "schedule": "10S", "wall": "3 mm"}}, "pipe", "keep one"),
        ({"pipe": {"schedule": "10S", "outside_diameter": "168 mm"}}, "pipe", "keep one"),
        ({"pipe": {"outside_diameter": "20 mm", "wall": "10 mm"}}, "pipe.wall", "a wall of 10 mm leaves no bore"),
        ({"pipe": {"outside_diameter": "20 mm", "wall": "11 mm"}}, "pipe.wall", "leaves no bore"),
        ({"pipe": {"nps": "7", "schedule": "10S"}}, "pipe.nps", "'7' is not a size in the tables; the nearest are 6 and 8"),
        ({"pipe": {"nps": "1e999999999", "schedule": "10S"}}, "pipe.nps", "is not a size"),
        ({"pipe": {"nps": "six", "schedule": "10S"}}, "pipe.nps", "is not a size"),
        # ASME B36.10M and B36.19M hold no schedule 60 for NPS 6 and no 5S for NPS 1/4.
        ({"pipe": {"nps": "6", "schedule": "60"}}, "pipe.schedule", "NPS 6 has no schedule '60'; the nearest are 40 and 80; it exists in 5S, 10S"),
        ({"pipe": {"nps": "1/4", "schedule": "5S"}}, "pipe.schedule", "the nearest is 10S; it exists in 10S"),
        ({"pipe": {"dn": "151", "schedule": "10S"}}, "pipe.dn", "'151' is not a size in the tables; the nearest are 150 and 200"),
        ({"inlet": {"end": "open tube", "height": 0.1}}, "inlet.bore", "the end 'open tube' needs the bore"),
        ({"inlet": {"end": "rag", "height": 0.1}}, "inlet.bore", "the end 'rag' needs the bore"),
        ({"inlet": {"end": "diffuser", "height": 0.1}}, "inlet.face_area", "needs the area of its face"),
        ({"inlet__face_area": "300 cm^2"}, "inlet.face_area", "larger than the bore, which is 204.85"),
        ({"inlet__height": 0.01}, "inlet.height", "the hole of 6.35 mm reaches outside the bore of 161.5 mm"),
        ({"vent__height": 1}, "vent.height", "accepted from 0.0185759 to 0.981424"),
        ({"vent__height": 0}, "vent.height", "reaches outside the bore"),
        ({"vent__diameter": "170 mm"}, "vent.diameter", "one hole of 170 mm do not fit"),
        ({"vent__diameter": "10 mm", "vent__count": 30}, "vent.diameter", "30 holes of 10 mm do not fit"),
        ({"gas__symbol": "R1"}, "gas.composition", "R1 stands for a range"),
        ({"gas__symbol": "argon"}, "gas.symbol", "'argon' is no purge gas by ISO 14175; accepted: I1, I2, N1, I3"),
        ({"gas__composition": "Ar + 2 % N2"}, "gas.composition", "contradicts I1, which holds no N2 but Ar 100 %"),
        ({"meter": {"reads": "15 L/min", "calibrated_for": "CO2"}}, "meter.calibrated_for", "I1, I2, N1, AIR"),
        ({"meter": {"reads": "14 L/min", "calibrated_for": "I1"}}, "flow.purge", "contradicts meter.reads, which is 14 L/min"),
        ({"flow": {"hold": "5 L/min", "hold_for": "25 min"}}, "flow.hold", "needs flow.purge or meter.reads"),
        ({"flow": {"purge": "5 L/min", "hold_for": "25 min"}}, "flow.hold_for", "needs flow.hold"),
        ({"supply__stop_pressure": "201 bar"}, "supply.stop_pressure", "above the cylinder's 200 bar"),
        ({"section__left_end": "200 mm"}, "section.left_end", "the dam stands at 300 mm: it must stand inside the pipe"),
        ({"section__right_end": "0.1 m"}, "section.right_end", "100 mm from the joint the pipe ends"),
        ({"joint__left_open": "60 cm"}, "joint.left_open", "600 mm is more than once round the root, 507.367 mm"),
        ({"joint__pool_depth": "4 mm"}, "joint.pool_depth", "deeper than the wall, which is 3.4 mm"),
        ({"arc__between_passes": "5 min"}, "arc.between_passes", "needs arc.passes of 2 or more"),
        ({"near_heat": [{"material": "gum"}]}, "near_heat.0.material", "'gum' is not known; accepted: polyether"),
        ({"dams": [{"kind": "foam"}]}, "dams.0.side", "say left or right"),
        ({"dams": [{"side": "left"}, {"side": "left"}]}, "dams.1.side", "the left side has a dam already, dams.0"),
        ({"surroundings": {"fan": "none", "fan_flow": "1 m^3/h"}}, "surroundings.fan_flow", "contradicts fan 'none'"),
        ({"leaks": [{"where": "branch", "area": "1e-9 mm^2"}]}, "leaks.0.area", "write 0 mm^2, or 0.0001 mm^2 at least"),
        ({"leaks": [{"where": "moon", "area": "1 mm^2"}]}, "leaks.0.where", "'moon' is not known; accepted: hose fitting"),
    ],
    ids=lambda value: str(value)[:50],
)  # fmt: skip
def test_a_contradiction_is_named_with_what_to_do(changes, path, says):
    assert says in _faults(**changes)[path]


@pytest.mark.parametrize(
    "changes",
    [
        {"meter": {"reads": "15 L/min", "calibrated_for": "I1"}},
        {"supply__stop_pressure": "200 bar"},
        {"surroundings__fan_flow": "0 m^3/h"},
        {"pipe": {"nps": "1-1/2", "schedule": "40"}, "inlet": None, "vent__height": 0.9},
        {"pipe": {"dn": "DN 150", "schedule": "10S"}},
        {"pipe": {"nps": "6"}},
        {"section__slope": "90 deg"},
        {"section__slope": "-3.5 deg"},
        {"section__left_end": "300 mm", "joint__left_open": "507.36 mm", "joint__pool_depth": "3.4 mm"},
        {"arc__passes": 2, "arc__between_passes": "5 min"},
    ],
)
def test_what_only_looks_like_a_contradiction_is_taken(changes):
    assert read_set_up(document(**changes))


def test_a_hole_that_just_touches_the_wall_is_inside_and_one_a_hair_beyond_is_not():
    pipe = Pipe(outside_diameter_m=0.12, wall_m=0.01)  # bore 100 mm
    touching = Vent(height_frac=0.95, diameter_m=0.01)
    assert faults_of(SetUp(pipe=pipe, vent=touching)) == ()
    beyond = Vent(height_frac=math.nextafter(0.95, 1) + 1e-8, diameter_m=0.01)
    assert [each.code for each in faults_of(SetUp(pipe=pipe, vent=beyond))] == ["hole-outside-bore"]


def test_holes_side_by_side_need_more_room_than_one():
    pipe = Pipe(outside_diameter_m=0.12, wall_m=0.01)
    # Worked by hand: three 10 mm holes reach 10 mm to each side; sqrt(45^2 - 10^2) = 43.87 mm of play about the
    # middle of the 100 mm bore, so up to 0.9387 of the height; a single hole up to 0.95.
    for height, fits in ((0.9386, True), (0.9389, False)):
        found = faults_of(SetUp(pipe=pipe, vent=Vent(height_frac=height, diameter_m=0.01, count=3)))
        assert (found == ()) is fits


def test_running_a_contradiction_is_refused_with_its_faults():
    contradicting = SetUp(pipe=Pipe(outside_diameter_m=0.02, wall_m=0.01))
    with pytest.raises(UnusableSetUp, match="pipe.wall: wall-fills-pipe"):
        run(contradicting, policy=POLICY)


def test_a_name_that_the_core_does_not_know_becomes_a_fault_of_its_field():
    fault = fault_from(UnknownGas("R1", known=["I1", "I2"]), path="gas.symbol")
    assert (fault.path, fault.code, fault.value, fault.facts["known"]) == (
        "gas.symbol",
        "unknown-name",
        "R1",
        "I1, I2",
    )
