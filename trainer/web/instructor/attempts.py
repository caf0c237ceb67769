"""One apprentice's attempt, and another score for one of its items."""

from uuid import UUID

from flask import abort, flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.attempts import ItemMark
from trainer.domain.errors import Conflict, Refused, WrongState
from trainer.domain.overrides import Override
from trainer.domain.permissions import Permission
from trainer.services import grading, results
from trainer.services.results import ResultPage, ScenarioResult
from trainer.web.access import access, acting, site
from trainer.web.figures import hear_scenario
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.forms import OverrideForm
from trainer.web.results import attempt_title, scenario_views


@blueprint.get("/attempts/<uuid:attempt_id>")
@access(Permission.READ_RESULTS)
def attempt(attempt_id: UUID) -> ResponseReturnValue:
    """The result as the apprentice sees it, with a way to override."""
    page = results.result_page(site(), acting(), attempt_id=attempt_id)
    return render_template(
        "instructor/attempt.html", page=page, title=attempt_title(page), views=scenario_views(page)
    )


@blueprint.get("/attempts/<uuid:attempt_id>/scenarios/<int:number>/items/<item_id>/score")
@access(Permission.OVERRIDE_SCORE)
def override(attempt_id: UUID, number: int, item_id: str) -> ResponseReturnValue:
    """The form for another score."""
    page = results.result_page(site(), acting(), attempt_id=attempt_id)
    mark = _mark(page, number, item_id)
    form = OverrideForm(critical_missed=mark.critical_missed, of_version=page.marking.version)
    return _override_page(page, number, item_id, form)


@blueprint.post("/attempts/<uuid:attempt_id>/scenarios/<int:number>/items/<item_id>/score")
@access(Permission.OVERRIDE_SCORE)
def do_override(attempt_id: UUID, number: int, item_id: str) -> ResponseReturnValue:
    """A new marking that supersedes the old one."""
    page = results.result_page(site(), acting(), attempt_id=attempt_id)
    _mark(page, number, item_id)
    form = OverrideForm()
    if form.validate():
        wanted = Override(
            scenario_no=number,
            item_id=item_id,
            score_frac=form.score.number,
            critical_missed=bool(form.critical_missed.data),
            reason=form.reason.data or "",
            of_version=_version(form.of_version.data),
        )
        try:
            grading.override_score(site(), acting(), attempt_id=attempt_id, override=wanted)
        except (Refused, Conflict, WrongState) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The score is changed, and the record says by whom and why."))
            return redirect(url_for(".attempt", attempt_id=attempt_id), 303)
    return _override_page(page, number, item_id, form), 422


def _version(typed: str | None) -> int:
    if not (typed or "").isascii() or not (typed or "").isdigit() or len(typed or "") > 9:
        abort(400)
    return int(typed or "0")


def _scenario(page: ResultPage, number: int) -> ScenarioResult:
    return next((each for each in page.scenarios if each.scenario_no == number), None) or abort(404)


def _mark(page: ResultPage, number: int, item_id: str) -> ItemMark:
    marks = _scenario(page, number).marks
    return next((each for each in marks if each.item_id == item_id), None) or abort(404)


def _override_page(page: ResultPage, number: int, item_id: str, form: OverrideForm) -> str:
    scenario = _scenario(page, number)
    return render_template(
        "instructor/override.html",
        page=page,
        number=number,
        item=hear_scenario(scenario.scenario).item(item_id),
        mark=scenario.mark(item_id),
        form=form,
    )
