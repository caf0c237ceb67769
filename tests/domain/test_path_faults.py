"""Paths that cannot be, and points that lie on none: what is refused, in which words, all at once."""

import pytest
from set_up_examples import document

from trainer.set_up_files import SetUpFaults, read_set_up

RUN = {"name": "a", "part": "run", "length": "1 m"}
ELBOW = {"name": "e", "part": "elbow", "angle": "90 deg", "bend_radius": "228.6 mm", "slope": "90 deg"}
TEE = {"name": "t", "part": "tee", "length": "286 mm", "outlet": "143 mm", "slope": "90 deg"}


def faults(path, **changes):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(section={"path": path}, dams=None, **changes))
    return {each.path: each.message for each in caught.value.faults}


@pytest.mark.parametrize(
    ("path", "where", "says"),
    [
        ([{"name": "a", "part": "run"}], "0.length", "missing; a run needs length"),
        ([RUN, {**ELBOW, "bend_radius": None}], "1.bend_radius", "null says nothing"),
        # ASME B16.9, Table 2: 9 in for NPS 6.
        ([RUN, {k: v for k, v in ELBOW.items() if k != "bend_radius"}], "1.bend_radius", "a long-radius one of this size has 228.6 mm"),
        ([RUN, {"name": "r", "part": "reducer", "length": "14 cm"}], "1.to_bore", "a reducer needs length, to_bore"),
        ([RUN, {"name": "t", "part": "tee"}], "1.outlet", "a tee needs length, outlet, slope"),
        ([{**RUN, "angle": "30 deg"}], "0.angle", "30 deg does not belong to a run; accepted there: name, part, length, slope"),
        ([RUN, {"name": "c", "part": "cap", "length": "3 cm"}], "1.length", "accepted there: name, part, straight_flange"),
        ([{**RUN, "branch": [{**RUN, "name": "b"}]}], "0.branch", "'branch' does not belong to a run"),
        ([{"name": "a", "length": "1 m"}], "0.part", "say what the part is: run, elbow, reducer, tee, cap"),
        ([{"part": "run", "length": "1 m"}], "0.name", "each run needs a name of its own"),
        ([RUN, RUN], "1.name", "'a' stands for section.path.0 already"),
        ([RUN, TEE, {**RUN, "name": "t outlet"}], "2.name", "'t outlet' stands for section.path.1 already"),
        ([{**RUN, "name": "body"}], "0.name", "'body' stands for the answer already"),
        ([ELBOW], "0.part", "a path begins with a run, which gives it its direction, and this is an elbow"),
        ([RUN, {**RUN, "name": "b", "slope": "20 deg"}], "1.slope", "does not go on from a part that ends at 0 deg; put an elbow"),
        ([{**RUN, "slope": "90 deg"}, TEE], "1.slope", "90 deg does not stand at right angles to the tee's run, which slopes 90 deg"),
        ([{**RUN, "slope": "30 deg"}, {**TEE, "slope": "-75 deg"}], "1.slope", "accepted from -60 deg to 60 deg"),
        ([RUN, {**ELBOW, "angle": "45 deg"}], "1.angle", "45 deg does not turn the path from 0 deg to 90 deg of slope"),
        ([RUN, {**ELBOW, "bend_radius": "80 mm"}], "1.bend_radius", "less than half the bore of 161.5 mm"),
        ([RUN, {"name": "r", "part": "reducer", "length": "14 cm", "to_bore": "161.5 mm"}], "1.to_bore", "make it a run"),
        ([RUN, {"name": "c", "part": "cap"}, {**RUN, "name": "b"}], "1.part", "put it last"),
        ([RUN, {**TEE, "length": "161 mm"}], "1.length", "ends inside the crossing; a tee with a bore of 161.5 mm is accepted from 161.5 mm"),
        ([RUN, {**TEE, "outlet": "80 mm"}], "1.outlet", "ends inside the run of bore 161.5 mm; accepted from 80.75 mm"),
        ([RUN, {**TEE, "to_bore": "162 mm"}], "1.to_bore", "wider than the tee's run, which is 161.5 mm"),
        ([RUN, {**TEE, "branch": [{**RUN, "name": "b", "slope": "0 deg"}]}], "1.branch.0.slope", "does not go on"),
    ],
    ids=lambda value: str(value)[:40],
)  # fmt: skip
def test_a_part_that_cannot_be_is_refused_by_its_place(path, where, says):
    assert says in faults(path)[f"section.path.{where}"]


def test_a_reducer_s_bore_and_an_outlet_s_are_those_that_the_next_part_is_held_to():
    narrow = {"name": "r", "part": "reducer", "length": "14 cm", "to_bore": "50 mm"}
    sharp = {**ELBOW, "bend_radius": "40 mm"}
    placed = {"inlet__at": "a", "vent__at": "a"}
    read_set_up(document(section={"path": [RUN, narrow, sharp]}, dams=None, **placed))
    branch = {**sharp, "slope": "0 deg"}
    read_set_up(
        document(
            section={"path": [RUN, {**TEE, "to_bore": "50 mm", "branch": [branch]}]}, dams=None, **placed
        )
    )
    assert "section.path.1.branch.0.bend_radius" in faults([RUN, {**TEE, "branch": [branch]}])


@pytest.mark.parametrize(
    ("changes", "where", "says"),
    [
        ({"inlet__at": "nix"}, "inlet.at", "'nix' is no part of the path; accepted: a, t, t outlet"),
        ({"joint__at": "nix"}, "joint.at", "is no part of the path"),
        ({"vent__along": 0.5}, "vent.along", "0.5 tells how far along a part, and no part is named"),
        ({"vents": [{"at": "a"}]}, "vents", "keep one of them"),
        ({"vent": None, "vents": [{"at": "b"}]}, "vents.0.at", "accepted: a, t, t outlet"),
        ({"vent__at": "t", "vent__along": 1, "vent__height": 1}, "vent.height", "reaches outside the bore of 161.5 mm"),
        ({"vent__at": "a", "vent__along": 0.5, "vent__diameter": "170 mm"}, "vent.diameter", "do not fit into the bore"),
        ({"vent__at": "a", "vent__along": 1.5}, "vent.along", "0 is where the part named in at begins, 1 where it ends"),
        ({"inlet__at": "a", "inlet__along": 0, "inlet__face_area": "300 cm^2"}, "inlet.face_area", "larger than the bore"),
        ({"inlet__at": "a", "inlet__along": 0.5, "inlet__height": 0.0}, "inlet.height", "reaches outside the bore"),
    ],
    ids=lambda value: str(value)[:50],
)  # fmt: skip
def test_a_point_that_cannot_be_is_refused(changes, where, says):
    assert says in faults([RUN, TEE], **changes)[where]


def test_a_hole_in_the_wall_may_lie_at_the_crown():
    placed = {"vent__at": "a", "vent__along": 0.5, "vent__height": 1, "inlet__at": "a", "inlet__along": 0}
    assert read_set_up(document(section={"path": [RUN, TEE]}, dams=None, **placed)).vent.height_frac == 1


def test_points_and_lists_of_vents_belong_to_a_path():
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(vent=None, vents=[{"height": 0.5}], inlet__at="a"))
    said = {each.path: each.message for each in caught.value.faults}
    assert "belongs to a spool with a section.path" in said["vents"]
    assert "there is no section.path" in said["inlet.at"]


def test_a_path_stands_for_dams_and_slope_and_all_faults_are_said_at_once():
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(
            document(
                section={"path": [RUN, RUN], "left_dam": "1 m", "right_dam": "1 m", "slope": "3 deg"},
                inlet__at="nix", vent__at="nor", dams=None,
            )
        )  # fmt: skip
    assert {each.path for each in caught.value.faults} == {
        "section.left_dam", "section.right_dam", "section.slope", "section.path.1.name", "inlet.at", "vent.at",
    }  # fmt: skip


def test_a_path_that_could_not_be_read_is_not_blamed_for_its_points():
    assert set(faults([{**RUN, "length": "1 parsec"}], inlet__at="nix")) == {"section.path.0.length"}
