"""Printing on paper: drawn once, for whom, and who reaches it."""

from uuid import uuid4

import factories
import pytest
import training_steps as steps

from trainer.domain.errors import Missing, NotAllowed
from trainer.domain.people import NewPerson, UnitSystem
from trainer.services import keying, paper, teaching
from trainer.services.paper import Printing
from trainer.storage import paper as stored_paper


def test_the_same_form_prints_once_and_sheets_have_scenarios_of_their_own(teaching_site, place):
    assignment_id = steps.assigned(teaching_site, place, rows=steps.WHOLE_PURGE)
    printing = Printing(paper_set_id=uuid4(), person_ids=(place.apprentice.person_id,), blank_count=3)
    made = [
        paper.print_sheets(teaching_site, place.instructor, assignment_id=assignment_id, printing=printing)
        for _ in range(2)
    ]

    assert made == [printing.paper_set_id] * 2
    shown = paper.shown_sheets(teaching_site, place.instructor, paper_set_id=printing.paper_set_id)
    codes = {each.sheet.code for each in shown}
    with teaching_site.database.reading() as work:
        drawn = [
            one.fingerprint
            for each in shown
            for one in stored_paper.list_scenarios(work, sheet_id=each.sheet.sheet_id)
        ]
    assert len(codes) == 4
    assert len(set(drawn)) == len(drawn) == 24
    assert all(scenario.seed is None for each in shown for scenario in each.scenarios)
    assert all(scenario.answers == {} for each in shown for scenario in each.scenarios)


def test_each_sheet_is_drawn_in_the_edition_of_whoever_sits_it(teaching_site, place):
    reads_inches = factories.member(
        teaching_site, place.founder, new=factories.new_person(units=UnitSystem.INCH_POUND)
    )
    teaching.add_to_class(
        teaching_site, place.instructor, class_id=place.class_id, person_id=reads_inches.person_id
    )
    assignment_id = steps.assigned(teaching_site, place)
    printing = Printing(
        paper_set_id=uuid4(),
        person_ids=(place.apprentice.person_id, reads_inches.person_id),
        blank_count=1,
        blank_units=UnitSystem.INCH_POUND,
    )
    paper.print_sheets(teaching_site, place.instructor, assignment_id=assignment_id, printing=printing)

    shown = paper.shown_sheets(teaching_site, place.instructor, paper_set_id=printing.paper_set_id)

    units = {each.sheet.person_id: each.sheet.units for each in shown}
    assert units == {
        place.apprentice.person_id: UnitSystem.METRIC,
        reads_inches.person_id: UnitSystem.INCH_POUND,
        None: UnitSystem.INCH_POUND,
    }
    versions = {each.sheet.units: each.scenarios[0].content_version for each in shown}
    assert versions[UnitSystem.METRIC] != versions[UnitSystem.INCH_POUND]


def test_somebody_must_be_printed_for_and_something_must_be_left_of_the_module(teaching_site, place):
    assignment_id = steps.assigned(teaching_site, place)
    unfolding = steps.assigned(teaching_site, place, rows=(steps.row(10, "came-back", difficulty=0.6),))

    assert steps.refused(lambda: steps.printed(teaching_site, place, assignment_id, named=False)) == [
        "nobody-to-print-for"
    ]
    assert steps.refused(lambda: steps.printed(teaching_site, place, unfolding)) == ["nothing-for-paper"]
    assert steps.refused(lambda: steps.printed(teaching_site, place, assignment_id, blank_count=61)) == [
        "blank-sheets-out-of-range"
    ]


def test_another_organisation_and_an_apprentice_reach_nothing(teaching_site, place):
    stranger = factories.provider(teaching_site, first=NewPerson(name="Somebody", email="s@example.org"))
    assignment_id = steps.assigned(teaching_site, place)
    set_id = steps.printed(teaching_site, place, assignment_id)
    (code,) = steps.sheet_codes(teaching_site, place, set_id)

    for act in (
        lambda who: keying.keying_page(teaching_site, who, code=code),
        lambda who: paper.set_page(teaching_site, who, paper_set_id=set_id),
        lambda who: paper.shown_sheets(teaching_site, who, paper_set_id=set_id),
        lambda who: paper.sheet_keys(teaching_site, who, paper_set_id=set_id),
        lambda who: paper.print_page(teaching_site, who, assignment_id=assignment_id),
    ):
        with pytest.raises(Missing):
            act(stranger)
        with pytest.raises(NotAllowed):
            act(place.apprentice)


def test_what_stands_on_a_sheet_printed_for_somebody_is_not_drawn_for_them_again(teaching_site, place):
    assignment_id = steps.assigned(teaching_site, place)
    steps.printed(teaching_site, place, assignment_id)
    steps.printed(teaching_site, place, assignment_id)

    with teaching_site.database.reading() as work:
        met = stored_paper.list_waiting_fingerprints(
            work, person_id=place.apprentice.person_id, family="long-run"
        )

    assert len(met) == 2
