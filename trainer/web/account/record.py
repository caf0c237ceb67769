"""One's own record, readable in whatever organisation one acts: roles, attempts, qualifications, shares."""

from uuid import UUID

from flask import abort, flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Duplicate, Refused
from trainer.domain.permissions import Permission
from trainer.services import own_work, qualification_pages, sharing
from trainer.web.access import access, acting, site
from trainer.web.account.blueprint import blueprint
from trainer.web.account.share_forms import EndShareForm, OwnShareForm
from trainer.web.forms.fields import offered


@blueprint.get("/record")
@access(Permission.READ_OWN_RECORD)
def own_record() -> ResponseReturnValue:
    """Everything that is kept about oneself."""
    return _page(OwnShareForm(starts=site().today()))


@blueprint.post("/shares")
@access(Permission.GIVE_SHARE)
def give_own_share() -> ResponseReturnValue:
    """Shows one's own record to an employer."""
    form = _offering(OwnShareForm())
    if form.validate():
        offer = sharing.Offer(
            employer_id=UUID(form.employer.data),
            basis=gettext("the person's own wish"),
            consent_on_file=gettext("given by the person when signed in"),
            term=form.term(),
        )
        try:
            sharing.give_share(site(), acting(), person_id=acting().person_id, offer=offer)
        except (Refused, Duplicate) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("Your record is shared."))
            return redirect(url_for(".own_record"), 303)
    return _page(form), 422


@blueprint.get("/shares/<uuid:share_id>/end")
@access(Permission.READ_OWN_RECORD)
def end_own_share(share_id: UUID) -> ResponseReturnValue:
    """Asks for the reason before a share is ended."""
    return render_template("account/end_share.html", form=EndShareForm(), given=_own_share(share_id))


@blueprint.post("/shares/<uuid:share_id>/end")
@access(Permission.END_SHARE)
def do_end_own_share(share_id: UUID) -> ResponseReturnValue:
    """Takes one's record out of an employer's sight at once."""
    form = EndShareForm()
    given = _own_share(share_id)
    if not form.validate():
        return render_template("account/end_share.html", form=form, given=given), 422
    sharing.end_share(site(), acting(), share_id=share_id, reason=form.reason.data)
    flash(gettext("%(employer)s no longer sees your record.", employer=given.employer.name))
    return redirect(url_for(".own_record"), 303)


def _own_share(share_id: UUID) -> sharing.ShareGiven:
    record = sharing.own_record(site(), acting())
    found = next((each for each in record.shares if each.share.share_id == share_id), None)
    return found if found is not None else abort(404)


def _offering(form: OwnShareForm) -> OwnShareForm:
    found = sharing.employers(site(), acting())
    form.employer.choices = offered((each.organisation_id, each.name) for each in found)
    return form


def _page(form: OwnShareForm) -> str:
    record = sharing.own_record(site(), acting())
    return render_template(
        "account/own_record.html",
        record=record,
        attempts=own_work.own_attempts(site(), acting()),
        held=qualification_pages.own_qualifications(site(), acting()),
        form=_offering(form),
    )
