"""Own jobs: the organisation's library of jobs that its instructors wrote, and the page of each."""

from uuid import UUID

from flask import Response, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Duplicate, WrongState
from trainer.domain.own_job_dangers import DangersNotMeant
from trainer.domain.own_job_faults import UnusableJob
from trainer.domain.own_jobs import AskKind
from trainer.domain.permissions import Permission
from trainer.scenario_files import ContentFault
from trainer.services import own_jobs
from trainer.services.own_jobs import Draft
from trainer.web.access import access, acting, site
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.own_job_form import ADD, TAKE_OUT, OwnJobForm, form_of, typed_document
from trainer.web.instructor.own_job_preview import preview_view
from trainer.web.instructor.own_job_questions import QUESTIONS
from trainer.web.instructor.send_job_form import SendJobForm
from trainer.web.preferences import language
from trainer.web.said import hear

MEANT = "meant"


@blueprint.get("/own-jobs")
@access(Permission.MANAGE_OWN_JOB)
def list_own_jobs() -> ResponseReturnValue:
    """All jobs that were written here."""
    return render_template("instructor/own_jobs.html", jobs=own_jobs.jobs_here(site(), acting()))


@blueprint.get("/own-jobs/new")
@access(Permission.MANAGE_OWN_JOB)
def new_own_job() -> ResponseReturnValue:
    """The empty form."""
    return _form_page(OwnJobForm(formdata=None), None)


@blueprint.post("/own-jobs/new")
@access(Permission.MANAGE_OWN_JOB)
def make_own_job() -> ResponseReturnValue:
    """Saves the first version, or shows the form again."""
    form = _offering(OwnJobForm())
    if form.rearranged(request.form):
        return _form_page(form, None)
    if form.validate():
        try:
            job_id = own_jobs.make_job(site(), acting(), draft=_draft(form))
        except UnusableJob as refusal:
            form.tell(refusal.faults)
        else:
            return _saved_as_draft(job_id)
    return _form_page(form, None), 422


@blueprint.get("/own-jobs/<uuid:job_id>")
@access(Permission.MANAGE_OWN_JOB)
def own_job(job_id: UUID) -> ResponseReturnValue:
    """A job in its newest version, as apprentices meet it, with keys and what the core says."""
    return _page(own_jobs.job_page(site(), acting(), job_id=job_id))


@blueprint.get("/own-jobs/<uuid:job_id>/versions/<int:number>")
@access(Permission.MANAGE_OWN_JOB)
def own_job_version(job_id: UUID, number: int) -> ResponseReturnValue:
    """The same of an earlier version."""
    return _page(own_jobs.job_page(site(), acting(), job_id=job_id, version=number))


@blueprint.get("/own-jobs/<uuid:job_id>/edit")
@access(Permission.MANAGE_OWN_JOB)
def change_own_job(job_id: UUID) -> ResponseReturnValue:
    """The form with what was typed for the newest version."""
    newest = own_jobs.job_versions(site(), acting(), job_id=job_id).newest
    if newest.typed is None:
        return redirect(url_for(".send_own_job_version", job_id=job_id))
    return _form_page(form_of(newest.typed), job_id)


@blueprint.post("/own-jobs/<uuid:job_id>/edit")
@access(Permission.MANAGE_OWN_JOB)
def save_own_job(job_id: UUID) -> ResponseReturnValue:
    """Saves a further version."""
    own_jobs.job_versions(site(), acting(), job_id=job_id)  # no form for a job that is not there
    form = _offering(OwnJobForm())
    if form.rearranged(request.form):
        return _form_page(form, job_id)
    if form.validate():
        try:
            number = own_jobs.save_version(site(), acting(), job_id=job_id, draft=_draft(form))
        except UnusableJob as refusal:
            form.tell(refusal.faults)
        except Duplicate:
            form.say(_saved_meanwhile())
        else:
            return _saved_as_version(job_id, number)
    return _form_page(form, job_id), 422


@blueprint.post("/own-jobs/<uuid:job_id>/versions/<int:number>/publish")
@access(Permission.MANAGE_OWN_JOB)
def publish_own_job(job_id: UUID, number: int) -> ResponseReturnValue:
    """Gives a version out, or asks first whether what it does to people and root is meant so."""
    meant = frozenset(request.form.getlist(MEANT))
    try:
        own_jobs.publish_job(site(), acting(), job_id=job_id, version=number, meant=meant)
    except DangersNotMeant:
        return _page(own_jobs.job_page(site(), acting(), job_id=job_id, version=number), meant=meant), 422
    except WrongState:
        flash(gettext("Nothing can be drawn of this version any more, so it was not published."), "refused")
        return redirect(url_for(".own_job_version", job_id=job_id, number=number), 303)
    flash(
        gettext("Version %(number)s is published: it can be practised and put into modules.", number=number)
    )
    return _to_job(job_id)


@blueprint.post("/own-jobs/<uuid:job_id>/withdraw")
@access(Permission.MANAGE_OWN_JOB)
def withdraw_own_job(job_id: UUID) -> ResponseReturnValue:
    """Takes a job out of practice and of new modules."""
    try:
        own_jobs.withdraw_job(site(), acting(), job_id=job_id)
    except WrongState:
        flash(gettext("This job has not been published yet."), "refused")
    else:
        flash(gettext("Withdrawn. Modules that were made of it and attempts at it stay."))
    return _to_job(job_id)


@blueprint.get("/own-jobs/<uuid:job_id>/versions/<int:number>/file")
@access(Permission.MANAGE_OWN_JOB)
def own_job_file(job_id: UUID, number: int) -> ResponseReturnValue:
    """A version as the family file that it is."""
    job = own_jobs.job_versions(site(), acting(), job_id=job_id)
    name = f"{job.summary.family}-{number}.toml"
    return Response(
        job.version(number).family_file,
        mimetype="application/toml",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


@blueprint.get("/own-jobs/send")
@access(Permission.MANAGE_OWN_JOB)
def send_own_job() -> ResponseReturnValue:
    """The form for a family file."""
    return _send_page(SendJobForm(formdata=None), None)


@blueprint.post("/own-jobs/send")
@access(Permission.MANAGE_OWN_JOB)
def do_send_own_job() -> ResponseReturnValue:
    """Checks a family file and keeps it as a new job."""
    form = SendJobForm()
    if form.validate():
        try:
            job_id = own_jobs.send_file(site(), acting(), family_file=form.family_file)
        except ContentFault as fault:
            form.refuse_file(fault.lines)
        else:
            return _saved_as_draft(job_id)
    return _send_page(form, None), 422


@blueprint.get("/own-jobs/<uuid:job_id>/send")
@access(Permission.MANAGE_OWN_JOB)
def send_own_job_version(job_id: UUID) -> ResponseReturnValue:
    """The form for a family file with the text of the newest version."""
    newest = own_jobs.job_versions(site(), acting(), job_id=job_id).newest
    return _send_page(SendJobForm(formdata=None, data={"text": newest.family_file}), job_id)


@blueprint.post("/own-jobs/<uuid:job_id>/send")
@access(Permission.MANAGE_OWN_JOB)
def do_send_own_job_version(job_id: UUID) -> ResponseReturnValue:
    """Checks a family file and keeps it as a further version."""
    own_jobs.job_versions(site(), acting(), job_id=job_id)  # no form for a job that is not there
    form = SendJobForm()
    if form.validate():
        try:
            number = own_jobs.send_file_version(site(), acting(), job_id=job_id, family_file=form.family_file)
        except ContentFault as fault:
            form.refuse_file(fault.lines)
        except Duplicate:
            form.say(_saved_meanwhile())
        else:
            return _saved_as_version(job_id, number)
    return _send_page(form, job_id), 422


def _draft(form: OwnJobForm) -> Draft:
    return Draft(sheet=form.sheet(), typed=typed_document(request.form))


def _saved_meanwhile() -> str:
    return gettext("Somebody saved a version of this job just now. Look at it, then save again.")


def _saved_as_draft(job_id: UUID) -> ResponseReturnValue:
    flash(gettext("Saved as a draft. Look at it as an apprentice does, then publish it."))
    return _to_job(job_id)


def _saved_as_version(job_id: UUID, number: int) -> ResponseReturnValue:
    flash(gettext("Version %(number)s is saved; apprentices meet it once it is published.", number=number))
    return _to_job(job_id)


def _to_job(job_id: UUID) -> ResponseReturnValue:
    return redirect(url_for(".own_job", job_id=job_id), 303)


def _offering(form: OwnJobForm) -> OwnJobForm:
    hear(site().content.told_of_hazards(language()))
    return form.offer(site().content.hazards)


def _form_page(form: OwnJobForm, job_id: UUID | None) -> str:
    action = url_for(".save_own_job", job_id=job_id) if job_id else url_for(".make_own_job")
    return render_template(
        "instructor/own_job_form.html",
        form=_offering(form),
        action=action,
        job_id=job_id,
        add=ADD,
        take_out=TAKE_OUT,
        added=ADD in request.form,
        kinds=AskKind,
        about=QUESTIONS,
    )


def _send_page(form: SendJobForm, job_id: UUID | None) -> str:
    action = url_for(".do_send_own_job_version", job_id=job_id) if job_id else url_for(".do_send_own_job")
    return render_template("instructor/send_own_job.html", form=form, action=action, job_id=job_id)


def _page(page: own_jobs.JobPage, *, meant: frozenset[str] | None = None) -> str:
    """The page of a job; `meant` are the dangers that were ticked where publishing it was refused."""
    view = preview_view(page)
    return render_template("instructor/own_job.html", page=page, view=view, meant=meant, meant_name=MEANT)
