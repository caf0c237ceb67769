"""What becomes of a qualification: confirmed, suspended, revoked, lapsed, and who may see and do it."""

from datetime import date

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.errors import Missing, NotAllowed, WrongState
from trainer.domain.qualifications import QualificationAct, QualificationState
from trainer.domain.reasons import RefusedFor
from trainer.services import qualification_pages, qualifying
from trainer.services.site import Site


def state(site: Site, place: School) -> QualificationState:
    (view,) = qualification_pages.own_qualifications(site, place.apprentice)
    return view.state


def test_it_comes_due_thirty_days_before_and_lapses_by_itself_after_the_last_day(
    teaching_site: Site, place: School, clock
) -> None:
    steps.qualified(teaching_site, place)
    seen = {}
    for day in (date(2026, 8, 2), date(2026, 8, 3), date(2026, 9, 2), date(2026, 9, 3)):
        clock.at = clock.at.replace(month=day.month, day=day.day, hour=23, minute=59)
        seen[day] = state(teaching_site, place)
    assert list(seen.values()) == [
        QualificationState.CURRENT,
        QualificationState.DUE,
        QualificationState.DUE,
        QualificationState.LAPSED,
    ]


def test_confirmation_keeps_it_alive_for_six_months_from_its_day(
    teaching_site: Site, place: School, clock
) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    clock.at = clock.at.replace(month=8, day=31)
    qualifying.confirm(
        teaching_site, place.second, qualification_id=qualification_id, proof_of_use="Purge log, 12 joints"
    )
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    assert view.confirm_by == date(2027, 2, 28)
    assert view.state is QualificationState.CURRENT
    assert steps.entries(teaching_site, place)[0]["type"] == "qualification-confirmed"


def test_confirmation_sent_twice_is_one(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    for _ in range(2):
        qualifying.confirm(
            teaching_site, place.second, qualification_id=qualification_id, proof_of_use="Purge log"
        )
    acts = [each.event.act for each in _history(teaching_site, place)]
    assert acts == [QualificationAct.AWARDED, QualificationAct.CONFIRMED]


def test_what_has_lapsed_is_not_confirmed(teaching_site: Site, place: School, clock) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    clock.go_on(days=200)
    with pytest.raises(WrongState, match="lapsed"):
        qualifying.confirm(
            teaching_site, place.second, qualification_id=qualification_id, proof_of_use="Purge log"
        )


def test_nobody_confirms_their_own(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    with pytest.raises((Missing, NotAllowed)):
        qualifying.confirm(
            teaching_site, place.apprentice, qualification_id=qualification_id, proof_of_use="I did"
        )


def test_suspension_is_lifted_by_an_entry_that_supersedes_it(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    qualifying.suspend(
        teaching_site, place.second, qualification_id=qualification_id, reason_given="Near miss in a pit"
    )
    suspended = steps.entries(teaching_site, place)[0]
    assert state(teaching_site, place) is QualificationState.SUSPENDED
    qualifying.lift(
        teaching_site, place.second, qualification_id=qualification_id, reason_given="Looked into"
    )
    lifted = steps.entries(teaching_site, place)[0]
    assert state(teaching_site, place) is QualificationState.CURRENT
    assert lifted["supersedes"] == suspended["seq"]
    assert "Near miss" not in str(suspended)


def test_revocation_is_final(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    qualifying.revoke(
        teaching_site, place.second, qualification_id=qualification_id, reason_given="Signed for another"
    )
    assert state(teaching_site, place) is QualificationState.REVOKED
    for act in (qualifying.suspend, qualifying.lift):
        with pytest.raises(WrongState):
            act(teaching_site, place.second, qualification_id=qualification_id, reason_given="No")


def test_acts_without_a_reason_are_refused(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    for act in (qualifying.suspend, qualifying.revoke):
        with pytest.raises(RefusedFor, match="reason-missing"):
            act(teaching_site, place.second, qualification_id=qualification_id, reason_given="  ")


def test_issuer_lists_what_it_has_issued_and_nothing_of_others(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    other = steps.school(teaching_site)
    steps.qualified(teaching_site, other)
    (view,) = qualification_pages.qualifications_here(teaching_site, place.instructor)
    assert view.qualification.qualification_id == qualification_id
    with pytest.raises(NotAllowed):
        qualification_pages.qualifications_here(teaching_site, place.apprentice)


def test_act_by_somebody_whose_role_has_ended_since_is_refused(
    teaching_site: Site, place: School, clock
) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    signer = factories.member(
        teaching_site, place.founder, role=factories.Role.INSTRUCTOR, ends=teaching_site.today()
    )
    clock.go_on(days=1)
    with pytest.raises(RefusedFor, match="signer-without-authority-today"):
        qualifying.suspend(teaching_site, signer, qualification_id=qualification_id, reason_given="Near miss")


def test_another_providers_instructor_finds_no_such_qualification(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    stranger = steps.school(teaching_site).instructor
    for act in (qualifying.suspend, qualifying.lift, qualifying.revoke):
        with pytest.raises(Missing):
            act(teaching_site, stranger, qualification_id=qualification_id, reason_given="No")
    with pytest.raises(Missing):
        qualification_pages.qualification_page(teaching_site, stranger, qualification_id=qualification_id)


def _history(site: Site, place: School):
    (view,) = qualification_pages.own_qualifications(site, place.apprentice)
    return view.qualification.history
