"""Signing in and out, the organisation acted in, preferences and passwords."""

from uuid import UUID

from flask import flash, make_response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue
from flask_babel import force_locale, gettext
from flask_login import current_user
from markupsafe import Markup

from trainer.domain.people import Language, UnitSystem
from trainer.domain.permissions import Permission
from trainer.services import accounts
from trainer.web.access import access, acting, forget_sign_in, own_path, person, public, sign_in_with, site
from trainer.web.account import record  # noqa: F401  # registers its pages
from trainer.web.account.blueprint import blueprint
from trainer.web.account.forms import ChangePasswordForm, InvitationForm, PreferencesForm, SignInForm
from trainer.web.limits import SIGN_IN, limiter
from trainer.web.preferences import (
    Theme,
    chosen_theme,
    keep_language,
    keep_theme,
    language,
    unit_system,
)


@blueprint.get("/sign-in")
@public
def sign_in() -> ResponseReturnValue:
    """The form to sign in with."""
    if person() is not None:
        return redirect(_next())
    return _sign_in_page(SignInForm())


@blueprint.post("/sign-in")
@public
@limiter.limit(SIGN_IN)
def do_sign_in() -> ResponseReturnValue:
    """Signs in and goes on to where the person wanted to be."""
    form = SignInForm()
    if not form.validate():
        return _sign_in_page(form), 422
    try:
        token = accounts.sign_in(
            site(), email=form.email.data, password=form.password.data, address=request.remote_addr or ""
        )
    except accounts.TooManyTries as refusal:
        form.say(
            gettext("Too many tries. Wait until %(time)s UTC, then try again.", time=f"{refusal.until:%H:%M}")
        )
        return _sign_in_page(form), 429
    except accounts.SignInRefused:
        form.say(gettext("E-mail and password do not match an account. Check both and try again."))
        return _sign_in_page(form), 422
    onward = _next()
    sign_in_with(token)
    return redirect(onward, 303)


@blueprint.post("/sign-out")
@access(Permission.USE_ACCOUNT)
def sign_out() -> ResponseReturnValue:
    """Ends this sign-in, here and on the server."""
    accounts.sign_out(site(), session_token=current_user.token)
    forget_sign_in()
    return redirect(url_for("public.home"), 303)


@blueprint.post("/sign-out-elsewhere")
@access(Permission.USE_ACCOUNT)
def sign_out_elsewhere() -> ResponseReturnValue:
    """Ends all other sign-ins of the person."""
    accounts.sign_out_elsewhere(site(), acting(), session_token=current_user.token)
    flash(gettext("All your other sign-ins have ended."))
    return redirect(url_for(".own_account"), 303)


@blueprint.get("")
@access(Permission.USE_ACCOUNT)
def own_account() -> ResponseReturnValue:
    """Who one is here, and how things are shown."""
    form = PreferencesForm(
        data={"units": unit_system().value, "language": language(), "theme": chosen_theme().value}
    )
    return render_template("account/own_account.html", preferences_form=form)


@blueprint.post("/preferences")
@access(Permission.USE_ACCOUNT)
def keep_preferences() -> ResponseReturnValue:
    """Keeps units and language with the person and the theme in this browser."""
    form = PreferencesForm()
    if not form.validate():
        return render_template("account/own_account.html", preferences_form=form), 422
    units, chosen = UnitSystem(form.units.data), Language(form.language.data)
    accounts.change_preferences(site(), acting(), units=units, language=chosen)
    with force_locale(chosen.value):
        flash(gettext("Kept."))
    response = make_response(redirect(url_for(".own_account"), 303))
    return keep_language(keep_theme(response, Theme(form.theme.data)), chosen)


@blueprint.post("/organisations/<uuid:organisation_id>")
@access(Permission.USE_ACCOUNT)
def act_in(organisation_id: UUID) -> ResponseReturnValue:
    """Acts in another of one's organisations from now on."""
    accounts.choose_organisation(site(), session_token=current_user.token, organisation_id=organisation_id)
    return redirect(url_for("public.home"), 303)


@blueprint.get("/password")
@access(Permission.USE_ACCOUNT)
def change_password() -> ResponseReturnValue:
    """The form for a new password."""
    return render_template("account/change_password.html", form=ChangePasswordForm())


@blueprint.post("/password")
@access(Permission.USE_ACCOUNT)
def do_change_password() -> ResponseReturnValue:
    """Sets a new password and ends all other sign-ins."""
    form = ChangePasswordForm()
    if form.validate():
        try:
            accounts.change_password(
                site(),
                acting(),
                session_token=current_user.token,
                current=form.present.data,
                new=form.wanted.data,
            )
        except accounts.WeakPassword as weak:
            form.wanted.errors = [weak_password_words(weak)]
        except accounts.TooManyTries:
            form.present.errors = [gettext("Too many tries. Wait a quarter of an hour.")]
        except accounts.SignInRefused:
            form.present.errors = [gettext("This is not your present password.")]
        else:
            flash(gettext("The password is changed and all your other sign-ins have ended."))
            return redirect(url_for(".own_account"), 303)
    return render_template("account/change_password.html", form=form), 422


@blueprint.get("/invitation/<token>")
@public
def invitation(token: str) -> ResponseReturnValue:
    """The form with which somebody invited sets their first password."""
    return _invitation_page(token, InvitationForm())


@blueprint.post("/invitation/<token>")
@public
@limiter.limit(SIGN_IN)
def take_up_invitation(token: str) -> ResponseReturnValue:
    """Sets the password; the link works once."""
    form = InvitationForm()
    if form.validate():
        try:
            accounts.take_up_invitation(site(), token=token, password=form.wanted.data)
        except accounts.WeakPassword as weak:
            form.wanted.errors = [weak_password_words(weak)]
        else:
            flash(gettext("Your password is set. Sign in with it."))
            return redirect(url_for(".sign_in"), 303)
    return _invitation_page(token, form), 422


def weak_password_words(weak: accounts.WeakPassword) -> str:
    """What is wrong with a new password."""
    return {
        "too-short": gettext("Take at least %(count)s characters.", count=accounts.SHORTEST_PASSWORD),
        "too-long": gettext("Take at most %(count)s characters.", count=accounts.LONGEST_PASSWORD),
        "is-email": gettext("Do not take your e-mail address."),
        "is-name": gettext("Do not take your name."),
    }[weak.why]


def _next() -> str:
    return own_path(request.args.get("next"), otherwise=url_for("public.home"))


def _sign_in_page(form: SignInForm) -> str:
    onward = own_path(request.args.get("next"), otherwise="")
    return render_template("account/sign_in.html", form=form, next=onward or None)


def _invitation_page(token: str, form: InvitationForm) -> str | Markup:
    invited = accounts.invited(site(), token=token)
    return render_template("account/invitation.html", form=form, invited=invited, token=token)
