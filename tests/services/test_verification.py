"""The public check of a code: what a genuine one says, and that nothing else says anything."""

import pytest
import training_steps as steps
from training_steps import School

from trainer.domain.qualifications import QualificationState
from trainer.domain.verification_code import code_for
from trainer.services import qualification_pages, qualifying
from trainer.services.site import Site
from trainer.services.verification import verify


def test_code_tells_person_issuer_scope_dates_and_state(teaching_site: Site, place: School) -> None:
    steps.qualified(teaching_site, place)
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    found = verify(teaching_site, typed=view.qualification.code)
    assert found is not None
    assert found.is_in_force
    assert found.scope == view.scope
    assert found.person_name == view.qualification.person_name
    assert found.issuer_name == view.qualification.organisation_name
    assert (found.starts, found.last_day) == (teaching_site.today(), view.last_day)


def test_code_is_read_as_people_type_it(teaching_site: Site, place: School) -> None:
    steps.qualified(teaching_site, place)
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    code = view.qualification.code
    sloppy = f"  {code.lower().replace('-', ' ').replace('0', 'o').replace('1', 'l')} "
    found = verify(teaching_site, typed=sloppy)
    assert found is not None
    assert found.code == code


def test_revoked_qualification_says_so_at_once(teaching_site: Site, place: School) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    qualifying.revoke(
        teaching_site, place.second, qualification_id=qualification_id, reason_given="Wrong person"
    )
    found = verify(teaching_site, typed=view.qualification.code)
    assert found is not None
    assert found.state is QualificationState.REVOKED
    assert not found.is_in_force


@pytest.mark.parametrize("typed", ["", "no code", "0000-0000-0000-0000", code_for(123456789), "é" * 12])
def test_unknown_and_malformed_codes_answer_alike(teaching_site: Site, place: School, typed: str) -> None:
    steps.qualified(teaching_site, place)
    assert verify(teaching_site, typed=typed) is None


def test_each_award_has_a_code_of_its_own(teaching_site: Site, place: School) -> None:
    steps.qualified(teaching_site, place)
    steps.qualified(teaching_site, place)
    first, second = (
        each.qualification.code
        for each in qualification_pages.own_qualifications(teaching_site, place.apprentice)
    )
    assert first != second
