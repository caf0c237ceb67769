"""The answers to a set of sheets: key, band, working, and what each wrong one shows."""

from collections.abc import Sequence
from typing import Any

from flask_babel import gettext

from trainer.domain.items.quantity import full_marks_between
from trainer.domain.people import UnitSystem
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Answer, Item, ItemKind, Scenario
from trainer.paper.typesetting import typeset
from trainer.services.paper import KeyedScenario, SheetKey
from trainer.web.answers import right_words
from trainer.web.figures import caution_shown, hear_scenario, sentence, shown
from trainer.web.paper.sheet_parts import (
    Printed,
    common,
    common_words,
    count_words,
    letter,
    title_block,
    whom_words,
)
from trainer.web.preferences import reading_in
from trainer.web.workings import WorkingStep, other_units_words, working_steps


def answer_key_pdf(printed: Printed, keys: Sequence[SheetKey]) -> bytes:
    """The PDF, marked as a key across every page."""
    document = {
        **common(printed, title=gettext("%(module)s: ANSWER KEY", module=printed.page.paper_set.title)),
        "words": {**common_words(), **_words()},
        "sheets": [_sheet(printed, each) for each in keys],
    }
    return typeset("answer_key.typ", document, made_at=printed.page.paper_set.made_at)


def _sheet(printed: Printed, key: SheetKey) -> dict[str, Any]:
    sheet = key.sheet
    with reading_in(sheet.units):
        return {
            "code": sheet.code,
            "for-words": gettext(
                "Answers to sheet %(code)s, %(whom)s.", code=sheet.code, whom=whom_words(key)
            ),
            "block": title_block(printed, key, what=gettext("ANSWER KEY"), first=key.scenarios[0].scenario),
            "scenarios": [
                _scenario(each, count_words(number, len(key.scenarios)))
                for number, each in enumerate(key.scenarios, start=1)
            ],
        }


def _scenario(keyed: KeyedScenario, count: str) -> dict[str, Any]:
    scenario = hear_scenario(keyed.scenario)
    cautions = (caution_shown(each) for each in keyed.cautions)
    return {
        "count-words": count,
        "title": sentence(scenario.title),
        "origin": gettext(
            "Family %(family)s, content %(content)s, core %(core)s, policy %(policy)s",
            family=scenario.family,
            content=scenario.content_version,
            core=scenario.core_version,
            policy=scenario.policy_version,
        ),
        "cautions": [
            {"text": each.text, "because": gettext("Because %(because)s.", because=each.because)}
            for each in cautions
        ],
        "items": [_item(scenario, item, number) for number, item in enumerate(scenario.items, start=1)],
    }


def _item(scenario: Scenario, item: Item, number: int) -> dict[str, Any]:
    answer = scenario.answers[item.id]
    return {
        "number": str(number),
        "text": sentence(item.text),
        "right": _right(item, answer),
        "critical": gettext("Critical: a wrong answer here alone fails.") if answer.critical else "",
        "band": _band(item, answer),
        "things": [*_hazards(item, answer), *_precedences(item, answer), *_rubric(item)],
        "wrong": [*_wrong_options(item, answer), *_left_out(item, answer), *_other_beliefs(answer)],
        "working": [_step(each) for each in working_steps(answer.solution)],
    }


def _right(item: Item, answer: Answer) -> str:
    """The key with the letters and numbers that stand on the worksheet."""
    words = right_words(item, answer)
    if item.options:
        return f"{_letters(item)[answer.key]}: {words}"
    if item.kind is ItemKind.ORDER:
        return " ".join(_letters(item)[each] for each in answer.key)
    if item.kind is ItemKind.HAZARDS and answer.key:
        numbers = {each.id: number for number, each in enumerate(item.objects, start=1)}
        return ", ".join(str(each) for each in sorted(numbers[each] for each in answer.key))
    return words


def _letters(item: Item) -> dict[str, str]:
    ids = [each.id for each in item.options or item.steps]
    return {each: letter(place) for place, each in enumerate(ids)}


def _band(item: Item, answer: Answer) -> list[list[str]]:
    """Between which values the marks are full, in both unit systems."""
    if item.dimension is None:
        return []
    if answer.band is not None:
        low, high = full_marks_between(answer.band)
    elif answer.reading is not None:
        low, high = answer.key - answer.reading.tolerance, answer.key + answer.reading.tolerance
    else:
        return []
    return [[gettext("Full marks from"), _both(low, item.dimension, _span, high)]]


def _both(low: float, dimension: Dimension, span: Any, high: float) -> str:
    written: list[str] = []
    for units in UnitSystem:
        with reading_in(units):
            words = span(low, high, dimension)
        if words not in written:
            written.append(words)
    return "  =  ".join(written)


def _span(low: float, high: float, dimension: Dimension) -> str:
    return gettext("%(low)s to %(high)s", low=shown(low, dimension), high=shown(high, dimension))


def _hazards(item: Item, answer: Answer) -> list[list[str]]:
    keys = {each.object_id: each for each in answer.hazards}
    found = []
    for number, each in enumerate(item.objects, start=1):
        key = keys.get(each.id)
        if key is None:
            continue
        kind = _hazard_words(key.is_hazard, key.critical)
        told = " ".join(sentence(words) for words in (key.why, key.right_action) if words)
        found.append([f"{number} {sentence(each.text)}: {kind}.", told])
    return found


def _hazard_words(is_hazard: bool, critical: bool) -> str:
    if not is_hazard:
        return gettext("no hazard")
    return gettext("a hazard, critical") if critical else gettext("a hazard")


def _precedences(item: Item, answer: Answer) -> list[list[str]]:
    letters, critical = _letters(item), gettext("critical")
    return [
        [
            gettext("%(before)s before %(after)s", before=letters[each.before], after=letters[each.after])
            + (f" ({critical})" if each.critical else ""),
            sentence(each.why),
        ]
        for each in answer.precedences
    ]


def _rubric(item: Item) -> list[list[str]]:
    return [
        [
            sentence(each.text),
            "; ".join(f"{level}: {sentence(words)}" for level, words in enumerate(each.levels)),
        ]
        for each in item.rubric
    ]


def _wrong_options(item: Item, answer: Answer) -> list[list[str]]:
    letters = _letters(item)
    beliefs = answer.misconceptions or {}
    return [
        [f"{letters[each.id]}:", sentence(beliefs[each.id])] for each in item.options if each.id in beliefs
    ]


def _left_out(item: Item, answer: Answer) -> list[list[str]]:
    letters = _letters(item)
    return [
        [gettext("%(step)s does not belong:", step=letters[each.step_id]), sentence(each.misconception)]
        for each in answer.left_out
    ]


def _other_beliefs(answer: Answer) -> list[list[str]]:
    traps = answer.rule.traps if answer.rule is not None else ()
    beliefs = [*(each.misconception for each in traps), *(each.misconception for each in answer.placement)]
    return [["", sentence(each)] for each in dict.fromkeys(beliefs)]


def _step(step: WorkingStep) -> dict[str, Any]:
    return {
        "what": step.what,
        "in-words": step.in_words,
        "formulas": [each for each in (step.formula, step.numbers) if each],
        "other": f"{other_units_words()} {step.other}" if step.other else "",
        "thumb": step.thumb,
        "rule": step.rule,
        "caution": step.caution,
    }


def _words() -> dict[str, str]:
    return {
        "answer-key": gettext("ANSWER KEY"),
        "across": gettext("ANSWER KEY"),
        "banner": gettext("ANSWER KEY: for instructors, not for whoever sits the sheet"),
        "answer": gettext("The answer"),
        "wrong": gettext("What a wrong answer shows"),
        "working": gettext("The working"),
        "step-caution": gettext("Caution:"),
    }
