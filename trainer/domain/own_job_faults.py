"""What is wrong with the questions of a job, before anything of it is written or drawn."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from trainer.core.terms import Fan
from trainer.domain.errors import DomainError
from trainer.domain.items.explanation import FEWEST_CRITERIA, MOST_CRITERIA
from trainer.domain.own_jobs import ALWAYS_NEEDED, GIVES_AWAY, NEEDS, Asked, AskKind, JobSheet
from trainer.domain.set_up_faults import SetUpFault

MOST_QUESTIONS = 10
MOST_WRONG = 4
MOST_THINGS = 12  # places of a scene
_BRACES = re.compile(r"\{[^{}]*\}")
ASKED_ANY_NUMBER = (AskKind.OWN, AskKind.EXPLANATION)
_CHOSEN_AMONG = (AskKind.FLOW, AskKind.GAS, AskKind.OWN)  # the wrong answers are the other options
_FEWEST_OTHERS = 2


@dataclass(frozen=True, kw_only=True)
class JobFault:
    """One fault: `place` is a field of the sheet, a path of the set-up, or `asked.N.…` for a question.

    For other languages there is what the message was made of: a template with its facts, or what the set-up
    itself found wrong.
    """

    place: str
    message: str
    template: str = ""
    facts: Mapping[str, str] = field(default_factory=dict)
    cause: SetUpFault | None = None


def job_fault(place: str, template: str, **facts: object) -> JobFault:
    """A fault said by a template of this module."""
    written = {name: str(each) for name, each in facts.items()}
    return JobFault(place=place, message=template % written, template=template, facts=written)


WORDS_MISSING = "Write a few words here."
IN_BRACES = "'%(typed)s' stands in braces, which nothing fills in here. Write it without them."
EVERY_JOB_NEEDS = "Every job needs it."
QUESTION_NEEDS = "The question '%(question)s' needs it."
SIZE_NEEDED = "Every job needs size and schedule, or outside diameter and wall."
FAN_NEEDED = "The question '%(question)s' needs a fan that blows in or draws out."
NO_QUESTION = "Add at least one question."
MANY_QUESTIONS = "Up to %(most)s questions; there are %(count)s."
ASKED_ALREADY = "This is asked already; keep one of the two."
GIVEN_AWAY = "This gives away the answer of '%(question)s'; keep one of the two."
POINTS = "A rubric looks for %(fewest)s to %(most)s points; here are %(count)s."
WEIGHT = "A weight lies above 0, up to 10."
WRONG_MISSING = "Write the wrong answer, too."
BELIEF_MISSING = "Write the belief behind it: what somebody thinks who answers so, and what is the case."
FEW_OPTIONS = "A choice needs at least %(fewest)s other options; here are %(count)s."
TWICE = "This stands there twice."
TEXT_MISSING = "Write the question."
RIGHT_MISSING = "Write the right answer."
NO_HAZARD = "Tick at least one hazard."
MANY_THINGS = "The scene has room for %(most)s things."
CANNOT_BE_ASKED = "It cannot be asked so: %(why)s."
NOTHING_CAN_BE_ASKED = "Nothing can be asked of this set-up: %(why)s."
# By what is asked of the core: which question asks it, and why the core may have no such number.
NO_SUCH_NUMBER = {
    "time to target": (
        AskKind.WAIT,
        "The oxygen wanted is never reached with this set-up, so there is no time to ask for. Look at gas,"
        " vent, dams and leaks, or want less.",
    ),
    "supply.change_below_bar": (
        AskKind.GAUGE,
        "The supply holds less than this joint takes with these flows and times, so no gauge is enough. Tell"
        " a fuller or a larger supply, or a joint that takes less.",
    ),
    "time to 19.5 %": (
        AskKind.LEAVE,
        "The air never comes down to 19.5 %% here, so there is no time to be out by. Tell more gas, a smaller"
        " space or less air, or leave the question out.",
    ),
}


def messages() -> tuple[str, ...]:
    """Every template, for those who translate them."""
    return (
        WORDS_MISSING, IN_BRACES, EVERY_JOB_NEEDS, QUESTION_NEEDS, SIZE_NEEDED, FAN_NEEDED, NO_QUESTION,
        MANY_QUESTIONS, ASKED_ALREADY, GIVEN_AWAY, POINTS, WEIGHT, WRONG_MISSING, BELIEF_MISSING, FEW_OPTIONS,
        TWICE, TEXT_MISSING, RIGHT_MISSING, NO_HAZARD, MANY_THINGS, CANNOT_BE_ASKED, NOTHING_CAN_BE_ASKED,
        *(words for _, words in NO_SUCH_NUMBER.values()),
    )  # fmt: skip


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
            yield job_fault(name, WORDS_MISSING)
        yield from _brace_fault(name, text)


def _brace_fault(place: str, text: str) -> Iterator[JobFault]:
    found = _BRACES.search(text)
    if found:
        yield job_fault(place, IN_BRACES, typed=found[0])


def _needed(sheet: JobSheet) -> Iterator[JobFault]:
    said = set(sheet.set_up)
    wanted = dict.fromkeys(ALWAYS_NEEDED, "")
    for asked in sheet.asked:
        for path in NEEDS[asked.kind]:
            wanted.setdefault(path, asked.kind.value)
    for path, question in wanted.items():
        if path not in said:
            yield job_fault(path, QUESTION_NEEDS if question else EVERY_JOB_NEEDS, question=question)
    by_size, by_own = {"pipe.nps", "pipe.schedule"}, {"pipe.outside_diameter", "pipe.wall"}
    if not by_size <= said and not by_own <= said:
        missing = sorted(by_own - said) if by_own & said else sorted(by_size - said)
        yield job_fault(missing[0], SIZE_NEEDED)


def _fan_faults(sheet: JobSheet) -> Iterator[JobFault]:
    """What a fan must move hangs on which way it moves it."""
    asks = any(each.kind is AskKind.FAN for each in sheet.asked)
    if asks and sheet.set_up.get("surroundings.fan") == Fan.NONE:
        yield job_fault("surroundings.fan", FAN_NEEDED, question=AskKind.FAN.value)


def _together(sheet: JobSheet) -> Iterator[JobFault]:
    if not sheet.asked:
        yield job_fault("asked", NO_QUESTION)
    if len(sheet.asked) > MOST_QUESTIONS:
        yield job_fault("asked", MANY_QUESTIONS, most=MOST_QUESTIONS, count=len(sheet.asked))
    kinds = [each.kind for each in sheet.asked]
    for place, kind in enumerate(kinds):
        if kind in kinds[:place] and kind not in ASKED_ANY_NUMBER:
            yield job_fault(f"asked.{place}", ASKED_ALREADY)
    for one, other in GIVES_AWAY:
        if one in kinds and other in kinds:
            yield job_fault(f"asked.{kinds.index(other)}", GIVEN_AWAY, question=one.value)


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
                ends = {"fewest": FEWEST_CRITERIA, "most": MOST_CRITERIA}
                yield job_fault(f"{place}.criteria", POINTS, count=count, **ends)
        if not 0.0 < asked.weight <= 10.0:
            yield job_fault(f"{place}.weight", WEIGHT)


def _of_wrong_answers(place: str, asked: Asked) -> Iterator[JobFault]:
    for row, wrong in enumerate(asked.wrong):
        if not wrong.answer:
            yield job_fault(f"{place}.wrong.{row}.answer", WRONG_MISSING)
        if not wrong.belief:
            yield job_fault(f"{place}.wrong.{row}.belief", BELIEF_MISSING)
    if asked.kind in _CHOSEN_AMONG and len(asked.wrong) < _FEWEST_OTHERS:
        count = len(asked.wrong)
        yield job_fault(f"{place}.wrong.{count}.answer", FEW_OPTIONS, fewest=_FEWEST_OTHERS, count=count)
    answers = [each.answer for each in asked.wrong]
    for row, answer in enumerate(answers):
        if answer and (answer in answers[:row] or answer == asked.right):
            yield job_fault(f"{place}.wrong.{row}.answer", TWICE)


def _of_texts(place: str, asked: Asked) -> Iterator[JobFault]:
    if asked.kind in ASKED_ANY_NUMBER and not asked.text:
        yield job_fault(f"{place}.text", TEXT_MISSING)
    if asked.kind is AskKind.OWN and not asked.right:
        yield job_fault(f"{place}.right", RIGHT_MISSING)
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
        yield job_fault(f"{place}.hazards", NO_HAZARD)
    if len(asked.hazards) + len(asked.innocents) > MOST_THINGS:
        yield job_fault(f"{place}.hazards", MANY_THINGS, most=MOST_THINGS)
