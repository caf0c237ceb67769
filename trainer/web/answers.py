"""Item by item after marking: your answer, the answer, why, and the working."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext

from trainer.domain.attempts import AttemptKind, ItemMark
from trainer.domain.grades import GivenGrade
from trainer.domain.scenario import Answer, Criterion, Handle, Item, ItemKind
from trainer.services.results import ScenarioResult
from trainer.web.figures import number_shown, percent, sentence, shown_in_both
from trainer.web.forms.typed import as_typed
from trainer.web.unfoldings import UnfoldingView, steps_words, unfolded_result
from trainer.web.workings import WorkingStep, working_steps


@dataclass(frozen=True, kw_only=True)
class HazardResult:
    """One thing of the scene: what it was, whether it was marked, and what is right to do."""

    text: str
    is_hazard: bool
    was_marked: bool
    critical: bool
    why: str
    right_action: str


@dataclass(frozen=True, kw_only=True)
class CriterionResult:
    """One criterion of a rubric: its sentences by level, and the level that was given, if any was."""

    criterion: Criterion
    level: int | None

    @property
    def sentence(self) -> str:
        """What the level given says."""
        return "" if self.level is None else self.criterion.levels[self.level]


@dataclass(frozen=True, kw_only=True)
class ItemResult:
    """One item with both answers in words."""

    item: Item
    number: int
    mark: ItemMark
    score: str
    yours: str
    right: str
    why: tuple[str, ...]
    beliefs: tuple[str, ...]
    hazards: tuple[HazardResult, ...]
    working: tuple[WorkingStep, ...]
    unfolding: (
        UnfoldingView | None
    )  # of a diagnosis: what the steps led to, and what the best plan would have
    best: UnfoldingView | None
    rubric: tuple[CriterionResult, ...]
    grade: GivenGrade | None
    graded_by_nobody: bool  # an explanation written in practice

    @property
    def critical(self) -> bool:
        """Whether something critical was missed here."""
        return self.mark.critical_missed

    @property
    def verdict_class(self) -> str:
        """How it is marked beside its word: right, wrong, or neither."""
        if self.mark.correct:
            return "right"
        if self.mark.score is None:
            return "state"
        return "half-right" if self.mark.score > 0 else "wrong"

    @property
    def verdict(self) -> str:
        """How it came out, in a word."""
        if not self.mark.answered:
            return gettext("not answered")
        if self.mark.correct:
            return gettext("right")
        if self.mark.score is None:
            return gettext("not graded") if self.graded_by_nobody else gettext("waits to be graded")
        return gettext("partly right") if self.mark.score > 0 else gettext("wrong")


def item_results(result: ScenarioResult) -> tuple[ItemResult, ...]:
    """All items of a scenario in their order."""
    return tuple(_item(result, item, place) for place, item in enumerate(result.scenario.items, start=1))


def _item(result: ScenarioResult, item: Item, number: int) -> ItemResult:
    kept = result.responses.get(item.id)
    answer = result.scenario.answers[item.id]
    mark = result.mark(item.id)
    return ItemResult(
        item=item,
        number=number,
        mark=mark,
        score=percent(mark.score),
        yours=_yours(item, kept.raw) if kept else "–",
        right=right_words(item, answer),
        why=tuple(mark.why),
        # of a hazard that was missed it is told already what it does
        beliefs=() if item.kind is ItemKind.HAZARDS else tuple(mark.misconceptions),
        hazards=_hazards(item, answer, kept.raw if kept else []),
        working=working_steps(answer.solution),
        unfolding=_unfolded(result, item, kept.raw if kept else [], "own"),
        best=_unfolded(result, item, list(answer.key), "best") if item.diagnosis else None,
        rubric=_rubric(item, result.grades.get(item.id)),
        grade=result.grades.get(item.id),
        graded_by_nobody=mark.waits_for_grade and result.kind is AttemptKind.PRACTICE,
    )


def _rubric(item: Item, grade: GivenGrade | None) -> tuple[CriterionResult, ...]:
    return tuple(
        CriterionResult(criterion=each, level=None if grade is None else grade.grade.levels[each.id])
        for each in item.rubric
    )


def _unfolded(result: ScenarioResult, item: Item, steps: Any, which: str) -> UnfoldingView | None:
    if item.diagnosis is None or not steps:
        return None
    name = f"{which}-{result.scenario_no}-{item.id}"
    return unfolded_result(result.scenario, item, list(steps), name=name)


def _yours(item: Item, raw: Any) -> str:
    """The response as it was typed, in words where it was chosen."""
    if item.kind is ItemKind.PLACEMENT:
        return "; ".join(
            f"{sentence(each.label)} {as_typed(str(raw[each.id]))}" for each in item.handles if each.id in raw
        )
    if item.options:
        return _option_text(item, raw)
    if item.kind in _IN_ORDER:
        return _IN_ORDER[item.kind](item, raw)
    if item.kind is ItemKind.HAZARDS:
        return _marked_words(item, [each for each in raw if isinstance(each, str)])
    return str(raw) if item.dimension is None else as_typed(str(raw))


def right_words(item: Item, answer: Answer) -> str:
    """The key of an item in words; nothing for what has none."""
    key = answer.key
    if item.dimension is not None:
        return shown_in_both(key, item.dimension)
    if item.kind is ItemKind.PLACEMENT:
        return "; ".join(_place_words(each, key) for each in item.handles)
    if item.options:
        return _option_text(item, key)
    if item.kind in _IN_ORDER:
        return _IN_ORDER[item.kind](item, key)
    if item.kind is ItemKind.EXPLANATION:
        return ""
    return _marked_words(item, list(key))


def _place_words(handle: Handle, key: Mapping[str, float]) -> str:
    value = key[handle.id]
    return (
        f"{sentence(handle.label)} {number_shown(value)}"
        if handle.dimension is None
        else f"{sentence(handle.label)} {shown_in_both(value, handle.dimension)}"
    )


def _option_text(item: Item, option_id: str) -> str:
    return next((sentence(each.text) for each in item.options if each.id == option_id), option_id)


def _order_words(item: Item, ids: Sequence[str]) -> str:
    texts = {each.id: sentence(each.text) for each in item.steps}
    return " → ".join(texts[each] for each in ids)


_IN_ORDER: Mapping[ItemKind, Callable[[Item, Sequence[str]], str]] = {
    ItemKind.ORDER: _order_words,
    ItemKind.DIAGNOSIS: steps_words,
}


def _marked_words(item: Item, ids: list[str]) -> str:
    texts = [sentence(each.text) for each in item.objects if each.id in ids]
    return "; ".join(texts) if texts else gettext("no hazard")


def _hazards(item: Item, answer: Answer, marked: Any) -> tuple[HazardResult, ...]:
    keys = {each.object_id: each for each in answer.hazards}
    return tuple(
        HazardResult(
            text=each.text,
            is_hazard=keys[each.id].is_hazard,
            was_marked=each.id in marked,
            critical=keys[each.id].critical,
            why=keys[each.id].why,
            right_action=keys[each.id].right_action,
        )
        for each in item.objects
        if each.id in keys
    )
