"""The apprentice's first screen, practice, and assignments."""

from uuid import UUID

from flask import abort, flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import WrongState
from trainer.domain.permissions import Permission
from trainer.services import apprentice_home, assessment, own_work, practice
from trainer.services.apprentice_home import DueAssignment
from trainer.web.access import access, acting, site
from trainer.web.apprentice import attempts, results  # noqa: F401  # register their pages
from trainer.web.apprentice.blueprint import blueprint
from trainer.web.apprentice.forms import PracticeForm, PracticeOffer
from trainer.web.skill_bars import skill_profile


@blueprint.get("/")
@access(Permission.PRACTISE)
def today() -> ResponseReturnValue:
    """One thing to do next, what is due, the twelve skills, own qualifications."""
    home = apprentice_home.apprentice_home(site(), acting())
    return render_template(
        "apprentice/today.html",
        home=home,
        skills=skill_profile(home.skills),
    )


@blueprint.get("/practice")
@access(Permission.PRACTISE)
def choose_practice() -> ResponseReturnValue:
    """Which family, and how hard."""
    offer = _offer()
    wanted = request.args.get("family", "")
    chosen = wanted if any(each.family == wanted for each in offer.shown) else None
    form = PracticeForm(formdata=None, data={"family": chosen, "difficulty": "0.5"})
    form.offer(offer.shown)
    return render_template("apprentice/practice.html", form=form, offer=offer)


@blueprint.post("/practice")
@access(Permission.PRACTISE)
def start_practice() -> ResponseReturnValue:
    """Draws a scenario that the person has not met."""
    form, offer = PracticeForm(), _offer()
    form.offer(offer.shown)
    if not form.validate():
        return render_template("apprentice/practice.html", form=form, offer=offer), 422
    attempt_id = practice.start_practice(
        site(), acting(), family=form.family.data, difficulty=float(form.difficulty.data)
    )
    return redirect(url_for(".attempt", attempt_id=attempt_id), 303)


def _offer() -> PracticeOffer:
    return PracticeOffer.of(practice.practice_families(site(), acting()), only=request.args.get("skill", ""))


@blueprint.get("/assignments")
@access(Permission.PRACTISE)
def assignments() -> ResponseReturnValue:
    """What was given to the person, and what became of it."""
    home = apprentice_home.apprentice_home(site(), acting())
    return render_template("apprentice/assignments.html", assignments=home.assignments)


@blueprint.get("/assignments/<uuid:assignment_id>/start")
@access(Permission.TAKE_ASSESSMENT)
def before_start(assignment_id: UUID) -> ResponseReturnValue:
    """What the limits are, before the clock runs."""
    given = _assignment(assignment_id)
    if given.open_attempt_id is not None:
        return redirect(url_for(".attempt", attempt_id=given.open_attempt_id))
    limits = own_work.limits_before_start(site(), acting(), assignment_id=assignment_id)
    return render_template("apprentice/start.html", given=given, limits=limits)


@blueprint.post("/assignments/<uuid:assignment_id>/start")
@access(Permission.TAKE_ASSESSMENT)
def start(assignment_id: UUID) -> ResponseReturnValue:
    """Starts the clock; an attempt that is open already is gone on with."""
    try:
        attempt_id = assessment.start_assignment(site(), acting(), assignment_id=assignment_id)
    except WrongState as refusal:
        flash(gettext("Not started: %(why)s.", why=str(refusal)), "refused")
        return redirect(url_for(".assignments"), 303)
    return redirect(url_for(".attempt", attempt_id=attempt_id), 303)


def _assignment(assignment_id: UUID) -> DueAssignment:
    home = apprentice_home.apprentice_home(site(), acting())
    found = (each for each in home.assignments if each.assignment.assignment_id == assignment_id)
    return next(found, None) or abort(404)
