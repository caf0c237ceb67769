"""How many scenarios a family holds: estimators against values worked by hand and the counting of draws."""

import pytest

from trainer.domain.family import Choice, NamedDraw, ScenarioFamily
from trainer.domain.family_values import Span
from trainer.domain.simulation.distinct import chance_of_a_repeat, chao1, combinations, combinations_kept


def seen(*counts):
    return [f"kind {number}" for number, count in enumerate(counts) for _ in range(count)]


def test_chao1_is_the_bias_corrected_form():
    # Worked by hand from the formula: 9 kinds seen, 3 of them once, 3 twice: 9 + 3 * 2 / (2 * 4)
    assert chao1(seen(1, 1, 4, 2, 5, 2, 4, 1, 2)) == pytest.approx(9.75)
    assert chao1(seen(2, 2, 3)) == 3.0


def test_where_nothing_repeats_the_bound_grows_with_the_square():
    # 100 kinds once each, none twice: 100 + 100 * 99 / 2
    assert chao1(seen(*[1] * 100)) == 5050.0


def test_two_of_365_days_are_the_same_among_23_people_half_of_the_time():
    # The birthday problem; 0.507297 for 23 people is in Feller, Probability Theory 1, II.3 (from memory).
    assert chance_of_a_repeat(365, attempts=23) == pytest.approx(0.507297, abs=1e-6)
    assert chance_of_a_repeat(10, attempts=11) == 1.0
    assert chance_of_a_repeat(10, attempts=1) == 0.0


def family_of(*draws):
    return ScenarioFamily(
        id="f", title="", subtitle="", skills=(), situation="", draws=draws, set_up={}, variants={},
        constraints=(), facts=(), figures={}, items=(), content_version="1",
    )  # fmt: skip


def test_combinations_are_what_takes_part_at_the_difficulty():
    hard = Choice(value="c", span=Span(low=0.5))
    family = family_of(
        NamedDraw(name="one", choices=(Choice(value="a"), Choice(value="b"), hard)),
        NamedDraw(name="two", choices=(Choice(value="x"), Choice(value="y"))),
    )
    assert combinations(family, difficulty=0.0) == 4
    assert combinations(family, difficulty=0.5) == 6
    assert combinations_kept(family, difficulty=0.5, kept_frac=0.5) == 3.0
