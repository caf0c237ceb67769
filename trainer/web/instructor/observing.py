"""A purge seen in the booth, recorded by whoever saw it."""

from uuid import UUID, uuid4

from flask import abort, flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Duplicate, Refused
from trainer.domain.permissions import Permission
from trainer.domain.qualifications import Observation
from trainer.services import class_results, grading
from trainer.web.access import access, acting, site
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.observation_form import ObservationForm


@blueprint.get("/apprentices/<uuid:person_id>/observations/new")
@access(Permission.RECORD_OBSERVATION)
def new_observation(person_id: UUID) -> ResponseReturnValue:
    """The form of an observation."""
    return _page(person_id, ObservationForm(observed_on=site().today(), observation_id=str(uuid4())))


@blueprint.post("/apprentices/<uuid:person_id>/observations/new")
@access(Permission.RECORD_OBSERVATION)
def record_observation(person_id: UUID) -> ResponseReturnValue:
    """Records it; the form's own id makes it count once."""
    form = ObservationForm()
    if form.validate():
        try:
            grading.record_observation(site(), acting(), observation=_observation(person_id, form))
        except (Refused, Duplicate) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The observation is recorded."))
            return redirect(url_for(".apprentice", person_id=person_id), 303)
    return _page(person_id, form), 422


def _observation(person_id: UUID, form: ObservationForm) -> Observation:
    try:
        observation_id = UUID(form.observation_id.data or "")
    except ValueError:
        abort(400)
    return Observation(
        observation_id=observation_id,
        person_id=person_id,
        organisation_id=acting().organisation_id,
        observed_by=acting().person_id,
        observed_on=form.observed_on.day,
        material=form.material.kind,
        gas=form.gas.data or "",
        outside_diameter_m=float(form.outside_diameter.data),
        oxygen_at_strike_frac=float(form.oxygen_at_strike.data),
        root_grade=form.root_grade.kind,
        confined_space=bool(form.confined_space.data),
        accepted=bool(form.accepted.data),
        analyser_serial=form.analyser_serial.data or "",
        analyser_calibrated_until=form.analyser_calibrated_until.data,
        notes=form.notes.data or "",
    )


def _page(person_id: UUID, form: ObservationForm) -> str:
    history = class_results.apprentice_history(site(), acting(), person_id=person_id)
    return render_template("instructor/observation.html", history=history, form=form)
