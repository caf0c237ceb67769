"""Simulated apprentices at drawn scenarios: who knows everything gives the key, who knows nothing does not pass."""

from dataclasses import replace
from functools import cache
from statistics import fmean

import pytest

from trainer.domain.core_results import CoreResults
from trainer.domain.families import Sources, draw_counted
from trainer.domain.marking import mark
from trainer.domain.simulation.answers import responses_of
from trainer.domain.simulation.closeness import margins_of
from trainer.domain.simulation.demands import demands_of
from trainer.domain.simulation.habits import habits_from
from trainer.domain.simulation.person import Person, Task
from trainer.scenario_files import load_content

# between them every kind of item
FAMILIES = ("riser", "end-plates", "sloping-header", "night-shift", "will-not-come-down", "pump-pit")
CONTENT = load_content()
SOURCES = Sources(policy=CONTENT.policy, hazards=CONTENT.hazards)


@cache
def drawn(family, seed, difficulty=0.5):
    return draw_counted(CONTENT.family(family), seed=seed, difficulty=difficulty, sources=SOURCES)


@cache
def habits(family):
    return habits_from(drawn(family, seed, 0.0).scenario for seed in range(100, 106))


def responses(scenario, margins, ability):
    task = Task(
        scenario=scenario,
        demands={each.id: demands_of(scenario, item=each) for each in scenario.items},
        margins=margins,
        habits=habits(scenario.family),
        core=CoreResults(CONTENT.policy),
    )
    return responses_of(Person(ability_logits=ability, task=task))


def marked(family, seed, ability):
    found = drawn(family, seed)
    given = responses(found.scenario, margins_of(found.drawn), ability)
    return mark(found.scenario, responses=given, policy=CONTENT.policy)


def scores(found):
    return [each.score for each in found.outcomes if each.score is not None]


@pytest.mark.parametrize("family", FAMILIES)
def test_who_overlooks_nothing_gives_the_key(family):
    for seed in range(3):
        found = marked(family, seed, 40.0)
        assert scores(found) == pytest.approx([1.0] * len(scores(found)))
        assert found.passed is not False


@pytest.mark.parametrize("family", FAMILIES)
def test_who_knows_nothing_answers_everything_and_does_not_pass(family):
    for seed in range(3):
        found = marked(family, seed, -40.0)
        assert all(each.answered for each in found.outcomes)
        assert found.passed is False


def test_the_abler_do_better():
    means = [
        fmean(
            score
            for family in FAMILIES
            for seed in range(4)
            for score in scores(marked(family, seed, ability))
        )
        for ability in (-2.0, 0.0, 2.0)
    ]
    assert means[0] + 0.1 < means[1] < means[2] - 0.1


@pytest.mark.parametrize("family", FAMILIES)
def test_the_number_of_the_difficulty_changes_no_answer(family):
    found = drawn(family, 1)
    said_to_be_hard = replace(found.scenario, difficulty=1.0)
    margins = margins_of(found.drawn)
    assert responses(found.scenario, margins, -0.5) == responses(said_to_be_hard, margins, -0.5)


def test_the_same_person_at_the_same_scenario_answers_the_same():
    assert marked("riser", 1, 0.0).outcomes == marked("riser", 1, 0.0).outcomes


def test_a_habit_is_what_was_right_in_the_easy_scenarios_in_any_size():
    scenario = drawn("end-plates", 100, 0.0).scenario
    item = next(each for each in scenario.items if each.options)
    right = scenario.answers[item.id].key
    assert habits_from([scenario]).expected(item) == right
    assert habits_from([]).expected(item) is None


def test_margins_are_positive_where_a_number_decides():
    margins = margins_of(drawn("sloping-header", 2).drawn)
    assert margins
    assert all(each > 0.0 for each in margins.values())
