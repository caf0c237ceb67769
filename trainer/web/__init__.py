"""The pages: registers blueprints, what templates may call, and error pages."""

from flask import Flask

from trainer.services.site import Site
from trainer.web import access, errors, headers, page_tools
from trainer.web.account.routes import blueprint as account
from trainer.web.admin.routes import blueprint as admin
from trainer.web.apprentice.routes import blueprint as apprentice
from trainer.web.bench.routes import blueprint as bench
from trainer.web.employer.routes import blueprint as employer
from trainer.web.instructor.routes import blueprint as instructor
from trainer.web.public.routes import blueprint as public


def init_app(app: Flask, site: Site) -> None:
    """Adds every page to the application."""
    access.init_app(app, site)  # before anything else that looks at a request
    headers.init_app(app)
    errors.init_app(app)
    page_tools.init_app(app)
    for blueprint in (public, bench, account, apprentice, instructor, employer, admin):
        app.register_blueprint(blueprint)
