"""Explanations: no score before a person has graded; then the weighted share of points, by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.items.explanation import explanation_outcome, fails_critically, graded_score
from trainer.domain.scenario import Criterion, Item, ItemKind

LEVELS = ("nothing of it", "a little", "most of it", "all of it")
RUBRIC = (
    Criterion(id="why", text="Why", levels=LEVELS, weight=2.0),
    Criterion(id="where", text="Where", levels=LEVELS),
    Criterion(id="air", text="Air tested first", levels=LEVELS, critical=True),
)
ITEM = Item(id="say-why", kind=ItemKind.EXPLANATION, skill=4, text="Say why.", rubric=RUBRIC)
SOME_LEVELS = st.fixed_dictionaries({each.id: st.integers(0, 3) for each in RUBRIC})


def test_what_was_written_waits_for_a_person() -> None:
    outcome = explanation_outcome(ITEM, response="Because argon sinks.")
    assert outcome.score is None
    assert outcome.answered
    assert not outcome.correct
    assert not outcome.critical_missed


def test_nothing_written_scores_nothing_and_misses_what_is_critical() -> None:
    outcome = explanation_outcome(ITEM, response=None)
    assert (outcome.score, outcome.answered, outcome.critical_missed) == (0.0, False, True)


@pytest.mark.parametrize(
    ("levels", "score"),
    [
        ({"why": 3, "where": 3, "air": 3}, 1.0),
        ({"why": 0, "where": 0, "air": 0}, 0.0),
        ({"why": 2, "where": 1, "air": 3}, (2 * 2 + 1 + 3) / 12),  # weights 2, 1, 1 and three points each
        ({"why": 0, "where": 3, "air": 3}, 6 / 12),
    ],
)
def test_the_score_is_the_weighted_share_of_points(levels: dict[str, int], score: float) -> None:
    assert graded_score(RUBRIC, levels=levels) == pytest.approx(score, abs=1e-12)


@given(SOME_LEVELS, st.sampled_from([each.id for each in RUBRIC]))
def test_scores_lie_in_0_to_1_and_a_higher_level_never_scores_less(levels: dict[str, int], one: str) -> None:
    score = graded_score(RUBRIC, levels=levels)
    assert 0.0 <= score <= 1.0
    assert graded_score(RUBRIC, levels={**levels, one: 3}) >= score


@given(SOME_LEVELS)
def test_only_a_critical_criterion_at_0_is_a_critical_failure(levels: dict[str, int]) -> None:
    assert fails_critically(RUBRIC, levels=levels) is (levels["air"] == 0)
