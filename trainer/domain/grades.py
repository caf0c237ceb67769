"""A grade: the levels that a person gives an explanation, criterion by criterion, as a new marking."""

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from uuid import UUID

from trainer.domain.attempts import ItemMark
from trainer.domain.item_parts import Criterion
from trainer.domain.items.explanation import HIGHEST_LEVEL, fails_critically, graded_score
from trainer.domain.overrides import mark_in
from trainer.domain.reasons import Reason, reason

LONGEST_COMMENT = 2000


@dataclass(frozen=True, kw_only=True)
class Grade:
    """The levels of one explanation by the ids of its criteria, and what the person is told beside them."""

    scenario_no: int
    item_id: str
    levels: Mapping[str, int]
    comment: str = ""


@dataclass(frozen=True, kw_only=True)
class GivenGrade:
    """A grade that stands on the record: by whom, when, and the version of the marking that came of it."""

    grade: Grade
    version: int
    graded_by: UUID
    graded_by_name: str
    graded_at: datetime


def grade_faults(grade: Grade, *, rubric: tuple[Criterion, ...]) -> tuple[Reason, ...]:
    """Everything wrong with a grade, at once."""
    faults = [
        reason("level-missing", criterion=each.text)
        for each in rubric
        if not 0 <= grade.levels.get(each.id, -1) <= HIGHEST_LEVEL
    ]
    known = {each.id for each in rubric}
    faults += [reason("unknown-criterion", criterion=each) for each in grade.levels if each not in known]
    if len(grade.comment) > LONGEST_COMMENT:
        faults.append(reason("comment-too-long", most=LONGEST_COMMENT))
    if any(unicodedata.category(each) == "Cc" and each not in "\n\t" for each in grade.comment):
        faults.append(reason("comment-unreadable"))
    return tuple(faults)


def graded(
    marks: tuple[ItemMark, ...], *, grade: Grade, rubric: tuple[Criterion, ...]
) -> tuple[ItemMark, ...]:
    """The marks with this one graded; the others are as they were."""
    old = mark_in(marks, scenario_no=grade.scenario_no, item_id=grade.item_id)
    score = graded_score(rubric, levels=grade.levels)
    new = replace(
        old,
        score=score,
        correct=score == 1.0,
        critical_missed=fails_critically(rubric, levels=grade.levels),
    )
    return tuple(new if each is old else each for each in marks)
