"""Awarding a qualification: choose the evidence, see the scope that it carries, then sign."""

from uuid import UUID, uuid4

from flask import abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Refused
from trainer.domain.permissions import Permission
from trainer.domain.qualifications import Appraisal
from trainer.services import qualifying
from trainer.services.qualifying import Award, AwardPage
from trainer.web.access import access, acting, site
from trainer.web.figures import percent
from trainer.web.forms.fields import offered
from trainer.web.instructor.award_form import AwardForm
from trainer.web.instructor.blueprint import blueprint
from trainer.web.kinds import kind_words
from trainer.web.page_tools import day

LOOK = "look"


@blueprint.get("/apprentices/<uuid:person_id>/award")
@access(Permission.AWARD_QUALIFICATION)
def choose_evidence(person_id: UUID) -> ResponseReturnValue:
    """The evidence there is; with some ticked, also what it amounts to."""
    page = qualifying.award_page(site(), acting(), person_id=person_id)
    form = _offering(AwardForm(request.args if LOOK in request.args else None), page)
    if LOOK not in request.args:
        form.award_token.data = str(uuid4())
        return _page(page, form, None)
    if not form.validate():
        return _page(page, form, None), 422
    appraisal = qualifying.appraise_award(site(), acting(), award=_award(person_id, form))
    return _page(page, form, appraisal)


@blueprint.post("/apprentices/<uuid:person_id>/award")
@access(Permission.AWARD_QUALIFICATION)
def award(person_id: UUID) -> ResponseReturnValue:
    """Awards what the evidence carries; the form's own token makes it count once."""
    page = qualifying.award_page(site(), acting(), person_id=person_id)
    form = _offering(AwardForm(), page)
    if form.validate():
        wanted = _award(person_id, form)
        try:
            qualification_id = qualifying.award(site(), acting(), award=wanted)
        except Refused as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The qualification is awarded."))
            return redirect(url_for(".qualification", qualification_id=qualification_id), 303)
    return _page(page, form, None), 422


def _award(person_id: UUID, form: AwardForm) -> Award:
    try:
        token = UUID(form.award_token.data or "")
    except ValueError:
        abort(400)
    return Award(
        person_id=person_id,
        attempt_ids=tuple(UUID(each) for each in form.attempts.data or ()),
        observation_ids=tuple(UUID(each) for each in form.observations.data or ()),
        award_token=token,
    )


def _attempt_words(title: str, made_on: str, score: str, on_paper: bool) -> str:
    if on_paper:
        return gettext("%(title)s, %(day)s, %(score)s, on paper", title=title, day=made_on, score=score)
    return gettext("%(title)s, %(day)s, %(score)s", title=title, day=made_on, score=score)


def _offering(form: AwardForm, page: AwardPage) -> AwardForm:
    form.attempts.choices = offered(
        (
            each.attempt_id,
            _attempt_words(each.title, day(each.started_at), percent(each.total_frac), each.on_paper),
        )
        for each in page.attempts
    )
    form.observations.choices = offered(
        (
            each.observation.observation_id,
            gettext(
                "%(day)s, %(material)s, seen by %(name)s",
                day=day(each.observation.observed_on),
                material=kind_words(each.observation.material),
                name=each.observed_by_name,
            ),
        )
        for each in page.observations
    )
    return form


def _page(page: AwardPage, form: AwardForm, appraisal: Appraisal | None) -> str:
    return render_template("instructor/award.html", page=page, form=form, appraisal=appraisal, look=LOOK)
