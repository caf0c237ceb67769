"""How a simulated apprentice goes through a diagnosis: the plan, with what they try and look at in vain."""

from trainer.domain.diagnosis_parts import MOST_STEPS, DiagnosisKey, DiagnosisSheet, MoveKind
from trainer.domain.scenario import Answer, Item
from trainer.domain.simulation.person import Person

_FINDS_THE_NEXT_CHECK, _READS_A_CHECK = 1.0, 1.8
_CAUSES_AT_HAND, _EASE_LOST_TO_A_CAUSE = 4, 0.35


def diagnosis_steps(person: Person, *, item: Item, answer: Answer) -> tuple[str, ...]:
    """The steps taken. The more causes there are, the more often the wrong one is thought of first."""
    sheet, key = item.diagnosis, answer.diagnosis
    assert sheet is not None  # an item of this kind has both
    assert key is not None
    ease_lost = _EASE_LOST_TO_A_CAUSE * max(0, len(key.causes) - _CAUSES_AT_HAND)
    steps = [each.id for each in key.moves if _is_led(person, item, key, each.id)]
    idle = _idle_checks(person, item, sheet, answer)
    for planned in answer.key:
        is_check = sheet.move(planned).kind is MoveKind.CHECK
        event = f"{item.id} plan {planned}"
        while is_check and idle and not person.manages(event, ease=_FINDS_THE_NEXT_CHECK - ease_lost):
            steps.append(idle.pop())
            event += " again"
        if is_check and not person.manages(f"{event} read", ease=_READS_A_CHECK - ease_lost):
            steps += _wrong_cure(person, item, key)
        steps.append(planned)
    return _until_over(sheet, steps)


def _is_led(person: Person, item: Item, key: DiagnosisKey, move_id: str) -> bool:
    move = key.move(move_id)
    return bool(move.belief) and key.cause not in move.cures and person.is_led_by(move.belief, item.id)


def _idle_checks(person: Person, item: Item, sheet: DiagnosisSheet, answer: Answer) -> list[str]:
    """The checks beside the plan, in the order in which they come to mind."""
    idle = [e.id for e in sheet.moves if e.kind is MoveKind.CHECK and e.id not in answer.key]
    person.dice(f"{item.id} idle").shuffle(idle)
    return idle


def _wrong_cure(person: Person, item: Item, key: DiagnosisKey) -> list[str]:
    """An action that cures something else, if there is one that endangers nobody."""
    cures = [
        each.id for each in key.moves if each.cures and key.cause not in each.cures and not each.critical
    ]
    return [person.dice(f"{item.id} cure").choice(cures)] if cures else []


def _until_over(sheet: DiagnosisSheet, steps: list[str]) -> tuple[str, ...]:
    """The steps up to the end of the matter; an action done once is not done again."""
    kept: list[str] = []
    for each in steps:
        if sheet.is_over(kept) or len(kept) == MOST_STEPS:
            break
        if each not in kept or sheet.move(each).kind is MoveKind.WAIT:
            kept.append(each)
    return tuple(kept)
