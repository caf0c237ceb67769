"""The numbers that the organisation decides, in numbered versions."""

from collections.abc import Mapping

from flask import flash, redirect, render_template, url_for
from flask.typing import ResponseReturnValue
from flask_babel import gettext

from trainer.domain.errors import Refused
from trainer.domain.permissions import Permission
from trainer.domain.policy import Policy
from trainer.domain.policy_changes import changeable
from trainer.services import site_policy
from trainer.web.access import access, acting, site
from trainer.web.admin.blueprint import blueprint
from trainer.web.admin.forms import PolicyForm, policy_form
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
    form = policy_form(_words(site().content.policy))()
    if form.validate():
        try:
            version = site_policy.set_policy(
                site(), acting(), changes=form.changes(), reason=form.reason.data or ""
            )
        except Refused as refusal:
            _attach(form, refusal)
        else:
            flash(gettext("Version %(version)s of the policy is in force.", version=version))
            return redirect(url_for(".policy_in_force"), 303)
    return _page(form), 422


def _page(form: PolicyForm | None) -> str:
    page = site_policy.policy_page(site(), acting())
    words = _words(site().content.policy)
    if form is None:
        own = page.versions[0].changes if page.versions else {}
        filled = {f"change{place}": as_typed(own.get(name, "")) for place, name in enumerate(words)}
        form = policy_form(words)(data=filled)
    return render_template("admin/policy.html", page=page, form=form)


def _attach(form: PolicyForm, refusal: Refused) -> None:
    """Each reason names the number that it is about."""
    messages = {
        "no-number": gettext("This is not a number. Write it like 0.8."),
        "out-of-range": gettext("This lies outside what a site may set."),
        "unknown": gettext("There is no such number."),
    }
    for reason in refusal.reasons:
        code, _, name = reason.partition(":")
        if name in form.names:
            form[f"change{form.names.index(name)}"].errors = [messages.get(code, code)]
        else:
            form.say(messages.get(code, reason))


def _words(policy: Policy) -> Mapping[str, str]:
    return {name: _name_words(name) for name in changeable(policy)}


def _name_words(name: str) -> str:
    group, _, rest = name.partition(".")
    known = {
        "pass_mark_frac": gettext("Pass mark, as a share of 1"),
        "qualification.validity_months": gettext("Months that a qualification is valid"),
        "qualification.confirmation_months": gettext("Months within which it has to be confirmed"),
        "qualification.due_days": gettext("Days before the last day from which it counts as due"),
        "qualification.diameter_from_ratio": gettext(
            "Smallest diameter covered, times the smallest one shown"
        ),
        "qualification.diameter_to_ratio": gettext("Largest diameter covered, times the largest one shown"),
        "qualification.length_to_ratio": gettext("Longest section covered, times the longest one shown"),
        "qualification.scenarios_behind_a_critical": gettext("Scenarios needed behind each critical point"),
    }
    if name in known:
        return known[name]
    plain = rest.replace("-", " ")
    if group == "oxygen_limits":
        return gettext("Oxygen limit at the root, %(material)s, as a share of 1", material=plain)
    return gettext("Threshold of the caution '%(code)s', in SI", code=plain)
