"""The only place where the parts are wired together."""

import secrets
from datetime import UTC, datetime, timedelta

from flask import Flask, Response
from flask_babel import Babel
from flask_compress import Compress
from flask_wtf.csrf import CSRFProtect

from trainer import web
from trainer.catalogues import LANGUAGES, interface_translations
from trainer.config import Settings
from trainer.domain.attempts import LARGEST_SEED
from trainer.scenario_files import load_content
from trainer.services.passwords import Passwords, cheap_passwords
from trainer.services.site import Site
from trainer.storage.database import Database
from trainer.web import preferences
from trainer.web.limits import limiter

_LARGEST_FORM_BYTES = 256 * 1024
_MOST_FORM_PARTS = 1000
_SIGN_IN_LASTS = timedelta(hours=12)


def wire(settings: Settings) -> Site:
    """The site that these settings name: database, content, clock, seeds and password hashing."""
    return Site(
        database=Database(settings.database_url),
        content=load_content(settings.scenarios),
        now=lambda: datetime.now(UTC),
        new_seed=lambda: secrets.randbelow(LARGEST_SEED + 1),
        passwords=cheap_passwords() if settings.password_cost == "test" else Passwords(),
    )


def create_app(settings: Settings, site: Site | None = None) -> Flask:
    """The web application on a site."""
    app = Flask("trainer.web", static_folder=str(settings.static), static_url_path="/static")
    app.config.update(
        SECRET_KEY=settings.secret_key,
        SESSION_COOKIE_NAME="brightroot",
        SESSION_COOKIE_SECURE=settings.over_https,
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        PERMANENT_SESSION_LIFETIME=_SIGN_IN_LASTS,
        SESSION_REFRESH_EACH_REQUEST=False,
        MAX_CONTENT_LENGTH=_LARGEST_FORM_BYTES,
        MAX_FORM_MEMORY_SIZE=_LARGEST_FORM_BYTES,
        MAX_FORM_PARTS=_MOST_FORM_PARTS,
        WTF_CSRF_TIME_LIMIT=None,  # a form may lie open through a shift; the sign-in ends it
        RATELIMIT_ENABLED=settings.rate_limits,
        BABEL_DEFAULT_LOCALE="en",
        # What comes from strangers' pages cannot be mixed into these answers: the cookie stays at home
        # (SameSite), so that the length of a compressed page tells nobody its tokens.
        COMPRESS_ALGORITHM=["br", "gzip"],
        COMPRESS_ALGORITHM_STREAMING=["br", "deflate"],
    )
    app.jinja_env.trim_blocks = True
    app.jinja_env.lstrip_blocks = True
    babel = Babel(app, locale_selector=preferences.language)
    with app.app_context():
        # read from the .po files, so that nothing has to be compiled before the site is started
        known = {(each, babel.domain): interface_translations(each) for each in LANGUAGES}
        babel.domain_instance.cache.update(known)
    web.init_app(app, site or wire(settings))
    Compress(app)
    app.after_request(_closes_its_file)  # registered later, so it runs before the compression
    CSRFProtect(app)
    limiter.init_app(app)
    return app


def _closes_its_file(response: Response) -> Response:
    """The compression puts a stream of its own in the place of a file's, which nobody would close then."""
    close = getattr(response.response, "close", None)
    if close is not None:
        response.call_on_close(close)
    return response
