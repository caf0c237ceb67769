"""What an employer sees of a person: qualifications and their evidence, while a share holds, and no more."""

from dataclasses import dataclass
from datetime import date, timedelta
from uuid import UUID

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.core.terms import MaterialGroup
from trainer.domain.errors import Missing, NotAllowed
from trainer.domain.people import Acting
from trainer.domain.qualifications import QualificationState
from trainer.domain.scope import Job, JointSituation
from trainer.services import practice, qualification_pages, qualifying, results, sharing
from trainer.services.sharing import Offer
from trainer.services.site import Site


@dataclass(frozen=True)
class Shared:
    """A qualified apprentice whose record an employer sees, and a colleague whose record it does not see."""

    place: School
    employer: Acting
    share_id: UUID
    qualification_id: UUID
    bystander: Acting


@pytest.fixture
def shared(teaching_site: Site, place: School) -> Shared:
    employer = factories.employer(teaching_site)
    other = steps.school(teaching_site)
    steps.qualified(teaching_site, other)
    return Shared(
        place=place,
        employer=employer,
        share_id=share(teaching_site, place.apprentice, employer),
        qualification_id=steps.qualified(teaching_site, place),
        bystander=other.apprentice,
    )


def share(site: Site, person: Acting, employer: Acting) -> UUID:
    offer = Offer(
        employer_id=employer.organisation_id,
        basis="asked for by the person",
        consent_on_file="folder 3",
        term=factories.Term(starts=site.today(), ends=None),
    )
    return sharing.give_share(site, person, person_id=person.person_id, offer=offer)


def job(**changes: object) -> Job:
    values = {
        "material": MaterialGroup.AUSTENITIC_STAINLESS,
        "gas": "I1",
        "outside_diameter_m": 0.1683,
    }
    return Job(**{**values, **changes})


def test_employer_sees_the_people_shared_with_it_and_nobody_else(teaching_site: Site, shared: Shared) -> None:
    (person,) = qualification_pages.qualified_people(teaching_site, shared.employer)
    (view,) = person.qualifications
    assert person.person_id == shared.place.apprentice.person_id
    assert view.state is QualificationState.CURRENT
    assert view.days_left == (date(2026, 9, 2) - date(2026, 3, 2)).days


def test_person_without_qualification_is_listed_in_training(teaching_site: Site, shared: Shared) -> None:
    newcomer = factories.member(teaching_site, shared.place.founder)
    share(teaching_site, newcomer, shared.employer)
    people = qualification_pages.qualified_people(teaching_site, shared.employer)
    assert {each.person_id: len(each.qualifications) for each in people} == {
        newcomer.person_id: 0,
        shared.place.apprentice.person_id: 1,
    }


def test_employer_reads_the_results_behind_a_qualification_and_no_practice(
    teaching_site: Site, shared: Shared
) -> None:
    practised = practice.start_practice(
        teaching_site, shared.place.apprentice, family="long-run", difficulty=0.0
    )
    steps.handed_in(teaching_site, shared.place.apprentice, practised)
    unused = steps.passed_attempt(teaching_site, shared.place, rows=(steps.row(3, "long-run"),))
    page = qualification_pages.qualification_page(
        teaching_site, shared.employer, qualification_id=shared.qualification_id
    )
    (evidence,) = page.attempts
    assert results.result_page(teaching_site, shared.employer, attempt_id=evidence.attempt_id).marking.passed
    assert len(page.observations) == 1
    for hidden in (practised, unused):
        with pytest.raises(Missing):
            results.result_page(teaching_site, shared.employer, attempt_id=hidden)


def test_sight_ends_with_the_share(teaching_site: Site, shared: Shared, clock) -> None:
    page = qualification_pages.qualification_page(
        teaching_site, shared.employer, qualification_id=shared.qualification_id
    )
    sharing.end_share(
        teaching_site, shared.place.apprentice, share_id=shared.share_id, reason="Left the firm"
    )
    clock.go_on(days=1)
    assert qualification_pages.qualified_people(teaching_site, shared.employer) == ()
    assert qualification_pages.who_can(teaching_site, shared.employer, job=job(), on=date(2026, 3, 4)) == ()
    with pytest.raises(Missing):
        qualification_pages.qualification_page(
            teaching_site, shared.employer, qualification_id=shared.qualification_id
        )
    with pytest.raises(Missing):
        results.result_page(teaching_site, shared.employer, attempt_id=page.attempts[0].attempt_id)
    with pytest.raises(Missing):
        qualifying.confirm(
            teaching_site,
            shared.employer,
            qualification_id=shared.qualification_id,
            proof_of_use="Purge log",
        )


def test_another_employer_finds_no_such_qualification(teaching_site: Site, shared: Shared) -> None:
    stranger = factories.employer(teaching_site)
    with pytest.raises(Missing):
        qualification_pages.qualification_page(
            teaching_site, stranger, qualification_id=shared.qualification_id
        )
    assert qualification_pages.qualified_people(teaching_site, stranger) == ()


def test_employer_confirms_use_and_the_issuers_ledger_says_who(
    teaching_site: Site, shared: Shared, clock
) -> None:
    clock.go_on(days=100)
    qualifying.confirm(
        teaching_site,
        shared.employer,
        qualification_id=shared.qualification_id,
        proof_of_use="Purge log of the spring shutdown",
    )
    page = qualification_pages.qualification_page(
        teaching_site, shared.employer, qualification_id=shared.qualification_id
    )
    last = page.view.qualification.history[-1]
    assert last.organisation_id == shared.employer.organisation_id
    assert last.event.by == shared.employer.person_id
    assert page.view.confirm_by == date(2026, 12, 10)


def test_employer_neither_suspends_nor_revokes(teaching_site: Site, shared: Shared) -> None:
    page = qualification_pages.qualification_page(
        teaching_site, shared.employer, qualification_id=shared.qualification_id
    )
    assert (page.may_confirm, page.may_suspend, page.may_revoke) == (True, False, False)
    for act in (qualifying.suspend, qualifying.revoke):
        with pytest.raises(NotAllowed):
            act(
                teaching_site,
                shared.employer,
                qualification_id=shared.qualification_id,
                reason_given="No",
            )


def test_who_can_answers_with_the_qualification_that_covers_the_job(
    teaching_site: Site, shared: Shared
) -> None:
    (answer,) = qualification_pages.who_can(
        teaching_site, shared.employer, job=job(), on=teaching_site.today()
    )
    assert answer.fits
    assert answer.by is not None
    assert answer.by.qualification.qualification_id == shared.qualification_id
    assert answer.reasons == ()


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"material": MaterialGroup.TITANIUM}, "material-outside-scope"),
        ({"gas": "N1"}, "gas-outside-scope"),
        ({"outside_diameter_m": 1.5}, "diameter-outside-scope"),
        ({"section_length_m": 60.0}, "length-outside-scope"),
        ({"situation": JointSituation.COMPLEX_SPOOL}, "joint-situation-outside-scope"),
        ({"confined_space": True}, "no-confined-space-endorsement"),
    ],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_who_can_gives_the_reason_for_a_no(
    teaching_site: Site, shared: Shared, changes: dict, code: str
) -> None:
    (answer,) = qualification_pages.who_can(
        teaching_site, shared.employer, job=job(**changes), on=teaching_site.today()
    )
    assert not answer.fits
    assert [each.code for each in answer.reasons] == [code]


def test_who_can_looks_at_the_day_of_the_job(teaching_site: Site, shared: Shared) -> None:
    last = date(2026, 9, 2)
    on_last, after = (
        qualification_pages.who_can(teaching_site, shared.employer, job=job(), on=day)[0]
        for day in (last, last + timedelta(days=1))
    )
    assert on_last.fits
    assert [dict(each.facts) for each in after.reasons] == [{"state": "lapsed", "last_day": "2026-09-02"}]


def test_who_can_names_people_without_any_qualification_last(teaching_site: Site, shared: Shared) -> None:
    newcomer = factories.member(
        teaching_site, shared.place.founder, new=factories.new_person(name="Aaa First By Name")
    )
    share(teaching_site, newcomer, shared.employer)
    first, last = qualification_pages.who_can(
        teaching_site, shared.employer, job=job(), on=teaching_site.today()
    )
    assert first.fits
    assert (last.person_id, [each.code for each in last.reasons]) == (
        newcomer.person_id,
        ["no-qualification"],
    )


def test_apprentice_and_instructor_do_not_ask_who_can(teaching_site: Site, shared: Shared) -> None:
    for acting in (shared.place.apprentice, shared.place.instructor):
        with pytest.raises(NotAllowed):
            qualification_pages.who_can(teaching_site, acting, job=job(), on=teaching_site.today())
