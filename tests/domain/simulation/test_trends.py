"""Slopes against an independent library, and steps that go the wrong way."""

import random

import pytest
from scipy.stats import linregress

from trainer.domain.simulation.trends import (
    Slope,
    cells_of,
    least_squares,
    slope_over_ability,
    slope_over_difficulty,
    turning_steps,
)
from trainer.domain.simulation.trials import Trial


def trials(score, *, seeds=20, noise=0.02):
    dice = random.Random(5)
    return [
        Trial(
            seed=seed,
            difficulty=difficulty,
            ability_logits=ability,
            score=score(difficulty, ability) + dice.gauss(0.0, noise),
            passed=score(difficulty, ability) > 0.5,
        )
        for difficulty in (0.0, 0.5, 1.0)
        for seed in range(seeds)
        for ability in (-1.0, 0.0, 1.0)
    ]


def test_slope_and_error_are_those_of_scipy():
    dice = random.Random(3)
    points = [(dice.random(), dice.random()) for _ in range(40)]
    expected = linregress(*zip(*points, strict=True))
    found = least_squares(points)
    assert (found.value, found.standard_error) == pytest.approx((expected.slope, expected.stderr))


def test_what_falls_with_difficulty_and_rises_with_ability_is_found():
    found = trials(lambda difficulty, ability: 0.6 - 0.2 * difficulty + 0.1 * ability)
    assert slope_over_difficulty(found).value == pytest.approx(-0.2, abs=0.02)
    assert slope_over_difficulty(found).is_surely_negative
    assert slope_over_ability(found).value == pytest.approx(0.1, abs=0.01)
    assert slope_over_ability(found).is_surely_positive
    assert turning_steps(found) == ()


def test_a_difficulty_that_changes_nothing_is_no_fall():
    found = trials(lambda _, ability: 0.6 + 0.1 * ability)
    assert not slope_over_difficulty(found).is_surely_negative


def test_a_middle_that_is_harder_than_the_end_is_told():
    found = trials(lambda difficulty, ability: (0.6 if difficulty != 0.5 else 0.2) + 0.1 * ability)
    assert turning_steps(found) == ("success rises from difficulty 0.5 to 1",)


def test_an_ability_that_does_harm_is_told():
    found = trials(lambda difficulty, ability: 0.6 - 0.2 * difficulty - 0.1 * ability)
    assert turning_steps(found) == (
        "success falls from ability -1 to 0",
        "success falls from ability 0 to 1",
    )


def test_cells_hold_the_mean_and_the_share_that_passes():
    found = cells_of(trials(lambda difficulty, ability: 0.6 - 0.2 * difficulty + 0.1 * ability, noise=0.0))
    assert [(each.ability_logits, each.difficulty) for each in found][:3] == [
        (-1.0, 0.0),
        (-1.0, 0.5),
        (-1.0, 1.0),
    ]
    assert found[0].mean_score == pytest.approx(0.5)
    shares = {(each.ability_logits, each.difficulty): each.pass_frac for each in found}
    assert (shares[1.0, 0.0], shares[-1.0, 1.0]) == (1.0, 0.0)
    assert all(each.count == 20 for each in found)


def test_a_slope_is_sure_from_1_645_errors_on():
    # one-sided 5 % point of the normal distribution
    assert Slope(value=-0.0165, standard_error=0.01).is_surely_negative
    assert not Slope(value=-0.0164, standard_error=0.01).is_surely_negative
