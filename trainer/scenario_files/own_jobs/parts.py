"""What the builders of questions share: the sheet that they ask about, and the item with what it rests on."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.domain.own_jobs import Asked, JobSheet
from trainer.scenario_files.own_jobs.usual_words import OWN_NOTE


@dataclass(frozen=True, kw_only=True)
class Question:
    """One question about a sheet, under an id of its own."""

    id: str
    asked: Asked
    sheet: JobSheet

    def told(self, path: str) -> Any:
        """What the sheet says at a path, as it is written in a family file."""
        return self.sheet.set_up[path]

    def named(self, name: str) -> str:
        """A name for a figure or another set-up that no other question has."""
        return f"{self.id}_{name}"


@dataclass(frozen=True, kw_only=True)
class Written:
    """An item of a family file, with the figures and other set-ups that it speaks of."""

    item: Mapping[str, Any]
    figures: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    variants: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)


def item(question: Question, *, text: str, skill: int, more: Mapping[str, Any]) -> dict[str, Any]:
    """What every item has, with what its kind adds; the instructor's own words go before the usual ones.

    The wrong answers of a quantity are its traps; those of a choice are among its options already.
    """
    asked = question.asked
    written = {
        "id": question.id,
        "skill": asked.skill or skill,
        "text": asked.text or text,
        "weight": asked.weight,
        **more,
    }
    if asked.wrong and more["kind"] == "quantity":
        written["trap"] = [{"belief": each.belief, "value": each.answer} for each in asked.wrong]
    if asked.critical:
        written["critical"] = True
    if asked.note:
        written["solution"] = [*more["solution"], {"what": asked.note, "rule": OWN_NOTE}]
    return written


def figure(result: str, *, unit: str = "", of: str = "", digits: int = 2, end: str = "") -> dict[str, Any]:
    """A number of the core for the worked solution."""
    written = {"result": result, "unit": unit, "of": of, "digits": digits, "end": end}
    return {key: each for key, each in written.items() if each}
