"""Grips and signs: what a script and a screen reader find on them."""

import json
import tomllib
from dataclasses import replace
from itertools import combinations
from math import dist
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.drawing.read_back import rings_on
from tests.drawing.set_ups import a_dam_handle, a_set_up, a_vent_handle, drawn, words
from trainer.domain.errors import Missing
from trainer.domain.scenario import SceneObject
from trainer.domain.set_up import Section, Vent
from trainer.drawing.asked import Asked
from trainer.drawing.knots import Knots
from trainer.drawing.layout import layout_for
from trainer.drawing.reader import Reader
from trainer.drawing.signs import SHAPES

OPEN = a_set_up(section=Section(slope_deg=0.0), vent=Vent(diameter_m=0.006))
ASKED = Asked(handles=(a_dam_handle("left"), a_dam_handle("right"), a_vent_handle()))


def grips(picture):
    return {each.get("data-handle"): each for each in picture.iter() if each.get("data-handle")}


def test_each_part_to_be_placed_has_a_slider():
    found = grips(drawn(OPEN, ASKED))
    assert set(found) == {"left", "right", "vent"}
    for each in found.values():
        assert each.get("role") == "slider"
        assert each.get("tabindex") == "0"
        assert each.get("aria-label")
        assert each.get("aria-valuetext") == "not placed yet"


def test_a_slider_tells_its_range_in_the_persons_units():
    metric = grips(drawn(OPEN, ASKED))["left"]
    assert [metric.get(f"aria-value{end}") for end in ("min", "max")] == ["50", "6000"]
    us = grips(drawn(OPEN, ASKED, Reader(units="us")))["left"]
    assert float(us.get("aria-valuemax", "nan")) == pytest.approx(
        6.0 / 0.0254, rel=1e-5
    )  # the inch is 25.4 mm


def test_a_placed_part_stands_where_it_was_put():
    placed = replace(ASKED, placed={"left": 0.3})
    picture = drawn(OPEN, placed)
    grip = grips(picture)["left"]
    assert (grip.get("aria-valuenow"), grip.get("aria-valuetext")) == (
        "300",
        "300\u00a0mm from the joint",
    )
    assert "300 mm" in words(picture)


def test_parts_not_placed_stand_halfway_whatever_the_set_up():
    other = replace(OPEN, wait_s=500.0)
    assert grips(drawn(OPEN, ASKED))["right"].get("data-value") == grips(drawn(other, ASKED))["right"].get(
        "data-value"
    )


def test_what_rides_with_a_grip_is_marked():
    riding = {each.get("data-rides") for each in drawn(OPEN, ASKED).iter() if each.get("data-rides")}
    assert riding == {"left", "right", "vent"}


@given(value=st.floats(0.05, 6.0), slope_deg=st.sampled_from([0.0, 3.0, 45.0, 90.0, -90.0]))
def test_a_place_read_back_is_the_value_that_was_meant(value, slope_deg):
    set_up = replace(OPEN, section=Section(slope_deg=slope_deg))
    layout = layout_for(set_up, asked=ASKED, outside_diameter_m=0.168, wall_m=0.003)
    for knots in (layout.along, layout.along.mirrored()):
        assert knots.value(knots.place(value)) == pytest.approx(value, rel=1e-9)
    u = layout.along.place(value)
    assert layout.pipe_frame(*layout.sheet(u, 12.0)) == pytest.approx((u, 12.0), abs=1e-6)


@given(height_frac=st.floats(0, 1))
def test_heights_round_trip(height_frac):
    layout = layout_for(OPEN, asked=ASKED, outside_diameter_m=0.168, wall_m=0.003)
    assert layout.heights.value(layout.heights.place(height_frac)) == pytest.approx(height_frac, abs=1e-9)


def test_the_scale_holds_around_the_joint_of_a_long_run():
    layout = layout_for(OPEN, asked=ASKED, outside_diameter_m=0.168, wall_m=0.003)
    assert layout.along.place(0.4) == pytest.approx(2 * layout.along.place(0.2))
    assert layout.along.place(3.0) < 10 * layout.along.place(0.3)


def test_the_script_reads_the_same_knots():
    knots = Knots(((0.0, 0.0), (0.6, 150.0), (6.0, 240.0)))
    read = [tuple(float(x) for x in pair.split(",")) for pair in knots.text().split(" ")]
    assert read == [(0.0, 0.0), (0.6, 150.0), (6.0, 240.0)]


def an_object(number: int, sign: str = "rope-tail") -> SceneObject:
    return SceneObject(
        id=f"h{number}", text="a rope <tail>", sign=sign, box=(100.0 + 84 * number, 244.0, 60.0, 60.0)
    )


def test_scene_objects_are_checkboxes_that_show_their_mark():
    asked = Asked(objects=(an_object(1), an_object(2)), marked=("h2",))
    boxes = [each for each in drawn(a_set_up(), asked).iter() if each.get("data-hazard")]
    assert [each.get("aria-checked") for each in boxes] == ["false", "true"]
    assert [each.get("aria-label") for each in boxes] == ["1. a rope <tail>", "2. a rope <tail>"]


@pytest.mark.parametrize("sign", SHAPES)
def test_each_sign_can_be_drawn(sign):
    drawn(a_set_up(), Asked(objects=(an_object(1, sign),)))


def test_every_sign_of_the_hazard_catalogue_is_drawn_and_no_other():
    text = (Path(__file__).parents[2] / "scenarios/hazards.toml").read_text(encoding="utf-8")
    entries = tomllib.loads(text)["entry"].values()
    assert {each["sign"] for each in entries} == set(SHAPES)


def test_a_sign_nobody_drew_is_named():
    with pytest.raises(Missing, match="unicorn"):
        drawn(a_set_up(), Asked(objects=(an_object(1, "unicorn"),)))


def test_signs_have_shapes_of_their_own():
    assert len(set(SHAPES.values())) == len(SHAPES)


def test_scripts_name_the_attributes_that_the_drawing_writes():
    script = (Path(__file__).parents[2] / "static/scripts/handles.js").read_text(encoding="utf-8")
    for name in (
        "data-handle",
        "data-frame",
        "data-rides",
        "data-shows",
        "data-follows-",
        "data-handle-input",
    ):
        assert name in script


def test_steps_are_whole_10_mm_or_half_inches():
    handle = a_dam_handle("left", step=0.01)
    for units, step in (("metric", "0.01"), ("us", "0.0127")):
        picture = drawn(OPEN, Asked(handles=(handle,)), reader=Reader(units=units))
        assert grips(picture)["left"].get("data-step") == step
    coarse = drawn(OPEN, Asked(handles=(a_dam_handle("left", step=0.05),)))
    assert grips(coarse)["left"].get("data-step") == "0.05"


def test_every_height_is_said_with_its_hour_and_its_rise():
    handle = a_vent_handle(low=0.03, high=0.97, step=0.25)
    stops = json.loads(grips(drawn(OPEN, Asked(handles=(handle,))))["vent"].get("data-stops"))
    assert [height for height, _ in stops] == [0.03, 0.25, 0.5, 0.75, 0.97]
    said = [words.replace("\u00a0", " ") for _, words in stops]
    # NPS 6 Sch 10S: 168.3 mm less twice 3.4 mm of wall (ASME B36.19M) leaves a bore of 161.5 mm, half of it 80.75
    assert said[2] == "0.50 of the bore's height, 80.8 mm from its lowest point, near 3 o'clock"
    assert said[3].endswith("near 2 o'clock")
    assert said[0].endswith("near 5 o'clock")
    assert said[4].endswith("near 1 o'clock")


def test_a_marked_thing_carries_a_solid_mark_with_its_number():
    asked = Asked(objects=tuple(an_object(number) for number in range(1, 5)), marked=("h2", "h4"))
    parts = [each.get("data-part") for each in drawn(a_set_up(), asked).iter() if each.get("data-part")]
    assert [each for each in parts if each.startswith(("mark ", "number "))] == [
        "number 1", "mark 2", "number 3", "mark 4",
    ]  # fmt: skip


def test_the_set_up_ends_above_the_things_to_be_marked():
    picture = drawn(a_set_up(), Asked(objects=(an_object(1),)))
    _, top, _, height = (float(each) for each in picture.get("viewBox").split())
    assert top == -(420 - 232)  # the sheet of the set-up, lifted over the strip that begins 12 above the box
    assert top + height == 244 + 112 + 12  # one row of cells, each as high as a finger on a phone


FINGER = 44 / 0.4  # a phone 360 px wide draws 800 units on 320 px


def cells(picture):
    """Left, top, right and bottom of what takes a touch for each sign."""
    return [
        (x, y, x + float(hit.get("width")), y + float(hit.get("height")))
        for each in picture.iter()
        if each.get("data-hazard")
        for hit in each
        if hit.get("class") == "d-hit"
        for x, y in [(float(hit.get("x")), float(hit.get("y")))]
    ]


@pytest.mark.parametrize("count", [1, 5, 7, 12, 14])
def test_each_sign_has_a_fingers_room_on_a_phone_and_shares_it_with_none(count):
    rows = [(148.0 + 84.0 * place, top) for top in (312.0, 238.0) for place in range(7)]
    things = [replace(an_object(i), id=f"h{i}", box=(*rows[i], 76.0, 72.0)) for i in range(count)]
    found = cells(drawn(a_set_up(), Asked(objects=tuple(things))))
    assert len(found) == count
    for left, top, right, bottom in found:
        assert min(right - left, bottom - top) >= FINGER
        assert left >= 0
        assert right <= 800
    for one, other in combinations(found, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        down = min(one[3], other[3]) - max(one[1], other[1])
        assert min(across, down) <= 0.1  # coordinates have one decimal


def test_signs_stand_in_the_order_of_their_numbers():
    places = ((316.0, 312.0), (148.0, 238.0), (484.0, 238.0), (148.0, 312.0))
    things = tuple(replace(an_object(i), box=(*place, 60.0, 60.0)) for i, place in enumerate(places))
    found = cells(drawn(a_set_up(), Asked(objects=things)))
    assert found == sorted(found, key=lambda each: (each[1], each[0]))


@pytest.mark.parametrize("slope_deg", [0.0, 5.0, 45.0, 90.0, -90.0])
def test_grips_of_two_dams_at_the_joint_have_each_a_fingers_room(slope_deg):
    asked = Asked(handles=(a_dam_handle("left"), a_dam_handle("right")), placed={"left": 0.05, "right": 0.05})
    picture = drawn(replace(OPEN, section=Section(slope_deg=slope_deg)), asked)
    (one, _), (other, _) = rings_on(picture)
    assert dist(one, other) >= FINGER
