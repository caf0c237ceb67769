"""A job's sheet as the document of a family with fixed numbers, and as the text of its file."""

from collections import Counter
from collections.abc import Callable, Mapping
from typing import Any

from trainer.domain.family_given import GIVEN
from trainer.domain.own_jobs import LABELS, SHARES_TOLD, AskKind, JobSheet
from trainer.scenario_files.own_jobs import people_questions, purge_questions, supply_questions
from trainer.scenario_files.own_jobs.parts import Question, Written
from trainer.scenario_files.toml_text import toml_text
from trainer.wording.filled_in import filled_in

_WRITERS: Mapping[AskKind, Callable[[Question], Written]] = {
    AskKind.WAIT: purge_questions.purge_time,
    AskKind.FLOW: purge_questions.flow,
    AskKind.LASTS: supply_questions.supply_lasts,
    AskKind.GAUGE: supply_questions.gauge_at_least,
    AskKind.DAMS: supply_questions.place_of_dams,
    AskKind.HOLES: purge_questions.holes,
    AskKind.TRACE: purge_questions.trace,
    AskKind.PRESSURE: supply_questions.pressure_gauge,
    AskKind.COLOUR: purge_questions.root_colour,
    AskKind.GAS: supply_questions.choice_of_gas,
    AskKind.HAZARDS: people_questions.hazards,
    AskKind.LEAVE: people_questions.time_to_leave,
    AskKind.FAN: people_questions.fan,
    AskKind.OWN: people_questions.own_question,
    AskKind.EXPLANATION: people_questions.explanation,
}
# The order in which questions are asked: the earlier ones set what later ones go on from.
_IDS = {
    AskKind.GAS: "gas", AskKind.DAMS: "dams", AskKind.HOLES: "holes", AskKind.FLOW: "flow",
    AskKind.WAIT: "wait", AskKind.TRACE: "trace", AskKind.COLOUR: "colour", AskKind.PRESSURE: "reads",
    AskKind.LASTS: "lasts", AskKind.GAUGE: "gauge", AskKind.LEAVE: "leave", AskKind.FAN: "fan",
    AskKind.HAZARDS: "look", AskKind.OWN: "question", AskKind.EXPLANATION: "explain",
}  # fmt: skip


def job_text(sheet: JobSheet) -> str:
    """The text of the family file."""
    return toml_text(job_document(sheet))


def job_document(sheet: JobSheet) -> dict[str, Any]:
    """The family: one choice in its one draw, the set-up, what is told of it, and the questions."""
    written = [_WRITERS[each.asked.kind](each) for each in questions_of(sheet)]
    items = [dict(each.item) for each in written]
    document: dict[str, Any] = {
        "title": sheet.title,
        "fixed": True,
        "subtitle": "{place}",
        "skills": sorted({each["skill"] for each in items}),
        "situation": sheet.situation,
        "draw": [{"name": "place", "of": [sheet.place]}],
        "set_up": {**sheet.set_up, **sheet.sides},
        "variant": {name: each for one in written for name, each in one.variants.items()},
        "fact": [_fact(path, sheet) for path in _told(sheet, items)],
        "figure": {name: dict(each) for one in written for name, each in one.figures.items()},
        "item": items,
    }
    return {key: each for key, each in document.items() if each or key == "item"}


def questions_of(sheet: JobSheet) -> list[Question]:
    """The questions in the order in which they are asked, each under an id of its own."""
    order = list(_IDS)
    counts: Counter[AskKind] = Counter()
    found = []
    for asked in sorted(sheet.asked, key=lambda each: order.index(each.kind)):
        counts[asked.kind] += 1
        number = counts[asked.kind]
        name = _IDS[asked.kind] if number == 1 else f"{_IDS[asked.kind]}_{number}"
        found.append(Question(id=name, asked=asked, sheet=sheet))
    return found


def _told(sheet: JobSheet, items: list[dict[str, Any]]) -> list[str]:
    """What is told as facts: all that was typed, save what is asked and what is taken as given anyway."""
    asked = {path for each in items for path in each.get("sets", ())}
    asked |= {handle["sets"] for each in items for handle in each.get("handle", ())}
    return [path for path in LABELS if path in sheet.set_up and path not in GIVEN and path not in asked]


def _fact(path: str, sheet: JobSheet) -> dict[str, Any]:
    if path not in SHARES_TOLD:
        return {"label": LABELS[path], "path": path}
    label, whole, part = SHARES_TOLD[path]
    share = float(sheet.set_up[path])
    return {
        "label": label,
        "path": path,
        "text": whole if share == 1.0 else filled_in(part, share=f"{100.0 * share:.0f}"),
    }
