"""Explanations that wait for a grade, and one of them with its rubric; no page here says who wrote it."""

from uuid import UUID

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Conflict, Refused, WrongState
from trainer.domain.grades import Grade
from trainer.domain.permissions import Permission
from trainer.services import explanations
from trainer.services.explanations import GradingPage
from trainer.web.access import access, acting, site
from trainer.web.figures import hear_scenario
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.forms import GradeForm


@blueprint.get("/to-grade")
@access(Permission.TEACH)
def to_grade() -> ResponseReturnValue:
    """What waits, question by question."""
    waiting = explanations.to_grade(site(), acting())
    for each in waiting:
        hear_scenario(each.scenario)
    return render_template("instructor/to_grade.html", waiting=waiting)


@blueprint.get("/attempts/<uuid:attempt_id>/scenarios/<int:number>/items/<item_id>/grade")
@access(Permission.GRADE_EXPLANATION)
def grade(attempt_id: UUID, number: int, item_id: str) -> ResponseReturnValue:
    """One explanation with its rubric."""
    return _page(_explanation(attempt_id, number, item_id), GradeForm(), {})


@blueprint.post("/attempts/<uuid:attempt_id>/scenarios/<int:number>/items/<item_id>/grade")
@access(Permission.GRADE_EXPLANATION)
def do_grade(attempt_id: UUID, number: int, item_id: str) -> ResponseReturnValue:
    """The levels, as a new marking."""
    page = _explanation(attempt_id, number, item_id)
    form = GradeForm()
    levels = _levels(page)
    if form.validate():
        comment = (form.comment.data or "").replace("\r\n", "\n")
        given = Grade(scenario_no=number, item_id=item_id, levels=levels, comment=comment)
        try:
            explanations.grade_explanation(site(), acting(), attempt_id=attempt_id, grade=given)
        except (Refused, Conflict, WrongState) as refusal:
            form.refuse(refusal)
            page = _explanation(attempt_id, number, item_id)  # somebody may have been quicker
        else:
            flash(gettext("The grade is on the record, and the verdict reckoned again."))
            return redirect(url_for(".to_grade"), 303)
    return _page(page, form, levels), 422


def _explanation(attempt_id: UUID, number: int, item_id: str) -> GradingPage:
    return explanations.grading_page(
        site(), acting(), attempt_id=attempt_id, scenario_no=number, item_id=item_id
    )


def _levels(page: GradingPage) -> dict[str, int]:
    """The radios that were chosen; what is none of them is left out, and named as missing."""
    chosen = {each.id: request.form.get(f"level-{each.id}", "") for each in page.item.rubric}
    return {
        each.id: int(chosen[each.id])
        for each in page.item.rubric
        if chosen[each.id] in {str(level) for level in range(len(each.levels))}
    }


def _page(page: GradingPage, form: GradeForm, levels: dict[str, int]) -> str:
    hear_scenario(page.scenario)
    return render_template("instructor/grade.html", page=page, form=form, levels=levels)
