"""Set-ups on the bench: read from what was typed, run through the core, changed and set side by side."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from trainer.domain.filling import bands_at
from trainer.domain.kept_courses import KeptCourses
from trainer.domain.purge_run import PurgeRun
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.domain.what_helps import WhatHelps, what_helps
from trainer.services.site import Site
from trainer.set_up_files import Fault, SetUpFaults, read_set_up, write_set_up, written_fault
from trainer.set_up_files.flat import Nested, flat, nested


@dataclass(frozen=True, kw_only=True)
class WorkedOut:
    """A set-up and what the core makes of it; `bands_frac` is the oxygen by height when the arc is struck."""

    values: Mapping[str, Any]
    set_up: SetUp
    run: PurgeRun
    bands_frac: tuple[float, ...]
    courses: KeptCourses = field(repr=False, compare=False)


def work_out(site: Site, values: Mapping[str, Any]) -> WorkedOut:
    """What the core says of the values; raises SetUpFaults with the paths as they were typed."""
    typed = nested(values)
    courses = KeptCourses()
    try:
        set_up = read_set_up(typed.document)
        done = run(set_up, policy=site.content.policy, solved=courses.of)
    except SetUpFaults as error:
        raise SetUpFaults([_as_typed(each, typed) for each in error.faults]) from error
    except UnusableSetUp as error:
        raise SetUpFaults([_as_typed(written_fault(each), typed) for each in error.faults]) from error
    return WorkedOut(
        values=values, set_up=set_up, run=done, bands_frac=_bands_at_strike(set_up, courses), courses=courses
    )


def helped_by(site: Site, worked: WorkedOut) -> WhatHelps:
    """Which single change helps most with this set-up."""
    return what_helps(worked.set_up, policy=site.content.policy, courses=worked.courses)


def changed_values(worked: WorkedOut, changed: SetUp) -> dict[str, Any]:
    """The values as they were typed, save where another set-up differs from this one."""
    before, after = (flat(write_set_up(each)) for each in (worked.set_up, changed))
    kept = {path: value for path, value in worked.values.items() if path in after or path not in before}
    return kept | {path: value for path, value in after.items() if before.get(path) != value}


def values_of(set_up: SetUp) -> dict[str, Any]:
    """A set-up as the bench holds it."""
    return flat(write_set_up(set_up))


def _as_typed(fault: Fault, typed: Nested) -> Fault:
    return replace(fault, path=typed.typed_path(fault.path))


def _bands_at_strike(set_up: SetUp, courses: KeptCourses) -> tuple[float, ...]:
    if set_up.wait_s is None:
        return ()
    return bands_at(set_up, course=courses.of(set_up), time_s=set_up.wait_s)
