"""Pages that anybody may open: the first page, checking a certificate, and how sure the figures are."""

from flask import Blueprint, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from trainer.domain.permissions import Permission
from trainer.services import verification
from trainer.web.access import can, person, public, site
from trainer.web.limits import VERIFY, limiter
from trainer.web.public.agreement import agreement_page, cell_words
from trainer.web.public.forms import LONGEST_CODE, CodeForm

blueprint = Blueprint("public", __name__)

_FIRST_PAGES = (
    (Permission.PRACTISE, "apprentice.today"),
    (Permission.TEACH, "instructor.today"),
    (Permission.LIST_SHARED_PEOPLE, "employer.people"),
    (Permission.MANAGE_PEOPLE, "admin.people"),
)


@blueprint.get("/")
@public
def home() -> ResponseReturnValue:
    """The first page of whoever is signed in, or what this is."""
    if person() is None:
        return render_template("public/home.html")
    for permission, endpoint in _FIRST_PAGES:
        if can(permission):
            return redirect(url_for(endpoint))
    return redirect(url_for("account.own_record"))


@blueprint.get("/how-sure")
@public
def how_sure() -> ResponseReturnValue:
    """What the figures are worth."""
    return render_template("public/how_sure.html", agreement=agreement_page(), cell_words=cell_words)


@blueprint.get("/verify")
@public
@limiter.limit(VERIFY)
def verify() -> ResponseReturnValue:
    """Asks for the code; a code typed leads to its own address, which a certificate can carry."""
    if "code" not in request.args:
        return render_template("public/verify.html", form=CodeForm(formdata=None))
    form = CodeForm(request.args)
    if not form.validate():
        return render_template("public/verify.html", form=form), 422
    return redirect(url_for(".verified", code=form.code.data))


@blueprint.get("/verify/<code>")
@public
@limiter.limit(VERIFY)
def verified(code: str) -> ResponseReturnValue:
    """What a code stands for today, in words."""
    found = verification.verify(site(), typed=code[:LONGEST_CODE])
    page = render_template("public/verified.html", found=found, code=code[:LONGEST_CODE])
    return page if found is not None else (page, 404)
