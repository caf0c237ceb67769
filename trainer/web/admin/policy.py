"""The numbers that the organisation decides, in numbered versions."""

from collections.abc import Mapping
from decimal import Decimal

from flask import flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Refused
from trainer.domain.permissions import Permission
from trainer.services import site_policy
from trainer.services.site_policy import PolicyPage
from trainer.web.access import access, acting, site
from trainer.web.admin.blueprint import blueprint
from trainer.web.admin.forms import PolicyForm, policy_form
from trainer.web.admin.policy_amounts import not_read_words, written
from trainer.web.admin.policy_words import NumberWords, by_subject, number_words_of
from trainer.web.forms.typed import as_typed


@blueprint.get("/policy")
@access(Permission.CHANGE_POLICY)
def policy_in_force() -> ResponseReturnValue:
    """The policy in force, its versions, and the form for the next."""
    return _page(None)


@blueprint.post("/policy")
@access(Permission.CHANGE_POLICY)
def change_policy() -> ResponseReturnValue:
    """Puts a new version in force."""
    words = number_words_of(site().content.policy)
    form = policy_form(words)()
    if form.validate():
        own = _own(site_policy.policy_page(site(), acting()))
        try:
            version = site_policy.set_policy(
                site(), acting(), changes=form.changes(own), reason=form.reason.data or ""
            )
        except Refused as refusal:
            _attach(form, refusal, words)
        else:
            flash(gettext("Version %(version)s of the policy is in force.", version=version))
            return redirect(url_for(".policy_in_force"), 303)
    return _page(form), 422


def _page(form: PolicyForm | None) -> str:
    page = site_policy.policy_page(site(), acting())
    words = number_words_of(site().content.policy)
    if form is None:
        own = _own(page)
        kept = {f"change{place}": (own.get(name), of.kind) for place, (name, of) in enumerate(words.items())}
        filled = {box: written(Decimal(number), kind) for box, (number, kind) in kept.items() if number}
        form = policy_form(words)(data=filled)
    subjects = [
        (subject, [(form[f"change{place}"], each.hint) for place, each in of_subject])
        for subject, of_subject in by_subject(words)
    ]
    changes = [(each, _change_words(each.changes, words)) for each in page.versions]
    return render_template("admin/policy.html", page=page, form=form, subjects=subjects, changes=changes)


def _own(page: PolicyPage) -> Mapping[str, str]:
    """What the version in force sets differently."""
    return page.versions[0].changes if page.versions else {}


def _attach(form: PolicyForm, refusal: Refused, words: Mapping[str, NumberWords]) -> None:
    """Each reason names the number that it is about."""
    for reason in refusal.reasons:
        code, _, name = reason.partition(":")
        if name in form.names:
            form[f"change{form.names.index(name)}"].errors = [_refusal_words(code, words[name])]
        else:
            form.say(gettext("There is no such number."))


def _refusal_words(code: str, of: NumberWords) -> str:
    if code == "no-number":
        return not_read_words(of.kind)
    return gettext("This lies outside what a site may set; accepted: %(accepted)s.", accepted=of.accepted)


def _change_words(changes: Mapping[str, str], words: Mapping[str, NumberWords]) -> list[str]:
    """What a version changed; a number that the default no longer has keeps its own name."""
    return [
        gettext("%(what)s: %(value)s", what=what, value=value)
        for what, value in (_change(name, value, words.get(name)) for name, value in changes.items())
    ]


def _change(name: str, value: str, of: NumberWords | None) -> tuple[str, str]:
    return (name, as_typed(value)) if of is None else (of.label, written(Decimal(value), of.kind))
