"""An override changes one mark, says so, and leaves the others."""

import pytest
from domain_values import mark

from trainer.domain.errors import Missing
from trainer.domain.overrides import Override, is_repeat, overridden, override_faults

MARKS = (mark(item_id="dams", skill=3), mark(score=0.2, correct=False, critical_missed=True))


def override(**changes: object) -> Override:
    values = {
        "scenario_no": 1,
        "item_id": "wait",
        "score_frac": 1.0,
        "critical_missed": False,
        "reason": "Unit on the sheet was unclear",
        "of_version": 1,
    }
    return Override(**{**values, **changes})


def test_one_mark_is_put_right_and_says_so() -> None:
    first, second = overridden(MARKS, override=override())
    assert first is MARKS[0]
    assert (second.score, second.correct, second.critical_missed, second.overridden) == (
        1.0,
        True,
        False,
        True,
    )


def test_part_of_the_marks_is_not_correct() -> None:
    assert not overridden(MARKS, override=override(score_frac=0.9))[1].correct


def test_item_that_was_not_asked_is_missing() -> None:
    with pytest.raises(Missing):
        overridden(MARKS, override=override(scenario_no=2))


def test_same_form_again_is_known_and_another_is_not() -> None:
    first = override()
    after = overridden(MARKS, override=first)
    assert is_repeat(after, override=first, reason_given=first.reason)
    assert not is_repeat(after, override=override(score_frac=0.5), reason_given=first.reason)
    assert not is_repeat(after, override=first, reason_given="Another reason")
    assert not is_repeat(MARKS, override=first, reason_given=first.reason)


@pytest.mark.parametrize(
    ("changes", "codes"),
    [
        ({}, []),
        ({"score_frac": 1.0001}, ["score-out-of-range"]),
        ({"score_frac": float("nan"), "reason": " "}, ["score-out-of-range", "reason-missing"]),
    ],
)
def test_faults_are_named_all_at_once(changes: dict, codes: list[str]) -> None:
    assert [each.code for each in override_faults(override(**changes))] == codes
