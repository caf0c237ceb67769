"""Scenarios as JSON and back, and what each reader of the document may see."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.families import draw
from trainer.domain.marking import mark
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Scenario
from trainer.scenario_files import (
    load_content,
    marked_document,
    parse_response,
    public_document,
    response_document,
    scenario_document,
    scenario_from_document,
)
from trainer.set_up_files import exact_text, exact_value

CONTENT = load_content()
CASES = [(family, difficulty) for family in CONTENT.families for difficulty in (0.0, 0.5, 1.0)]


def drawn(family: str, difficulty: float = 0.5, seed: int = 11) -> Scenario:
    return draw(
        CONTENT.family(family),
        seed=seed,
        difficulty=difficulty,
        policy=CONTENT.policy,
        hazards=CONTENT.hazards,
    )


@pytest.mark.parametrize(("family", "difficulty"), CASES)
def test_a_stored_scenario_comes_back_to_the_last_bit(family: str, difficulty: float) -> None:
    scenario = drawn(family, difficulty)
    stored = json.loads(json.dumps(scenario_document(scenario, with_answers=True), allow_nan=False))
    assert scenario_from_document(stored) == scenario


@pytest.mark.parametrize("family", list(CONTENT.families))
def test_a_stored_scenario_is_marked_like_the_drawn_one(family: str) -> None:
    scenario = drawn(family)
    stored = scenario_from_document(json.loads(json.dumps(scenario_document(scenario, with_answers=True))))
    keys = {item_id: each.key for item_id, each in scenario.answers.items()}
    assert mark(stored, responses=keys, policy=CONTENT.policy) == mark(
        scenario, responses=keys, policy=CONTENT.policy
    )


def test_without_answers_the_set_up_and_the_items_still_come_back() -> None:
    scenario = drawn("long-run")
    shown = scenario_from_document(public_document(scenario))
    assert shown.seed is None
    assert shown.answers == {}
    assert (shown.set_up, shown.items, shown.facts) == (scenario.set_up, scenario.items, scenario.facts)


def test_items_carry_what_their_kind_needs_and_no_more() -> None:
    kinds = {each["kind"]: set(each) for each in public_document(drawn("long-run"))["items"]}
    common = {"id", "kind", "skill", "text", "weight", "sets"}
    assert kinds["quantity"] - common == {"unit_hint", "dimension", "nearest"}
    assert kinds["placement"] - common == {"handles"}
    assert kinds["choice"] - common == {"options"}
    assert kinds["hazards"] - common == {"objects"}


def test_what_an_item_asks_is_left_out_of_the_set_up() -> None:
    shown = public_document(drawn("long-run"))
    assert "wait" not in shown["set_up"]
    assert "left_dam" not in shown["set_up"]["section"]


def test_every_key_printed_reads_back_as_it_is() -> None:
    for family in CONTENT.families:
        scenario = drawn(family)
        for item in (each for each in scenario.items if not each.rubric):
            key = scenario.answers[item.id].key
            assert parse_response(item, response_document(item, key)) == key


def test_marks_stand_beside_the_keys() -> None:
    scenario = drawn("end-plates")
    marked = mark(scenario, responses={}, policy=CONTENT.policy)
    document = json.loads(json.dumps(marked_document(marked, scenario), allow_nan=False))
    assert [each["id"] for each in document["items"]] == [each.id for each in scenario.items]
    assert all("key" in each and each["score"] == 0.0 for each in document["items"])
    assert document["passed"] is False
    assert document["run"] is None
    assert document["run_missing"]


@given(
    st.sampled_from([each for each in Dimension if each not in (Dimension.TEMPERATURE, Dimension.FRACTION)]),
    st.floats(1e-9, 1e9),
)
def test_a_quantity_written_reads_back_to_the_same_float(dimension: Dimension, value: float) -> None:
    assert exact_value(exact_text(value, dimension), dimension) == value


@given(st.floats(1e-7, 0.3))
def test_a_fraction_written_reads_back_to_the_last_bits(value: float) -> None:
    assert exact_value(exact_text(value, Dimension.FRACTION), Dimension.FRACTION) == pytest.approx(
        value, rel=1e-15
    )


def test_an_explanation_prints_its_whole_rubric_and_waits_for_a_grade() -> None:
    scenario = drawn("end-plates")
    shown = {each["id"]: each for each in public_document(scenario)["items"]}["say-why"]
    assert [set(each) for each in shown["rubric"]] == [{"id", "text", "levels", "weight", "critical"}] * 4
    assert all(len(each["levels"]) == 4 for each in shown["rubric"])
    assert {each["id"]: each for each in scenario_document(scenario, with_answers=True)["items"]}["say-why"][
        "key"
    ] is None
    keys = {each.id: scenario.answers[each.id].key for each in scenario.items if not each.rubric}
    marked = mark(scenario, responses={**keys, "say-why": "Argon sinks."}, policy=CONTENT.policy)
    document = json.loads(json.dumps(marked_document(marked, scenario), allow_nan=False))
    assert {each["id"]: each["score"] for each in document["items"]}["say-why"] is None
    assert (document["total"], document["passed"], document["by_skill"]["4"]) == (None, None, None)
    assert document["by_skill"]["6"] == 1.0
