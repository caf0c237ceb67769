"""Named errors to a page and a status; what was typed into the refused form is shown again."""

from collections.abc import Iterator

from flask import Flask, Response, current_app, jsonify, make_response, render_template, request
from flask.typing import ResponseReturnValue
from flask_babel import force_locale, get_locale, gettext
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, InternalServerError

from trainer.core.errors import OutOfRange
from trainer.domain.errors import Conflict, DomainError, Duplicate, Missing, NotAllowed, Refused, WrongState
from trainer.domain.set_up_fault import fault_from
from trainer.web.preferences import language_of_browser
from trainer.wording.faults import fault_words

STATUS: dict[type[DomainError], int] = {
    NotAllowed: 403,
    Missing: 404,
    WrongState: 409,
    Duplicate: 409,
    Conflict: 409,
    Refused: 409,
}
_NEVER_SHOWN = ("csrf_token", "password", "token")
_TYPED_SHOWN = 60
_TYPED_LENGTH = 2000


def init_app(app: Flask) -> None:
    """Every refusal becomes a page (or JSON for our own scripts), never a stack trace."""
    app.register_error_handler(DomainError, _domain)
    app.register_error_handler(OutOfRange, _out_of_range)
    app.register_error_handler(CSRFError, _stale_form)
    app.register_error_handler(InternalServerError, _fault)
    app.register_error_handler(HTTPException, _http)


def status_of(error: DomainError) -> int:
    """The status that a named error answers with."""
    return next((code for kind, code in STATUS.items() if isinstance(error, kind)), 400)


def wants_json() -> bool:
    """Whether one of our own scripts asks; people get pages."""
    return request.accept_mimetypes.best == "application/json"


def _domain(error: DomainError) -> ResponseReturnValue:
    status = status_of(error)
    # what is missing and what belongs to others read the same, so the words of the error stay out
    return _page(status, "" if status in {403, 404} else str(error))


def _out_of_range(error: OutOfRange) -> ResponseReturnValue:
    fault = fault_from(error, path="")
    return _page(422, fault_words(fault, gettext, language=get_locale().language))


def _stale_form(_: CSRFError) -> ResponseReturnValue:
    return _page(
        400,
        gettext("The form was opened before you signed in, or in another sign-in. Open the page again."),
    )


def _http(error: HTTPException) -> ResponseReturnValue:
    if error.code is None or error.code < 400:
        return error.get_response()
    answer = _page(error.code, "")
    allowed = getattr(error, "valid_methods", None)
    if allowed:
        answer.headers["Allow"] = ", ".join(allowed)
    return answer


def _page(status: int, detail: str) -> Response:
    heading, advice = _words(status)
    if wants_json():
        return make_response(jsonify(error=detail or heading), status)
    page = render_template("error.html", heading=heading, detail=detail, advice=advice, typed=list(_typed()))
    return make_response(page, status)


def _fault(_: InternalServerError) -> ResponseReturnValue:
    # the page draws on nothing that may be what just failed: no person, no database
    with force_locale(language_of_browser()):
        page = current_app.jinja_env.get_template("fault.html")
        return page.render(typed=list(_typed())), 500


def _words(status: int) -> tuple[str, str]:
    known = {
        400: (
            gettext("The form could not be read"),
            gettext("Go back, open the page again and send it once more."),
        ),
        401: (
            gettext("Sign in first"),
            gettext("Your sign-in has ended. Sign in and come back to this page."),
        ),
        403: (
            gettext("Not open to you"),
            gettext("This page is not for your role here. You can change organisation in your account."),
        ),
        404: (gettext("No such page"), gettext("It does not exist, or it is not yours to see.")),
        405: (gettext("This page cannot be used that way"), gettext("Open it by its link or its form.")),
        409: (
            gettext("Not done"),
            gettext("Nothing was changed. Go back to the page to see how things stand."),
        ),
        413: (gettext("Too much was sent"), gettext("Send less text: a form takes up to 256 kB.")),
        422: (
            gettext("Outside what is known"),
            gettext("Nothing was changed. Go back and change the value."),
        ),
        429: (gettext("Too many tries"), gettext("Wait a minute, then try again.")),
    }
    return known.get(
        status, (gettext("This did not work"), gettext("Nothing was changed. Go back and try again."))
    )


def _typed() -> Iterator[tuple[str, str]]:
    """What the person typed, so that nobody writes a paragraph twice; never a secret."""
    if request.method != "POST":
        return
    try:
        sent = list(request.form.items(multi=True))
    except HTTPException:  # the body itself is what could not be read
        return
    for name, value in sent[:_TYPED_SHOWN]:
        if value.strip() and not any(part in name for part in _NEVER_SHOWN):
            yield name.replace("_", " "), value[:_TYPED_LENGTH]
