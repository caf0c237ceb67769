"""Set-ups in addresses: read back whole, short, and never changed by a later edition of a starting point."""

import hashlib
import json
from urllib.parse import parse_qsl

import pytest
from hypothesis import given
from set_up_examples import A_RISER_WITHOUT_VENT, OVER_THE_TOP, document, set_up
from set_up_strategies import whole_set_ups

from trainer.set_up_files import read_set_up, write_set_up
from trainer.set_up_files.addresses import address_of, read_address
from trainer.set_up_files.flat import flat, is_path, nested
from trainer.set_up_files.starting_points import OPENS_WITH, STARTING_POINTS

# Addresses name these and say only what differs: whoever changes one changes every address that rests on it.
DIGESTS = {
    "shop": "c56506b1073a23d3",
    "shop-us": "c13b158d569c808d",
    "long-run": "a378b504c38965e0",
    "long-run-us": "608a95cb3491eaec",
    "trench": "b8e3d50c4d2dd580",
    "trench-us": "d6826ae9b49b7a1a",
    "riser": "c18a1cf69fd2efd4",
    "riser-us": "16f889b42616e701",
    "spool-riser": "e3dfe47ee98b2148",
    "spool-riser-us": "c01d7cf7e9659544",
    "spool-branch": "8bce8b6b5612c4a8",
    "spool-branch-us": "59e856f0900beba6",
    "spool-over": "b39a506bc316619f",
    "spool-over-us": "437f2225cbb2b84d",
}


def read(query):
    return read_address(parse_qsl(query, keep_blank_values=True))


def digest(name):
    text = json.dumps(dict(STARTING_POINTS[name]), sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def test_published_starting_points_stay_as_they_are():
    assert {name: digest(name) for name in STARTING_POINTS} == DIGESTS


@pytest.mark.parametrize("name", STARTING_POINTS)
def test_a_starting_point_is_a_set_up_and_its_address_is_its_name(name):
    read_set_up(nested(STARTING_POINTS[name]).document)
    assert address_of(STARTING_POINTS[name]) == f"v=1&start={name}"


def test_an_address_holds_what_differs_and_what_is_gone():
    values = {**STARTING_POINTS[OPENS_WITH], "wait": "9 min"}
    del values["hose.bore"]
    query = address_of(values)
    assert query == "v=1&start=shop&wait=9+min&hose.bore="
    assert read(query).values == values


@pytest.mark.parametrize(
    "changes", [{}, A_RISER_WITHOUT_VENT, OVER_THE_TOP], ids=["section", "riser", "over"]
)
def test_a_set_up_comes_back_from_its_address(changes):
    values = flat(write_set_up(set_up(**changes)))
    found = read(address_of(values))
    assert found.is_whole
    assert read_set_up(nested(found.values).document) == set_up(**changes)


@given(whole_set_ups())
def test_any_set_up_comes_back_from_its_address(made):
    meant = read_set_up(made)
    found = read(address_of(flat(write_set_up(meant))))
    assert found.is_whole
    assert read_set_up(nested(found.values).document) == meant


def test_what_no_set_up_has_is_named_and_the_rest_is_read():
    found = read("v=3&start=attic&colour=red&wait=5+min&dams.x.kind=foam&section.path=1&dams.0=1")
    assert found.other_version == "3"
    assert found.unknown_start == "attic"
    assert found.unknown == ("colour", "dams.x.kind", "section.path", "dams.0")
    assert found.values == {"wait": "5 min"}
    assert not found.is_whole


@pytest.mark.parametrize(
    ("path", "known"),
    [
        ("wait", True), ("dams.0.kind", True), ("section.path.3.branch.2.name", True), ("section", False),
        ("dams", False), ("dams.00.kind", False), ("dams.40.kind", False), ("dams.-1.kind", False),
        ("section.path.0.branch", False), ("pipe.nps.0", False), ("", False), ("wait.", False),
        ("dams.٣.kind", False),
    ],
)  # fmt: skip
def test_a_path_is_one_value_of_a_set_up(path, known):
    assert is_path(path) is known


def test_a_blank_row_is_left_out_and_faults_keep_the_row_that_was_typed():
    found = nested({"dams.1.kind": "foam", "dams.4.kind": "tape"})
    assert found.document == {"dams": [{"kind": "foam"}, {"kind": "tape"}]}
    assert found.typed_path("dams.1.kind") == "dams.4.kind"
    assert found.typed_path("wait") == "wait"


def test_numbers_and_flags_are_read_as_such_and_anything_else_as_it_was_typed():
    query = "joint.taped=0,5&arc.passes=2&vent.blocked=no&scene.cap_on=perhaps&vent.height=high"
    assert dict(read(query).values) == {
        "joint.taped": 0.5, "arc.passes": 2, "vent.blocked": False, "scene.cap_on": "perhaps",
        "vent.height": "high",
    }  # fmt: skip


def test_the_document_of_a_file_reads_the_same_as_its_flat_form():
    assert nested(flat(document())).document == document()
