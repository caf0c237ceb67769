"""The result of one's own attempt; people read their own wherever they act."""

import json
from uuid import UUID

from flask import Response, abort, redirect, render_template, url_for
from flask.typing import ResponseReturnValue

from trainer.domain.errors import WrongState
from trainer.domain.permissions import Permission
from trainer.services import results
from trainer.services.results import ResultPage, ScenarioResult
from trainer.set_up_files import write_set_up
from trainer.web.access import access, acting, can, site
from trainer.web.apprentice.blueprint import blueprint
from trainer.web.results import attempt_title, scenario_views


@blueprint.get("/attempts/<uuid:attempt_id>/result")
@access(Permission.READ_ATTEMPT)
def result(attempt_id: UUID) -> ResponseReturnValue:
    """What the core made of an attempt."""
    try:
        page = results.result_page(site(), acting(), attempt_id=attempt_id)
    except WrongState:
        if can(Permission.ANSWER_ATTEMPT):
            return redirect(url_for(".attempt", attempt_id=attempt_id))
        raise
    return render_template(
        "apprentice/result.html", page=page, title=attempt_title(page), views=scenario_views(page)
    )


@blueprint.get("/attempts/<uuid:attempt_id>/scenarios/<int:number>/set-up.json")
@access(Permission.READ_ATTEMPT)
def set_up(attempt_id: UUID, number: int) -> ResponseReturnValue:
    """The person's own set-up exactly as `trainer solve` takes it."""
    page = results.result_page(site(), acting(), attempt_id=attempt_id)
    found = _scenario(page, number)
    if found.own_set_up is None:
        abort(404)
    text = json.dumps(write_set_up(found.own_set_up), indent=2, ensure_ascii=False) + "\n"
    answer = Response(text, mimetype="application/json")
    answer.headers["Content-Disposition"] = f'attachment; filename="set-up-{number}.json"'
    return answer


def _scenario(page: ResultPage, number: int) -> ScenarioResult:
    return next((each for each in page.scenarios if each.scenario_no == number), None) or abort(404)
