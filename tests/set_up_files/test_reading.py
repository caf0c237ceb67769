"""JSON objects become set-ups, or all their faults at once."""

import math

import pytest
from set_up_examples import document, set_up

from trainer.domain.set_up import SetUp
from trainer.set_up_files import SetUpFaults, read_set_up, write_set_up


def _faults(**changes):
    with pytest.raises(SetUpFaults) as caught:
        read_set_up(document(**changes))
    return {each.path: each.message for each in caught.value.faults}


def test_an_empty_object_is_a_set_up_of_which_nothing_is_known():
    assert read_set_up({}) == SetUp()


def test_quantities_become_si():
    read = set_up(
        flow__purge="32 cfh", section__left_dam="1 ft", target__oxygen="0.1 %", temperature="68 degF"
    )
    # Worked by hand: 32 x 0.0283168466 m3 / 3600 s; 1 ft = 0.3048 m; 68 degF = 20 degC.
    assert read.flow.purge_m3_s == pytest.approx(2.51705e-4, rel=1e-5)
    assert read.section.left_dam_m == pytest.approx(0.3048)
    assert read.target.oxygen_frac == pytest.approx(1e-3)
    assert read.temperature_k == pytest.approx(293.15)


def test_every_fault_is_reported_at_once():
    faults = _faults(vent__height=2, flow__hold="5", gas__symbol="I9", section__slope="91 deg", wiat="6 min")
    assert set(faults) == {"vent.height", "flow.hold", "gas.symbol", "section.slope", "wiat"}


def test_a_fault_that_only_follows_from_another_is_left_out():
    assert set(_faults(flow__hold="5")) == {"flow.hold"}


@pytest.mark.parametrize(
    ("changes", "path", "says"),
    [
        ({"wiat": "6 min"}, "wiat", "unknown key; did you mean 'wait'"),
        ({"vent__hieght": 0.5}, "vent.hieght", "did you mean 'height'"),
        ({"flow__purge": 15}, "flow.purge", 'write a text with a unit, such as "15 L/min"'),
        ({"flow__purge": "15"}, "flow.purge", "'15' has no unit. Write 15 L/min or 32 cfh."),
        ({"flow__purge": "15 kg"}, "flow.purge", "the unit 'kg' is not accepted"),
        ({"flow__purge": "-15 L/min"}, "flow.purge", "'-15 L/min' is out of range; accepted above 0 L/min and up to 600 L/min"),
        ({"flow__purge": "0 L/min"}, "flow.purge", "accepted above 0 L/min"),
        ({"flow__purge": "1e9 L/min"}, "flow.purge", "out of range"),
        ({"flow__purge": "1e999 L/min"}, "flow.purge", "too large"),
        ({"flow__purge": "nan L/min"}, "flow.purge", "does not start with a number"),
        ({"flow__purge": "1,500 L/min"}, "flow.purge", "can be read in two ways"),
        ({"flow__purge": []}, "flow.purge", "a list is not accepted"),
        ({"vent__height": "0.95"}, "vent.height", "write a bare number from 0 up to 1"),
        ({"vent__height": True}, "vent.height", "true is not accepted"),
        ({"vent__height": 1.5}, "vent.height", "1.5 is out of range; accepted from 0 up to 1: 0 is the lowest point"),
        ({"vent__height": math.inf}, "vent.height", "too large"),
        ({"vent__count": 1.5}, "vent.count", "write a whole number from 1 up to 50"),
        ({"vent__count": 0}, "vent.count", "out of range"),
        ({"inlet__end": "sponge"}, "inlet.end", "accepted: open tube, rag, diffuser"),
        ({"inlet__end": 3}, "inlet.end", "accepted: open tube, rag, diffuser"),
        ({"pipe__nps": 6}, "pipe.nps", 'write a text in quotes, such as "6"'),
        ({"pipe__nps": "6\n"}, "pipe.nps", "plain characters"),
        ({"scene": {"cap_on": "yes"}}, "scene.cap_on", "write true or false"),
        ({"vent": "low"}, "vent", "'low' is not accepted; this part is an object with keys"),
        ({"dams": {"side": "left"}}, "dams", "this is a list of objects"),
        ({"dams": [{"side": "left"}] * 41}, "dams", "41 entries; accepted up to 40"),
        ({"dams": [3]}, "dams.0", "3 is not accepted"),
        ({"leaks": [{"where": "hose fitting", "area": "1 m^2"}]}, "leaks.0.area", "out of range"),
        ({"temperature": "200 degC"}, "temperature", "accepted from -40 degC up to 60 degC"),
    ],
    ids=lambda value: str(value)[:40],
)  # fmt: skip
def test_a_field_that_cannot_be_read_is_named_with_what_is_accepted(changes, path, says):
    faults = _faults(**changes)
    assert says in faults[path]


def test_null_is_refused_because_it_says_nothing():
    made = document()
    made["wait"] = None
    with pytest.raises(SetUpFaults, match="wait: null says nothing; leave the key out"):
        read_set_up(made)


@pytest.mark.parametrize("whole", [None, 3, "text", [], [1]])
def test_what_is_no_object_is_no_set_up(whole):
    with pytest.raises(SetUpFaults, match="a set-up is an object with keys"):
        read_set_up(whole)


def test_a_hostile_key_is_shown_on_one_printable_line():
    with pytest.raises(SetUpFaults) as caught:
        read_set_up({"a\nb\x1b\ud800" + "x" * 200: 1})
    assert all(each.line.isprintable() and len(each.path) <= 60 for each in caught.value.faults)


@pytest.mark.parametrize("count", [2, 2.0])
def test_a_whole_number_may_be_written_with_a_point(count):
    assert set_up(vent__count=count).vent.count == 2


def test_a_written_set_up_reads_back_the_same():
    read = set_up(
        temperature="68 degF", flow__purge="32 cfh", section__left_dam="11 in", hose__length="77 ft",
        leaks=[{"where": "hose fitting", "area": "1 mm^2"}],
        scene={"cylinder_chained": True, "people": [{"where": "pit", "face_height": "18 in"}]},
    )  # fmt: skip
    again = read_set_up(write_set_up(read))
    assert again.flow.purge_m3_s == pytest.approx(read.flow.purge_m3_s, rel=1e-12)
    assert again.section.left_dam_m == pytest.approx(read.section.left_dam_m, rel=1e-12)
    assert again.temperature_k == pytest.approx(read.temperature_k, rel=1e-12)
    assert write_set_up(again) == write_set_up(read)


def test_the_base_set_up_is_written_as_people_write_it():
    assert write_set_up(set_up())["flow"] == {"purge": "15 L/min", "hold": "5 L/min", "hold_for": "25 min"}
