"""A diagnosis by its page, without scripts: one step at a time, each answered by what it led to, none undone."""

from uuid import UUID

import pytest
import training_steps as steps
from answering import answers_for, fill_in, next_step, take_steps

from trainer.domain.scenario import ItemKind
from trainer.services import assessment, practice

STEPS = "What was done and seen so far"


@pytest.fixture
def attempt_id(world):
    return practice.start_practice(
        world.site, world.apprentice.acting, family="will-not-come-down", difficulty=0.0
    )


@pytest.fixture
def scenario(world, attempt_id):
    return steps.drawn(world.site, attempt_id)[1]


@pytest.fixture
def page(visit_as, attempt_id):
    return visit_as("apprentice").open_page(f"/apprentice/attempts/{attempt_id}/scenarios/1")


def diagnosis_of(scenario):
    return next(each for each in scenario.items if each.kind is ItemKind.DIAGNOSIS)


def test_before_any_step_the_state_as_found_is_shown(page, scenario):
    (row,) = page.rows(STEPS)

    assert row[1] == "As found"
    assert "Time left:" in page.text


def test_each_step_adds_a_line_with_what_was_seen(page, scenario):
    item = diagnosis_of(scenario)
    first, second = scenario.answers[item.id].key[:2]

    page = take_steps(page, scenario, item, [first])
    assert [each[1] for each in page.rows(STEPS)] == ["As found", item.diagnosis.move(first).text]
    key = scenario.answers[item.id].diagnosis
    assert page.rows(STEPS)[1][2].startswith(key.seen(first, key.cause))

    page = take_steps(page, scenario, item, [second])
    assert len(page.rows(STEPS)) == 3


def test_what_is_shown_on_the_way_tells_neither_the_cause_nor_a_score(page, scenario):
    item = diagnosis_of(scenario)
    key = scenario.answers[item.id]
    cures = [each for each in key.diagnosis.moves if key.diagnosis.cause in each.cures]
    page = take_steps(page, scenario, item, [cures[0].id])

    assert key.diagnosis.drawn.words not in page.text
    assert all(each.belief not in page.text for each in key.diagnosis.moves if each.belief)
    assert "Score" not in page.text


def test_after_the_end_no_step_is_offered(page, scenario):
    item = diagnosis_of(scenario)
    page = take_steps(page, scenario, item, scenario.answers[item.id].key)

    assert "nothing more is done here" in page.text
    assert not page.has_button(f"Take this step of {scenario.items.index(item) + 1}")


def test_a_page_left_behind_cannot_take_back_what_another_one_did(page, scenario):
    item = diagnosis_of(scenario)
    first, second = scenario.answers[item.id].key[:2]
    number = scenario.items.index(item) + 1
    take_steps(page, scenario, item, [first])

    late = page.submit(f"Take this step of {number}", **next_step(item, second))

    assert late.status == 422
    assert any("stand and cannot be taken back" in each for each in late.faults)
    assert len(late.rows(STEPS)) == 2


def test_the_same_step_sent_twice_is_taken_once(page, scenario, world, attempt_id):
    item = diagnosis_of(scenario)
    number = scenario.items.index(item) + 1
    sending = page.sending(f"Take this step of {number}", **next_step(item, scenario.answers[item.id].key[0]))

    page._client.send(sending)
    again = page._client.send(sending)

    assert len(again.rows(STEPS)) == 2


def test_the_result_shows_what_the_steps_led_to_and_what_the_best_plan_would_have(page, scenario):
    item = diagnosis_of(scenario)
    page = take_steps(page, scenario, item, scenario.answers[item.id].key)
    others = {key: each for key, each in answers_for(scenario).items() if key != item.id}

    result = page.submit("Hand in", **fill_in(scenario, others))

    key = scenario.answers[item.id].diagnosis
    assert result.text.startswith(
        f"{result.heading} It was this: {key.drawn.words}. It was put right in time."
    )
    own, best = (
        result.rows(each) for each in ("What your steps led to", "What the best plan would have led to")
    )
    assert own == best
    assert [each.text for each in map(item.diagnosis.move, scenario.answers[item.id].key)] == [
        each[1] for each in own[1:]
    ]
    assert "Oxygen from the first look to your last step" in result.text


def test_scores_and_steps_are_kept_apart_from_each_other_until_handing_in(world, scenario, attempt_id):
    item = diagnosis_of(scenario)
    plan = list(scenario.answers[item.id].key)
    assessment.keep_response(
        world.site, world.apprentice.acting, attempt_id=attempt_id, scenario_no=1, item_id=item.id, raw=plan
    )
    page = assessment.attempt_page(world.site, world.apprentice.acting, attempt_id=attempt_id)

    assert page.unfoldings[1, item.id].is_over
    assert not page.scenarios[0].scenario.answers
    assert isinstance(page.attempt_id, UUID)
