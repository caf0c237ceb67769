"""Builds a diagnosis: the moves under opaque ids, the causes, and the plan that wastes nothing as its key."""

import math
from collections.abc import Mapping
from dataclasses import replace
from random import Random
from typing import Any

from trainer.domain.diagnosis_parts import (
    MOST_STEPS,
    CauseKey,
    DiagnosisKey,
    DiagnosisSheet,
    Move,
    MoveKey,
    MoveKind,
    Watched,
)
from trainer.domain.diagnosis_templates import CauseTemplate, DiagnosisTemplate, MoveTemplate
from trainer.domain.diagnosis_worth import best_check, step_worths
from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import ItemTemplate
from trainer.domain.scenario import Answer, Item
from trainer.domain.set_up_paths import value_at
from trainer.domain.streams import shuffle
from trainer.domain.templates import FamilyFault, drawn_value, filled, sentence, set_up_value
from trainer.domain.unfolding import StepSeen, unfolded

_MOST_WAITS = 20
_CLEARLY_TOO_HIGH_RATIO = 1.2  # of the target, when it begins
_KINDS = tuple(MoveKind)


def built_diagnosis(
    template: ItemTemplate, *, drawn: Drawn, source: Random
) -> tuple[Item, Mapping[str, Any], Answer]:
    """The item, the sound values of what it hides, and its answer; Rejected where no plan ends well."""
    asked = template.diagnosis
    assert asked is not None  # the loader fills it for this kind
    causes = tuple(_cause(each, drawn) for each in asked.causes if each.span.holds(drawn.difficulty))
    moves = _offered(asked, drawn, source)
    ids = {each.id: f"m{number}" for number, each in enumerate(moves, start=1)}
    known = {path: value_at(drawn.right, path) for path in template.sets}
    sound = {path: value for path, value in known.items() if value is not None}
    key = DiagnosisKey(
        cause=_drawn_cause(asked, causes, drawn),
        causes=causes,
        moves=tuple(_move_key(each, ids[each.id], drawn) for each in moves),
        sound=tuple(sound.items()),
        target_frac=_target_frac(asked, drawn),
        faulty_s=drawn.amount(asked.faulty_for),
        sound_s=0.0 if asked.sound_for is None else drawn.amount(asked.sound_for),
    )
    sheet = DiagnosisSheet(
        moves=tuple(_move(each, ids[each.id], drawn) for each in moves),
        limit_s=drawn.amount(asked.limit),
        watches=asked.watches,
        opening=(),
    )
    sheet, plan = _planned(template.id, sheet, key, drawn)
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        sets=template.sets,
        diagnosis=sheet,
    )
    return item, sound, Answer(item_id=item.id, key=plan, critical=True, diagnosis=key)


def _drawn_cause(asked: DiagnosisTemplate, causes: tuple[CauseKey, ...], drawn: Drawn) -> str:
    word = str(drawn.values[asked.draw])
    if word not in {each.id for each in causes}:
        raise FamilyFault(f"{word} is drawn, but is no cause at difficulty {drawn.difficulty:g}")
    return word


def _cause(template: CauseTemplate, drawn: Drawn) -> CauseKey:
    return CauseKey(
        id=template.id,
        words=sentence(template.words, drawn.values),
        values=_values(template.set_up, drawn),
        sample_air_frac=0.0 if template.sample_air is None else drawn.amount(template.sample_air),
    )


def _values(templates: Mapping[str, Any], drawn: Drawn) -> tuple[tuple[str, Any], ...]:
    return tuple((path, set_up_value(path, filled(each, drawn.values))) for path, each in templates.items())


def _offered(asked: DiagnosisTemplate, drawn: Drawn, source: Random) -> list[MoveTemplate]:
    """Those that take part, kind by kind, each kind in an order that says nothing."""
    taking_part = [
        each
        for each in asked.moves
        if each.span.holds(drawn.difficulty)
        and all(str(drawn_value(name, drawn.values)) in words for name, words in each.when.items())
    ]
    offered = []
    for kind in _KINDS:
        of_kind = [each for each in taking_part if each.kind is kind]
        if kind is not MoveKind.WAIT:
            shuffle(of_kind, source)
        offered += of_kind
    return offered


def _move(template: MoveTemplate, move_id: str, drawn: Drawn) -> Move:
    return Move(
        id=move_id,
        kind=template.kind,
        text=sentence(template.text, drawn.values),
        takes_s=drawn.amount(template.takes),
    )


def _move_key(template: MoveTemplate, move_id: str, drawn: Drawn) -> MoveKey:
    return MoveKey(
        id=move_id,
        seen={cause: sentence(words, drawn.values) for cause, words in template.seen.items()},
        shows=template.shows,
        cures=template.cures,
        sets=_values(template.sets, drawn),
        opens=template.opens,
        belief=sentence(template.belief, drawn.values),
        critical=template.critical,
        needed=template.needed,
        first=template.first,
        ending=template.ending,
    )


def _target_frac(asked: DiagnosisTemplate, drawn: Drawn) -> float:
    """The root's oxygen to be proven; where people's air is watched no figure of it lets anybody in."""
    if asked.watches is Watched.AIR:
        return 0.0
    target = drawn.right.target
    if target is None or target.oxygen_frac is None:
        raise FamilyFault("a diagnosis of the root needs target.oxygen")
    return target.oxygen_frac


def _planned(
    item_id: str, sheet: DiagnosisSheet, key: DiagnosisKey, drawn: Drawn
) -> tuple[DiagnosisSheet, tuple[str, ...]]:
    """The sheet with what stands on it at first, and the plan. One unfolding tells both."""
    plan = _looks_and_cure(item_id, sheet, key)
    aim = next(each.id for each in key.moves if each.ending and each.ending.is_aim)
    wait = min((each for each in sheet.moves if each.kind is MoveKind.WAIT), key=_takes_s, default=None)
    count = (
        0 if wait is None or sheet.watches is Watched.AIR else min(_MOST_WAITS, MOST_STEPS - len(plan) - 1)
    )
    waits = [] if wait is None else [wait.id] * count
    endless = replace(sheet, limit_s=math.inf)
    tried = unfolded(drawn.right, sheet=endless, key=key, steps=[*plan, *waits]).steps
    if sheet.watches is Watched.ROOT:
        waits = waits[: _waits_needed(item_id, tried, len(plan), key)]
    plan = [*plan, *waits, aim]
    if sheet.is_over(plan[:-1]) or sum(sheet.move(each).takes_s for each in plan) > sheet.limit_s:
        raise Rejected(f"{item_id}: with {key.cause} the best plan takes longer than there is")
    return replace(sheet, opening=tried[0].shown_frac), tuple(plan)


def _takes_s(move: Move) -> float:
    return move.takes_s


def _looks_and_cure(item_id: str, sheet: DiagnosisSheet, key: DiagnosisKey) -> list[str]:
    """First things first; the check that tells most until one cause is left; its cure; what is needed."""
    plan = [each.id for each in sorted(key.moves, key=lambda each: each.first) if each.first]
    possible = frozenset(each.id for each in key.causes)
    while len(possible) > 1:
        check = best_check(sheet, key=key, possible=possible)
        if check is None:
            raise Rejected(f"{item_id}: no check tells {', '.join(sorted(possible))} apart")
        plan.append(check.id)
        possible = step_worths(sheet, key=key, steps=plan)[-1].possible
    plan.append(_cure(item_id, sheet, key))
    return [*plan, *(each.id for each in key.moves if each.needed and each.id not in plan)]


def _cure(item_id: str, sheet: DiagnosisSheet, key: DiagnosisKey) -> str:
    cures = [each.id for each in key.moves if key.cause in each.cures and not each.critical]
    if not cures:
        raise Rejected(f"{item_id}: nothing that is offered cures {key.cause}")
    return min(cures, key=lambda each: sheet.move(each).takes_s)


def _waits_needed(item_id: str, tried: tuple[StepSeen, ...], cured_after: int, key: DiagnosisKey) -> int:
    """How many waits follow the cure until the oxygen is shown low enough; it was not before."""
    if tried[0].shown_frac[0] < _CLEARLY_TOO_HIGH_RATIO * key.target_frac:
        raise Rejected(f"{item_id}: with {key.cause} there is nothing to find, the oxygen is low enough")
    low = (count for count, each in enumerate(tried[cured_after:]) if each.shown_frac[0] <= key.target_frac)
    count = next(low, None)
    if count is None:
        raise Rejected(f"{item_id}: with {key.cause} cured the oxygen does not come down in time")
    return count
