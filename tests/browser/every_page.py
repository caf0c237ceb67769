"""Every page of the site by who opens it, on a site with one of everything."""

from uuid import UUID

import training_steps as steps
from crew import Member
from furnishing import furnish

from trainer.scenario_files import load_content
from trainer.services import assessment, practice
from trainer.services.site import Site

STRANGER = "stranger"
FAMILIES = tuple(load_content().families)
# Between them these ask every kind of item; the themes are looked at on them, the light one on all families.
OF_EVERY_KIND = ("came-back", "column-nozzle", "end-plates", "riser", "root-colours")
PAGES = (
    (STRANGER, "/"),
    (STRANGER, "/account/sign-in"),
    (STRANGER, "/account/invitation/{invitation}"),
    (STRANGER, "/how-sure"),
    (STRANGER, "/bench"),
    (STRANGER, "/bench/one-foot"),
    (STRANGER, "/bench/set-up"),
    (STRANGER, "/bench/set-up?v=1&start=trench&help=yes&flow=yes"),
    (STRANGER, "/bench/set-up?v=1&start=spool-branch-us&units=inch-pound"),
    (STRANGER, "/bench/set-up?v=1&start=long-run&section.left_dam=1+m&against=v%3D1%26start%3Dlong-run"),
    (STRANGER, "/bench/set-up/card?v=1&start=spool-over"),
    (STRANGER, "/verify"),
    (STRANGER, "/verify/{code}"),
    ("apprentice", "/apprentice/"),
    ("apprentice", "/apprentice/practice"),
    ("apprentice", "/apprentice/assignments"),
    ("apprentice", "/apprentice/assignments/{assignment_id}/start"),
    ("apprentice", "/apprentice/attempts/{assessed}/scenarios/1"),
    ("apprentice", "/apprentice/attempts/{assessed}/scenarios/2"),
    ("apprentice", "/apprentice/attempts/{assessed}/hand-in"),
    ("apprentice", "/apprentice/attempts/{passed_attempt_id}/result"),
    ("apprentice", "/apprentice/attempts/{failed}/result"),
    *(("apprentice", f"/apprentice/attempts/{{open {each}}}/scenarios/1") for each in FAMILIES),
    *(("apprentice", f"/apprentice/attempts/{{done {each}}}/result") for each in FAMILIES),
    ("apprentice", "/account"),
    ("apprentice", "/account/record"),
    ("apprentice", "/account/password"),
    ("apprentice", "/account/shares/{share_id}/end"),
    ("instructor", "/instructor/"),
    ("instructor", "/instructor/classes"),
    ("instructor", "/instructor/classes/{class_id}"),
    ("instructor", "/instructor/modules"),
    ("instructor", "/instructor/modules/new"),
    ("instructor", "/instructor/modules/{module_id}"),
    ("instructor", "/instructor/questions"),
    ("instructor", "/instructor/apprentices"),
    ("instructor", "/instructor/apprentices/{person_id}"),
    ("instructor", "/instructor/apprentices/{person_id}/observations/new"),
    ("instructor", "/instructor/apprentices/{person_id}/shares/new"),
    ("instructor", "/instructor/apprentices/{person_id}/shares/{share_id}/end"),
    ("instructor", "/instructor/attempts/{passed_attempt_id}"),
    ("instructor", "/instructor/attempts/{passed_attempt_id}/scenarios/1/items/{passed_item_id}/score"),
    ("instructor", "/instructor/to-grade"),
    ("instructor", "/instructor/attempts/{waiting_attempt_id}/scenarios/1/items/{explanation_id}/grade"),
    ("instructor", "/instructor/attempts/{waiting_attempt_id}"),
    ("instructor", "/instructor/own-jobs"),
    ("instructor", "/instructor/own-jobs/new"),
    ("instructor", "/instructor/own-jobs/send"),
    ("instructor", "/instructor/own-jobs/{job_id}"),
    ("instructor", "/instructor/own-jobs/{job_id}/versions/1"),
    ("instructor", "/instructor/own-jobs/{job_id}/edit"),
    ("instructor", "/instructor/own-jobs/{job_id}/send"),
    ("instructor", "/instructor/assignments/{assignment_id}/paper"),
    ("instructor", "/instructor/paper/{paper_set_id}"),
    ("instructor", "/instructor/keying"),
    ("instructor", "/instructor/keying/{sheet_code}/scenarios/1"),
    ("instructor", "/instructor/keying/{sheet_code}/hand-in"),
    ("apprentice", "/apprentice/attempts/{waiting_attempt_id}/result"),
    (
        "second_instructor",
        "/instructor/apprentices/{person_id}/award?award_token={share_id}&attempts={passed_attempt_id}"
        "&observations={observation_id}&look=yes",
    ),
    ("second_instructor", "/instructor/qualifications/{qualification_id}"),
    ("employer", "/employer/people"),
    ("employer", "/employer/people/{person_id}"),
    ("employer", "/employer/qualifications/{qualification_id}"),
    ("employer", "/employer/attempts/{passed_attempt_id}"),
    ("employer", "/employer/who-can"),
    (
        "employer",
        "/employer/who-can?on=2030-01-01&material=titanium&gas=I1&outside_diameter=168.3"
        "&outside_diameter-unit=mm&section_length=&situation=",
    ),
    ("admin", "/admin/people"),
    ("admin", "/admin/people/{person_id}"),
    ("admin", "/admin/people/{person_id}/roles/{membership_id}/end"),
    ("admin", "/admin/employers"),
    ("admin", "/admin/policy"),
    ("admin", "/admin/ledger"),
)
OF_NO_FAMILY = tuple(each for each in PAGES if "{open " not in each[1] and "{done " not in each[1])


def of_another_family(template: str) -> bool:
    """Whether a page shows a scenario of a family other than those that ask every kind of item."""
    return any(f" {each}}}" in template for each in FAMILIES if each not in OF_EVERY_KIND)


# Their pages are reached by sending a form, or they show nothing of their own.
BY_A_FORM = {"admin.added"}
NO_PAGE = {
    "static", "apprentice.attempt", "apprentice.set_up", "instructor.own_job_file",
    "bench.filling", "bench.results", "bench.what_helps",
    "instructor.keying", "instructor.worksheets", "instructor.answer_key",
}  # fmt: skip


def ids_of(site: Site, crew: dict[str, Member]) -> dict[str, object]:
    """Makes one of everything, and an open and a marked practice attempt of every family."""
    things = furnish(site, people={key: each.acting for key, each in crew.items()})
    teacher, apprentice = crew["instructor"].acting, crew["apprentice"].acting
    place = steps.School(crew["founder"].acting, teacher, teacher, apprentice, things.class_id)
    ids = {**vars(things), "assessed": _assessed(site, place), "failed": _failed(site, place)}
    for family in FAMILIES:
        ids[f"done {family}"] = _practised(site, place, family)
        ids[f"open {family}"] = practice.start_practice(site, apprentice, family=family, difficulty=1.0)
    return ids


def _assessed(site: Site, place: steps.School) -> UUID:
    rows = (steps.row(3, "long-run"), steps.row(4, "end-plates"))
    assignment_id = steps.assigned(site, place, rows=rows)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(site, place.apprentice, attempt_id, but=("wait",))
    return attempt_id


def _failed(site: Site, place: steps.School) -> UUID:
    """Nothing was answered but the hazards, wrongly: every way to fail at once."""
    assignment_id = steps.assigned(site, place)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    assessment.keep_response(
        site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id="look", raw=[]
    )
    assert not steps.handed_in(site, place.apprentice, attempt_id).passed
    return attempt_id


def _practised(site: Site, place: steps.School, family: str) -> UUID:
    """Everything right but the first choice."""
    attempt_id = practice.start_practice(site, place.apprentice, family=family, difficulty=1.0)
    steps.answer_right(site, place.apprentice, attempt_id)
    item_id, wrong = steps.wrong_answer(steps.drawn(site, attempt_id)[1])
    assessment.keep_response(
        site, place.apprentice, attempt_id=attempt_id, scenario_no=1, item_id=item_id, raw=wrong
    )
    steps.handed_in(site, place.apprentice, attempt_id)
    return attempt_id
