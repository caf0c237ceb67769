"""Modules: what an attempt is drawn from and judged by; giving one to a class or a person."""

from collections.abc import Iterable, Mapping
from uuid import UUID

from flask import flash, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Duplicate, Refused, WrongState
from trainer.domain.modules import FamilyOutline
from trainer.domain.permissions import Permission
from trainer.domain.skills import skill
from trainer.services import teaching
from trainer.web.access import access, acting, site
from trainer.web.figures import family_title, question_words
from trainer.web.forms.fields import offered
from trainer.web.instructor.blueprint import blueprint
from trainer.web.instructor.forms import AssignForm
from trainer.web.instructor.module_form import MORE_ROWS, ModuleForm
from trainer.web.preferences import language
from trainer.web.said import hear

_CLASS, _PERSON = "class", "person"


@blueprint.get("/modules")
@access(Permission.MANAGE_MODULE)
def list_modules() -> ResponseReturnValue:
    """All modules."""
    return render_template("instructor/modules.html", modules=teaching.modules_here(site(), acting()))


@blueprint.get("/modules/new")
@access(Permission.MANAGE_MODULE)
def new_module() -> ResponseReturnValue:
    """The form for a module."""
    return _form_page(ModuleForm())


@blueprint.post("/modules/new")
@access(Permission.MANAGE_MODULE)
def make_module() -> ResponseReturnValue:
    """Makes a module, or shows the form again with more rows."""
    form = _offering(ModuleForm())
    if MORE_ROWS in request.form:
        form.add_rows()
        return _form_page(form)
    if form.validate():
        try:
            module_id = teaching.make_module(
                site(), acting(), title=form.title.data or "", blueprint=form.blueprint()
            )
        except Duplicate:
            form.title.errors = [gettext("There is a module of this title already. Take another title.")]
        except Refused as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("The module is made. Give it to a class or a person."))
            return redirect(url_for(".module", module_id=module_id), 303)
    return _form_page(form), 422


@blueprint.get("/modules/<uuid:module_id>")
@access(Permission.MANAGE_MODULE)
def module(module_id: UUID) -> ResponseReturnValue:
    """One module, whom it was given to, and the form to give it."""
    return _module_page(module_id, AssignForm())


@blueprint.post("/modules/<uuid:module_id>/assignments")
@access(Permission.ASSIGN_MODULE)
def assign(module_id: UUID) -> ResponseReturnValue:
    """Gives the module until a day."""
    form = _offering_takers(AssignForm())
    teaching.module_page(site(), acting(), module_id=module_id)
    if form.validate():
        try:
            _give(module_id, form)
        except Duplicate:
            form.say(gettext("They were given this module until that day already."))
        except (Refused, WrongState) as refusal:
            form.refuse(refusal)
        else:
            flash(gettext("Given."))
            return redirect(url_for(".module", module_id=module_id), 303)
    return _module_page(module_id, form), 422


@blueprint.post("/modules/<uuid:module_id>/retire")
@access(Permission.MANAGE_MODULE)
def retire_module(module_id: UUID) -> ResponseReturnValue:
    """Takes the module out of use; what was given stays."""
    teaching.retire_module(site(), acting(), module_id=module_id)
    flash(gettext("Taken out of use. What was given before stays."))
    return redirect(url_for(".list_modules"), 303)


def _give(module_id: UUID, form: AssignForm) -> None:
    giving = teaching.Giving(
        module_id=module_id, due_on=form.due_on.day, attempts_allowed=form.attempts_allowed.count
    )
    kind, _, taker = (form.to.data or "").partition(":")
    if kind == _CLASS:
        teaching.assign_to_class(site(), acting(), giving=giving, class_id=UUID(taker))
    else:
        teaching.assign_to_person(site(), acting(), giving=giving, person_id=UUID(taker))


def _offering(form: ModuleForm) -> ModuleForm:
    outlines = teaching.family_outlines(site(), acting())
    families = []
    for each in outlines.values():
        skills = ", ".join(str(number) for number in sorted({item.skill for item in each.items}))
        families.append(
            (
                each.family,
                gettext("%(title)s (skills %(skills)s)", title=family_title(each.title), skills=skills),
            )
        )
    return form.offer(families, list(_items_in_words(outlines).items()))


def _items_in_words(outlines: Mapping[str, FamilyOutline]) -> dict[str, str]:
    """What every item that can be made critical asks, by the key that a blueprint names it by."""
    asked = teaching.question_texts(site(), acting())
    hear(site().content.told(language(), of_own_jobs=asked.values()))
    return {
        f"{each.family}/{item.item_id}": (
            f"{question_words(asked[each.family, item.item_id])} ({gettext(skill(item.skill).name)})"
        )
        for each in outlines.values()
        for item in each.items
    }


def _form_page(form: ModuleForm) -> str:
    return render_template("instructor/new_module.html", form=_offering(form), more=MORE_ROWS)


def _offering_takers(form: AssignForm) -> AssignForm:
    classes = ((f"{_CLASS}:{each.class_id}", each.name) for each in teaching.classes(site(), acting()))
    people = ((f"{_PERSON}:{each.person_id}", each.name) for each in teaching.apprentices(site(), acting()))
    form.to.choices = [
        *offered(classes, group=gettext("Classes")),
        *offered(people, group=gettext("Apprentices")),
    ]
    return form


def _module_page(module_id: UUID, form: AssignForm) -> str:
    page = teaching.module_page(site(), acting(), module_id=module_id)
    known = teaching.family_titles(site(), acting())
    titles = {family: family_title(title) for family, title in known.items()}
    return render_template(
        "instructor/module.html",
        page=page,
        form=_offering_takers(form),
        family_titles=titles,
        critical_in_words=_critical_in_words(page.module.blueprint.critical_items, titles),
    )


def _critical_in_words(items: Iterable[str], titles: Mapping[str, str]) -> list[str]:
    """Each critical item after its family's title; one that the library has no longer goes by its key."""
    if not items:
        return []
    known = _items_in_words(teaching.family_outlines(site(), acting()))
    return [f"{titles[each.partition('/')[0]]}: {known[each]}" if each in known else each for each in items]
