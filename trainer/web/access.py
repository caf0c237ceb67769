"""Who may open a page: every view carries a stamp, and a view without one opens for nobody.

The acting person is read once a request from the session row behind the signed cookie, so a sign-in that was
ended on another machine is over here too.
"""

from collections.abc import Callable
from typing import Any, TypeVar
from urllib.parse import urlsplit

from flask import Flask, abort, current_app, g, redirect, request, session, url_for
from flask.typing import ResponseReturnValue
from flask_login import LoginManager, UserMixin, current_user, login_user, logout_user

from trainer.domain.people import Acting
from trainer.domain.permissions import Permission, may_open
from trainer.services import accounts
from trainer.services.site import Site

View = TypeVar("View", bound=Callable[..., Any])

_STAMP = "access_stamp"
_PUBLIC = "public"
_SITE = "brightroot_site"


class SignedIn(UserMixin):
    """The person behind this request, as the row of their sign-in names them."""

    def __init__(self, token: str, person: accounts.SignedIn) -> None:
        self.token = token
        self.person = person

    def get_id(self) -> str:
        """The revocable token stands for the person; their own id never enters the cookie."""
        return self.token


def access(permission: Permission) -> Callable[[View], View]:
    """Opens a view to whom such pages are for; services decide about the one thing that it shows."""

    def stamp(view: View) -> View:
        setattr(view, _STAMP, permission)
        return view

    return stamp


def public(view: View) -> View:
    """Opens a view to anybody, signed in or not."""
    setattr(view, _STAMP, _PUBLIC)
    return view


def stamp_of(view: Callable[..., Any]) -> Permission | str | None:
    """What a view asks for: a permission, `public`, or nothing (then it stays shut)."""
    stamp: Permission | str | None = getattr(view, _STAMP, None)
    return stamp


def site() -> Site:
    """The parts that services work with, wired together in app.py."""
    wired: Site = current_app.extensions[_SITE]
    return wired


def person() -> accounts.SignedIn | None:
    """Who is signed in, or None; asked often while a page is made, looked up once."""
    if not hasattr(g, "signed_in"):
        g.signed_in = current_user.person if current_user.is_authenticated else None
    found: accounts.SignedIn | None = g.signed_in
    return found


def acting() -> Acting:
    """Who acts in this request; only for views that are not public."""
    who = person()
    if who is None:
        abort(401)
    return who.acting


def can(permission: Permission) -> bool:
    """Whether such pages are for the person signed in; for links, never instead of a stamp."""
    who = person()
    return who is not None and may_open(permission, acting=who.acting)


def sign_in_with(token: str) -> None:
    """Makes the token this browser's sign-in; the old session goes, and its form tokens with it."""
    session.clear()
    who = _load(token)
    if who is None:
        abort(401)
    session.permanent = True
    login_user(who)
    g.pop("signed_in", None)


def forget_sign_in() -> None:
    """Ends this browser's sign-in."""
    logout_user()
    g.pop("signed_in", None)
    session.clear()


def own_path(target: str | None, *, otherwise: str) -> str:
    """Where to go next if it is a path of this site, so that a link cannot send anybody elsewhere."""
    if not target or not target.startswith("/") or target.startswith(("//", "/\\")):
        return otherwise
    if any(ord(sign) < 32 or sign == "\\" for sign in target):
        return otherwise
    parts = urlsplit(target)
    return otherwise if parts.scheme or parts.netloc else target


def init_app(app: Flask, wired: Site) -> None:
    """Puts the door in front of every view."""
    app.extensions[_SITE] = wired
    manager = LoginManager()
    manager.session_protection = None  # phones change their address between two answers
    manager.user_loader(_load)
    manager.init_app(app)
    app.before_request(_refuse)
    public(app.view_functions["static"])


def _load(token: str) -> SignedIn | None:
    found = accounts.acting_for(site(), session_token=token)
    return SignedIn(token, found) if found is not None else None


def _refuse() -> ResponseReturnValue | None:
    if request.endpoint is None:
        return None  # no such page; routing answers 404 or 405
    stamp = stamp_of(current_app.view_functions[request.endpoint])
    if stamp == _PUBLIC:
        return None
    who = person()
    if who is None:
        return _to_sign_in()
    if not isinstance(stamp, Permission) or not may_open(stamp, acting=who.acting):
        abort(403)
    return None


def _to_sign_in() -> ResponseReturnValue:
    if request.accept_mimetypes.best == "application/json":
        abort(401)
    back = request.full_path.rstrip("?") if request.method == "GET" else None
    return redirect(url_for("account.sign_in", next=back), 303)
