"""People of the organisation: who holds which role from when to when, invitations, and employers."""

from typing import Any
from uuid import UUID

from flask import abort, flash, redirect, render_template, session, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Duplicate, Refused
from trainer.domain.people import Membership, Role
from trainer.domain.permissions import Permission
from trainer.services import administration
from trainer.services.role_acts import Added
from trainer.web.access import access, acting, site
from trainer.web.admin import ledger, policy  # noqa: F401  # register their pages
from trainer.web.admin.blueprint import blueprint
from trainer.web.admin.forms import EmployerForm, EndRoleForm, PersonForm, RoleForm

_TOLD = "told_once"


@blueprint.get("/people")
@access(Permission.MANAGE_PEOPLE)
def people() -> ResponseReturnValue:
    """Everybody of the organisation."""
    return _people_page(PersonForm(starts=site().today()))


@blueprint.post("/people")
@access(Permission.MANAGE_PEOPLE)
def add_person() -> ResponseReturnValue:
    """Adds a person with a first role."""
    form = _offering(PersonForm())
    if form.validate():
        try:
            new = administration.add_person(
                site(), acting(), new=form.new_person(), role=Role(form.role.data), term=form.term()
            )
        except (Refused, Duplicate) as refusal:
            form.refuse(refusal)
        else:
            return _told(new, form.name.data or "")
    return _people_page(form), 422


@blueprint.get("/people/<uuid:person_id>")
@access(Permission.MANAGE_PEOPLE)
def person(person_id: UUID) -> ResponseReturnValue:
    """One person's roles here."""
    return _person_page(person_id, RoleForm(starts=site().today()))


@blueprint.post("/people/<uuid:person_id>/roles")
@access(Permission.MANAGE_PEOPLE)
def give_role(person_id: UUID) -> ResponseReturnValue:
    """Gives a further role."""
    form = RoleForm()
    form.offer(acting().organisation_kind)
    if form.validate():
        try:
            administration.give_role(
                site(), acting(), person_id=person_id, role=Role(form.role.data), term=form.term()
            )
        except (Refused, Duplicate) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The role is given."))
            return redirect(url_for(".person", person_id=person_id), 303)
    return _person_page(person_id, form), 422


@blueprint.post("/people/<uuid:person_id>/invitation")
@access(Permission.MANAGE_PEOPLE)
def invite_again(person_id: UUID) -> ResponseReturnValue:
    """A new link for a new password."""
    member = _member(person_id)
    try:
        token = administration.invite_again(site(), acting(), person_id=person_id)
    except Refused as refusal:
        form = RoleForm(formdata=None, starts=site().today())
        form.refuse(refusal)
        return _person_page(person_id, form), 409
    return _told(Added(person_id=person_id, invitation=token), member.person.name)


@blueprint.get("/people/<uuid:person_id>/roles/<uuid:membership_id>/end")
@access(Permission.MANAGE_PEOPLE)
def end_role(person_id: UUID, membership_id: UUID) -> ResponseReturnValue:
    """Asks for the last day and the reason."""
    return _end_page(person_id, membership_id, EndRoleForm())


@blueprint.post("/people/<uuid:person_id>/roles/<uuid:membership_id>/end")
@access(Permission.MANAGE_PEOPLE)
def do_end_role(person_id: UUID, membership_id: UUID) -> ResponseReturnValue:
    """Ends a role; what was done in it stands."""
    form = EndRoleForm()
    _membership(person_id, membership_id)
    if form.validate():
        try:
            administration.end_role(
                site(),
                acting(),
                membership_id=membership_id,
                reason=form.reason.data or "",
                last_day=form.last_day.data,
            )
        except Refused as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The role ends."))
            return redirect(url_for(".person", person_id=person_id), 303)
    return _end_page(person_id, membership_id, form), 422


@blueprint.get("/employers")
@access(Permission.ADD_EMPLOYER)
def employers() -> ResponseReturnValue:
    """The form for a new employer."""
    return render_template("admin/employers.html", form=EmployerForm())


@blueprint.post("/employers")
@access(Permission.ADD_EMPLOYER)
def add_employer() -> ResponseReturnValue:
    """Adds an employer with its first person."""
    form = EmployerForm()
    if form.validate():
        try:
            founded = administration.add_employer(
                site(), acting(), name=form.name.data or "", first=form.first()
            )
        except (Refused, Duplicate) as refusal:
            form.refuse(refusal)
        else:
            return _told(founded.first, form.first_name.data or "")
    return render_template("admin/employers.html", form=form), 422


@blueprint.get("/people/added")
@access(Permission.MANAGE_PEOPLE)
def added() -> ResponseReturnValue:
    """The link for whoever was just added: shown once, since it is stored nowhere but in this answer."""
    told = session.pop(_TOLD, None)
    if told is None:
        return redirect(url_for(".people"))
    link = told["token"] and url_for("account.invitation", token=told["token"], _external=True)
    return render_template("admin/added.html", name=told["name"], link=link)


def _told(new: Added, name: str) -> ResponseReturnValue:
    session[_TOLD] = {"name": name, "token": new.invitation}
    return redirect(url_for(".added"), 303)


def _offering(form: PersonForm) -> PersonForm:
    form.offer(acting().organisation_kind)
    return form


def _people_page(form: PersonForm) -> str:
    members = administration.list_people(site(), acting())
    return render_template("admin/people.html", members=members, form=_offering(form))


def _member(person_id: UUID) -> Any:
    members = administration.list_people(site(), acting())
    return next((each for each in members if each.person.person_id == person_id), None) or abort(404)


def _person_page(person_id: UUID, form: RoleForm) -> str:
    form.offer(acting().organisation_kind)
    return render_template("admin/person.html", member=_member(person_id), form=form)


def _membership(person_id: UUID, membership_id: UUID) -> Membership:
    memberships = _member(person_id).memberships
    return next((each for each in memberships if each.membership_id == membership_id), None) or abort(404)


def _end_page(person_id: UUID, membership_id: UUID, form: EndRoleForm) -> str:
    return render_template(
        "admin/end_role.html",
        member=_member(person_id),
        membership=_membership(person_id, membership_id),
        form=form,
    )
