"""States, time limits and seeds of attempts."""

from datetime import datetime, timedelta
from itertools import product

import pytest
from domain_values import LIMIT, START, attempt, mark
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.attempts import (
    LARGEST_SEED,
    AttemptKind,
    AttemptState,
    advanced,
    expiry,
    needs_settling,
    require_open,
    score_text,
    seed_in_space,
    time_is_up,
    weighted_mean,
)
from trainer.domain.errors import WrongState

ALLOWED = {
    (AttemptState.OPEN, AttemptState.SUBMITTED),
    (AttemptState.OPEN, AttemptState.EXPIRED),
    (AttemptState.SUBMITTED, AttemptState.MARKED),
    (AttemptState.EXPIRED, AttemptState.MARKED),
    (AttemptState.MARKED, AttemptState.SUPERSEDED),
    (AttemptState.SUPERSEDED, AttemptState.SUPERSEDED),
}


@pytest.mark.parametrize(("state", "to"), list(product(AttemptState, AttemptState)))
def test_attempt_goes_forward_only(state: AttemptState, to: AttemptState) -> None:
    if (state, to) in ALLOWED:
        assert advanced(state, to=to) is to
    else:
        with pytest.raises(WrongState):
            advanced(state, to=to)


def test_answers_may_be_shown_once_marked() -> None:
    shown = [each for each in AttemptState if each.has_marks]
    assert shown == [AttemptState.MARKED, AttemptState.SUPERSEDED]


def test_time_is_up_at_the_very_limit_and_not_before() -> None:
    assert not time_is_up(LIMIT, now=LIMIT - timedelta(microseconds=1))
    assert time_is_up(LIMIT, now=LIMIT)
    assert not time_is_up(None, now=LIMIT)


def test_expiry_is_fixed_by_start_and_limit() -> None:
    assert expiry(START, time_limit_s=600) == LIMIT
    assert expiry(START, time_limit_s=None) is None


def test_response_is_refused_after_the_limit_with_the_time_it_ended() -> None:
    require_open(attempt(), now=LIMIT - timedelta(seconds=1))
    with pytest.raises(WrongState, match="2026-03-02 09:10:00 UTC"):
        require_open(attempt(), now=LIMIT)
    with pytest.raises(WrongState, match="handed in"):
        require_open(attempt(state=AttemptState.SUBMITTED), now=START)


@pytest.mark.parametrize(
    ("state", "now", "needs"),
    [
        (AttemptState.OPEN, START, False),
        (AttemptState.OPEN, LIMIT, True),
        (AttemptState.SUBMITTED, START, True),
        (AttemptState.EXPIRED, LIMIT, True),
        (AttemptState.MARKED, LIMIT, False),
        (AttemptState.SUPERSEDED, LIMIT, False),
    ],
)
def test_what_is_over_and_unmarked_needs_settling(state: AttemptState, now: datetime, needs: bool) -> None:
    assert needs_settling(attempt(state=state), now=now) is needs


def test_running_out_of_time_is_told_from_handing_in() -> None:
    assert attempt(state=AttemptState.MARKED, ended_at=LIMIT).ran_out_of_time
    assert not attempt(state=AttemptState.MARKED, ended_at=START).ran_out_of_time
    assert not attempt().ran_out_of_time


@given(st.integers(0, LARGEST_SEED), st.integers(0, LARGEST_SEED))
def test_no_seed_of_practice_is_ever_one_of_assessment(first: int, second: int) -> None:
    practice = seed_in_space(first, kind=AttemptKind.PRACTICE)
    assessed = seed_in_space(second, kind=AttemptKind.ASSESSED)
    assert practice != assessed
    assert 0 <= practice <= LARGEST_SEED
    assert 0 <= assessed <= LARGEST_SEED


@pytest.mark.parametrize("raw_count", [-1, LARGEST_SEED + 1])
def test_seed_out_of_range_is_refused(raw_count: int) -> None:
    with pytest.raises(ValueError, match="between 0"):
        seed_in_space(raw_count, kind=AttemptKind.PRACTICE)


def test_mean_is_weighted() -> None:
    """(3 x 1 + 1 x 0) / 4 = 0.75, worked by hand."""
    marks = (mark(weight=3.0), mark(item_id="supply", weight=1.0, score=0.0))
    assert weighted_mean(marks) == pytest.approx(0.75)


def test_mean_over_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="no weight"):
        weighted_mean(())


@pytest.mark.parametrize(
    ("score_frac", "text"),
    [
        (0.0, "0.000"),
        (1.0, "1.000"),
        (0.7999, "0.799"),
        (0.8, "0.800"),
        (0.1 + 0.7, "0.800"),
        (2 / 3, "0.666"),
    ],
)
def test_score_is_written_rounded_down_so_that_no_missed_cut_looks_reached(
    score_frac: float, text: str
) -> None:
    """0.1 + 0.7 is 0.7999999999999999 in binary and still counts as 0.8."""
    assert score_text(score_frac) == text
