"""Keying in a sheet of paper: by its code, scenario by scenario, then handed in for whoever sat it."""

from uuid import UUID

from flask import abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Missing, Refused, WrongState
from trainer.domain.permissions import Permission
from trainer.domain.verification_code import read_code
from trainer.scenario_files import ResponseFault
from trainer.services import keying as keying_service
from trainer.services import paper
from trainer.services.keying import HandingIn, KeyingPage
from trainer.web.access import access, acting, site
from trainer.web.figures import hear_scenario
from trainer.web.forms.fields import offered
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.keyed_answers import KeyedItem, keyed_items, open_words, read_keyed
from trainer.web.instructor.paper_forms import CodeForm, HandInForm
from trainer.web.responses import Contradiction, fault_words


@blueprint.get("/keying")
@access(Permission.KEY_IN_SHEET)
def key_in() -> ResponseReturnValue:
    """Asks for the code of a sheet."""
    return render_template("instructor/key_in.html", form=CodeForm())


@blueprint.post("/keying")
@access(Permission.KEY_IN_SHEET)
def find_sheet() -> ResponseReturnValue:
    """Leads to the sheet of that code; a slip is told from a code that nobody gave out."""
    form = CodeForm()
    if form.validate():
        code = read_code(form.code.data or "")
        if code is None:
            form.code.errors = [
                gettext("A sign of this code is wrong or missing: it has three groups of four, check each.")
            ]
        else:
            try:
                keying_service.keying_page(site(), acting(), code=code)
            except Missing:
                form.code.errors = [gettext("No sheet of yours has this code.")]
            else:
                return redirect(url_for(".keying", code=code), 303)
    return render_template("instructor/key_in.html", form=form), 422


@blueprint.get("/keying/<code>")
@access(Permission.KEY_IN_SHEET)
def keying(code: str) -> ResponseReturnValue:
    """Where the sheet stands: on with the first scenario that lacks something, or what came of it."""
    page = _page(code)
    if page.sheet.is_handed_in or page.is_own:
        return render_template("instructor/keyed_sheet.html", page=page)
    if not page.unanswered:
        return redirect(url_for(".before_hand_in_sheet", code=page.sheet.code))
    return redirect(url_for(".key_scenario", code=page.sheet.code, number=page.unanswered[0][0]))


@blueprint.get("/keying/<code>/scenarios/<int:number>")
@access(Permission.KEY_IN_SHEET)
def key_scenario(code: str, number: int) -> ResponseReturnValue:
    """One scenario of the sheet with what was keyed in so far."""
    page = _waiting(code)
    if not isinstance(page, KeyingPage):
        return page
    if number not in page.scenarios:
        abort(404)
    return _scenario_page(page, number, keyed_items(page, number))


@blueprint.post("/keying/<code>/scenarios/<int:number>")
@access(Permission.KEY_IN_SHEET)
def keep_scenario(code: str, number: int) -> ResponseReturnValue:
    """Keeps what was keyed in, and goes on to the next scenario or to handing in."""
    page = _waiting(code)
    if not isinstance(page, KeyingPage):
        return page
    faults = _keep_all(page, number)
    if faults:
        again = _page(code)
        items = keyed_items(again, number, sent=request.form, faults=faults)
        return _scenario_page(again, number, items), 422
    if number < len(page.scenarios):
        return redirect(url_for(".key_scenario", code=page.sheet.code, number=number + 1), 303)
    return redirect(url_for(".before_hand_in_sheet", code=page.sheet.code), 303)


@blueprint.get("/keying/<code>/hand-in")
@access(Permission.KEY_IN_SHEET)
def before_hand_in_sheet(code: str) -> ResponseReturnValue:
    """What is left open, whose sheet it is, and when it was sat."""
    page = _waiting(code)
    if not isinstance(page, KeyingPage):
        return page
    return _hand_in_page(page, HandInForm(person=str(page.sheet.person_id or "")))


@blueprint.post("/keying/<code>/hand-in")
@access(Permission.KEY_IN_SHEET)
def hand_in_sheet(code: str) -> ResponseReturnValue:
    """Hands the sheet in for whoever sat it."""
    page = _waiting(code)
    if not isinstance(page, KeyingPage):
        return page
    form = HandInForm()
    form.person.choices = _people(page)
    if form.validate():
        handing_in = HandingIn(person_id=UUID(form.person.data), sat_on=form.sat_on.day)
        try:
            attempt_id = keying_service.hand_in_sheet(
                site(), acting(), code=page.sheet.code, handing_in=handing_in
            )
        except WrongState:
            return _refused(_page(code))
        except Refused as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("Handed in and marked. The record says that it was answered on paper."))
            return redirect(url_for(".attempt", attempt_id=attempt_id), 303)
    return _hand_in_page(page, form), 422


def _page(code: str) -> KeyingPage:
    written = read_code(code)
    if written is None:
        abort(404)
    page = keying_service.keying_page(site(), acting(), code=written)
    for scenario in page.scenarios.values():
        hear_scenario(scenario)
    return page


def _waiting(code: str) -> KeyingPage | ResponseReturnValue:
    """The sheet while it may be keyed in; else the page that says why not."""
    page = _page(code)
    return _refused(page) if page.sheet.is_handed_in or page.is_own else page


def _refused(page: KeyingPage) -> ResponseReturnValue:
    return render_template("instructor/keyed_sheet.html", page=page), 409


def _scenario_page(page: KeyingPage, number: int, items: tuple[KeyedItem, ...]) -> str:
    return render_template("instructor/key_scenario.html", page=page, number=number, items=items)


def _keep_all(page: KeyingPage, number: int) -> dict[str, str]:
    """Keeps each answer that differs from the one kept; returns the faults of the others."""
    if number not in page.scenarios:
        abort(404)
    faults: dict[str, str] = {}
    for item in page.scenarios[number].items:
        try:
            raw = read_keyed(item, request.form)
            if raw != page.answers.get((number, item.id)):
                keying_service.keep_keyed(
                    site(), acting(), code=page.sheet.code, at=(number, item.id), raw=raw
                )
        except (ResponseFault, Contradiction) as fault:
            faults[item.id] = fault_words(fault, item)
    return faults


def _people(page: KeyingPage) -> list[object]:
    if page.sheet.person_id is not None:
        return [*offered([(page.sheet.person_id, page.sheet.person_name)])]
    found = paper.takers(site(), acting(), assignment_id=page.paper_set.assignment_id)
    return [*offered((each.person_id, each.name) for each in found)]


def _hand_in_page(page: KeyingPage, form: HandInForm) -> str:
    form.person.choices = _people(page)
    left_open = open_words(page.scenarios, page.unanswered)
    return render_template("instructor/hand_in_sheet.html", page=page, form=form, left_open=left_open)
