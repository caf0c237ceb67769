"""Diagnosis items: how it ended, times how well each check and action was chosen."""

from collections.abc import Sequence

from trainer.domain.diagnosis_parts import DiagnosisKey, DiagnosisSheet, MoveKind
from trainer.domain.diagnosis_worth import StepWorth, step_worths
from trainer.domain.items import why as words
from trainer.domain.scenario import Answer, Item, ItemOutcome
from trainer.domain.unfolding import Outcome, Unfolding

# What an end is worth before the way to it is weighed: our judgement, not a published figure.
_BY_LUCK = 0.5  # cured without knowing: what is cured by knowing counts in full
_STILL_FAULTY = 0.5
_CALLED_AT_BEST = 0.4

_END_WORDS = {
    Outcome.READY: words.PUT_RIGHT,
    Outcome.STILL_FAULTY: words.STILL_FAULTY,
    Outcome.TOO_EARLY: words.TOO_EARLY,
    Outcome.CALLED: words.CALLED,
    Outcome.NOT_READY: words.NOT_READY,
    Outcome.LOST: words.LOST,
    Outcome.OPEN: words.OPEN,
}


def diagnosis_outcome(item: Item, *, answer: Answer, unfolding: Unfolding | None) -> ItemOutcome:
    """The outcome of the steps taken, unfolded before; None where there were none."""
    sheet, key = item.diagnosis, answer.diagnosis
    assert sheet is not None  # an item of this kind has both
    assert key is not None
    steps = tuple(each.move_id for each in unfolding.steps[1:]) if unfolding is not None else ()
    if unfolding is None or not steps:
        return ItemOutcome(
            item_id=item.id,
            score=0.0,
            correct=False,
            answered=False,
            why=(words.UNANSWERED,),
            critical_missed=answer.critical,
        )
    taken = [key.move(each) for each in steps]
    unsafe = any(each.critical for each in taken) or unfolding.outcome is Outcome.TOO_EARLY
    worths = step_worths(sheet, key=key, steps=steps)
    score = 0.0 if unsafe else score_diagnosis(unfolding, sheet=sheet, key=key, plan=answer.key)
    return ItemOutcome(
        item_id=item.id,
        score=score,
        correct=score >= 1.0,
        answered=True,
        why=(_end_words(unfolding, key), *_waste_words(sheet, worths)),
        misconceptions=tuple(
            dict.fromkeys(each.belief for each in taken if each.belief and key.cause not in each.cures)
        ),
        critical_missed=unsafe,
    )


def score_diagnosis(
    unfolding: Unfolding, *, sheet: DiagnosisSheet, key: DiagnosisKey, plan: Sequence[str]
) -> float:
    """The worth of the end, times B / (B + W).

    B is the time that the plan takes to find and cure the cause, W what was wasted beyond the plan's waste.
    """
    steps = tuple(each.move_id for each in unfolding.steps[1:])
    worths, best = (step_worths(sheet, key=key, steps=each) for each in (steps, plan))
    # What has to be done anyhow says nothing of how well the cause was looked for.
    spent_s = sum(each.cost_s for each in best if not key.move(each.move_id).needed)
    wasted_s = max(0.0, sum(each.wasted_s for each in worths) - sum(each.wasted_s for each in best))
    process = spent_s / (spent_s + wasted_s) if spent_s else 1.0
    return _end_worth(unfolding, key, worths) * process


def _end_worth(unfolding: Unfolding, key: DiagnosisKey, worths: tuple[StepWorth, ...]) -> float:
    if unfolding.outcome is Outcome.READY:
        sure_frac = next((each.sure_frac for each in worths if each.sure_frac is not None), 1.0)
        return _BY_LUCK + (1.0 - _BY_LUCK) * sure_frac
    if unfolding.outcome is Outcome.STILL_FAULTY:
        return _STILL_FAULTY
    if unfolding.outcome is not Outcome.CALLED:
        return 0.0
    left = len(worths[-1].possible) if worths else len(key.causes)
    others = max(1, len(key.causes) - 1)
    return _CALLED_AT_BEST * (1.0 if unfolding.cured else (len(key.causes) - left) / others)


def _end_words(unfolding: Unfolding, key: DiagnosisKey) -> str:
    return _END_WORDS[unfolding.outcome] % {"cause": key.drawn.words}


def _waste_words(sheet: DiagnosisSheet, worths: tuple[StepWorth, ...]) -> tuple[str, ...]:
    """The steps that could tell or cure nothing any more when they were taken."""
    idle = dict.fromkeys(each.move_id for each in worths if each.worth <= 0.0)
    texts = [(sheet.move(each).kind, sheet.move(each).text.rstrip(".")) for each in idle]
    checks = "; ".join(text for kind, text in texts if kind is MoveKind.CHECK)
    actions = "; ".join(text for kind, text in texts if kind is MoveKind.ACTION)
    told = words.TOLD_NOTHING % {"steps": checks} if checks else ""
    cured = words.HELPED_NOTHING % {"steps": actions} if actions else ""
    return tuple(each for each in (told, cured) if each)
