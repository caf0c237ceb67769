"""The result of a marked attempt: marks beside keys, the own set-up run through the core, and overrides."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

import trainer
from trainer.domain.attempts import Attempt, AttemptKind, ItemMark, needs_settling
from trainer.domain.errors import WrongState
from trainer.domain.grades import GivenGrade
from trainer.domain.modules import Blueprint, Verdict, judge
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, permits, require
from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeRun
from trainer.domain.run_set_up import run
from trainer.domain.scenario import Scenario
from trainer.domain.set_up import SetUp
from trainer.scenario_files import scenario_from_document
from trainer.services import sight
from trainer.services.settling import read_blueprint, settle
from trainer.services.site import Site
from trainer.services.site_policy import policy_of
from trainer.set_up_files import set_up_from_document
from trainer.storage import attempts, grades, markings, paper, people
from trainer.storage.attempts import KeptResponse
from trainer.storage.database import Work
from trainer.storage.markings import Marking, ScenarioMarks
from trainer.storage.paper import PaperSheet


@dataclass(frozen=True, kw_only=True)
class ScenarioResult:
    """One marked scenario. `run` is today's core on the person's own set-up; None where `run_missing` says
    what was left open."""

    scenario_no: int
    scenario: Scenario
    passed: bool | None
    marks: tuple[ItemMark, ...]
    responses: Mapping[str, KeptResponse]
    own_set_up: SetUp | None
    run: PurgeRun | None
    run_missing: tuple[str, ...]
    document: Mapping[str, Any]
    kind: AttemptKind
    grades: Mapping[str, GivenGrade]  # by item, where somebody graded an explanation

    def mark(self, item_id: str) -> ItemMark:
        """The mark of an item; raises KeyError."""
        return {each.item_id: each for each in self.marks}[item_id]


@dataclass(frozen=True, kw_only=True)
class MarkChange:
    """One mark that a later marking put right: from what to what, by whom, when and why."""

    marking: Marking
    scenario_no: int
    item_id: str
    from_frac: float | None
    to_frac: float | None


@dataclass(frozen=True, kw_only=True)
class ResultPage:
    """A marked attempt; `history` has every marking, the first one first, and `marking` is what stands."""

    attempt: Attempt
    person_name: str
    blueprint: Blueprint
    verdict: Verdict
    marking: Marking
    history: tuple[Marking, ...]
    changes: tuple[MarkChange, ...]
    scenarios: tuple[ScenarioResult, ...]
    may_override: bool
    core_version_now: str
    sheet: PaperSheet | None  # that it was answered on, where it was answered on paper


def result_page(site: Site, acting: Acting, *, attempt_id: UUID) -> ResultPage:
    """The result for the person, an instructor of the organisation, or an employer that sees the record and
    asks for evidence of a qualification; Missing for anybody else, WrongState while it is open."""
    with site.database.reading() as work:
        attempt = _seen(site, work, acting, attempt_id)
        if not needs_settling(attempt, now=site.now()):
            return _page(site, work, acting, attempt)
    settle(site, attempt_id=attempt_id)
    with site.database.reading() as work:
        return _page(site, work, acting, _seen(site, work, acting, attempt_id))


def _seen(site: Site, work: Work, acting: Acting, attempt_id: UUID) -> Attempt:
    attempt = attempts.get_attempt(work, attempt_id=attempt_id)
    thing = sight.of_attempt(site, work, attempt)
    require(Permission.READ_ATTEMPT, acting=acting, thing=thing, what="attempt")
    return attempt


def _page(site: Site, work: Work, acting: Acting, attempt: Attempt) -> ResultPage:
    if not attempt.state.has_marks:
        raise WrongState("this attempt has not been handed in yet")
    history = markings.list_markings(work, attempt_id=attempt.attempt_id)
    marks = markings.list_marks(work, marking_id=history[-1].marking_id)
    blueprint = read_blueprint(work, attempt_id=attempt.attempt_id)
    thing = sight.of_attempt(site, work, attempt)
    return ResultPage(
        attempt=attempt,
        person_name=people.get_person(work, attempt.person_id).name,
        blueprint=blueprint,
        verdict=judge(blueprint, marks=marks),
        marking=history[-1],
        history=history,
        changes=_changes(work, history),
        scenarios=_scenarios(site, work, attempt, history[-1].marking_id, marks),
        may_override=permits(Permission.OVERRIDE_SCORE, acting=acting, thing=thing),
        core_version_now=trainer.__version__,
        sheet=paper.find_sheet_of_attempt(work, attempt_id=attempt.attempt_id),
    )


def _changes(work: Work, history: tuple[Marking, ...]) -> tuple[MarkChange, ...]:
    """What each later marking changed against the one before it; none has more than one change."""
    found: list[MarkChange] = []
    before: tuple[ItemMark, ...] = ()
    for marking in history if len(history) > 1 else ():
        marks = markings.list_marks(work, marking_id=marking.marking_id)
        found += [
            MarkChange(
                marking=marking,
                scenario_no=new.scenario_no,
                item_id=new.item_id,
                from_frac=old.score,
                to_frac=new.score,
            )
            for old, new in zip(before, marks, strict=False)
            if (old.score, old.critical_missed) != (new.score, new.critical_missed)
        ]
        before = marks
    return tuple(found)


def _scenarios(
    site: Site, work: Work, attempt: Attempt, marking_id: UUID, marks: tuple[ItemMark, ...]
) -> tuple[ScenarioResult, ...]:
    policy = policy_of(work, site, organisation_id=attempt.organisation_id)
    drawn = attempts.list_drawn(work, attempt_id=attempt.attempt_id)
    kept = attempts.list_latest_responses(work, attempt_id=attempt.attempt_id)
    given = grades.list_grades(work, attempt_id=attempt.attempt_id)
    marked = {each.scenario_no: each for each in markings.list_scenario_marks(work, marking_id=marking_id)}
    return tuple(
        _scenario(
            policy,
            marked[number],
            scenario=scenario_from_document(document),
            by_people=_ByPeople(
                kind=attempt.kind,
                marks=tuple(each for each in marks if each.scenario_no == number),
                responses={each.item_id: each for each in kept if each.scenario_no == number},
                grades={item: each for (place, item), each in given.items() if place == number},
            ),
        )
        for number, document in drawn
    )


@dataclass(frozen=True, kw_only=True)
class _ByPeople:
    """What people have put to one scenario: the answers, the marks that stand, the grades given."""

    kind: AttemptKind
    marks: tuple[ItemMark, ...]
    responses: Mapping[str, KeptResponse]
    grades: Mapping[str, GivenGrade]


def _scenario(
    policy: Policy, stored: ScenarioMarks, *, scenario: Scenario, by_people: _ByPeople
) -> ScenarioResult:
    written = stored.marked["own_set_up"]
    own = None if written is None else set_up_from_document(written)
    missing = tuple(stored.marked["run_missing"])
    return ScenarioResult(
        scenario_no=stored.scenario_no,
        scenario=scenario,
        passed=stored.passed,
        **vars(by_people),
        own_set_up=own,
        run=run(own, policy=policy) if own is not None and not missing else None,
        run_missing=missing,
        document=stored.marked,
    )
