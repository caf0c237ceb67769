"""Overrides that supersede with a reason, what they do to qualifications, and observations."""

from dataclasses import replace
from datetime import date, timedelta
from uuid import UUID

import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.attempts import AttemptState
from trainer.domain.errors import Conflict, Duplicate, Missing, NotAllowed, WrongState
from trainer.domain.overrides import Override
from trainer.domain.qualifications import QualificationState
from trainer.domain.reasons import RefusedFor
from trainer.services import assessment, grading, practice, qualification_pages, qualifying, results
from trainer.services.records import verify_ledgers
from trainer.services.site import Site


def override(**changes: object) -> Override:
    values = {
        "scenario_no": 1,
        "item_id": "supply",
        "score_frac": 1.0,
        "critical_missed": False,
        "reason": "The gauge in the drawing was hard to read",
        "of_version": 1,
    }
    return Override(**{**values, **changes})


def test_override_supersedes_the_first_marking_and_keeps_it(teaching_site: Site, place: School) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    version = grading.override_score(
        teaching_site, place.instructor, attempt_id=attempt_id, override=override()
    )
    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    first, second = page.history
    assert version == 2
    assert page.attempt.state is AttemptState.SUPERSEDED
    assert (first.passed, second.passed) == (False, True)
    assert second.marked_by == place.instructor.person_id
    assert second.reason == "The gauge in the drawing was hard to read"
    assert page.scenarios[0].mark("supply").overridden
    assert page.scenarios[0].mark("supply").score == 1.0
    assert page.scenarios[0].passed
    (change,) = page.changes
    assert (change.item_id, change.from_frac, change.to_frac) == ("supply", 0.0, 1.0)
    assert change.marking == second


def test_override_enters_the_ledger_over_the_marking_and_keeps_the_words_out(
    teaching_site: Site, place: School
) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    marked = steps.entries(teaching_site, place)[0]
    grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override())
    entry = steps.entries(teaching_site, place)[0]
    assert entry["type"] == "score-overridden"
    assert entry["supersedes"] == marked["seq"]
    assert (entry["body"]["from"], entry["body"]["to"]) == ("0.000", "1.000")
    assert "gauge" not in str(entry)
    assert all(each.proof.holds for each in verify_ledgers(teaching_site.database))


def test_override_sent_twice_makes_one_marking(teaching_site: Site, place: School) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    versions = [
        grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override())
        for _ in range(2)
    ]
    assert versions == [2, 2]


def test_override_of_marks_that_somebody_changed_in_between_conflicts(
    teaching_site: Site, place: School
) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override())
    with pytest.raises(Conflict):
        grading.override_score(
            teaching_site, place.second, attempt_id=attempt_id, override=override(score_frac=0.4)
        )


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"score_frac": 1.1}, "score-out-of-range"),
        ({"score_frac": -0.1}, "score-out-of-range"),
        ({"score_frac": float("nan")}, "score-out-of-range"),
        ({"reason": "   "}, "reason-missing"),
    ],
)
def test_override_in_bad_form_is_refused(
    teaching_site: Site, place: School, changes: dict, code: str
) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    with pytest.raises(RefusedFor) as refused:
        grading.override_score(
            teaching_site, place.instructor, attempt_id=attempt_id, override=override(**changes)
        )
    assert [each.code for each in refused.value.because] == [code]


def test_override_of_an_item_that_was_not_asked_is_missing(teaching_site: Site, place: School) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    with pytest.raises(Missing):
        grading.override_score(
            teaching_site, place.instructor, attempt_id=attempt_id, override=override(item_id="none")
        )


def test_practice_is_not_overridden(teaching_site: Site, place: School) -> None:
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family="long-run", difficulty=0.0)
    steps.handed_in(teaching_site, place.apprentice, attempt_id)
    with pytest.raises(WrongState):
        grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override())


def test_attempt_that_is_still_open_is_not_overridden(teaching_site: Site, place: School) -> None:
    assignment_id = steps.assigned(teaching_site, place)
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)
    with pytest.raises(WrongState):
        grading.override_score(teaching_site, place.instructor, attempt_id=attempt_id, override=override())


def test_only_an_instructor_of_the_same_provider_overrides(teaching_site: Site, place: School) -> None:
    attempt_id = _failed_on_supply(teaching_site, place)
    with pytest.raises(NotAllowed):
        grading.override_score(teaching_site, place.apprentice, attempt_id=attempt_id, override=override())
    stranger = steps.school(teaching_site).instructor
    with pytest.raises(Missing):
        grading.override_score(teaching_site, stranger, attempt_id=attempt_id, override=override())


def test_override_that_fails_the_evidence_suspends_what_rests_on_it(
    teaching_site: Site, place: School
) -> None:
    steps.qualified(teaching_site, place)
    attempt_id = _evidence(teaching_site, place)
    grading.override_score(
        teaching_site,
        place.second,
        attempt_id=attempt_id,
        override=override(score_frac=0.0, critical_missed=True, reason="Answered from a neighbour's sheet"),
    )
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    types = [each["type"] for each in steps.entries(teaching_site, place)[:2]]
    assert view.state is QualificationState.SUSPENDED
    assert view.qualification.history[-1].event.reason.startswith("evidence superseded")
    assert types == ["qualification-suspended", "score-overridden"]


def test_override_that_leaves_the_evidence_standing_leaves_the_qualification(
    teaching_site: Site, place: School
) -> None:
    steps.qualified(teaching_site, place)
    attempt_id = _evidence(teaching_site, place)
    grading.override_score(
        teaching_site, place.second, attempt_id=attempt_id, override=override(score_frac=0.95)
    )
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    assert view.state is QualificationState.CURRENT


def test_suspended_for_its_evidence_is_lifted_by_a_person_who_says_why(
    teaching_site: Site, place: School
) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    attempt_id = _evidence(teaching_site, place)
    grading.override_score(
        teaching_site,
        place.second,
        attempt_id=attempt_id,
        override=override(score_frac=0.0, critical_missed=True),
    )
    qualifying.lift(
        teaching_site, place.second, qualification_id=qualification_id, reason_given="Retested in the booth"
    )
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    assert view.state is QualificationState.CURRENT


def test_observation_counts_once_however_often_the_form_is_sent(teaching_site: Site, place: School) -> None:
    seen = steps.observation(teaching_site, place.instructor, of=place.apprentice)
    for _ in range(2):
        grading.record_observation(teaching_site, place.instructor, observation=seen)
    page = qualifying.award_page(teaching_site, place.instructor, person_id=place.apprentice.person_id)
    assert [each.observation for each in page.observations] == [seen]
    with pytest.raises(Duplicate):
        grading.record_observation(teaching_site, place.instructor, observation=replace(seen, accepted=False))


def test_observation_enters_the_ledger_without_its_words(teaching_site: Site, place: School) -> None:
    steps.observed(
        teaching_site,
        place.instructor,
        of=place.apprentice,
        notes="Vent hose led outside",
        analyser_serial="A 17",
        analyser_calibrated_until=date(2026, 12, 1),
    )
    entry = steps.entries(teaching_site, place)[0]
    assert entry["type"] == "observation-recorded"
    assert entry["body"]["oxygen_at_strike_ppm"] == "300.0"
    assert entry["body"]["outside_diameter_mm"] == "168.30"
    assert "Vent hose" not in str(entry)
    assert entry["commitment"]


def test_observation_is_recorded_by_whoever_saw_it_and_not_ahead_of_time(
    teaching_site: Site, place: School
) -> None:
    tomorrow = teaching_site.today() + timedelta(days=1)
    other = steps.observation(
        teaching_site,
        place.instructor,
        of=place.apprentice,
        observed_by=place.second.person_id,
        observed_on=tomorrow,
    )
    with pytest.raises(RefusedFor) as refused:
        grading.record_observation(teaching_site, place.instructor, observation=other)
    assert [each.code for each in refused.value.because] == [
        "observed-by-somebody-else",
        "observed-in-the-future",
    ]


def test_observation_of_a_day_before_the_observer_was_an_instructor_is_refused(
    teaching_site: Site, place: School
) -> None:
    early = steps.observation(
        teaching_site, place.instructor, of=place.apprentice, observed_on=date(2026, 1, 5)
    )
    with pytest.raises(RefusedFor, match="observer-without-authority"):
        grading.record_observation(teaching_site, place.instructor, observation=early)


def test_nobody_observes_themselves_nor_somebody_of_another_provider(
    teaching_site: Site, place: School
) -> None:
    own = steps.observation(teaching_site, place.instructor, of=place.instructor)
    stranger = steps.school(teaching_site).apprentice
    foreign = steps.observation(teaching_site, place.instructor, of=stranger)
    for each in (own, foreign):
        with pytest.raises(Missing):
            grading.record_observation(teaching_site, place.instructor, observation=each)


def _failed_on_supply(site: Site, place: School) -> UUID:
    assignment_id = steps.assigned(site, place)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(site, place.apprentice, attempt_id, but=["supply"])
    item_id, wrong = steps.wrong_answer(steps.drawn(site, attempt_id)[1])
    assert item_id == "supply"
    assessment.keep_response(
        site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=wrong
    )
    assert not steps.handed_in(site, place.apprentice, attempt_id).passed
    return attempt_id


def _evidence(site: Site, place: School) -> UUID:
    page = qualifying.award_page(site, place.second, person_id=place.apprentice.person_id)
    return page.attempts[0].attempt_id
