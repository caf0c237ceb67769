"""Own jobs through the services: from the sheet to a marked attempt, in versions, each organisation its own."""

from dataclasses import replace
from uuid import UUID

import factories
import job_examples
import pytest
import training_steps as steps
from job_examples import sheet
from training_steps import School

from trainer.domain.errors import Missing, NotAllowed, WrongState
from trainer.domain.own_job_dangers import DangersNotMeant
from trainer.domain.own_job_faults import UnusableJob
from trainer.domain.own_jobs import AskKind, JobSheet, JobState
from trainer.domain.people import Acting
from trainer.scenario_files import ContentFault
from trainer.services import assessment, own_jobs, practice, results, teaching
from trainer.services.own_jobs import Draft
from trainer.services.site import Site


def draft(job: JobSheet) -> Draft:
    return Draft(sheet=job, typed=job_examples.typed(job))


def published(site: Site, by: Acting, job: JobSheet) -> tuple[UUID, str]:
    """A job that was published, and the name of its family."""
    job_id = own_jobs.make_job(site, by, draft=draft(job))
    own_jobs.publish_job(site, by, job_id=job_id, version=1)
    return job_id, own_jobs.job_page(site, by, job_id=job_id).summary.family


@pytest.mark.parametrize(
    ("asked", "moved", "said"),
    [
        (AskKind.GAUGE, {"supply.pressure": "4 bar"}, "The supply holds less than this joint takes"),
        (AskKind.WAIT, {"gas.oxygen": "0.2 %"}, "The oxygen wanted is never reached"),
        (
            AskKind.LEAVE,
            {"surroundings.fan": "draws out", "surroundings.fan_flow": "1000 L/min"},
            "The air never comes down to 19.5 % here",
        ),
        (
            AskKind.LEAVE,
            {"surroundings.release": "0.001 L/min"},
            "It cannot be asked so: '28891680.0 s' lies",
        ),
    ],
)
def test_a_question_that_the_core_has_no_number_for_says_why(site, place, asked, moved, said):
    with pytest.raises(UnusableJob) as refusal:
        own_jobs.make_job(site, place.instructor, draft=draft(sheet(asked, set_up=moved)))
    [fault] = refusal.value.faults
    assert fault.place == "asked.0"
    assert fault.message.startswith(said)


def offered(site: Site, who: Acting) -> list[str]:
    return [each.title for each in practice.practice_families(site, who)]


def places_of_faults(site: Site, by: Acting, job: JobSheet) -> set[str]:
    with pytest.raises(UnusableJob) as refusal:
        own_jobs.make_job(site, by, draft=draft(job))
    return {each.place for each in refusal.value.faults}


@pytest.mark.parametrize("kind", AskKind)
def test_every_question_is_asked_answered_by_its_key_and_scores_one(
    teaching_site: Site, place: School, kind: AskKind
):
    job = sheet(kind, set_up={"surroundings.fan": "draws out"} if kind is AskKind.FAN else {})
    job_id = own_jobs.make_job(teaching_site, place.instructor, draft=draft(job))
    page = own_jobs.job_page(teaching_site, place.instructor, job_id=job_id)
    (mark,) = page.preview.keyed.marks

    assert page.preview.scenario.answers == {}
    assert mark.score == (None if kind is AskKind.EXPLANATION else 1.0)
    assert page.preview.keyed.run is not None


def test_a_published_job_is_practised_marked_and_read(teaching_site: Site, place: School):
    _, family = published(teaching_site, place.instructor, sheet(AskKind.WAIT, AskKind.OWN))
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family=family, difficulty=0.5)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    handed_in = steps.handed_in(teaching_site, place.apprentice, attempt_id)
    result = results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id)

    assert handed_in.passed
    assert result.scenarios[0].scenario.title == "Feed line, at the north wall of the boiler house"
    assert result.scenarios[0].run is not None


def test_a_published_job_is_assessed_within_a_module(teaching_site: Site, place: School):
    _, family = published(teaching_site, place.instructor, sheet(AskKind.WAIT))
    attempt_id = steps.passed_attempt(teaching_site, place, rows=(steps.row(6, family, how_many=2),))

    drawn = steps.drawn(teaching_site, attempt_id)
    assert {each.family for each in drawn.values()} == {family}


def test_drafts_and_other_organisations_jobs_are_not_offered(teaching_site: Site, place: School):
    stranger = factories.provider(teaching_site)
    _, of_stranger = published(teaching_site, stranger, sheet(title="Another's"))
    own_jobs.make_job(teaching_site, place.instructor, draft=draft(sheet(title="Not yet")))

    assert {"Another's", "Not yet"}.isdisjoint(offered(teaching_site, place.apprentice))
    assert of_stranger not in teaching.family_outlines(teaching_site, place.instructor)
    with pytest.raises(Missing):
        practice.start_practice(teaching_site, place.apprentice, family=of_stranger, difficulty=0.5)


def test_another_organisations_job_is_missing_and_an_apprentice_is_refused(
    teaching_site: Site, place: School
):
    job_id, _ = published(teaching_site, place.instructor, sheet())
    stranger = factories.provider(teaching_site)

    for act in (
        lambda who: own_jobs.job_page(teaching_site, who, job_id=job_id),
        lambda who: own_jobs.save_version(teaching_site, who, job_id=job_id, draft=draft(sheet())),
        lambda who: own_jobs.publish_job(teaching_site, who, job_id=job_id, version=1),
        lambda who: own_jobs.withdraw_job(teaching_site, who, job_id=job_id),
        lambda who: own_jobs.send_file_version(teaching_site, who, job_id=job_id, family_file=""),
    ):
        with pytest.raises(Missing):
            act(stranger)
        with pytest.raises(NotAllowed):
            act(place.apprentice)


def test_attempts_keep_the_version_that_they_were_drawn_from(teaching_site: Site, place: School):
    job_id, family = published(teaching_site, place.instructor, sheet())
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family=family, difficulty=0.5)
    (before,) = steps.drawn(teaching_site, attempt_id).values()
    changed = sheet(set_up={"flow.purge": "30 L/min"})
    number = own_jobs.save_version(teaching_site, place.instructor, job_id=job_id, draft=draft(changed))
    own_jobs.publish_job(teaching_site, place.instructor, job_id=job_id, version=number)
    (after,) = steps.drawn(teaching_site, attempt_id).values()
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    assert steps.handed_in(teaching_site, place.apprentice, attempt_id).passed
    later = practice.start_practice(teaching_site, place.apprentice, family=family, difficulty=0.5)
    (drawn,) = steps.drawn(teaching_site, later).values()

    assert before == after
    assert drawn.content_version != before.content_version
    assert drawn.answers["wait"].key < before.answers["wait"].key


def test_a_withdrawn_job_is_offered_no_more_but_modules_made_of_it_go_on(teaching_site: Site, place: School):
    job_id, family = published(teaching_site, place.instructor, sheet())
    assignment_id = steps.assigned(teaching_site, place, rows=(steps.row(6, family),))
    own_jobs.withdraw_job(teaching_site, place.instructor, job_id=job_id)
    attempt_id = assessment.start_assignment(teaching_site, place.apprentice, assignment_id=assignment_id)

    assert "Feed line" not in offered(teaching_site, place.apprentice)
    assert family not in teaching.family_outlines(teaching_site, place.instructor)
    assert teaching.family_titles(teaching_site, place.instructor)[family] == "Feed line"
    assert steps.drawn(teaching_site, attempt_id)[1].family == family


def test_a_draft_cannot_be_withdrawn_and_no_version_published_that_is_not_there(
    teaching_site: Site, place: School
):
    job_id = own_jobs.make_job(teaching_site, place.instructor, draft=draft(sheet()))

    with pytest.raises(WrongState):
        own_jobs.withdraw_job(teaching_site, place.instructor, job_id=job_id)
    with pytest.raises(Missing):
        own_jobs.publish_job(teaching_site, place.instructor, job_id=job_id, version=2)
    assert own_jobs.jobs_here(teaching_site, place.instructor)[0].state is JobState.DRAFT


def test_every_fault_of_the_set_up_is_told_at_its_path(teaching_site: Site, place: School):
    job = sheet(
        set_up={
            "pipe.schedule": "11S",
            "section.left_dam": "a foot",
            "vent.height": 1.4,
            "flow.purge": None,
            "flow.hold": None,
            "flow.hold_for": None,
            "gas.symbol": "X9",
        }
    )

    assert places_of_faults(teaching_site, place.instructor, job) == {
        "pipe.schedule", "section.left_dam", "vent.height", "flow.purge", "gas.symbol",
    }  # fmt: skip


def test_every_fault_of_the_questions_is_told_at_its_place(teaching_site: Site, place: School):
    asked = job_examples.QUESTIONS
    job = replace(
        sheet(),
        place="",
        asked=(
            replace(asked[AskKind.WAIT], wrong=job_examples.wrong(("soon", "It will do."))),
            replace(asked[AskKind.OWN], text="", right=""),
            replace(asked[AskKind.GAS], wrong=()),
            replace(asked[AskKind.EXPLANATION], criteria=("One",)),
            replace(asked[AskKind.HAZARDS], hazards=()),
            asked[AskKind.TRACE],
        ),
    )

    assert places_of_faults(teaching_site, place.instructor, job) == {
        "place", "asked.0.wrong.0.answer", "asked.1.text", "asked.1.right", "asked.2.wrong.0.answer",
        "asked.3.criteria", "asked.4.hazards", "asked.5",
    }  # fmt: skip


def test_a_question_that_cannot_be_marked_is_told_by_its_number(teaching_site: Site, place: School):
    gases = replace(
        job_examples.QUESTIONS[AskKind.GAS],
        wrong=job_examples.wrong(("I2", "Light."), ("I3 ArHe-30", "Dear.")),
    )
    job = replace(sheet(AskKind.HAZARDS), asked=(job_examples.QUESTIONS[AskKind.HAZARDS], gases))

    assert places_of_faults(teaching_site, place.instructor, job) == {"asked.1"}


def test_the_numbers_of_a_job_stay_what_they_are_for_readers_of_inches(teaching_site: Site, place: School):
    job_id = own_jobs.make_job(teaching_site, place.instructor, draft=draft(sheet()))
    shown = own_jobs.job_page(teaching_site, place.instructor, job_id=job_id).preview.scenario
    again = own_jobs.job_page(teaching_site, place.second, job_id=job_id).preview.scenario

    assert shown.set_up.section.right_dam_m == again.set_up.section.right_dam_m == 0.3
    assert shown.set_up.section.left_dam_m == pytest.approx(0.3048)  # 12 in, defined as 0.3048 m


def test_a_family_file_of_the_library_can_be_sent_and_one_with_faults_cannot(
    teaching_site: Site, place: School
):
    job_id = own_jobs.make_job(teaching_site, place.instructor, draft=draft(sheet()))
    written = own_jobs.job_page(teaching_site, place.instructor, job_id=job_id).shown.family_file
    sent = own_jobs.send_file(teaching_site, place.instructor, family_file=written)
    number = own_jobs.send_file_version(
        teaching_site, place.instructor, job_id=sent, family_file=written.replace("Feed line", "Header")
    )

    assert number == 2
    assert own_jobs.job_page(teaching_site, place.instructor, job_id=sent).summary.title == "Header"
    with pytest.raises(ContentFault, match=r"line 2: fixd: is not known here"):
        own_jobs.send_file(
            teaching_site, place.instructor, family_file=written.replace("fixed = true", "fixd = true")
        )


def test_what_is_lost_although_every_answer_is_right_is_published_only_where_it_is_meant(
    teaching_site: Site, place: School
):
    early = sheet(AskKind.COLOUR, set_up={"wait": "1 min", "scene.vent_leads_to": "pit"})
    job_id = own_jobs.make_job(teaching_site, place.instructor, draft=draft(early))
    lost = frozenset({"root-lost", "oxygen-above-target"})

    for meant, missing in ((frozenset(), "root-lost"), (lost, "asphyxiation")):
        with pytest.raises(DangersNotMeant, match=missing):
            own_jobs.publish_job(teaching_site, place.instructor, job_id=job_id, version=1, meant=meant)
    assert own_jobs.job_page(teaching_site, place.instructor, job_id=job_id).summary.state is JobState.DRAFT

    meant = lost | {"asphyxiation"}
    own_jobs.publish_job(teaching_site, place.instructor, job_id=job_id, version=1, meant=meant)
    job = own_jobs.job_page(teaching_site, place.instructor, job_id=job_id).summary
    assert job.state is JobState.PUBLISHED


def test_a_fan_that_moves_nothing_is_refused_where_it_is_asked_what_it_must_move(
    teaching_site: Site, place: School
):
    assert places_of_faults(teaching_site, place.instructor, sheet(AskKind.FAN)) == {"surroundings.fan"}


def test_a_file_whose_fixed_numbers_contradict_says_so_at_their_key_once(teaching_site: Site, place: School):
    job_id = own_jobs.make_job(teaching_site, place.instructor, draft=draft(sheet()))
    written = own_jobs.job_page(teaching_site, place.instructor, job_id=job_id).shown.family_file
    with pytest.raises(ContentFault, match=r"line \d+: set_up\.pipe\.nps: '6\.3' is not a size") as refused:
        own_jobs.send_file(
            teaching_site,
            place.instructor,
            family_file=written.replace('"pipe.nps" = "6"', '"pipe.nps" = "6.3"'),
        )
    assert len(refused.value.lines) == 1
    with pytest.raises(ContentFault, match="no draw in 1 met the constraints") as refused:
        own_jobs.send_file(
            teaching_site,
            place.instructor,
            family_file=written.replace('"flow.purge" = "15 L/min"', '"flow.purge" = "0.001 L/min"'),
        )
    assert len(refused.value.lines) == 1


@pytest.mark.parametrize(
    ("is_right", "why"),
    [(True, "This is the instructor's answer."), (False, "The instructor's answer is another one.")],
)
def test_an_own_question_is_not_said_to_be_answered_by_the_core(
    teaching_site: Site, place: School, is_right: bool, why: str
):
    _, family = published(teaching_site, place.instructor, sheet(AskKind.OWN))
    attempt_id = practice.start_practice(teaching_site, place.apprentice, family=family, difficulty=0.5)
    steps.answer_right(teaching_site, place.apprentice, attempt_id)
    if not is_right:
        item_id, raw = steps.wrong_answer(steps.drawn(teaching_site, attempt_id)[1])
        assessment.keep_response(
            teaching_site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=raw
        )
    steps.handed_in(teaching_site, place.apprentice, attempt_id)
    ((mark,),) = (
        each.marks
        for each in results.result_page(teaching_site, place.apprentice, attempt_id=attempt_id).scenarios
    )

    assert mark.why == (why,)
