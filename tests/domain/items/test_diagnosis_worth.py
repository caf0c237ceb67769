"""What each step of a diagnosis is worth, against figures worked by hand."""

from dataclasses import replace
from itertools import permutations

import pytest

from trainer.domain.diagnosis_parts import (
    CauseKey,
    DiagnosisKey,
    DiagnosisSheet,
    Move,
    MoveKey,
    MoveKind,
    Watched,
)
from trainer.domain.diagnosis_worth import best_check, informed_frac, step_worths

# Three causes, a check that parts one from two, and one that tells them all; worked by hand.
SHEET = DiagnosisSheet(
    moves=(
        Move(id="half", kind=MoveKind.CHECK, text="", takes_s=60.0),
        Move(id="all", kind=MoveKind.CHECK, text="", takes_s=180.0),
        Move(id="cure", kind=MoveKind.ACTION, text="", takes_s=120.0),
    ),
    limit_s=3600.0,
    watches=Watched.ROOT,
    opening=(0.01, 0.01),
)
KEY = DiagnosisKey(
    cause="b",
    causes=tuple(CauseKey(id=each, words=each) for each in "abc"),
    moves=(
        MoveKey(id="half", seen={"sound": "no", "a": "yes"}),
        MoveKey(id="all", seen={"sound": "no", "a": "1", "b": "2", "c": "3"}),
        MoveKey(id="cure", cures=("b",)),
    ),
    sound=(),
    target_frac=0.001,
    faulty_s=60.0,
)


def test_a_check_rules_out_the_share_that_its_answers_part():
    # by hand: 1 - (1/3)^2 - (2/3)^2 = 4/9, and 1 - 3 (1/3)^2 = 2/3
    assert informed_frac(KEY, check="half", possible="abc") == pytest.approx(4 / 9)
    assert informed_frac(KEY, check="all", possible="abc") == pytest.approx(2 / 3)
    assert informed_frac(KEY, check="half", possible="bc") == 0.0


def test_worth_is_what_a_minute_of_a_step_brings_against_the_best_one():
    # by hand, a minute: half 4/9, all 2/9, so that all is worth a half; after it the cure is sure
    whole, cure = step_worths(SHEET, key=KEY, steps=("all", "cure"))
    assert (whole.worth, whole.possible, whole.wasted_s) == (pytest.approx(0.5), {"b"}, pytest.approx(90.0))
    assert (cure.worth, cure.sure_frac) == (1.0, 1.0)

    # after half two causes are left: the cure is one in two
    _, guess = step_worths(SHEET, key=KEY, steps=("half", "cure"))
    assert (guess.worth, guess.sure_frac) == (pytest.approx(0.5), pytest.approx(0.5))


def test_what_comes_before_its_place_is_worth_nothing():
    first = replace(KEY, moves=(*KEY.moves[:2], replace(KEY.moves[2], first=1)))
    early, _ = step_worths(SHEET, key=first, steps=("half", "cure"))

    assert early.worth == 0.0


def test_the_order_of_the_causes_changes_no_worth():
    # by hand: of six causes three alone and three together, 1 - (9 + 3) / 36 = 2/3
    seen = {"sound": "no", "a": "1", "b": "2", "c": "3"}
    six = replace(
        KEY,
        causes=tuple(CauseKey(id=each, words=each) for each in "abcdef"),
        moves=(replace(KEY.moves[0], seen=seen), *KEY.moves[1:]),
    )
    found = {informed_frac(six, check="half", possible=each) for each in permutations("abcdef")}

    assert len(found) == 1
    assert float(found.pop()) == 2 / 3


def test_of_checks_that_tell_as_much_a_minute_the_soonest_done_is_the_best():
    # by hand: half 4/9 in 60 s and all 2/3 in 90 s come to the same a second; floats would part them
    alike = replace(SHEET, moves=(replace(SHEET.moves[1], takes_s=90.0), SHEET.moves[0], SHEET.moves[2]))

    assert best_check(alike, key=KEY, possible=frozenset("abc")).id == "half"
    assert [each.worth for each in step_worths(alike, key=KEY, steps=("half",))] == [1.0]
    assert [each.worth for each in step_worths(alike, key=KEY, steps=("all",))] == [1.0]
