"""Diagnoses: what unfolds follows from the core and the steps alone, and only a diagnosis scores like one."""

import random
from functools import cache
from statistics import mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.domain.answered_set_up import right_set_up
from trainer.domain.diagnosis_parts import (
    MOST_STEPS,
    MoveKind,
)
from trainer.domain.errors import Missing
from trainer.domain.families import draw
from trainer.domain.items.diagnosis import diagnosis_outcome
from trainer.domain.marking import mark, own_set_up
from trainer.domain.run_purge import purge_course_of
from trainer.domain.unfolding import NoFurtherStep, Outcome, unfold
from trainer.scenario_files import (
    ResponseFault,
    load_content,
    parse_response,
    public_document,
    scenario_document,
    scenario_from_document,
)

CONTENT = load_content()
FAMILIES = ("will-not-come-down", "came-back", "slow-since-lunch", "man-down")
OF_THE_ROOT = FAMILIES[:3]
SEEDS = range(12)
CUT = 0.8


@cache
def drawn(family, seed):
    return draw(
        CONTENT.family(family),
        seed=seed,
        difficulty=seed % 11 / 10,
        policy=CONTENT.policy,
        hazards=CONTENT.hazards,
    )


def item_of(scenario):
    return next(each for each in scenario.items if each.diagnosis is not None)


def of_kind(item, kind):
    return [each.id for each in item.diagnosis.moves if each.kind is kind]


def until_over(item, steps):
    """The steps as far as anybody is let take them."""
    taken = []
    for each in steps:
        if item.diagnosis.is_over(taken) or len(taken) == MOST_STEPS:
            break
        taken.append(each)
    return tuple(taken)


def scored(scenario, steps):
    item = item_of(scenario)
    unfolding = unfold(scenario, item=item, steps=until_over(item, steps))
    return diagnosis_outcome(item, answer=scenario.answers[item.id], unfolding=unfolding)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_same_steps_unfold_the_same_and_more_steps_change_nothing_before_them(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        item, plan = item_of(scenario), scenario.answers[item_of(scenario).id].key
        whole = unfold(scenario, item=item, steps=plan)

        assert whole == unfold(scenario, item=item, steps=plan)
        for count in range(len(plan)):
            part = unfold(scenario, item=item, steps=plan[:count])
            assert not part.is_over
            for one, other in zip(part.steps, whole.steps, strict=False):
                assert (one.move_id, one.seen, one.shown_frac) == (
                    other.move_id,
                    other.seen,
                    other.shown_frac,
                )
                assert one.gas_m3 == pytest.approx(other.gas_m3, abs=1e-12)


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(FAMILIES), st.sampled_from(SEEDS), st.randoms(use_true_random=False))
def test_time_runs_on_gas_is_never_given_back_and_scores_lie_between_none_and_all(family, seed, dice):
    scenario = drawn(family, seed)
    item = item_of(scenario)
    moves = [each.id for each in item.diagnosis.moves]
    steps = until_over(item, [dice.choice(moves) for _ in range(12)])
    unfolding = unfold(scenario, item=item, steps=steps)

    for before, after in zip(unfolding.steps, unfolding.steps[1:], strict=False):
        assert after.time_s > before.time_s
        assert after.gas_m3 >= before.gas_m3 - 1e-12
        assert all(0.0 <= each <= 0.2095 + 1e-9 for each in after.true_frac)
        assert all(0.0 <= each <= 0.21 for each in after.shown_frac)
    assert 0.0 <= scored(scenario, steps).score <= 1.0


@pytest.mark.parametrize("family", OF_THE_ROOT)
def test_the_cured_section_comes_down_as_the_core_alone_says_it_does_or_sooner(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        item = item_of(scenario)
        answer = scenario.answers[item.id]
        plan = answer.key
        cure = next(
            n for n, each in enumerate(plan) if answer.diagnosis.cause in answer.diagnosis.move(each).cures
        )
        unfolding = unfold(scenario, item=item, steps=plan)
        alone_s = purge_course_of(right_set_up(scenario)).purge.time_to(answer.diagnosis.target_frac).expected

        waits = of_kind(item, MoveKind.WAIT)
        ready_s = unfolding.steps[-2].time_s - unfolding.steps[cure + 1].time_s
        longest_wait_s = max(item.diagnosis.move(each).takes_s for each in waits)
        assert ready_s <= alone_s + longest_wait_s
        assert unfolding.steps[-1].true_frac[0] <= answer.diagnosis.target_frac


@pytest.mark.parametrize("family", FAMILIES)
def test_the_plan_scores_one_and_leaves_the_right_set_up(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        item = item_of(scenario)
        plan = scenario.answers[item.id].key

        assert scored(scenario, plan).score == 1.0
        assert unfold(scenario, item=item, steps=plan).outcome is Outcome.READY
        own, missing = own_set_up(scenario, responses={item.id: plan})
        assert not set(item.sets) & set(missing)
        assert own.leaks == ()


@pytest.mark.parametrize("family", FAMILIES)
def test_what_was_stored_unfolds_as_what_was_drawn(family):
    scenario = drawn(family, 3)
    item = item_of(scenario)
    plan = scenario.answers[item.id].key
    stored = scenario_from_document(scenario_document(scenario, with_answers=True))

    assert stored.answers[item.id] == scenario.answers[item.id]
    assert unfold(stored, item=stored.item(item.id), steps=plan) == unfold(scenario, item=item, steps=plan)


@pytest.mark.parametrize("family", FAMILIES)
def test_what_is_shown_before_marking_holds_neither_cause_nor_what_checks_will_show(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        item = item_of(scenario)
        key = scenario.answers[item.id].diagnosis
        shown = next(each for each in public_document(scenario)["items"] if each["id"] == item.id)
        text = str(public_document(scenario))

        assert set(shown["diagnosis"]) <= {"moves", "limit_s", "watches", "opening"}
        assert all(set(each) == {"id", "kind", "text", "takes_s"} for each in shown["diagnosis"]["moves"])
        assert all(each.words not in text for each in key.causes)
        assert all(words not in text for move in key.moves for words in move.seen.values())


def strategies(scenario, dice):
    item = item_of(scenario)
    key = scenario.answers[item.id].diagnosis
    every = [each.id for each in item.diagnosis.moves]
    checks, waits = of_kind(item, MoveKind.CHECK), of_kind(item, MoveKind.WAIT)
    ends = of_kind(item, MoveKind.FINISH)
    aim = [each.id for each in key.moves if each.ending is not None and each.ending.is_aim]
    safe = [each for each in of_kind(item, MoveKind.ACTION) if not key.move(each).critical]
    return {
        "random": [dice.choice(every) for _ in range(MOST_STEPS)],
        "random, and struck at last": [dice.choice([*checks, *safe, *waits]) for _ in range(10)] + aim,
        "everything in order": [each for each in every if each not in ends] + aim,
        "every action, then the end": [*safe, *waits * 5, *aim],
        "every check, then the right cure": [
            *checks,
            *(each for each in scenario.answers[item.id].key if each not in (*checks, *waits, *aim)),
            *waits * 7,
            *aim,
        ],
        "one action by luck": [dice.choice(safe), *waits * 8, *aim],
        "at once": aim,
        "called at once": [each for each in ends if each not in aim],
        "waiting": [*(waits or checks) * 30, *aim],
    }


@pytest.mark.parametrize("family", FAMILIES)
def test_no_strategy_without_thought_reaches_the_cut_and_random_steps_score_little(family):
    dice = random.Random(20261125)
    found = {}
    for seed in SEEDS:
        for name, steps in strategies(drawn(family, seed), dice).items():
            found.setdefault(name, []).append(scored(drawn(family, seed), steps).score)

    assert max(score for scores in found.values() for score in scores) < CUT, found
    assert mean(found["random"]) < 0.3
    assert mean(found["random, and struck at last"]) < 0.3
    assert found["at once"] == found["called at once"] == [0.0] * len(SEEDS)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_step_that_tells_nothing_only_costs(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        item = item_of(scenario)
        plan = list(scenario.answers[item.id].key)
        again = [plan[0], *plan]

        assert scored(scenario, again).score < 1.0


@pytest.mark.parametrize("family", OF_THE_ROOT)
def test_striking_above_the_limit_fails_critically(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        key = scenario.answers[item_of(scenario).id].diagnosis
        strike = next(each.id for each in key.moves if each.ending is not None and each.ending.is_aim)
        outcome = scored(scenario, [strike])

        assert outcome.critical_missed
        assert outcome.score == 0.0


@pytest.mark.parametrize("family", ["will-not-come-down", "came-back", "man-down"])
def test_an_unsafe_step_fails_critically_whatever_comes_after_it(family):
    for seed in SEEDS:
        scenario = drawn(family, seed)
        answer = scenario.answers[item_of(scenario).id]
        for unsafe in (each for each in answer.diagnosis.moves if each.critical):
            outcome = scored(scenario, [unsafe.id, *answer.key])
            assert outcome.critical_missed
            assert outcome.score == 0.0
            assert unsafe.belief in outcome.misconceptions


def test_no_plan_sends_anybody_in_and_the_alarm_comes_before_all_else():
    for seed in SEEDS:
        scenario = drawn("man-down", seed)
        item = item_of(scenario)
        key = scenario.answers[item.id].diagnosis
        plan = scenario.answers[item.id].key

        assert not any(key.move(each).critical for each in plan)
        assert "alarm" in item.diagnosis.move(plan[0]).text
        hauls = [n for n, each in enumerate(plan) if "winch" in item.diagnosis.move(each).text]
        assert hauls in ([], [1])


def test_nothing_done_is_not_answered_and_counts_as_the_critical_thing_left_undone():
    scenario = drawn("will-not-come-down", 0)
    item = item_of(scenario)
    marked = mark(scenario, responses={}, policy=CONTENT.policy)
    outcome = next(each for each in marked.outcomes if each.item_id == item.id)

    assert (outcome.score, outcome.answered, outcome.critical_missed) == (0.0, False, True)


def test_steps_that_there_are_not_or_that_come_after_the_end_are_refused():
    scenario = drawn("will-not-come-down", 0)
    item = item_of(scenario)
    plan = scenario.answers[item.id].key

    with pytest.raises(Missing):
        unfold(scenario, item=item, steps=("m99",))
    with pytest.raises(NoFurtherStep):
        unfold(scenario, item=item, steps=(*plan, plan[0]))
    for raw in (["m99"], [*plan, plan[0]], [], "m1", 3, of_kind(item, MoveKind.WAIT) * (MOST_STEPS + 1)):
        with pytest.raises(ResponseFault):
            parse_response(item, raw)
