"""One qualification: its evidence, and confirming, suspending, lifting and revoking with a reason."""

from collections.abc import Callable
from uuid import UUID

from flask import flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Refused, WrongState
from trainer.domain.permissions import Permission
from trainer.services import qualification_pages, qualifying
from trainer.web.access import access, acting, site
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.forms import ReasonForm


@blueprint.get("/qualifications/<uuid:qualification_id>")
@access(Permission.READ_RESULTS)
def qualification(qualification_id: UUID) -> ResponseReturnValue:
    """One qualification with its evidence and history."""
    return _page(qualification_id, ReasonForm())


@blueprint.post("/qualifications/<uuid:qualification_id>/confirm")
@access(Permission.SUSPEND_QUALIFICATION)
def confirm(qualification_id: UUID) -> ResponseReturnValue:
    """Keeps it alive on proof of use."""

    def act(reason: str) -> None:
        qualifying.confirm(site(), acting(), qualification_id=qualification_id, proof_of_use=reason)

    return _do(qualification_id, act, gettext("Confirmed."))


@blueprint.post("/qualifications/<uuid:qualification_id>/suspend")
@access(Permission.SUSPEND_QUALIFICATION)
def suspend(qualification_id: UUID) -> ResponseReturnValue:
    """Takes it out of force until the suspension is lifted."""

    def act(reason: str) -> None:
        qualifying.suspend(site(), acting(), qualification_id=qualification_id, reason_given=reason)

    return _do(qualification_id, act, gettext("Suspended."))


@blueprint.post("/qualifications/<uuid:qualification_id>/lift")
@access(Permission.SUSPEND_QUALIFICATION)
def lift(qualification_id: UUID) -> ResponseReturnValue:
    """Ends the suspension."""

    def act(reason: str) -> None:
        qualifying.lift(site(), acting(), qualification_id=qualification_id, reason_given=reason)

    return _do(qualification_id, act, gettext("The suspension is lifted."))


@blueprint.post("/qualifications/<uuid:qualification_id>/revoke")
@access(Permission.REVOKE_QUALIFICATION)
def revoke(qualification_id: UUID) -> ResponseReturnValue:
    """Withdraws it for good."""

    def act(reason: str) -> None:
        qualifying.revoke(site(), acting(), qualification_id=qualification_id, reason_given=reason)

    return _do(qualification_id, act, gettext("Revoked."))


def _do(qualification_id: UUID, act: Callable[[str], None], done: str) -> ResponseReturnValue:
    form = ReasonForm()
    if form.validate():
        try:
            act(form.reason.data or "")
        except (Refused, WrongState) as refusal:
            form.refuse(refusal)
        else:
            flash(done)
            return redirect(url_for(".qualification", qualification_id=qualification_id), 303)
    return _page(qualification_id, form), 422


def _page(qualification_id: UUID, form: ReasonForm) -> str:
    page = qualification_pages.qualification_page(site(), acting(), qualification_id=qualification_id)
    return render_template("instructor/qualification.html", page=page, form=form)
