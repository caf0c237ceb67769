"""The pass rules over an attempt of several scenarios."""

from dataclasses import replace

import pytest
from domain_values import mark
from hypothesis import given
from hypothesis import strategies as st

from trainer.domain.modules import (
    Blueprint,
    BlueprintRow,
    FamilyOutline,
    ItemOutline,
    blueprint_faults,
    drawn_families,
    judge,
)


def row(**changes: object) -> BlueprintRow:
    values = {"skill": 6, "families": ("long-run",), "count": 1, "difficulty": 0.0}
    return BlueprintRow(**{**values, **changes})


def blueprint(**changes: object) -> Blueprint:
    return Blueprint(**{"rows": (row(),), "pass_mark_frac": 0.8, **changes})


def test_full_marks_pass() -> None:
    verdict = judge(blueprint(), marks=(mark(),))
    assert verdict.passed
    assert verdict.total_frac == 1.0


def test_good_work_in_one_skill_does_not_pay_for_another() -> None:
    marks = (mark(weight=9.0), mark(item_id="vent", skill=4, score=0.7))
    verdict = judge(blueprint(), marks=marks)
    assert verdict.total_frac == pytest.approx(0.97)
    assert [(each.skill, each.reached) for each in verdict.skills] == [(4, False), (6, True)]
    assert not verdict.passed


def test_within_a_skill_the_weighted_mean_over_all_scenarios_counts() -> None:
    """(1 + 1 + 0.5) / 3 = 0.833, worked by hand."""
    marks = tuple(mark(scenario_no=number, score=score) for number, score in ((1, 1.0), (2, 1.0), (3, 0.5)))
    verdict = judge(blueprint(), marks=marks)
    assert verdict.skills[0].mean_frac == pytest.approx(0.8333, abs=1e-4)
    assert verdict.passed


def test_mean_that_only_floating_point_keeps_from_the_cut_reaches_it() -> None:
    """0.7999999999999999 of 0.80, by three tenths and binary fractions."""
    marks = tuple(mark(item_id=str(place), score=0.1 * 8) for place in range(3))
    assert judge(blueprint(pass_mark_frac=0.8), marks=marks).passed
    assert not judge(blueprint(), marks=(mark(score=0.7999),)).passed


def test_row_may_set_its_own_cut_and_the_strictest_counts() -> None:
    rows = (row(cut_frac=0.6), row(cut_frac=0.9), row(skill=4))
    made = blueprint(rows=rows)
    assert (made.cut_for(6), made.cut_for(4), made.cut_for(11)) == (0.9, 0.8, 0.8)


def test_critical_failure_fails_whatever_the_total() -> None:
    marks = (mark(weight=99.0), mark(item_id="look", weight=0.01, critical_missed=True))
    verdict = judge(blueprint(), marks=marks)
    assert verdict.critical_failures == ("1/look",)
    assert not verdict.passed


def test_item_that_the_module_makes_critical_must_be_right() -> None:
    made = blueprint(critical_items=("long-run/wait",), pass_mark_frac=0.5)
    almost = mark(score=0.9, correct=False)
    assert not judge(made, marks=(almost,)).passed
    assert judge(made, marks=(mark(),)).passed
    assert judge(made, marks=(replace(almost, family="riser"),)).passed


def test_unanswered_item_fails_even_with_the_mean_reached() -> None:
    marks = (mark(weight=99.0), mark(item_id="supply", score=0.0, correct=False, answered=False))
    verdict = judge(blueprint(), marks=marks)
    assert verdict.unanswered == ("1/supply",)
    assert not verdict.passed


def test_skill_of_the_blueprint_that_was_not_asked_is_not_reached() -> None:
    verdict = judge(blueprint(rows=(row(), row(skill=4))), marks=(mark(),))
    missing = verdict.skills[0]
    assert (missing.skill, missing.mean_frac, missing.reached) == (4, None, False)
    assert not verdict.passed


def test_nothing_marked_does_not_pass() -> None:
    assert not judge(blueprint(rows=()), marks=()).passed


SCORES = st.floats(0, 1, allow_nan=False)


@given(st.lists(st.tuples(SCORES, st.sampled_from([3, 4, 6])), min_size=1, max_size=8), st.data())
def test_better_marks_never_turn_a_pass_into_a_failure(scores: list[tuple[float, int]], data) -> None:
    marks = tuple(
        mark(item_id=str(place), score=score, skill=skill) for place, (score, skill) in enumerate(scores)
    )
    place = data.draw(st.integers(0, len(marks) - 1))
    better = data.draw(st.floats(marks[place].score, 1, allow_nan=False))
    raised = tuple(replace(each, score=better) if each is marks[place] else each for each in marks)
    before, after = judge(blueprint(), marks=marks), judge(blueprint(), marks=raised)
    assert after.passed >= before.passed
    assert 0.0 <= after.total_frac <= 1.0 + 1e-12


OUTLINES = {
    "long-run": FamilyOutline(
        family="long-run",
        title="Long run",
        items=(
            ItemOutline(item_id="wait", skill=6),
            ItemOutline(item_id="meter", skill=5, difficulty_from=0.5),
        ),
    )
}


@pytest.mark.parametrize(
    ("changes", "codes"),
    [
        ({}, []),
        ({"rows": ()}, ["module-without-rows"]),
        ({"rows": (row(skill=5),)}, ["family-does-not-ask-skill"]),
        ({"rows": (row(skill=5, difficulty=0.5),)}, []),
        ({"rows": (row(difficulty=1.01),)}, ["difficulty-out-of-range"]),
        ({"rows": (row(count=13),)}, ["row-count-out-of-range"]),
        ({"rows": (row(count=12),) * 4}, ["module-too-long"]),
        ({"rows": (row(cut_frac=0.0),)}, ["cut-out-of-range"]),
        ({"pass_mark_frac": 1.2}, ["pass-mark-out-of-range"]),
        ({"time_limit_s": 59}, ["time-limit-out-of-range"]),
        ({"time_limit_s": 60}, []),
        ({"critical_items": ("long-run/wait",)}, []),
        ({"critical_items": ("long-run/meter",)}, ["unknown-critical-item"]),
    ],
)
def test_faults_of_a_blueprint_are_named(changes: dict, codes: list[str]) -> None:
    """An item that is only asked at a higher difficulty is unknown to a row below it."""
    found = blueprint_faults(blueprint(**changes), families=OUTLINES)
    assert [each.code for each in found] == codes


def test_rows_go_round_their_families_from_turn_to_turn() -> None:
    made = blueprint(rows=(row(families=("a", "b", "c"), count=2), row(families=("d",))))
    drawn = [[family for family, _ in drawn_families(made, turn=turn)] for turn in range(3)]
    assert drawn == [["a", "b", "d"], ["b", "c", "d"], ["c", "a", "d"]]
