"""What is wrong with the questions of a job, before anything of it is written or drawn."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from trainer.core.terms import Fan
from trainer.domain.errors import DomainError
from trainer.domain.items.explanation import FEWEST_CRITERIA, MOST_CRITERIA
from trainer.domain.own_jobs import ALWAYS_NEEDED, GIVES_AWAY, NEEDS, Asked, AskKind, JobSheet

MOST_QUESTIONS = 10
MOST_WRONG = 4
MOST_THINGS = 12  # places of a scene
_BRACES = re.compile(r"\{[^{}]*\}")
ASKED_ANY_NUMBER = (AskKind.OWN, AskKind.EXPLANATION)
_CHOSEN_AMONG = (AskKind.FLOW, AskKind.GAS, AskKind.OWN)  # the wrong answers are the other options
_FEWEST_OTHERS = 2


@dataclass(frozen=True, kw_only=True)
class JobFault:
    """One fault: `place` is a field of the sheet, a path of the set-up, or `asked.N.…` for a question."""

    place: str
    message: str


class UnusableJob(DomainError):
    """A job that cannot be asked as it stands, with every fault that was found."""

    def __init__(self, faults: tuple[JobFault, ...]) -> None:
        super().__init__("; ".join(f"{each.place}: {each.message}" for each in faults))
        self.faults = faults


def question_faults(sheet: JobSheet) -> tuple[JobFault, ...]:
    """Every fault of the texts and questions, and of what the set-up does not say though it is asked."""
    return (*_text_faults(sheet), *_needed(sheet), *_fan_faults(sheet), *_together(sheet), *_each(sheet))


def _text_faults(sheet: JobSheet) -> Iterator[JobFault]:
    for name in ("title", "place", "situation"):
        text = getattr(sheet, name)
        if not text:
            yield JobFault(place=name, message="Write a few words here.")
        yield from _brace_fault(name, text)


def _brace_fault(place: str, text: str) -> Iterator[JobFault]:
    found = _BRACES.search(text)
    if found:
        message = f"'{found[0]}' stands in braces, which nothing fills in here. Write it without them."
        yield JobFault(place=place, message=message)


def _needed(sheet: JobSheet) -> Iterator[JobFault]:
    said = set(sheet.set_up)
    wanted = dict.fromkeys(ALWAYS_NEEDED, "Every job")
    for asked in sheet.asked:
        for path in NEEDS[asked.kind]:
            wanted.setdefault(path, f"The question '{asked.kind.value}'")
    for path, what_for in wanted.items():
        if path not in said:
            yield JobFault(place=path, message=f"{what_for} needs it.")
    by_size, by_own = {"pipe.nps", "pipe.schedule"}, {"pipe.outside_diameter", "pipe.wall"}
    if not by_size <= said and not by_own <= said:
        missing = sorted(by_own - said) if by_own & said else sorted(by_size - said)
        message = "Every job needs size and schedule, or outside diameter and wall."
        yield JobFault(place=missing[0], message=message)


def _fan_faults(sheet: JobSheet) -> Iterator[JobFault]:
    """What a fan must move hangs on which way it moves it."""
    asks = any(each.kind is AskKind.FAN for each in sheet.asked)
    if asks and sheet.set_up.get("surroundings.fan") == Fan.NONE:
        message = f"The question '{AskKind.FAN.value}' needs a fan that {Fan.BLOWS_IN} or {Fan.DRAWS_OUT}."
        yield JobFault(place="surroundings.fan", message=message)


def _together(sheet: JobSheet) -> Iterator[JobFault]:
    if not sheet.asked:
        yield JobFault(place="asked", message="Add at least one question.")
    if len(sheet.asked) > MOST_QUESTIONS:
        yield JobFault(
            place="asked", message=f"Up to {MOST_QUESTIONS} questions; there are {len(sheet.asked)}."
        )
    kinds = [each.kind for each in sheet.asked]
    for place, kind in enumerate(kinds):
        if kind in kinds[:place] and kind not in ASKED_ANY_NUMBER:
            yield JobFault(place=f"asked.{place}", message="This is asked already; keep one of the two.")
    for one, other in GIVES_AWAY:
        if one in kinds and other in kinds:
            message = f"This gives away the answer of '{one.value}'; keep one of the two."
            yield JobFault(place=f"asked.{kinds.index(other)}", message=message)


def _each(sheet: JobSheet) -> Iterator[JobFault]:
    for number, asked in enumerate(sheet.asked):
        place = f"asked.{number}"
        yield from _of_wrong_answers(place, asked)
        yield from _of_texts(place, asked)
        if asked.kind is AskKind.HAZARDS:
            yield from _of_things(place, asked)
        if asked.kind is AskKind.EXPLANATION:
            count = len(asked.criteria)
            if not FEWEST_CRITERIA <= count <= MOST_CRITERIA:
                message = f"A rubric looks for {FEWEST_CRITERIA} to {MOST_CRITERIA} points; here are {count}."
                yield JobFault(place=f"{place}.criteria", message=message)
        if not 0.0 < asked.weight <= 10.0:
            yield JobFault(place=f"{place}.weight", message="A weight lies above 0, up to 10.")


def _of_wrong_answers(place: str, asked: Asked) -> Iterator[JobFault]:
    for row, wrong in enumerate(asked.wrong):
        if not wrong.answer:
            yield JobFault(place=f"{place}.wrong.{row}.answer", message="Write the wrong answer, too.")
        if not wrong.belief:
            message = "Write the belief behind it: what somebody thinks who answers so, and what is the case."
            yield JobFault(place=f"{place}.wrong.{row}.belief", message=message)
    if asked.kind in _CHOSEN_AMONG and len(asked.wrong) < _FEWEST_OTHERS:
        message = f"A choice needs at least {_FEWEST_OTHERS} other options; here are {len(asked.wrong)}."
        yield JobFault(place=f"{place}.wrong.{len(asked.wrong)}.answer", message=message)
    answers = [each.answer for each in asked.wrong]
    for row, answer in enumerate(answers):
        if answer and (answer in answers[:row] or answer == asked.right):
            yield JobFault(place=f"{place}.wrong.{row}.answer", message="This stands there twice.")


def _of_texts(place: str, asked: Asked) -> Iterator[JobFault]:
    if asked.kind in ASKED_ANY_NUMBER and not asked.text:
        yield JobFault(place=f"{place}.text", message="Write the question.")
    if asked.kind is AskKind.OWN and not asked.right:
        yield JobFault(place=f"{place}.right", message="Write the right answer.")
    yield from _brace_fault(f"{place}.text", asked.text)
    yield from _brace_fault(f"{place}.right", asked.right)
    yield from _brace_fault(f"{place}.note", asked.note)
    for row, wrong in enumerate(asked.wrong):
        yield from _brace_fault(f"{place}.wrong.{row}.answer", wrong.answer)
        yield from _brace_fault(f"{place}.wrong.{row}.belief", wrong.belief)
    for criterion in asked.criteria:
        yield from _brace_fault(f"{place}.criteria", criterion)


def _of_things(place: str, asked: Asked) -> Iterator[JobFault]:
    if not asked.hazards:
        yield JobFault(place=f"{place}.hazards", message="Tick at least one hazard.")
    if len(asked.hazards) + len(asked.innocents) > MOST_THINGS:
        yield JobFault(place=f"{place}.hazards", message=f"The scene has room for {MOST_THINGS} things.")
