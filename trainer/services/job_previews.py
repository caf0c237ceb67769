"""A job before it is given out: drawn as an apprentice meets it, and answered with its keys."""

import re
from dataclasses import dataclass

from trainer.domain.attempts import AttemptKind, item_marks
from trainer.domain.families import NothingDrawn, Sources, draw_counted
from trainer.domain.family import ScenarioFamily
from trainer.domain.marking import mark
from trainer.domain.own_job_faults import (
    CANNOT_BE_ASKED,
    NO_SUCH_NUMBER,
    NOTHING_CAN_BE_ASKED,
    JobFault,
    UnusableJob,
    job_fault,
)
from trainer.domain.own_jobs import JobSheet
from trainer.domain.people import UnitSystem
from trainer.domain.policy import Policy
from trainer.domain.scenario import Scenario
from trainer.scenario_files import (
    ContentFault,
    ResponseFault,
    marked_document,
    parse_response,
    public_document,
    response_document,
    scenario_from_document,
)
from trainer.scenario_files.own_jobs import questions_of
from trainer.services.results import ScenarioResult
from trainer.services.site import Site
from trainer.storage.attempts import KeptResponse

# Any seed and difficulty give the same numbers; the order of options is this seed's.
_SEED, _DIFFICULTY = 1, 0.5
_WHY = re.compile(r"met the constraints; \d+ times: (?:(?P<question>[a-z0-9_]+): )?(?P<why>.+)", re.S)
_NO_NUMBER = re.compile(r"(?:the core finds no '|says too little for: )(?P<result>[a-z0-9_. %]+)")
WRITTEN = "What the apprentice writes; an instructor grades it."


@dataclass(frozen=True, kw_only=True)
class JobPreview:
    """The scenario without its answers, as it is shown; and the result of somebody who gives every key."""

    scenario: Scenario
    keyed: ScenarioResult


def checked_family(site: Site, *, text: str, sheet: JobSheet, policy: Policy) -> ScenarioFamily:
    """The family of a sheet, which can be drawn; raises UnusableJob, each fault at its question."""
    try:
        family = site.content.own_family("own-job", text=text)
        preview_of(site, family=family, policy=policy, edition=UnitSystem.METRIC)
    except ContentFault as fault:
        raise UnusableJob(tuple(JobFault(place="asked", message=each) for each in fault.lines)) from fault
    except NothingDrawn as fault:
        raise UnusableJob((_not_drawn(str(fault), sheet),)) from fault
    except ResponseFault as fault:  # the core's answer is more than anybody may write
        raise UnusableJob((_refused(fault.item_id, fault.message, sheet),)) from fault
    return family


def _not_drawn(told: str, sheet: JobSheet) -> JobFault:
    """Why nothing was drawn."""
    found = _WHY.search(told)
    return _refused(found["question"] or "", found["why"], sheet) if found else _refused("", told, sheet)


def _refused(name: str, why: str, sheet: JobSheet) -> JobFault:
    """The fault at the question of that id, or at the one that asks a number which the core has not."""
    missing = _NO_NUMBER.search(why)
    kind, words = NO_SUCH_NUMBER.get(missing["result"], (None, "")) if missing else (None, "")
    for question in questions_of(sheet):
        if question.id == name or question.asked.kind is kind:
            number = next(place for place, each in enumerate(sheet.asked) if each is question.asked)
            place = f"asked.{number}"
            return job_fault(place, words) if words else job_fault(place, CANNOT_BE_ASKED, why=why)
    return job_fault("asked", NOTHING_CAN_BE_ASKED, why=f"{name}: {why}" if name else why)


def preview_of(site: Site, *, family: ScenarioFamily, policy: Policy, edition: UnitSystem) -> JobPreview:
    """The family of an edition drawn once, and marked with its keys; raises NothingDrawn."""
    sources = Sources(policy=policy, hazards=site.content.hazards)
    drawn = draw_counted(family, seed=_SEED, difficulty=_DIFFICULTY, sources=sources).scenario
    scenario = site.content.in_other_languages(drawn, edition=edition)
    return JobPreview(
        scenario=scenario_from_document(public_document(scenario)), keyed=_keyed(site, scenario, policy)
    )


def _keyed(site: Site, scenario: Scenario, policy: Policy) -> ScenarioResult:
    """What a person gets who answers with the keys: the run of the right set-up with all its cautions."""
    raw = {
        each.id: WRITTEN if each.rubric else response_document(each, scenario.answers[each.id].key)
        for each in scenario.items
    }
    responses = {each.id: parse_response(each, raw[each.id]) for each in scenario.items}
    marked = mark(scenario, responses=responses, policy=policy)
    return ScenarioResult(
        scenario_no=1,
        scenario=scenario,
        passed=marked.passed,
        marks=item_marks(scenario, marked=marked, scenario_no=1),
        responses={
            item_id: KeptResponse(scenario_no=1, item_id=item_id, version=1, raw=each, kept_at=site.now())
            for item_id, each in raw.items()
        },
        own_set_up=marked.own_set_up,
        run=marked.run,
        run_missing=marked.run_missing,
        document=marked_document(marked, scenario),
        kind=AttemptKind.PRACTICE,
        grades={},
    )
