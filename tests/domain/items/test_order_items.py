"""Order items: required precedences kept, steps that do not belong, and what fails an attempt."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.items.order import covers, order_outcome, score_order
from trainer.domain.scenario import Answer, Item, ItemKind, LeftOut, OrderStep, Precedence

# assessment_checks.csv ORD-04 and ORD-05: a partial order of six steps
ORD_04 = [("A", "C"), ("B", "C"), ("C", "D"), ("D", "E"), ("D", "F")]


def test_one_broken_precedence_of_five_scores_what_the_reference_row_says():
    # ORD-04, arithmetic: q = 0.8
    assert score_order("BCADFE", precedences=ORD_04, wrongly_in=0) == pytest.approx(0.6, abs=1e-12)


def test_a_random_order_keeps_half_of_the_precedences_on_average():
    # ORD-05, enumeration of all 720 orders: mean q = 0.5
    kept = [
        sum(order.index(a) < order.index(b) for a, b in ORD_04) / len(ORD_04)
        for order in permutations("ABCDEF")
    ]
    assert sum(kept) / len(kept) == pytest.approx(0.5, abs=1e-9)
    scores = [score_order(order, precedences=ORD_04, wrongly_in=0) for order in permutations("ABCDEF")]
    assert sum(scores) / len(scores) < 0.25


def test_a_chain_is_not_counted_twice():
    assert covers([("A", "B"), ("B", "C"), ("A", "C")]) == {("A", "B"), ("B", "C")}


@given(st.permutations("ABCDEF"))
def test_scores_lie_between_nothing_and_full_and_only_a_right_order_scores_full(order):
    score = score_order(order, precedences=ORD_04, wrongly_in=0)
    assert 0.0 <= score <= 1.0
    is_right = all(order.index(a) < order.index(b) for a, b in ORD_04)
    assert (score == 1.0) is is_right


@given(st.permutations("ABCDEF"), st.integers(0, 3))
def test_a_step_that_does_not_belong_never_raises_the_score(order, wrongly_in):
    less = score_order(order, precedences=ORD_04, wrongly_in=wrongly_in + 1)
    assert less <= score_order(order, precedences=ORD_04, wrongly_in=wrongly_in)


def test_a_step_left_out_breaks_every_precedence_that_it_stands_in():
    assert score_order("ABCEF", precedences=ORD_04, wrongly_in=0) == 0.0  # D is in three of five


ITEM = Item(
    id="entry", kind=ItemKind.ORDER, skill=11, text="In which order?",
    steps=tuple(OrderStep(id=i, text=t) for i, t in (("s1", "test"), ("s2", "enter"), ("s3", "ventilate"), ("s4", "sniff"))),
)  # fmt: skip
ANSWER = Answer(
    item_id="entry",
    key=("s3", "s1", "s2"),
    precedences=(
        Precedence(before="s3", after="s1", why="a test before the fan says nothing"),
        Precedence(before="s1", after="s2", why="nobody goes in untested", critical=True),
    ),
    left_out=(LeftOut(step_id="s4", misconception="I would smell it", critical=True),),
)


def test_the_key_scores_full():
    outcome = order_outcome(ITEM, answer=ANSWER, order=ANSWER.key)
    assert (outcome.score, outcome.correct, outcome.critical_missed) == (1.0, True, False)


def test_entering_before_the_test_fails_the_attempt_and_says_why():
    outcome = order_outcome(ITEM, answer=ANSWER, order=("s3", "s2", "s1"))
    assert outcome.critical_missed
    assert outcome.why == ("test comes before enter: nobody goes in untested",)


def test_a_less_important_slip_costs_marks_only():
    outcome = order_outcome(ITEM, answer=ANSWER, order=("s1", "s3", "s2"))
    assert (outcome.score, outcome.critical_missed) == (0.0, False)


def test_a_dangerous_step_taken_in_fails_the_attempt_and_names_the_belief():
    outcome = order_outcome(ITEM, answer=ANSWER, order=("s3", "s4", "s1", "s2"))
    assert outcome.critical_missed
    assert not outcome.correct
    assert outcome.misconceptions == ("I would smell it",)


def test_no_answer_to_a_critical_order_fails_like_a_wrong_one():
    outcome = order_outcome(ITEM, answer=ANSWER, order=None)
    assert (outcome.answered, outcome.score, outcome.critical_missed) == (False, 0.0, True)
