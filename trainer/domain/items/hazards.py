"""Hazards items: weighted hits minus false alarms, so that marking everything scores 0."""

from collections.abc import Sequence
from math import hypot

from trainer.domain.items import why as words
from trainer.domain.scenario import Answer, HazardKey, Item, ItemOutcome, Point, SceneObject

TOLERANCE = 12.0  # drawing units around a box in which a mark still counts: half of a 24 px finger target
SAME_SPOT = 30.0  # marks on empty ground closer together than this are one alarm


def score_hazards(*, weights: Sequence[float], hits: Sequence[bool], false_alarms: int, decoys: int) -> float:
    """max(0, sum of w hit / sum of w - false alarms / innocent objects), Youden's J floored at 0."""
    hit_share = sum(w for w, hit in zip(weights, hits, strict=True) if hit) / sum(weights)
    alarm_share = min(1.0, false_alarms / decoys) if decoys else float(false_alarms > 0)
    return max(0.0, hit_share - alarm_share)


def marked_objects(
    objects: Sequence[SceneObject], marks: Sequence[str | Point]
) -> tuple[frozenset[str], int]:
    """The ids of the objects marked, each once, and how many separate spots of empty ground were."""
    found: set[str] = set()
    empty: list[Point] = []
    for mark in marks:
        if isinstance(mark, str):
            found.add(mark)
            continue
        under = _object_at(objects, mark)
        if under is not None:
            found.add(under)
        elif all(hypot(mark.x - each.x, mark.y - each.y) > SAME_SPOT for each in empty):
            empty.append(mark)
    return frozenset(found), len(empty)


def hazards_outcome(item: Item, *, answer: Answer, marks: Sequence[str | Point] | None) -> ItemOutcome:
    """The outcome of one set of marks; a critical hazard left unmarked fails the attempt."""
    found, on_empty_ground = marked_objects(item.objects, marks or ())
    hazards = [each for each in answer.hazards if each.is_hazard]
    decoys = [each for each in answer.hazards if not each.is_hazard]
    alarms = [each for each in decoys if each.object_id in found]
    missed = [each for each in hazards if each.object_id not in found]
    score = score_hazards(
        weights=[each.weight for each in hazards],
        hits=[each.object_id in found for each in hazards],
        false_alarms=len(alarms) + on_empty_ground,
        decoys=len(decoys),
    )
    return ItemOutcome(
        item_id=item.id,
        score=score,
        correct=score >= 1.0,
        answered=marks is not None,
        why=_why(missed, alarms, on_empty_ground) if marks is not None else (words.UNANSWERED,),
        misconceptions=tuple(each.why for each in missed if marks is not None),
        critical_missed=any(each.critical for each in missed),
    )


def _object_at(objects: Sequence[SceneObject], mark: Point) -> str | None:
    """The object whose box holds the mark; of several, the one whose middle is nearest."""
    near = []
    for each in objects:
        x, y, width, height = each.box
        across = max(x - mark.x, 0.0, mark.x - x - width)
        down = max(y - mark.y, 0.0, mark.y - y - height)
        if hypot(across, down) <= TOLERANCE:
            middle = hypot(mark.x - x - width / 2, mark.y - y - height / 2)
            near.append((hypot(across, down), middle, each.id))
    return min(near)[2] if near else None


def _why(missed: Sequence[HazardKey], alarms: Sequence[HazardKey], on_empty_ground: int) -> tuple[str, ...]:
    lines = [words.MISSED % {"why": f"{each.why} {each.right_action}".strip()} for each in missed]
    lines += [words.NO_HAZARD % {"why": each.why} for each in alarms]
    if on_empty_ground:
        lines.append(words.ON_EMPTY_GROUND % {"count": on_empty_ground})
    return tuple(lines) or (words.ALL_HAZARDS,)
