"""An override: one mark of an attempt put right by an instructor, with the reason, as a new marking."""

from dataclasses import dataclass, replace

from trainer.domain.attempts import ItemMark
from trainer.domain.errors import Missing, WrongState
from trainer.domain.reasons import Reason, reason


@dataclass(frozen=True, kw_only=True)
class Override:
    """Another score for one item. `of_version` is the marking that the instructor had before them."""

    scenario_no: int
    item_id: str
    score_frac: float
    critical_missed: bool
    reason: str
    of_version: int


def override_faults(override: Override) -> tuple[Reason, ...]:
    """Everything wrong with an override, at once."""
    faults = []
    if not 0.0 <= override.score_frac <= 1.0:  # also refuses what is not a number
        faults.append(reason("score-out-of-range", value=str(override.score_frac)))
    if not override.reason.strip():
        faults.append(reason("reason-missing"))
    return tuple(faults)


def mark_in(marks: tuple[ItemMark, ...], *, scenario_no: int, item_id: str) -> ItemMark:
    """The mark of an item; raises Missing."""
    for each in marks:
        if (each.scenario_no, each.item_id) == (scenario_no, item_id):
            return each
    raise Missing("item", item_id)


def overridden(marks: tuple[ItemMark, ...], *, override: Override) -> tuple[ItemMark, ...]:
    """The marks with one put right; what the core had made of it stays in the marking before."""
    old = mark_in(marks, scenario_no=override.scenario_no, item_id=override.item_id)
    new = replace(
        old,
        score=override.score_frac,
        correct=override.score_frac == 1.0,
        critical_missed=override.critical_missed,
        overridden=True,
    )
    return tuple(new if each is old else each for each in marks)


def require_graded(marks: tuple[ItemMark, ...], *, override: Override) -> None:
    """Raises WrongState for an explanation that waits for its grade: it is graded by its rubric first."""
    if mark_in(marks, scenario_no=override.scenario_no, item_id=override.item_id).waits_for_grade:
        raise WrongState("this explanation has not been graded yet; grade it by its rubric")


def is_repeat(marks: tuple[ItemMark, ...], *, override: Override, reason_given: str) -> bool:
    """Whether the standing marking is what this override would make: the same form sent twice."""
    mark = mark_in(marks, scenario_no=override.scenario_no, item_id=override.item_id)
    return (
        mark.overridden
        and mark.score == override.score_frac
        and mark.critical_missed == override.critical_missed
        and reason_given == override.reason.strip()
    )
