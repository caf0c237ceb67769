"""Brings attempts to their marks: the clock ends what is over, and what has ended is marked, once.

Any process that reads an attempt settles it first. Marking computes outside the transaction that writes, so
that the core holds no lock; whoever writes first is right, since all compute the same from the same rows.
"""

from dataclasses import dataclass
from uuid import UUID

import trainer
from trainer.domain.attempts import Attempt, AttemptState, ItemMark, item_marks, needs_settling
from trainer.domain.marking import mark
from trainer.domain.modules import Blueprint, Verdict, judge
from trainer.domain.scenario import Marked, Scenario
from trainer.domain.scope import done_in
from trainer.scenario_files import marked_document, parse_responses, scenario_from_document
from trainer.scenario_files.records import from_json, to_json
from trainer.services import attempt_acts
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.set_up_files import write_run
from trainer.storage import attempts, markings, open_attempts
from trainer.storage.database import Work
from trainer.storage.markings import NewMarking, ScenarioMarks


def settle(site: Site, *, attempt_id: UUID) -> None:
    """Ends the attempt if its time is up, and marks it if it has ended; else changes nothing."""
    with site.database.reading() as work:
        attempt = attempts.get_attempt(work, attempt_id=attempt_id)
    if not needs_settling(attempt, now=site.now()):
        return
    if attempt.state is AttemptState.OPEN:
        with site.database.work() as work:
            end_by_clock(site, work, attempts.get_attempt_to_change(work, attempt_id=attempt_id))
    mark_ended(site, attempt_id=attempt_id)


def settle_person(site: Site, *, person_id: UUID) -> None:
    """Settles whatever of this person's is over."""
    with site.database.reading() as work:
        over = open_attempts.list_to_settle_of_person(work, person_id=person_id, now=site.now())
    for attempt_id in over:
        settle(site, attempt_id=attempt_id)


def settle_organisation(site: Site, *, organisation_id: UUID) -> None:
    """Settles whatever of this organisation's is over."""
    with site.database.reading() as work:
        over = open_attempts.list_to_settle_of_organisation(
            work, organisation_id=organisation_id, now=site.now()
        )
    for attempt_id in over:
        settle(site, attempt_id=attempt_id)


def end_by_clock(site: Site, work: Work, attempt: Attempt) -> None:
    """Expires an open attempt at its limit; whoever comes second finds it expired and changes nothing."""
    if attempt.state is not AttemptState.OPEN:
        return
    attempts.advance_attempt(
        work, attempt_id=attempt.attempt_id, to=AttemptState.EXPIRED, ended_at=attempt.expires_at
    )
    kept = attempts.list_latest_responses(work, attempt_id=attempt.attempt_id)
    attempt_acts.enter_ended(work, attempt, kept=kept, expired=True, now=site.now())


@dataclass(frozen=True, kw_only=True)
class _Marks:
    policy_version: str
    scenarios: tuple[ScenarioMarks, ...]
    marks: tuple[ItemMark, ...]
    verdict: Verdict


def mark_ended(site: Site, *, attempt_id: UUID) -> None:
    """Marks an attempt that has ended, unless somebody has done so already."""
    with site.database.reading() as work:
        found = _marks(site, work, attempt_id)
    with site.database.work() as work:
        attempt = attempts.get_attempt_to_change(work, attempt_id=attempt_id)
        if attempt.state.has_marks:
            return
        now = site.now()
        versions = {"policy": found.policy_version, "core": trainer.__version__}
        seq = attempt_acts.enter_marked(work, attempt, verdict=found.verdict, versions=versions, now=now)
        new = NewMarking(
            attempt_id=attempt_id,
            version=1,
            marked_at=now,
            passed=found.verdict.passed,
            total_frac=found.verdict.total_frac,
            critical_failures=list(found.verdict.critical_failures),
            policy_version=versions["policy"],
            core_version=versions["core"],
            ledger_seq=seq,
        )
        markings.add_marking(work, new, scenarios=found.scenarios, marks=found.marks)
        attempts.advance_attempt(work, attempt_id=attempt_id, to=AttemptState.MARKED)


def _marks(site: Site, work: Work, attempt_id: UUID) -> _Marks:
    """What the core makes of the responses kept, scenario by scenario, and the verdict over all."""
    attempt = attempts.get_attempt(work, attempt_id=attempt_id)
    policy = policy_of(work, site, organisation_id=attempt.organisation_id)
    blueprint = read_blueprint(work, attempt_id=attempt_id)
    kept = attempts.list_latest_responses(work, attempt_id=attempt_id)
    scenarios: list[ScenarioMarks] = []
    marks: list[ItemMark] = []
    for number, document in attempts.list_drawn(work, attempt_id=attempt_id):
        scenario = scenario_from_document(document)
        raw = {each.item_id: each.raw for each in kept if each.scenario_no == number}
        items = {each.id: each for each in scenario.items}
        marked = mark(scenario, responses=parse_responses(items, raw), policy=policy)
        own = item_marks(scenario, marked=marked, scenario_no=number)
        marks += own
        scenarios.append(_scenario_marks(scenario, marked, number, blueprint, own))
    return _Marks(
        policy_version=policy.version,
        scenarios=tuple(scenarios),
        marks=tuple(marks),
        verdict=judge(blueprint, marks=tuple(marks)),
    )


def _scenario_marks(
    scenario: Scenario, marked: Marked, number: int, blueprint: Blueprint, marks: tuple[ItemMark, ...]
) -> ScenarioMarks:
    return ScenarioMarks(
        scenario_no=number,
        passed=scenario_passes(blueprint, marks=marks),
        done=to_json(done_in(scenario, marked=marked)),
        marked=marked_document(
            marked, scenario, run=write_run(marked.run) if marked.run is not None else None
        ),
    )


def scenario_passes(blueprint: Blueprint, *, marks: tuple[ItemMark, ...]) -> bool | None:
    """Whether one scenario alone reaches the cuts of the skills asked in it; None while a grade misses."""
    asked = {each.skill for each in marks}
    own_rows = tuple(each for each in blueprint.rows if each.skill in asked)
    alone = Blueprint(
        rows=own_rows, pass_mark_frac=blueprint.pass_mark_frac, critical_items=blueprint.critical_items
    )
    return judge(alone, marks=marks).passed


def read_blueprint(work: Work, *, attempt_id: UUID) -> Blueprint:
    """The blueprint that an attempt was drawn from and is judged by."""
    blueprint: Blueprint = from_json(Blueprint, attempts.get_blueprint(work, attempt_id=attempt_id))
    return blueprint
