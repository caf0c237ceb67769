"""Attempts, practised and assessed: start, keep each response, hand in. Time is the server's."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from trainer.domain.attempts import (
    Attempt,
    AttemptKind,
    AttemptState,
    expiry,
    needs_settling,
    require_open,
    seconds_left,
    time_is_up,
)
from trainer.domain.errors import Conflict, WrongState
from trainer.domain.modules import Blueprint, Verdict, drawn_families, judge
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.scenario import Item, Scenario, unanswered_items
from trainer.domain.unfolding import Unfolding
from trainer.scenario_files import parse_response, scenario_from_document
from trainer.scenario_files.records import from_json
from trainer.services import attempt_acts
from trainer.services.drawn_scenarios import Wanted, drawn_for, started_with_new_seeds
from trainer.services.settling import end_by_clock, mark_ended, read_blueprint, settle, settle_person
from trainer.services.site import Site
from trainer.services.unfoldings import require_goes_on, unfoldings_of
from trainer.storage import attempts, markings, modules, open_attempts
from trainer.storage.attempts import DrawnScenario, KeptResponse, NewAttempt, NewResponse
from trainer.storage.database import Work
from trainer.storage.modules import AssignmentSummary, StoredModule


@dataclass(frozen=True, kw_only=True)
class ScenarioPage:
    """One scenario as it is shown: `scenario` has no answers and no seed, nor has its document."""

    scenario_no: int
    scenario: Scenario
    document: Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class AttemptPage:
    """An attempt while it is worked on; `responses` has the latest version by scenario number and item id."""

    attempt_id: UUID
    kind: AttemptKind
    title: str
    state: AttemptState
    started_at: datetime
    expires_at: datetime | None
    seconds_left: int | None
    scenarios: tuple[ScenarioPage, ...]
    responses: Mapping[tuple[int, str], KeptResponse]
    hand_in_token: UUID
    unanswered: tuple[tuple[int, str], ...]
    unfoldings: Mapping[tuple[int, str], Unfolding]
    said: Mapping[str, Mapping[str, str]]  # by language: what the steps of those have shown so far


@dataclass(frozen=True, kw_only=True)
class Kept:
    """The acknowledgement of one response."""

    version: int
    at: datetime


@dataclass(frozen=True, kw_only=True)
class HandedIn:
    """What handing in led to, the first time and every time after; `passed` is None while a grade misses."""

    attempt_id: UUID
    passed: bool | None
    ran_out_of_time: bool
    verdict: Verdict


def start_assignment(site: Site, acting: Acting, *, assignment_id: UUID) -> UUID:
    """An assessed attempt at an assignment, its expiry fixed now; one that is open is gone on with."""
    settle_person(site, person_id=acting.person_id)
    return started_with_new_seeds(lambda: _start(site, acting, assignment_id))


def _start(site: Site, acting: Acting, assignment_id: UUID) -> UUID:
    with site.database.reading() as work:
        assignment, module = _assigned(work, acting, assignment_id)
        going_on = _open_attempt(work, acting, assignment)
        turn = 0 if going_on else _require_another(work, acting, assignment)
    if going_on is not None:
        return going_on
    blueprint: Blueprint = from_json(Blueprint, module.blueprint)
    wanted = [
        Wanted(family=family, difficulty=row.difficulty)
        for family, row in drawn_families(blueprint, turn=turn)
    ]
    drawn = drawn_for(site, acting, kind=AttemptKind.ASSESSED, wanted=wanted)
    with site.database.work() as work:
        attempts.lock_person(work, person_id=acting.person_id)
        going_on = _open_attempt(work, acting, assignment)
        if going_on is not None:
            return going_on
        _require_another(work, acting, assignment)
        return _started(work, acting, module, drawn=drawn, at=(assignment_id, site.now()))


def _assigned(work: Work, acting: Acting, assignment_id: UUID) -> tuple[AssignmentSummary, StoredModule]:
    own = Thing(organisation_id=acting.organisation_id, person_id=acting.person_id)
    require(Permission.TAKE_ASSESSMENT, acting=acting, thing=own, what="assignment")
    assignment = modules.get_assignment_for(
        work,
        assignment_id=assignment_id,
        person_id=acting.person_id,
        organisation_id=acting.organisation_id,
    )
    module = modules.get_module(work, module_id=assignment.module_id, organisation_id=acting.organisation_id)
    return assignment, module


def _open_attempt(work: Work, acting: Acting, assignment: AssignmentSummary) -> UUID | None:
    return open_attempts.find_open_attempt(
        work, person_id=acting.person_id, assignment_id=assignment.assignment_id
    )


def _require_another(work: Work, acting: Acting, assignment: AssignmentSummary) -> int:
    """How many attempts were made; raises WrongState when no further one is allowed."""
    made = open_attempts.count_attempts(
        work, person_id=acting.person_id, assignment_id=assignment.assignment_id
    )
    if made >= assignment.attempts_allowed:
        raise WrongState(f"all attempts allowed have been made: {made} of {assignment.attempts_allowed}")
    return made


def _started(
    work: Work,
    acting: Acting,
    module: StoredModule,
    *,
    drawn: tuple[DrawnScenario, ...],
    at: tuple[UUID, datetime],
) -> UUID:
    assignment_id, now = at
    new = NewAttempt(
        person_id=acting.person_id,
        organisation_id=acting.organisation_id,
        kind=AttemptKind.ASSESSED,
        title=module.title,
        blueprint=module.blueprint,
        started_at=now,
        expires_at=expiry(now, time_limit_s=from_json(Blueprint, module.blueprint).time_limit_s),
        module_id=module.module_id,
        assignment_id=assignment_id,
    )
    attempt_id = attempts.add_attempt(work, new, scenarios=drawn)
    attempt = attempts.get_attempt(work, attempt_id=attempt_id)
    attempt_acts.enter_started(work, attempt, drawn=[each.drawn for each in drawn])
    return attempt_id


def attempt_page(site: Site, acting: Acting, *, attempt_id: UUID) -> AttemptPage:
    """The person's own attempt to work on; once it is no longer open its state says so."""
    with site.database.reading() as work:
        attempt = _own(acting, _get_own(work, acting, attempt_id))
        if not needs_settling(attempt, now=site.now()):
            return _page(site, work, attempt)
    settle(site, attempt_id=attempt_id)
    with site.database.reading() as work:
        return _page(site, work, _get_own(work, acting, attempt_id))


def _get_own(work: Work, acting: Acting, attempt_id: UUID) -> Attempt:
    return attempts.get_own_attempt(work, attempt_id=attempt_id, person_id=acting.person_id)


def _page(site: Site, work: Work, attempt: Attempt) -> AttemptPage:
    shown = attempts.list_shown(work, attempt_id=attempt.attempt_id)
    kept = attempts.list_latest_responses(work, attempt_id=attempt.attempt_id)
    scenarios = tuple(
        ScenarioPage(scenario_no=number, scenario=scenario_from_document(document), document=document)
        for number, document in shown
    )
    responses = {(each.scenario_no, each.item_id): each for each in kept}
    numbered = {each.scenario_no: each.scenario for each in scenarios}
    unfoldings, said = unfoldings_of(work, attempt.attempt_id, scenarios=numbered, responses=responses)
    return AttemptPage(
        attempt_id=attempt.attempt_id,
        kind=attempt.kind,
        title=attempt.title,
        state=attempt.state,
        started_at=attempt.started_at,
        expires_at=attempt.expires_at,
        seconds_left=seconds_left(attempt.expires_at, now=site.now()),
        scenarios=scenarios,
        responses=responses,
        hand_in_token=attempt.hand_in_token,
        unanswered=unanswered_items(numbered, answered=responses),
        unfoldings=unfoldings,
        said=said,
    )


def _own(acting: Acting, attempt: Attempt) -> Attempt:
    thing = Thing(organisation_id=attempt.organisation_id, person_id=attempt.person_id)
    require(Permission.ANSWER_ATTEMPT, acting=acting, thing=thing, what="attempt")
    return attempt


def keep_response(  # noqa: PLR0913 - the address of an item has three parts
    site: Site, acting: Acting, *, attempt_id: UUID, scenario_no: int, item_id: str, raw: Any
) -> Kept:
    """Keeps one more version of a response, as it was typed; acknowledged means stored.

    Raises ResponseFault for what cannot be read (nothing is kept), WrongState once the time is up or the
    attempt was handed in, Missing for an item that the attempt does not ask.
    """
    return keep_answer(
        site, acting, attempt_id=attempt_id, scenario_no=scenario_no, item_id=item_id, read=lambda _: raw
    )


def keep_answer(  # noqa: PLR0913 - the address of an item has three parts
    site: Site,
    acting: Acting,
    *,
    attempt_id: UUID,
    scenario_no: int,
    item_id: str,
    read: Callable[[Item], Any],
) -> Kept:
    """The same where it takes the item to know what was typed; whatever `read` raises, nothing is kept.

    One transaction looks the item up and keeps the response, since a whole class answers at once.
    """
    with site.database.work() as work:
        attempt = _own(
            acting,
            attempts.get_own_attempt_to_change(work, attempt_id=attempt_id, person_id=acting.person_id),
        )
        now = site.now()  # after the lock: what waited past the limit is late
        require_open(attempt, now=now)
        document = attempts.get_shown(work, attempt_id=attempt_id, scenario_no=scenario_no)
        item = scenario_from_document(document).item(item_id)
        raw = read(item)
        parse_response(item, raw)
        response = NewResponse(scenario_no=scenario_no, item_id=item_id, raw=raw)
        require_goes_on(work, response, attempt_id=attempt_id, item=item)
        kept = attempts.record_response(work, response, attempt_id=attempt_id, now=now)
    return Kept(version=kept.version, at=kept.kept_at)


def hand_in(site: Site, acting: Acting, *, attempt_id: UUID, token: UUID) -> HandedIn:
    """Ends the attempt and marks what was kept. Sent again, it changes nothing and gives the same result."""
    with site.database.work() as work:
        attempt = _own(
            acting,
            attempts.get_own_attempt_to_change(work, attempt_id=attempt_id, person_id=acting.person_id),
        )
        if token != attempt.hand_in_token:
            raise Conflict("this form is of another attempt; open this one again and hand in from there")
        now = site.now()
        if time_is_up(attempt.expires_at, now=now):
            end_by_clock(site, work, attempt)
        elif attempt.state is AttemptState.OPEN:
            kept = attempts.list_latest_responses(work, attempt_id=attempt_id)
            attempts.advance_attempt(work, attempt_id=attempt_id, to=AttemptState.SUBMITTED, ended_at=now)
            attempt_acts.enter_ended(work, attempt, kept=kept, expired=False, now=now)
    if not attempt.state.has_marks:
        mark_ended(site, attempt_id=attempt_id)
    return _handed_in(site, attempt_id)


def _handed_in(site: Site, attempt_id: UUID) -> HandedIn:
    with site.database.reading() as work:
        attempt = attempts.get_attempt(work, attempt_id=attempt_id)
        marking = markings.get_standing_marking(work, attempt_id=attempt_id)
        marks = markings.list_marks(work, marking_id=marking.marking_id)
        blueprint = read_blueprint(work, attempt_id=attempt_id)
    return HandedIn(
        attempt_id=attempt_id,
        passed=marking.passed,
        ran_out_of_time=attempt.ran_out_of_time,
        verdict=judge(blueprint, marks=marks),
    )
