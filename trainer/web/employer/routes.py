"""People whose record is shared with the employer, who can do a job, and the evidence behind one person."""

from uuid import UUID

from flask import abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Refused, WrongState
from trainer.domain.permissions import Permission
from trainer.domain.scope import Job, JointSituation
from trainer.services import qualification_pages, qualifying, results
from trainer.web.access import access, acting, site
from trainer.web.employer.blueprint import blueprint
from trainer.web.employer.forms import ConfirmForm, JobForm
from trainer.web.forms.addresses import asked, told_again, was_typed
from trainer.web.last_days import last_days
from trainer.web.results import attempt_title, scenario_views


@blueprint.get("/people")
@access(Permission.LIST_SHARED_PEOPLE)
def people() -> ResponseReturnValue:
    """Everybody in sight with their qualifications, scope and days left."""
    found = qualification_pages.qualified_people(site(), acting())
    held = [each for one in found for each in one.qualifications]
    ending = last_days(held, today=site().today())
    return render_template("employer/people.html", people=found, ending=ending)


@blueprint.get("/people/<uuid:person_id>")
@access(Permission.LIST_SHARED_PEOPLE)
def person(person_id: UUID) -> ResponseReturnValue:
    """One person's qualifications, each leading to its evidence."""
    found = qualification_pages.qualified_people(site(), acting())
    one = next((each for each in found if each.person_id == person_id), None)
    if one is None:
        abort(404)
    return render_template("employer/person.html", found=one)


@blueprint.get("/who-can")
@access(Permission.FIND_WHO_CAN)
def who_can() -> ResponseReturnValue:
    """Who can do this job on that day, and why each other cannot."""
    if "material" not in request.args:
        return _who_page(JobForm(formdata=None, on=site().today()), None)
    form = JobForm(asked(JobForm))
    if not form.validate():
        return _who_page(form, None), 422
    if was_typed():
        return redirect(f"{url_for('.who_can')}?{told_again(JobForm)}", 303)
    return _who_page(form, qualification_pages.who_can(site(), acting(), job=_job(form), on=form.on.day))


@blueprint.get("/qualifications/<uuid:qualification_id>")
@access(Permission.LIST_SHARED_PEOPLE)
def qualification(qualification_id: UUID) -> ResponseReturnValue:
    """One qualification with its evidence."""
    return _qualification_page(qualification_id, ConfirmForm())


@blueprint.post("/qualifications/<uuid:qualification_id>/confirm")
@access(Permission.LIST_SHARED_PEOPLE)
def confirm(qualification_id: UUID) -> ResponseReturnValue:
    """Confirms that the person kept purging."""
    form = ConfirmForm()
    if form.validate():
        try:
            qualifying.confirm(
                site(), acting(), qualification_id=qualification_id, proof_of_use=form.reason.data or ""
            )
        except (Refused, WrongState) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("Confirmed."))
            return redirect(url_for(".qualification", qualification_id=qualification_id), 303)
    return _qualification_page(qualification_id, form), 422


@blueprint.get("/attempts/<uuid:attempt_id>")
@access(Permission.LIST_SHARED_PEOPLE)
def attempt(attempt_id: UUID) -> ResponseReturnValue:
    """An attempt that stands behind a qualification."""
    page = results.result_page(site(), acting(), attempt_id=attempt_id)
    return render_template(
        "employer/attempt.html", page=page, title=attempt_title(page), views=scenario_views(page)
    )


def _job(form: JobForm) -> Job:
    return Job(
        material=form.material.kind,
        gas=form.gas.data or "",
        outside_diameter_m=float(form.outside_diameter.data),
        section_length_m=form.section_length.data,
        situation=JointSituation(form.situation.data) if form.situation.data else None,
        confined_space=bool(form.confined_space.data),
    )


def _who_page(form: JobForm, answers: tuple[qualification_pages.JobAnswer, ...] | None) -> str:
    return render_template("employer/who_can.html", form=form, answers=answers)


def _qualification_page(qualification_id: UUID, form: ConfirmForm) -> str:
    page = qualification_pages.qualification_page(site(), acting(), qualification_id=qualification_id)
    return render_template("employer/qualification.html", page=page, form=form)
