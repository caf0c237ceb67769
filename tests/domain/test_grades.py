"""Verdicts while explanations wait, and grades: what they need, and what they make of the marks."""

import pytest

from trainer.domain.attempts import ItemMark, score_text, weighted_mean
from trainer.domain.errors import Missing, WrongState
from trainer.domain.grades import Grade, grade_faults, graded
from trainer.domain.modules import Blueprint, BlueprintRow, judge
from trainer.domain.overrides import Override, require_graded
from trainer.domain.scenario import Criterion

LEVELS = ("nothing of it", "a little", "most of it", "all of it")
RUBRIC = (
    Criterion(id="why", text="Why", levels=LEVELS),
    Criterion(id="where", text="Where", levels=LEVELS),
    Criterion(id="air", text="Air tested first", levels=LEVELS, critical=True),
)
ROWS = tuple(BlueprintRow(skill=skill, families=("end-plates",), count=1, difficulty=0.5) for skill in (4, 6))
BLUEPRINT = Blueprint(rows=ROWS, pass_mark_frac=0.8)


def mark(item_id: str, score: float | None, *, skill: int = 4, **changes: object) -> ItemMark:
    values = {
        "scenario_no": 1,
        "family": "end-plates",
        "item_id": item_id,
        "skill": skill,
        "weight": 1.0,
        "score": score,
        "correct": score == 1.0,
        "answered": True,
        "critical_missed": False,
    }
    return ItemMark(**{**values, **changes})


WAITING = mark("say-why", None)
TIME = mark("wait", 1.0, skill=6)


def test_a_pass_stays_open_while_an_explanation_waits() -> None:
    verdict = judge(BLUEPRINT, marks=(mark("holes", 1.0), WAITING, TIME))
    assert verdict.passed is None
    assert verdict.total_frac is None
    assert verdict.waiting == ("1/say-why",)
    found = {each.skill: (each.mean_frac, each.reached) for each in verdict.skills}
    assert found == {4: (None, None), 6: (1.0, True)}


@pytest.mark.parametrize(
    "against",
    [
        mark("wait", 0.2, skill=6),  # another skill below its cut
        mark("wait", 1.0, skill=6, critical_missed=True),
        mark("wait", 0.0, skill=6, answered=False),
    ],
)
def test_what_has_failed_already_stays_failed_whatever_the_grade(against: ItemMark) -> None:
    verdict = judge(BLUEPRINT, marks=(mark("holes", 1.0), WAITING, against))
    assert verdict.passed is False
    assert verdict.waiting == ("1/say-why",)


def test_an_explanation_named_critical_by_the_module_fails_only_once_it_is_graded() -> None:
    named = Blueprint(rows=ROWS, pass_mark_frac=0.8, critical_items=("end-plates/say-why",))
    open_marks = (mark("holes", 1.0), WAITING, TIME)
    assert judge(named, marks=open_marks).passed is None
    poor = Grade(scenario_no=1, item_id="say-why", levels={"why": 3, "where": 2, "air": 3})
    assert judge(named, marks=graded(open_marks, grade=poor, rubric=RUBRIC)).passed is False


@pytest.mark.parametrize(
    ("levels", "passed"),
    [
        ({"why": 3, "where": 3, "air": 3}, True),
        ({"why": 2, "where": 2, "air": 2}, True),  # (1 + 6/9) / 2 = 0.83 of skill 4
        ({"why": 1, "where": 1, "air": 1}, False),  # (1 + 3/9) / 2 = 0.67
        ({"why": 3, "where": 3, "air": 0}, False),  # the critical one at 0
    ],
)
def test_with_the_grade_the_verdict_is_that_of_any_attempt(levels: dict[str, int], passed: bool) -> None:
    marks = (mark("holes", 1.0), WAITING, TIME)
    grade = Grade(scenario_no=1, item_id="say-why", levels=levels)
    assert judge(BLUEPRINT, marks=graded(marks, grade=grade, rubric=RUBRIC)).passed is passed


def test_a_grade_changes_one_mark_only() -> None:
    other = mark("say-why", None, scenario_no=2)
    grade = Grade(scenario_no=2, item_id="say-why", levels={"why": 3, "where": 3, "air": 3})
    assert graded((WAITING, other), grade=grade, rubric=RUBRIC)[0] is WAITING
    with pytest.raises(Missing):
        graded((WAITING,), grade=grade, rubric=RUBRIC)


@pytest.mark.parametrize(
    ("levels", "comment", "codes"),
    [
        ({"why": 3, "where": 0, "air": 1}, "", []),
        ({"why": 3, "air": 1}, "", ["level-missing"]),
        ({"why": 4, "where": -1, "air": 1}, "", ["level-missing", "level-missing"]),
        ({"why": 1, "where": 1, "air": 1, "hand": 3}, "", ["unknown-criterion"]),
        ({"why": 1, "where": 1, "air": 1}, "x" * 2001, ["comment-too-long"]),
        ({"why": 1, "where": 1, "air": 1}, "a\x00b", ["comment-unreadable"]),
    ],
)
def test_a_grade_has_a_level_for_each_criterion(
    levels: dict[str, int], comment: str, codes: list[str]
) -> None:
    grade = Grade(scenario_no=1, item_id="say-why", levels=levels, comment=comment)
    assert [each.code for each in grade_faults(grade, rubric=RUBRIC)] == codes


def test_an_explanation_that_waits_is_graded_and_not_overridden() -> None:
    override = Override(
        scenario_no=1, item_id="say-why", score_frac=1.0, critical_missed=False, reason="good", of_version=1
    )
    with pytest.raises(WrongState, match="rubric"):
        require_graded((WAITING,), override=override)
    require_graded((mark("say-why", 0.5),), override=override)


def test_a_mean_over_what_waits_is_none_and_written_as_such() -> None:
    assert weighted_mean((WAITING, TIME)) is None
    assert score_text(None) is None
