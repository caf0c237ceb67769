"""An attempt while it is open: its scenarios, keeping each answer, and handing in."""

from typing import Any
from uuid import UUID

from flask import abort, flash, jsonify, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.attempts import AttemptKind, AttemptState
from trainer.domain.errors import WrongState
from trainer.domain.permissions import Permission
from trainer.domain.scenario import Item
from trainer.scenario_files import ResponseFault
from trainer.services import assessment
from trainer.services.assessment import AttemptPage
from trainer.web import responses
from trainer.web.access import access, acting, site
from trainer.web.apprentice.blueprint import blueprint
from trainer.web.apprentice.sheet import keep_sent, kept_words, scenario_of, sheet_of
from trainer.web.errors import wants_json
from trainer.web.figures import hear_scenario
from trainer.web.responses import Contradiction, fault_words


@blueprint.get("/attempts/<uuid:attempt_id>")
@access(Permission.ANSWER_ATTEMPT)
def attempt(attempt_id: UUID) -> ResponseReturnValue:
    """Where the person goes on: the first scenario with something unanswered, or the result."""
    page = _attempt(attempt_id)
    if page.state is not AttemptState.OPEN:
        return redirect(_result(attempt_id))
    number = page.unanswered[0][0] if page.unanswered else page.scenarios[-1].scenario_no
    return redirect(url_for(".scenario", attempt_id=attempt_id, number=number))


@blueprint.get("/attempts/<uuid:attempt_id>/scenarios/<int:number>")
@access(Permission.ANSWER_ATTEMPT)
def scenario(attempt_id: UUID, number: int) -> ResponseReturnValue:
    """One scenario with what was answered so far."""
    page = _attempt(attempt_id)
    if page.state is not AttemptState.OPEN:
        return redirect(_result(attempt_id))
    return render_template("apprentice/scenario.html", sheet=sheet_of(page, number))


@blueprint.post("/attempts/<uuid:attempt_id>/scenarios/<int:number>")
@access(Permission.ANSWER_ATTEMPT)
def go_on(attempt_id: UUID, number: int) -> ResponseReturnValue:
    """Keeps what is on the page and goes on to the next scenario, or to handing in after the last."""
    page = _attempt(attempt_id)
    refused = _keep_all(page, number)
    if refused is not None:
        return refused
    if number < len(page.scenarios):
        return redirect(url_for(".scenario", attempt_id=attempt_id, number=number + 1), 303)
    return redirect(url_for(".before_hand_in", attempt_id=attempt_id), 303)


@blueprint.post("/attempts/<uuid:attempt_id>/scenarios/<int:number>/items/<item_id>")
@access(Permission.ANSWER_ATTEMPT)
def keep_item(attempt_id: UUID, number: int, item_id: str) -> ResponseReturnValue:
    """Keeps one answer for our script; without scripts, whatever has been answered on the page."""
    if wants_json():
        return _keep_one(attempt_id, number, item_id)
    page = _attempt(attempt_id)
    item = next((each for each in scenario_of(page, number).items if each.id == item_id), None) or abort(404)
    back = url_for(".scenario", attempt_id=attempt_id, number=number, _anchor=responses.field_name(item))
    return _keep_all(page, number) or redirect(back, 303)


@blueprint.get("/attempts/<uuid:attempt_id>/hand-in")
@access(Permission.ANSWER_ATTEMPT)
def before_hand_in(attempt_id: UUID) -> ResponseReturnValue:
    """What is answered and what is not, before it is handed in for good."""
    page = _attempt(attempt_id)
    if page.state is not AttemptState.OPEN:
        return redirect(_result(attempt_id))
    for each in page.scenarios:
        hear_scenario(each.scenario)
    return render_template("apprentice/hand_in.html", attempt=page)


@blueprint.post("/attempts/<uuid:attempt_id>/hand-in")
@access(Permission.ANSWER_ATTEMPT)
def hand_in(attempt_id: UUID) -> ResponseReturnValue:
    """Hands in, with what was still on the page; the same form sent again leads to the same result."""
    page = _attempt(attempt_id)
    number = request.form.get("number", type=int)
    if number is not None and page.state is AttemptState.OPEN:
        refused = _keep_all(page, number)
        if refused is not None:
            return refused
    assessment.hand_in(site(), acting(), attempt_id=attempt_id, token=_token())
    if page.kind is AttemptKind.ASSESSED:
        flash(gettext("Handed in and marked."))
    return redirect(_result(attempt_id), 303)


def _attempt(attempt_id: UUID) -> AttemptPage:
    return assessment.attempt_page(site(), acting(), attempt_id=attempt_id)


def _keep_one(attempt_id: UUID, number: int, item_id: str) -> ResponseReturnValue:
    """Keeps one answer without reading the rest of the attempt, and acknowledges it."""
    try:
        kept = assessment.keep_answer(
            site(), acting(), attempt_id=attempt_id, scenario_no=number, item_id=item_id, read=_answered
        )
    except (ResponseFault, Contradiction) as fault:
        return jsonify(error=fault_words(fault)), 422
    return jsonify(kept=kept_words(kept))


def _answered(item: Item) -> Any:
    raw = responses.read(item, request.form)
    if raw is None:
        raise ResponseFault(item.id, gettext("Nothing was answered; what was kept before still counts."))
    return raw


def _keep_all(page: AttemptPage, number: int) -> ResponseReturnValue | None:
    """None when everything was kept; else the page again with its faults, or the result if time was up."""
    try:
        faults = keep_sent(page, number, request.form)
    except WrongState as error:
        flash(str(error), "refused")
        return redirect(_result(page.attempt_id), 303)
    if not faults:
        return None
    sheet = sheet_of(_attempt(page.attempt_id), number, sent=request.form, faults=faults)
    return render_template("apprentice/scenario.html", sheet=sheet), 422


def _token() -> UUID:
    try:
        return UUID(request.form.get("token", ""))
    except ValueError:
        abort(400)


def _result(attempt_id: UUID) -> str:
    return url_for(".result", attempt_id=attempt_id)
