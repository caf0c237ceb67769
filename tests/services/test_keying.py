"""Keying in what was answered on paper: marked exactly, and on the record as answered on paper."""

from dataclasses import replace
from datetime import timedelta
from uuid import uuid4

import factories
import pytest
import training_steps as steps

from trainer.domain.attempts import AttemptKind
from trainer.domain.errors import Missing, WrongState
from trainer.domain.people import Acting, Role
from trainer.scenario_files import ResponseFault
from trainer.services import assessment, keying, paper, qualifying, results, teaching
from trainer.services.keying import HandingIn
from trainer.services.paper import Printing
from trainer.storage import ledger


def handed_in(site, place, code, *, by=None, person=None, sat_on=None):
    handing_in = HandingIn(person_id=(person or place.apprentice).person_id, sat_on=sat_on or site.today())
    return keying.hand_in_sheet(site, by or place.instructor, code=code, handing_in=handing_in)


def one_sheet(site, place, **more):
    """The code of a sheet printed for the apprentice."""
    assignment_id = steps.assigned(site, place, **more)
    return steps.sheet_codes(site, place, steps.printed(site, place, assignment_id))[0]


def test_keys_keyed_in_pass_and_the_attempt_is_an_assessed_one(teaching_site, place):
    code = one_sheet(teaching_site, place, rows=steps.WHOLE_PURGE)
    steps.key_in_right(teaching_site, place.instructor, code)

    attempt_id = handed_in(teaching_site, place, code)

    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.marking.passed
    assert page.marking.total_frac == 1.0
    assert page.attempt.kind is AttemptKind.ASSESSED
    assert page.sheet is not None
    assert (page.sheet.code, page.sheet.sat_on) == (code, teaching_site.today())
    assert page.sheet.keyed_by == place.instructor.person_id


def test_the_same_answers_score_the_same_on_paper_and_on_a_screen(teaching_site, place):
    assignment_id = steps.assigned(teaching_site, place, rows=steps.WHOLE_PURGE, attempts_allowed=2)
    seeds = iter([*range(1, 99), *range(1, 99)])
    site = replace(teaching_site, new_seed=lambda: next(seeds))
    other = factories.member(site, place.founder)
    teaching.add_to_class(site, place.instructor, class_id=place.class_id, person_id=other.person_id)
    code = steps.sheet_codes(site, place, steps.printed(site, place, assignment_id))[0]
    steps.key_in_right(site, place.instructor, code, but=("left_dam",))
    on_paper = handed_in(site, place, code)

    seeds = iter(range(1, 99))
    on_screen = assessment.start_assignment(
        replace(site, new_seed=lambda: next(seeds)), other, assignment_id=assignment_id
    )
    steps.answer_right(site, other, on_screen, but=("left_dam",))
    steps.handed_in(site, other, on_screen)

    first = results.result_page(site, place.apprentice, attempt_id=on_paper)
    second = results.result_page(site, other, attempt_id=on_screen)
    assert [each.scenario.title for each in first.scenarios] == [
        each.scenario.title for each in second.scenarios
    ]
    assert [each.marks for each in first.scenarios] == [each.marks for each in second.scenarios]


def test_the_ledger_says_on_paper_when_and_by_whom(teaching_site, place):
    code = one_sheet(teaching_site, place)
    steps.key_in_right(teaching_site, place.instructor, code)
    attempt_id = handed_in(teaching_site, place, code)

    with teaching_site.database.reading() as work:
        entries = [
            each
            for each in ledger.read_log(work, organisation_id=place.apprentice.organisation_id)
            if str(attempt_id) in each.canonical.decode()
        ]

    written = [each.canonical.decode() for each in entries]
    assert len(written) == 3
    for each in written[:2]:
        assert '"on_paper":true' in each
        assert f'"sheet":"{code}"' in each
        assert f'"sat_on":"{teaching_site.today().isoformat()}"' in each
        assert f'"actor":"{place.instructor.person_id}"' in each
        assert f'"subject":"{place.apprentice.person_id}"' in each


def test_a_sheet_is_keyed_in_once(teaching_site, place):
    code = one_sheet(teaching_site, place, attempts_allowed=3)
    steps.key_in_right(teaching_site, place.instructor, code)
    handed_in(teaching_site, place, code)

    with pytest.raises(WrongState, match=f"sheet {code} was keyed in for .* cannot be keyed in twice"):
        handed_in(teaching_site, place, code, by=place.second)
    with pytest.raises(WrongState):
        steps.key_in_right(teaching_site, place.second, code)


def test_nobody_keys_in_for_themselves(teaching_site, place):
    both = factories.member(teaching_site, place.founder, role=Role.INSTRUCTOR)
    teaching_apprentice = factories.member(teaching_site, place.founder)
    both = Acting(
        person_id=teaching_apprentice.person_id,
        organisation_id=both.organisation_id,
        organisation_kind=both.organisation_kind,
        roles=frozenset({Role.APPRENTICE, Role.INSTRUCTOR}),
    )
    teaching.add_to_class(teaching_site, place.instructor, class_id=place.class_id, person_id=both.person_id)
    assignment_id = steps.assigned(teaching_site, place)
    (blank,) = steps.sheet_codes(
        teaching_site,
        place,
        steps.printed(teaching_site, place, assignment_id, named=False, blank_count=1),
    )
    printing = Printing(paper_set_id=uuid4(), person_ids=(both.person_id,))
    own_set = paper.print_sheets(
        teaching_site, place.instructor, assignment_id=assignment_id, printing=printing
    )
    (own,) = steps.sheet_codes(teaching_site, place, own_set)

    takers = paper.takers(teaching_site, both, assignment_id=assignment_id)

    assert both.person_id not in {each.person_id for each in takers}
    assert steps.refused(lambda: steps.key_in_right(teaching_site, both, own)) == ["keying-for-oneself"]
    assert "keying-for-oneself" in steps.refused(
        lambda: handed_in(teaching_site, place, blank, by=both, person=both)
    )
    assert paper.sheet_keys(teaching_site, both, paper_set_id=own_set) == ()


def test_a_blank_sheet_is_given_to_whoever_sat_it_when_it_is_handed_in(teaching_site, place):
    assignment_id = steps.assigned(teaching_site, place)
    set_id = steps.printed(teaching_site, place, assignment_id, named=False, blank_count=2)
    first, second = steps.sheet_codes(teaching_site, place, set_id)
    steps.key_in_right(teaching_site, place.instructor, first)

    handed_in(teaching_site, place, first)

    sheets = paper.set_page(teaching_site, place.instructor, paper_set_id=set_id).sheets
    assert [each.person_id for each in sheets] == [place.apprentice.person_id, None]
    assert steps.refused(lambda: handed_in(teaching_site, place, second)) == ["attempts-used-up"]
    stranger = factories.member(teaching_site, place.founder)
    assert steps.refused(lambda: handed_in(teaching_site, place, second, person=stranger)) == [
        "sheet-for-somebody-else"
    ]


def test_a_sheet_by_name_is_handed_in_for_nobody_else(teaching_site, place):
    code = one_sheet(teaching_site, place)
    other = factories.member(teaching_site, place.founder)
    teaching.add_to_class(teaching_site, place.instructor, class_id=place.class_id, person_id=other.person_id)

    with pytest.raises(Missing):
        handed_in(teaching_site, place, code, person=other)


@pytest.mark.parametrize(("days", "why"), [(1, "sat-in-the-future"), (-1, "sat-before-printed")])
def test_the_day_on_which_it_was_sat_lies_between_printing_and_today(days, why, teaching_site, place):
    code = one_sheet(teaching_site, place)
    sat_on = teaching_site.today() + timedelta(days=days)

    assert steps.refused(lambda: handed_in(teaching_site, place, code, sat_on=sat_on)) == [why]


def test_paper_has_no_time_limit_and_nothing_of_it_is_open_on_a_screen(teaching_site, place):
    assignment_id = steps.assigned(teaching_site, place, time_limit_s=60)
    (code,) = steps.sheet_codes(teaching_site, place, steps.printed(teaching_site, place, assignment_id))
    steps.key_in_right(teaching_site, place.instructor, code)
    sat_on = teaching_site.today()
    teaching_site.now.go_on(days=3)

    attempt_id = handed_in(teaching_site, place, code, sat_on=sat_on)

    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.marking.passed
    assert page.attempt.expires_at is None
    assert page.attempt.started_at.date() == sat_on
    with pytest.raises(WrongState, match="all attempts allowed"):
        assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)


def test_what_is_left_open_on_paper_does_not_pass(teaching_site, place):
    code = one_sheet(teaching_site, place)
    steps.key_in_right(teaching_site, place.instructor, code)
    page = keying.keying_page(teaching_site, place.instructor, code=code)
    number, item_id = next(iter(page.answers))
    keying.keep_keyed(teaching_site, place.instructor, code=code, at=(number, item_id), raw=None)

    assert keying.keying_page(teaching_site, place.instructor, code=code).unanswered == ((number, item_id),)
    attempt_id = handed_in(teaching_site, place, code)

    page = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)
    assert page.marking.passed is False
    assert page.verdict.unanswered == (f"{number}/{item_id}",)


def test_what_cannot_be_read_is_not_kept(teaching_site, place):
    code = one_sheet(teaching_site, place)
    page = keying.keying_page(teaching_site, place.instructor, code=code)
    item = page.scenarios[1].items[0]

    with pytest.raises(ResponseFault):
        keying.keep_keyed(teaching_site, place.instructor, code=code, at=(1, item.id), raw="nonsense")
    with pytest.raises(Missing):
        keying.keep_keyed(teaching_site, place.instructor, code=code, at=(1, "no-such"), raw="1")
    with pytest.raises(Missing):
        keying.keep_keyed(teaching_site, place.instructor, code=code, at=(9, item.id), raw="1")
    assert keying.keying_page(teaching_site, place.instructor, code=code).answers == {}


def test_a_module_is_printed_without_what_unfolds_and_judged_by_what_it_asked(teaching_site, place):
    rows = (steps.row(3, "long-run"), steps.row(10, "came-back", difficulty=0.6))
    code = one_sheet(teaching_site, place, rows=rows)
    steps.key_in_right(teaching_site, place.instructor, code)

    page = keying.keying_page(teaching_site, place.instructor, code=code)
    attempt_id = handed_in(teaching_site, place, code)

    assert page.paper_set.left_out == (10,)
    verdict = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id).verdict
    assert verdict.passed
    assert 10 not in {each.skill for each in verdict.skills}


def test_a_qualification_rests_on_paper_and_whoever_supervised_taught(teaching_site, place):
    code = one_sheet(teaching_site, place, rows=steps.WHOLE_PURGE)
    steps.key_in_right(teaching_site, place.second, code)
    attempt_id = handed_in(teaching_site, place, code, by=place.second)
    seen = steps.observed(teaching_site, place.second, of=place.apprentice)
    award = steps.award_of(place.apprentice, attempt_ids=(attempt_id,), observation_ids=(seen,))

    page = qualifying.award_page(teaching_site, place.second, person_id=place.apprentice.person_id)
    appraisal = qualifying.appraise_award(teaching_site, place.second, award=award)

    assert [each.on_paper for each in page.attempts] == [True]
    assert appraisal.refusals == ()
    assert "one-person-taught-and-decided" in [each.code for each in appraisal.remarks]
