"""Responses as people and programs send them: units parsed, and each fault named with what is accepted."""

from typing import Any

import pytest

from trainer.domain.families import draw
from trainer.domain.scenario import Item, ItemKind, Point
from trainer.scenario_files import ResponseFault, load_content, parse_response, parse_responses

CONTENT = load_content()
SCENARIO = draw(
    CONTENT.family("long-run"), seed=1, difficulty=0.0, policy=CONTENT.policy, hazards=CONTENT.hazards
)
HOLES = draw(
    CONTENT.family("end-plates"), seed=1, difficulty=0.0, policy=CONTENT.policy, hazards=CONTENT.hazards
).item("holes")


def item(item_id: str) -> Item:
    return SCENARIO.item(item_id)


@pytest.mark.parametrize("typed", ["6 min", "360 s", "0.1 h", "6,0 min", "5 min 60 s", "６ min"])
def test_the_same_wait_in_any_writing_is_the_same_response(typed: str) -> None:
    assert parse_response(item("wait"), typed) == pytest.approx(360.0)


@pytest.mark.parametrize(
    "raw",
    [
        "6",
        "six minutes",
        "",
        "6 L/min",
        "-6 min",
        "0 min",
        "nan min",
        "1e999 min",
        "1,500 min",
        "9 d",
        6,
        None,
        True,
        [],
    ],
)
def test_a_wait_that_cannot_be_read_names_the_item(raw: Any) -> None:
    with pytest.raises(ResponseFault) as fault:
        parse_response(item("wait"), raw)
    assert fault.value.item_id == "wait"
    assert fault.value.message


def test_dams_take_any_unit_of_length() -> None:
    placed = parse_response(item("dams"), {"left_dam": "300 mm", "right_dam": "1 ft"})
    assert placed == {"left_dam": 0.3, "right_dam": pytest.approx(0.3048)}


@pytest.mark.parametrize(
    "raw",
    [{"left_dam": "10 mm"}, {"left_dam": "99 m"}, {"left_dam": 0.3}, {"middle": "300 mm"}, "300 mm", None],
)
def test_a_place_that_there_is_not_is_refused(raw: Any) -> None:
    with pytest.raises(ResponseFault, match="dams"):
        parse_response(item("dams"), raw)


@pytest.mark.parametrize("raw", [{"vent": 0.85}, {"vent": "0.85"}, {"vent": "0,85"}])
def test_a_height_is_a_bare_number(raw: Any) -> None:
    assert parse_response(HOLES, raw) == {"vent": 0.85}


@pytest.mark.parametrize("raw", [{"vent": 1.5}, {"vent": "high"}, {"vent": float("nan")}, {"vent": True}])
def test_a_height_outside_the_plate_is_refused(raw: Any) -> None:
    with pytest.raises(ResponseFault, match="holes"):
        parse_response(HOLES, raw)


@pytest.mark.parametrize("raw", ["z", 1, None, ["a"]])
def test_an_option_that_there_is_not_is_refused(raw: Any) -> None:
    with pytest.raises(ResponseFault, match="is not one of"):
        parse_response(item("supply"), raw)


def test_marks_are_objects_or_points() -> None:
    assert parse_response(item("look"), ["h2", {"x": 120, "y": 44}]) == ("h2", Point(x=120.0, y=44.0))


@pytest.mark.parametrize(
    "raw",
    [
        ["h99"],
        [{"x": 900, "y": 44}],
        [{"x": 1}],
        [{"x": "1", "y": 2}],
        "h2",
        [None],
        ["h1"] * 201,
        [{"x": True, "y": 1}],
    ],
)
def test_marks_that_cannot_be_read_are_refused(raw: Any) -> None:
    with pytest.raises(ResponseFault) as fault:
        parse_response(item("look"), raw)
    assert fault.value.item_id == "look"


def test_an_unknown_item_is_named_with_those_that_there_are() -> None:
    with pytest.raises(ResponseFault, match="nonsense.*wait"):
        parse_responses({each.id: each for each in SCENARIO.items}, {"nonsense": "b"})


EXPLANATION = Item(id="say-why", kind=ItemKind.EXPLANATION, skill=4, text="Say why.")


@pytest.mark.parametrize(
    ("raw", "read"),
    [
        ("Argon sinks.", "Argon sinks."),
        ("  Argon sinks.\r\nAir rises.\r ", "Argon sinks.\nAir rises."),
        ("El argón pesa más: ≈ 1,38 veces.", "El argón pesa más: ≈ 1,38 veces."),
        ("x" * 2000, "x" * 2000),
    ],
)
def test_an_explanation_is_its_text_with_one_kind_of_line_ends(raw: str, read: str) -> None:
    assert parse_response(EXPLANATION, raw) == read


@pytest.mark.parametrize("raw", ["", " \n ", "x" * 2001, "a\x00b", "a\x1bb", "a\ud800b", 12, None, ["Argon"]])
def test_an_explanation_that_cannot_be_stored_or_read_is_refused(raw: Any) -> None:
    with pytest.raises(ResponseFault) as fault:
        parse_response(EXPLANATION, raw)
    assert fault.value.item_id == "say-why"
