"""Showing an apprentice's record to an employer, on a basis and with consent on file, and ending that."""

from uuid import UUID

from flask import abort, flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Duplicate, Refused
from trainer.domain.permissions import Permission
from trainer.services import class_results, sharing
from trainer.services.sharing import ShareGiven
from trainer.web.access import access, acting, site
from trainer.web.forms.fields import offered
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.forms import ReasonForm, ShareForm


@blueprint.get("/apprentices/<uuid:person_id>/shares/new")
@access(Permission.TEACH)
def new_share(person_id: UUID) -> ResponseReturnValue:
    """The form of a share."""
    return _page(person_id, ShareForm(starts=site().today()))


@blueprint.post("/apprentices/<uuid:person_id>/shares/new")
@access(Permission.TEACH)
def give_share(person_id: UUID) -> ResponseReturnValue:
    """Shows the record to the employer from that day."""
    form = _offering(ShareForm())
    if form.validate():
        offer = sharing.Offer(
            employer_id=UUID(form.employer.data or ""),
            basis=form.basis.data or "",
            consent_on_file=form.consent_on_file.data or "",
            term=form.term(),
        )
        try:
            sharing.give_share(site(), acting(), person_id=person_id, offer=offer)
        except (Refused, Duplicate) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The record is shared."))
            return redirect(url_for(".apprentice", person_id=person_id), 303)
    return _page(person_id, form), 422


@blueprint.get("/apprentices/<uuid:person_id>/shares/<uuid:share_id>/end")
@access(Permission.TEACH)
def end_share(person_id: UUID, share_id: UUID) -> ResponseReturnValue:
    """Asks for the reason."""
    return _end_page(person_id, share_id, ReasonForm())


@blueprint.post("/apprentices/<uuid:person_id>/shares/<uuid:share_id>/end")
@access(Permission.TEACH)
def do_end_share(person_id: UUID, share_id: UUID) -> ResponseReturnValue:
    """Takes the record out of the employer's sight."""
    form = ReasonForm()
    _share(person_id, share_id)
    if not form.validate():
        return _end_page(person_id, share_id, form), 422
    sharing.end_share(site(), acting(), share_id=share_id, reason=form.reason.data or "")
    flash(gettext("The employer no longer sees the record."))
    return redirect(url_for(".apprentice", person_id=person_id), 303)


def _offering(form: ShareForm) -> ShareForm:
    found = sharing.employers(site(), acting())
    form.employer.choices = offered((each.organisation_id, each.name) for each in found)
    return form


def _page(person_id: UUID, form: ShareForm) -> str:
    history = class_results.apprentice_history(site(), acting(), person_id=person_id)
    return render_template("instructor/share.html", history=history, form=_offering(form))


def _share(person_id: UUID, share_id: UUID) -> ShareGiven:
    given = sharing.shares_of(site(), acting(), person_id=person_id)
    return next((each for each in given if each.share.share_id == share_id), None) or abort(404)


def _end_page(person_id: UUID, share_id: UUID, form: ReasonForm) -> str:
    history = class_results.apprentice_history(site(), acting(), person_id=person_id)
    given = _share(person_id, share_id)
    return render_template("instructor/end_share.html", history=history, given=given, form=form)
