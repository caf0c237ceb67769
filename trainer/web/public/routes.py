"""Pages that anybody may open: the first page, checking a certificate, and how sure the figures are."""

from flask import Blueprint, abort, make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from trainer.domain.people import Language
from trainer.domain.permissions import Permission
from trainer.services import verification
from trainer.web.access import can, own_path, person, public, site
from trainer.web.limits import VERIFY, limiter
from trainer.web.preferences import keep_language
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


@blueprint.post("/language")
@public
def choose_language() -> ResponseReturnValue:
    """Keeps the language of somebody who is not signed in, and goes back to the page that they were on."""
    chosen = request.form.get("language", "")
    if chosen not in set(Language):
        abort(400)
    onward = own_path(request.form.get("next"), otherwise=url_for(".home"))
    return keep_language(make_response(redirect(onward, 303)), Language(chosen))


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
