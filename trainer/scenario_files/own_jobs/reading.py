"""Reads a sheet as it was typed: every fault at its field, amounts as family files write them."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any

from trainer import units
from trainer.domain.family import Amount
from trainer.domain.own_job_faults import JobFault, UnusableJob, question_faults
from trainer.domain.own_jobs import Asked, AskKind, JobSheet, WrongAnswer
from trainer.domain.quantities import Dimension, FieldKind
from trainer.domain.set_up_paths import spec_at
from trainer.scenario_files.tables import value_of
from trainer.set_up_files import Fault, SetUpFaults, read_set_up

# The kinds whose wrong answers are amounts, and of what.
AMOUNTS: Mapping[AskKind, Dimension] = {
    AskKind.WAIT: Dimension.DURATION,
    AskKind.FLOW: Dimension.VOLUME_FLOW,
    AskKind.GAUGE: Dimension.PRESSURE,
    AskKind.LEAVE: Dimension.DURATION,
    AskKind.FAN: Dimension.VOLUME_FLOW,
}


def read_sheet(typed: JobSheet) -> JobSheet:
    """The sheet with its amounts as family files take them; raises UnusableJob with every fault at once."""
    faults = [*_set_up_faults(typed), *question_faults(typed), *_amount_faults(typed)]
    if faults:
        raise UnusableJob(tuple(_once_a_place(faults)))
    return replace(
        typed,
        set_up={path: _written(path, each) for path, each in typed.set_up.items()},
        asked=tuple(_asked(each) for each in typed.asked),
    )


def _once_a_place(faults: list[JobFault]) -> Iterator[JobFault]:
    """The first fault of each place: a field that cannot be read is not told a second time."""
    yield from {each.place: each for each in reversed(faults)}.values()


def _set_up_faults(sheet: JobSheet) -> list[JobFault]:
    try:
        read_set_up(nested({**sheet.set_up, **sheet.sides}))
    except SetUpFaults as error:
        return [_job_fault(each) for each in error.faults]
    return []


def _job_fault(fault: Fault) -> JobFault:
    return JobFault(
        place=fault.path,
        message=fault.message,
        template=fault.template,
        facts=fault.facts,
        cause=fault.cause,
    )


def nested(flat: Mapping[str, Any]) -> dict[str, Any]:
    """Values by dotted path as the document of a set-up."""
    document: dict[str, Any] = {}
    for path, value in sorted(flat.items()):
        keys = path.split(".")
        here: Any = document
        for step, following in pairwise(keys):
            here = _step_into(here, step, following)
        here[keys[-1]] = value
    return document


def _step_into(here: Any, step: str, following: str) -> Any:
    if isinstance(here, list):
        while len(here) <= int(step):
            here.append({})
        return here[int(step)]
    return here.setdefault(step, [] if following.isdigit() else {})


def _amount_faults(sheet: JobSheet) -> Iterator[JobFault]:
    for number, asked in enumerate(sheet.asked):
        dimension = AMOUNTS.get(asked.kind)
        for row, wrong in enumerate(asked.wrong if dimension else ()):
            try:
                units.parse(wrong.answer, dimension or "")
            except units.UnitFault as fault:
                place = f"asked.{number}.wrong.{row}.answer"
                yield JobFault(place=place, message=str(fault), template=fault.template, facts=fault.facts)


def _written(path: str, value: Any) -> Any:
    spec = spec_at(path)
    return amount_text(value, spec.dimension) if spec.kind is FieldKind.MEASURED and spec.dimension else value


def amount_text(typed: str, dimension: Dimension) -> str:
    """An amount as it was typed where family files can read it so, else in a metric unit."""
    plain = value_of(typed)
    if isinstance(plain, Amount) and plain.dimension is dimension:
        return typed
    return units.written(units.as_meant(units.parse(typed, dimension), dimension), dimension)


def _asked(asked: Asked) -> Asked:
    dimension = AMOUNTS.get(asked.kind)
    if dimension is None:
        return asked
    wrong = (
        WrongAnswer(answer=amount_text(each.answer, dimension), belief=each.belief) for each in asked.wrong
    )
    return replace(asked, wrong=tuple(wrong))
