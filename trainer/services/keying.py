"""Keying in: the answers of a sheet of paper, kept one by one, then handed in and marked as any others."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from typing import Any
from uuid import UUID

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.domain.errors import Missing, WrongState
from trainer.domain.paper import sat_faults
from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, Thing, require
from trainer.domain.reasons import Reason, reason, refuse_for
from trainer.domain.scenario import Scenario, unanswered_items
from trainer.scenario_files import parse_response, scenario_from_document
from trainer.services import attempt_acts
from trainer.services.attempt_acts import Answered, KeyedIn
from trainer.services.settling import mark_ended
from trainer.services.site import Site
from trainer.storage import attempts, modules, open_attempts, paper, paper_answers
from trainer.storage.attempts import DrawnScenario, NewAttempt, NewResponse
from trainer.storage.database import Work
from trainer.storage.modules import AssignmentSummary
from trainer.storage.paper import PaperSet, PaperSheet
from trainer.storage.paper_answers import HandedInFor


@dataclass(frozen=True, kw_only=True)
class KeyingPage:
    """A sheet while it is keyed in; `answers` has what was kept by scenario number and item id."""

    sheet: PaperSheet
    paper_set: PaperSet
    scenarios: Mapping[int, Scenario]
    answers: Mapping[tuple[int, str], Any]
    is_own: bool

    @property
    def unanswered(self) -> tuple[tuple[int, str], ...]:
        """What is not answered, by scenario number and item id."""
        return unanswered_items(self.scenarios, answered=self.answers)


@dataclass(frozen=True, kw_only=True)
class HandingIn:
    """What is said when a sheet is handed in: whose it is, and when it was sat."""

    person_id: UUID
    sat_on: date


def keying_page(site: Site, acting: Acting, *, code: str) -> KeyingPage:
    """The sheet with that code, of the organisation acted in; raises Missing."""
    _require(acting)
    with site.database.reading() as work:
        sheet = paper.get_sheet(work, code=code, organisation_id=acting.organisation_id)
        found = paper.get_set(work, paper_set_id=sheet.paper_set_id, organisation_id=acting.organisation_id)
        shown = paper.list_shown(work, sheet_id=sheet.sheet_id)
        kept = paper_answers.list_answers(work, sheet_id=sheet.sheet_id)
    return KeyingPage(
        sheet=sheet,
        paper_set=found,
        scenarios={number: scenario_from_document(document) for number, document in shown},
        answers={(each.scenario_no, each.item_id): each.raw for each in kept},
        is_own=sheet.person_id == acting.person_id,
    )


def keep_keyed(site: Site, acting: Acting, *, code: str, at: tuple[int, str], raw: Any) -> None:
    """Keeps the answer `at` a scenario's number and an item's id as it was typed, None where it is blank.

    Raises ResponseFault for what cannot be read, WrongState once the sheet was handed in, RefusedFor on
    one's own sheet, and Missing for an item that it does not ask.
    """
    _require(acting)
    answer = NewResponse(scenario_no=at[0], item_id=at[1], raw=raw)
    with site.database.work() as work:
        sheet = paper.get_sheet_to_change(work, code=code, organisation_id=acting.organisation_id)
        _require_waiting(sheet)
        refuse_for(_own_faults(acting, sheet.person_id))
        shown = paper.get_shown(work, sheet_id=sheet.sheet_id, scenario_no=answer.scenario_no)
        item = scenario_from_document(shown).item(answer.item_id)
        if answer.raw is None:
            paper_answers.forget_answer(
                work, sheet_id=sheet.sheet_id, scenario_no=answer.scenario_no, item_id=answer.item_id
            )
            return
        parse_response(item, answer.raw)
        paper_answers.keep_answer(
            work, answer, sheet_id=sheet.sheet_id, kept_by=acting.person_id, kept_at=site.now()
        )


def hand_in_sheet(site: Site, acting: Acting, *, code: str, handing_in: HandingIn) -> UUID:
    """Makes an assessed attempt of a sheet, with its drawn scenarios and the answers keyed in, and marks it.

    Raises WrongState where that was done before, and RefusedFor with everything that speaks against it.
    """
    _require(acting)
    with site.database.work() as work:
        sheet = paper.get_sheet_to_change(work, code=code, organisation_id=acting.organisation_id)
        _require_waiting(sheet)
        if sheet.person_id is not None and sheet.person_id != handing_in.person_id:
            raise Missing("apprentice")
        found = paper.get_set(work, paper_set_id=sheet.paper_set_id, organisation_id=acting.organisation_id)
        attempts.lock_person(work, person_id=handing_in.person_id)
        assignment, faults = _assigned(work, found, handing_in)
        refuse_for(
            (
                *_own_faults(acting, handing_in.person_id),
                *faults,
                *sat_faults(handing_in.sat_on, printed_on=found.made_at.date(), today=site.today()),
            )
        )
        assert assignment is not None  # without it there is a fault
        attempt_id = _attempt_of(site, work, acting, _Sheet(sheet, found, assignment, handing_in))
    mark_ended(site, attempt_id=attempt_id)
    return attempt_id


@dataclass(frozen=True)
class _Sheet:
    sheet: PaperSheet
    paper_set: PaperSet
    assignment: AssignmentSummary
    handing_in: HandingIn


def _assigned(
    work: Work, found: PaperSet, handing_in: HandingIn
) -> tuple[AssignmentSummary | None, list[Reason]]:
    """The assignment as it stands for this person, with what speaks against another attempt at it."""
    try:
        assignment = modules.get_assignment_for(
            work,
            assignment_id=found.assignment_id,
            person_id=handing_in.person_id,
            organisation_id=found.organisation_id,
        )
    except Missing:
        return None, [reason("sheet-for-somebody-else")]
    made = open_attempts.count_attempts(
        work, person_id=handing_in.person_id, assignment_id=found.assignment_id
    )
    if made >= assignment.attempts_allowed:
        return assignment, [reason("attempts-used-up", made=made, allowed=assignment.attempts_allowed)]
    return assignment, []


def _attempt_of(site: Site, work: Work, acting: Acting, whole: _Sheet) -> UUID:
    """The attempt, ended as it is made: nobody can go on with it on a screen."""
    sheet, now = whole.sheet, site.now()
    drawn = paper.list_scenarios(work, sheet_id=sheet.sheet_id)
    attempt_id = attempts.add_attempt(work, _new_attempt(whole, now), scenarios=drawn)
    for each in paper_answers.list_answers(work, sheet_id=sheet.sheet_id):
        attempts.record_response(work, each, attempt_id=attempt_id, now=now)
    attempts.advance_attempt(work, attempt_id=attempt_id, to=AttemptState.SUBMITTED, ended_at=now)
    person_id, sat_on = whole.handing_in.person_id, whole.handing_in.sat_on
    by = KeyedIn(code=sheet.code, person_id=acting.person_id, at=now, sat_on=sat_on)
    _enter(work, attempt_id, drawn, by)
    done = HandedInFor(
        attempt_id=attempt_id,
        person_id=person_id,
        sat_on=sat_on,
        keyed_by=acting.person_id,
        keyed_at=now,
    )
    paper_answers.hand_in_sheet(work, done, sheet_id=sheet.sheet_id)
    return attempt_id


def _enter(work: Work, attempt_id: UUID, drawn: tuple[DrawnScenario, ...], by: KeyedIn) -> None:
    answered = Answered(
        drawn=[each.drawn for each in drawn],
        kept=attempts.list_latest_responses(work, attempt_id=attempt_id),
    )
    attempt = attempts.get_attempt(work, attempt_id=attempt_id)
    attempt_acts.enter_from_paper(work, attempt, answered, by=by)


def _new_attempt(whole: _Sheet, now: datetime) -> NewAttempt:
    return NewAttempt(
        person_id=whole.handing_in.person_id,
        organisation_id=whole.paper_set.organisation_id,
        kind=AttemptKind.ASSESSED,
        title=whole.paper_set.title,
        blueprint=whole.paper_set.blueprint,
        started_at=_sat_at(whole, now),
        module_id=whole.assignment.module_id,
        assignment_id=whole.assignment.assignment_id,
    )


def _sat_at(whole: _Sheet, now: datetime) -> datetime:
    """A moment of the day on which it was sat: noon, save where the sheet was printed or keyed in nearer."""
    noon = datetime.combine(whole.handing_in.sat_on, time(12), tzinfo=UTC)
    return max(whole.paper_set.made_at, min(noon, now))


def _require_waiting(sheet: PaperSheet) -> None:
    if sheet.keyed_at is not None:
        raise WrongState(
            f"sheet {sheet.code} was keyed in for {sheet.person_name} by {sheet.keyed_by_name} on "
            f"{sheet.keyed_at:%Y-%m-%d}; it cannot be keyed in twice"
        )


def _own_faults(acting: Acting, person_id: UUID | None) -> tuple[Reason, ...]:
    return (reason("keying-for-oneself"),) if person_id == acting.person_id else ()


def _require(acting: Acting) -> None:
    thing = Thing(organisation_id=acting.organisation_id)
    require(Permission.KEY_IN_SHEET, acting=acting, thing=thing, what="sheet")
