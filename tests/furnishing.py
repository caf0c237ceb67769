"""A site with one of everything, for tests that walk all pages: classes, modules, attempts, awards, shares."""

from dataclasses import dataclass
from typing import Any
from uuid import UUID

import job_examples
import training_steps as steps

from trainer.domain.people import Acting, Term
from trainer.services import administration, own_jobs, practice, qualifying, sharing, teaching
from trainer.services.own_jobs import Draft
from trainer.services.qualification_pages import own_qualifications
from trainer.services.sharing import Offer
from trainer.services.site import Site


@dataclass(frozen=True, kw_only=True)
class Things:
    """The ids that addresses carry, all of them of the first training centre and its apprentice."""

    class_id: UUID
    module_id: UUID
    assignment_id: UUID  # not yet begun
    open_attempt_id: UUID  # practice
    item_id: str  # of the open attempt's scenario 1
    job_id: UUID  # published
    practice_attempt_id: UUID  # marked
    passed_attempt_id: UUID
    passed_item_id: str
    waiting_attempt_id: UUID  # handed in, with an explanation that nobody has graded
    explanation_id: str
    observation_id: UUID
    qualification_id: UUID
    code: str
    paper_set_id: UUID  # one sheet, for the apprentice, not keyed in
    sheet_code: str
    share_id: UUID
    membership_id: UUID
    person_id: UUID
    second_person_id: UUID
    organisation_id: UUID
    invitation: str


def furnish(site: Site, *, people: dict[str, Acting]) -> Things:
    """Makes one of everything with the real services."""
    apprentice, instructor = people["apprentice"], people["instructor"]
    class_id = teaching.make_class(site, instructor, name="Evening class")
    place = steps.School(people["founder"], instructor, people["second_instructor"], apprentice, class_id)
    teaching.add_to_class(site, instructor, class_id=class_id, person_id=apprentice.person_id)
    passed = steps.passed_attempt(site, place)
    seen = steps.observed(site, place.second, of=apprentice)
    award = steps.award_of(apprentice, attempt_ids=(passed,), observation_ids=(seen,))
    qualification_id = qualifying.award(site, place.second, award=award)
    open_attempt, marked = _practised(site, apprentice)
    assignment_id = steps.assigned(site, place)
    assignments = teaching.class_page(site, instructor, class_id=class_id).assignments
    given = next(each for each in assignments if each.assignment_id == assignment_id)
    waiting, explanation_id = _waiting(site, place)
    paper_set_id = steps.printed(site, place, assignment_id)
    return Things(
        class_id=class_id,
        module_id=given.module_id,
        assignment_id=assignment_id,
        open_attempt_id=open_attempt,
        item_id=_first_item(site, open_attempt),
        job_id=_job(site, instructor),
        practice_attempt_id=marked,
        passed_attempt_id=passed,
        passed_item_id=_first_item(site, passed),
        waiting_attempt_id=waiting,
        explanation_id=explanation_id,
        observation_id=seen,
        qualification_id=qualification_id,
        code=_code(site, apprentice),
        paper_set_id=paper_set_id,
        sheet_code=steps.sheet_codes(site, place, paper_set_id)[0],
        share_id=_shared(site, apprentice, people["employer"]),
        membership_id=_membership(site, people["founder"], apprentice),
        person_id=apprentice.person_id,
        second_person_id=people["second_apprentice"].person_id,
        organisation_id=apprentice.organisation_id,
        invitation=administration.invite_again(
            site, people["founder"], person_id=people["second_apprentice"].person_id
        ),
    )


def _job(site: Site, instructor: Acting) -> UUID:
    sheet = job_examples.sheet(*job_examples.ASKED_TOGETHER)
    job_id = own_jobs.make_job(site, instructor, draft=Draft(sheet=sheet, typed=job_examples.typed(sheet)))
    own_jobs.publish_job(site, instructor, job_id=job_id, version=1)
    return job_id


def _practised(site: Site, apprentice: Acting) -> tuple[UUID, UUID]:
    marked = practice.start_practice(site, apprentice, family="long-run", difficulty=0.5)
    steps.answer_right(site, apprentice, marked)
    steps.handed_in(site, apprentice, marked)
    return practice.start_practice(site, apprentice, family="long-run", difficulty=0.5), marked


def _waiting(site: Site, place: steps.School) -> tuple[UUID, str]:
    attempt_id = steps.explained(site, place)
    return attempt_id, next(each.id for each in steps.drawn(site, attempt_id)[1].items if each.rubric)


def _first_item(site: Site, attempt_id: UUID) -> str:
    return steps.drawn(site, attempt_id)[1].items[0].id


def _code(site: Site, apprentice: Acting) -> str:
    return own_qualifications(site, apprentice)[0].qualification.code


def _shared(site: Site, apprentice: Acting, employer: Acting) -> UUID:
    offer = Offer(
        employer_id=employer.organisation_id,
        basis="asked for by the person",
        consent_on_file="folder 12, office",
        term=Term(starts=site.today()),
    )
    return sharing.give_share(site, apprentice, person_id=apprentice.person_id, offer=offer)


def _membership(site: Site, founder: Acting, apprentice: Acting) -> UUID:
    members: Any = administration.list_people(site, founder)
    own = next(each for each in members if each.person.person_id == apprentice.person_id)
    return own.memberships[0].membership_id
