"""Awards from evidence, and refusals with their reasons."""

from datetime import date
from uuid import UUID, uuid4

import factories
import pytest
import training_steps as steps
from training_steps import School

from trainer.core.terms import MaterialGroup, RootGrade
from trainer.domain.errors import Missing, NotAllowed
from trainer.domain.qualifications import QualificationState
from trainer.domain.reasons import RefusedFor
from trainer.domain.scope import JointSituation
from trainer.services import administration, qualification_pages, qualifying, results
from trainer.services.records import verify_ledgers
from trainer.services.site import Site


def test_scope_is_computed_from_what_was_done(teaching_site: Site, place: School) -> None:
    """Diameters and length by the ratios of the default policy: from 0.5 to 2 times, up to 2 times."""
    attempt_id = steps.passed_attempt(teaching_site, place)
    award = steps.award_of(
        place.apprentice,
        attempt_ids=(attempt_id,),
        observation_ids=(steps.observed(teaching_site, place.second, of=place.apprentice),),
    )
    qualifying.award(teaching_site, place.second, award=award)
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    runs = [each.run for each in _result(teaching_site, place, attempt_id).scenarios if each.run is not None]
    diameters = [each.pipe.outside_diameter_m for each in runs]
    lengths = [each.section.length_m for each in runs]
    assert view.scope.materials == (MaterialGroup.AUSTENITIC_STAINLESS,)
    assert view.scope.outside_diameter_from_m == pytest.approx(0.5 * min(diameters))
    assert view.scope.outside_diameter_to_m == pytest.approx(2 * max(diameters))
    assert view.scope.section_length_to_m == pytest.approx(2 * max(lengths))
    assert JointSituation.LONG_RUN in view.scope.situations
    assert not view.scope.confined_space


def test_award_lasts_for_the_policys_term_and_is_to_be_confirmed_in_six_months(
    teaching_site: Site, place: School, clock
) -> None:
    """RET-09: six months from 31 August end on the last day of February."""
    clock.at = clock.at.replace(month=8, day=31)
    steps.qualified(teaching_site, place)
    (view,) = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    assert view.qualification.terms.valid_until == date(2028, 8, 31)
    assert view.confirm_by == view.last_day == date(2027, 2, 28)
    assert view.state is QualificationState.CURRENT


def test_award_and_its_evidence_are_in_a_ledger_that_proves_itself(
    teaching_site: Site, place: School
) -> None:
    qualification_id = steps.qualified(teaching_site, place)
    page = qualification_pages.qualification_page(
        teaching_site, place.apprentice, qualification_id=qualification_id
    )
    entry = steps.entries(teaching_site, place)[0]
    assert entry["type"] == "qualification-awarded"
    assert entry["subject"] == str(place.apprentice.person_id)
    assert entry["body"]["attempts"] == [str(each.attempt_id) for each in page.attempts]
    assert entry["body"]["observations"] == [str(page.observations[0].observation.observation_id)]
    assert all(each.proof.holds for each in verify_ledgers(teaching_site.database))


def test_form_sent_twice_awards_once(teaching_site: Site, place: School) -> None:
    award = _award(teaching_site, place)
    first = qualifying.award(teaching_site, place.second, award=award)
    again = qualifying.award(teaching_site, place.second, award=award)
    assert again == first
    assert len(qualification_pages.own_qualifications(teaching_site, place.apprentice)) == 1


def test_award_without_observation_is_refused(teaching_site: Site, place: School) -> None:
    attempt_id = steps.passed_attempt(teaching_site, place)
    award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=())
    assert codes(teaching_site, place, award) == ["no-observation"]


def test_award_without_attempts_is_refused(teaching_site: Site, place: School) -> None:
    seen = steps.observed(teaching_site, place.second, of=place.apprentice)
    award = steps.award_of(place.apprentice, attempt_ids=(), observation_ids=(seen,))
    assert codes(teaching_site, place, award) == ["no-passed-attempt"]


def test_award_on_a_failed_attempt_is_refused(teaching_site: Site, place: School) -> None:
    assignment_id = steps.assigned(teaching_site, place)
    attempt_id = steps.assessment.start_assignment(
        teaching_site, place.apprentice, assignment_id=assignment_id
    )
    steps.handed_in(teaching_site, place.apprentice, attempt_id)
    seen = steps.observed(teaching_site, place.second, of=place.apprentice)
    award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,))
    assert codes(teaching_site, place, award) == ["no-passed-attempt", "attempt-does-not-count"]


def test_award_is_refused_for_each_skill_and_critical_that_was_not_shown_enough(
    teaching_site: Site, place: School
) -> None:
    """One scenario on a pump pit shows no dam, and one scenario behind a critical may be luck."""
    attempt_id = steps.passed_attempt(teaching_site, place, rows=(steps.row(11, "pump-pit"),))
    seen = steps.observed(teaching_site, place.second, of=place.apprentice)
    award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,))
    with pytest.raises(RefusedFor) as refused:
        qualifying.award(teaching_site, place.second, award=award)
    found = [(each.code, dict(each.facts)) for each in refused.value.because]
    assert ("skill-not-shown", {"skill": 4}) in found
    assert ("no-evidence-for", {"part": "joint situation"}) in found
    assert ("too-few-scenarios-behind-a-critical", {"skill": 11, "have": 1, "need": 3}) in found


def test_confined_space_takes_three_scenarios_and_an_observation_in_one(
    teaching_site: Site, place: School
) -> None:
    """Without the observation the qualification is given all the same, and the appraisal says what is short."""
    rows = (*steps.WHOLE_PURGE, steps.row(11, "pump-pit", how_many=3))
    attempt_id = steps.passed_attempt(teaching_site, place, rows=rows)
    endorsed = {}
    for in_one in (False, True):
        seen = steps.observed(teaching_site, place.second, of=place.apprentice, confined_space=in_one)
        award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,))
        appraisal = qualifying.appraise_award(teaching_site, place.second, award=award)
        assert appraisal.scope is not None
        endorsed[in_one] = (appraisal.scope.confined_space, [each.code for each in appraisal.remarks])
        qualifying.award(teaching_site, place.second, award=award)
    assert endorsed == {False: (False, ["confined-space-not-observed"]), True: (True, [])}


@pytest.mark.parametrize(
    ("seen", "code"),
    [
        ({"accepted": False}, "observation-not-accepted"),
        ({"oxygen_at_strike_frac": 0.0011}, "observation-oxygen-over-limit"),
        ({"root_grade": RootGrade.SUGARED}, "observation-root-sugared"),
        (
            {"analyser_calibrated_until": date(2026, 3, 1)},
            "observation-analyser-out-of-calibration",
        ),
        ({"material": MaterialGroup.TITANIUM, "oxygen_at_strike_frac": 5e-6}, "observation-outside-scope"),
        ({"outside_diameter_m": 1.2}, "observation-outside-scope"),
    ],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_observation_that_proves_nothing_is_refused(
    teaching_site: Site, place: School, seen: dict, code: str
) -> None:
    """The oxygen limit for austenitic stainless is the default policy's 0.1 %."""
    attempt_id = steps.passed_attempt(teaching_site, place)
    observation_id = steps.observed(teaching_site, place.second, of=place.apprentice, **seen)
    award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(observation_id,))
    assert codes(teaching_site, place, award) == [code]


def test_nobody_awards_themselves(teaching_site: Site, place: School) -> None:
    """Somebody who is apprentice and instructor of the same provider has everything but another signer."""
    founder = factories.provider(teaching_site)
    both = factories.member(teaching_site, founder)
    administration.give_role(
        teaching_site,
        founder,
        person_id=both.person_id,
        role=factories.Role.INSTRUCTOR,
        term=factories.Term(starts=teaching_site.today()),
    )
    both = factories.acting_as(teaching_site, person_id=both.person_id, organisation_id=both.organisation_id)
    class_id = steps.teaching.make_class(teaching_site, both, name="Own")
    steps.teaching.add_to_class(teaching_site, both, class_id=class_id, person_id=both.person_id)
    own = School(founder, both, founder, both, class_id)
    attempt_id = steps.passed_attempt(teaching_site, own)
    seen = steps.observed(teaching_site, founder, of=both)
    award = steps.award_of(both, attempt_ids=(attempt_id,), observation_ids=(seen,))
    refused = steps.refused(lambda: qualifying.award(teaching_site, both, award=award))
    assert refused == ["award-to-oneself"]


def test_signer_whose_role_has_ended_is_refused(teaching_site: Site, place: School, clock) -> None:
    """The page was opened while the role was held; the day of the signature decides."""
    award = _award(teaching_site, place)
    signer = factories.member(
        teaching_site, place.founder, role=factories.Role.INSTRUCTOR, ends=teaching_site.today()
    )
    clock.go_on(days=1)
    refused = steps.refused(lambda: qualifying.award(teaching_site, signer, award=award))
    assert refused == ["signer-without-authority-today"]


def test_record_says_plainly_when_one_person_taught_and_decided(teaching_site: Site, place: School) -> None:
    steps.qualified(teaching_site, place, by=place.instructor)
    steps.qualified(teaching_site, place, by=place.second)
    views = qualification_pages.own_qualifications(teaching_site, place.apprentice)
    flags = {
        each.qualification.awarded_by: each.qualification.one_person_taught_and_decided for each in views
    }
    assert flags == {place.instructor.person_id: True, place.second.person_id: False}


def test_taking_the_apprentice_out_of_the_class_does_not_hide_who_taught(
    teaching_site: Site, place: School
) -> None:
    award = _award(teaching_site, place)
    steps.teaching.remove_from_class(
        teaching_site, place.instructor, class_id=place.class_id, person_id=place.apprentice.person_id
    )
    appraisal = qualifying.appraise_award(teaching_site, place.instructor, award=award)
    assert [each.code for each in appraisal.remarks] == ["one-person-taught-and-decided"]


def test_appraisal_shows_scope_and_reasons_without_storing_anything(
    teaching_site: Site, place: School
) -> None:
    attempt_id = steps.passed_attempt(teaching_site, place)
    award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=())
    before = steps.entries(teaching_site, place)
    appraisal = qualifying.appraise_award(teaching_site, place.instructor, award=award)
    assert appraisal.scope is not None
    assert [each.code for each in appraisal.refusals] == ["no-observation"]
    assert [each.code for each in appraisal.remarks] == ["one-person-taught-and-decided"]
    assert steps.entries(teaching_site, place) == before


def test_observation_or_person_of_another_organisation_is_missing(teaching_site: Site, place: School) -> None:
    other = steps.school(teaching_site)
    seen = steps.observed(teaching_site, other.second, of=other.apprentice)
    attempt_id = steps.passed_attempt(teaching_site, place)
    with pytest.raises(Missing):
        qualifying.award(
            teaching_site,
            place.second,
            award=steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,)),
        )
    with pytest.raises(Missing):
        qualifying.award_page(teaching_site, place.second, person_id=other.apprentice.person_id)
    with pytest.raises(Missing):
        qualifying.award_page(teaching_site, place.second, person_id=uuid4())


def test_apprentice_cannot_award(teaching_site: Site, place: School) -> None:
    with pytest.raises(NotAllowed):
        qualifying.award(teaching_site, place.apprentice, award=_award(teaching_site, place))


def codes(site: Site, place: School, award: qualifying.Award) -> list[str]:
    """The codes that an award by the second instructor is refused with."""
    return steps.refused(lambda: qualifying.award(site, place.second, award=award))


def _award(site: Site, place: School) -> qualifying.Award:
    attempt_id = steps.passed_attempt(site, place)
    seen = steps.observed(site, place.second, of=place.apprentice)
    return steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,))


def _result(site: Site, place: School, attempt_id: UUID) -> results.ResultPage:
    return results.result_page(site, place.apprentice, attempt_id=attempt_id)
