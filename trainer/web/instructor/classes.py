"""Classes: make one, add members, give it a module, see its results."""

from uuid import UUID

from flask import flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext
from wtforms import SelectChoice

from trainer.domain.errors import Duplicate, Refused
from trainer.domain.permissions import Permission
from trainer.services import class_results, teaching
from trainer.web.access import access, acting, site
from trainer.web.forms.fields import offered
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.forms import ClassForm, MembersForm
from trainer.web.skill_bars import shaded_class


@blueprint.get("/classes")
@access(Permission.MANAGE_CLASS)
def list_classes() -> ResponseReturnValue:
    """All classes, and the form for a new one."""
    return _classes_page(ClassForm())


@blueprint.post("/classes")
@access(Permission.MANAGE_CLASS)
def make_class() -> ResponseReturnValue:
    """Makes a class."""
    form = ClassForm()
    if form.validate():
        try:
            class_id = teaching.make_class(site(), acting(), name=form.name.data or "")
        except (Refused, Duplicate):
            form.name.errors = [gettext("There is a class of this name already. Take another name.")]
        else:
            flash(gettext("The class is made. Add its members."))
            return redirect(url_for(".training_class", class_id=class_id), 303)
    return _classes_page(form), 422


@blueprint.get("/classes/<uuid:class_id>")
@access(Permission.MANAGE_CLASS)
def training_class(class_id: UUID) -> ResponseReturnValue:
    """One class: members, assignments, results."""
    return _class_page(class_id, MembersForm())


@blueprint.post("/classes/<uuid:class_id>/members")
@access(Permission.MANAGE_CLASS)
def add_members(class_id: UUID) -> ResponseReturnValue:
    """Adds the ticked apprentices."""
    form = MembersForm()
    form.people.choices = _others(teaching.class_page(site(), acting(), class_id=class_id))
    if not form.validate():
        return _class_page(class_id, form), 422
    for person_id in form.people.data or []:
        teaching.add_to_class(site(), acting(), class_id=class_id, person_id=UUID(person_id))
    flash(gettext("Added to the class."))
    return redirect(url_for(".training_class", class_id=class_id), 303)


@blueprint.post("/classes/<uuid:class_id>/members/<uuid:person_id>/remove")
@access(Permission.MANAGE_CLASS)
def remove_member(class_id: UUID, person_id: UUID) -> ResponseReturnValue:
    """Takes one person out; their attempts stay."""
    teaching.remove_from_class(site(), acting(), class_id=class_id, person_id=person_id)
    flash(gettext("Taken out of the class; attempts made stay."))
    return redirect(url_for(".training_class", class_id=class_id), 303)


def _classes_page(form: ClassForm) -> str:
    found = teaching.classes(site(), acting())
    return render_template("instructor/classes.html", classes=found, form=form)


def _others(page: teaching.ClassPage) -> list[SelectChoice]:
    return offered((each.person_id, each.name) for each in page.others)


def _class_page(class_id: UUID, form: MembersForm) -> str:
    page = teaching.class_page(site(), acting(), class_id=class_id)
    form.people.choices = _others(page)
    results = class_results.class_results(site(), acting(), class_id=class_id)
    skills = class_results.class_skills(site(), acting(), class_id=class_id)
    return render_template(
        "instructor/class.html", page=page, results=results, skills=shaded_class(skills), form=form
    )
