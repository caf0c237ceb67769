"""What a check says of scenarios whose key does not score 1, or whose other options score as much."""

from dataclasses import replace

import pytest

from trainer.domain.core_results import CoreResults
from trainer.domain.families import draw
from trainer.domain.items.choice import choice_outcome
from trainer.scenario_files import load_content
from trainer.scenario_files.content_check import checked_family, faults_of_run, faults_of_scores

CONTENT = load_content()


def scenario(family="end-plates"):
    return draw(
        CONTENT.family(family), seed=7, difficulty=0.5, policy=CONTENT.policy, hazards=CONTENT.hazards
    )


def with_key(drawn, item_id, key):
    return replace(drawn, answers={**drawn.answers, item_id: replace(drawn.answers[item_id], key=key)})


def scored(drawn):
    return faults_of_scores(drawn, CoreResults(CONTENT.policy))


@pytest.mark.parametrize("family", ["end-plates", "came-back", "test-plate", "man-down"])
def test_a_sound_scenario_has_nothing_told_of_it(family):
    assert scored(scenario(family)) == []
    assert faults_of_run(scenario(family), CONTENT) == []


def test_a_key_that_does_not_score_1_is_named_with_its_score_and_seed():
    (told,) = scored(with_key(scenario(), "wait", 30.0))
    assert told.startswith("seed 7, difficulty 0.5: the key of wait scores 0.")


def test_a_key_that_could_not_be_typed_is_told_rather_than_raised():
    (told,) = scored(with_key(scenario(), "wait", 1e9))
    assert told.startswith("seed 7, difficulty 0.5: the key of wait is refused: ")


def test_every_other_option_that_scores_as_much_as_the_key_is_named(monkeypatch):
    drawn = scenario()
    others = {
        (item.id, option.id)
        for item in drawn.items
        for option in item.options
        if option.id != drawn.answers[item.id].key
    }

    def generous(item, *, answer, response):
        return replace(choice_outcome(item, answer=answer, response=response), score=1.0)

    monkeypatch.setattr("trainer.domain.marking.choice_outcome", generous)
    told = scored(drawn)
    assert len(told) == len(others) > 4
    assert all(
        any(f"option {option} of {item} scores as much as its key" in each for each in told)
        for item, option in others
    )


def test_keys_that_fail_an_attempt_are_told_of_with_the_right_set_up_that_does_not_run():
    drawn = scenario()
    no_vent = replace(
        drawn, set_up=replace(drawn.set_up, section=replace(drawn.set_up.section, left_dam_m=9e9))
    )
    assert any("the right set-up does not run: " in each for each in faults_of_run(no_vent, CONTENT))
    assert any(
        each.endswith("the keys do not pass")
        for each in faults_of_run(with_key(drawn, "wait", 30.0), CONTENT)
    )


def test_the_key_and_every_other_option_of_every_seed_are_marked():
    found = checked_family(CONTENT.family("end-plates"), CONTENT, seeds=range(12))
    drawn = [
        draw(CONTENT.family("end-plates"), seed=seed, difficulty=(0.0, 0.5, 1.0)[seed % 3],
             policy=CONTENT.policy, hazards=CONTENT.hazards)
        for seed in range(12)
    ]  # fmt: skip
    assert found.marked_count == found.drawn_count == 12
    assert found.others_count == sum(
        len(item.options) - 1 for each in drawn for item in each.items if item.options
    )
    assert found.line.endswith(f"12 keys and {found.others_count} other options marked: ok")
