"""A site with pages: a training centre, an employer and another training centre, with a visitor for each role."""

from collections.abc import Callable, Iterator
from pathlib import Path
from shutil import copyfile

import pytest
from clock import Clock
from flask import Flask
from flask_babel import Babel
from furnishing import Things
from jinja2 import FileSystemBytecodeCache
from kept_sites import PASSWORD, KeptSite, KeptSites, Seeds, World, site_with
from two_databases import SqliteFiles
from visitors import Visitor

from trainer.app import create_app
from trainer.config import Settings
from trainer.services.passwords import Passwords
from trainer.services.site import Site
from trainer.storage.database import Database


@pytest.fixture(scope="session")
def kept_sites(
    sqlite_files: SqliteFiles, passwords: Passwords, tmp_path_factory: pytest.TempPathFactory
) -> KeptSites:
    return KeptSites(sqlite_files.template, folder=tmp_path_factory.mktemp("kept-sites"), passwords=passwords)


@pytest.fixture(scope="session")
def compiled_templates(tmp_path_factory: pytest.TempPathFactory) -> FileSystemBytecodeCache:
    """Templates as bytecode: each test has an app of its own, which would compile them all anew."""
    return FileSystemBytecodeCache(str(tmp_path_factory.mktemp("templates")))


@pytest.fixture
def begun(request: pytest.FixtureRequest, kept_sites: KeptSites) -> KeptSite | None:
    """The site that the test goes on from, by what it asks for; None for one without anybody."""
    asked = request.fixturenames
    if "world" not in asked:
        return None
    return kept_sites.of(is_furnished="things" in asked)


@pytest.fixture
def site(
    begun: KeptSite | None, sqlite_files: SqliteFiles, clock: Clock, passwords: Passwords, tmp_path: Path
) -> Iterator[Site]:
    """A site with the real content on SQLite: pages do not depend on the database."""
    file = tmp_path / "site.sqlite3"
    copyfile(begun.file if begun else sqlite_files.template, file)
    if begun:
        clock.at = begun.at
    database = Database(f"sqlite:///{file}")
    yield site_with(
        database, clock=clock, seeds=Seeds(begun.seeds_count if begun else 0), passwords=passwords
    )
    database.dispose()


@pytest.fixture
def app(site: Site, tmp_path: Path, compiled_templates: FileSystemBytecodeCache) -> Flask:
    settings = Settings(
        data=tmp_path, database_url="sqlite://", secret_key="x" * 40, password_cost="test", rate_limits=False
    )
    app = create_app(settings, site)
    app.jinja_env.bytecode_cache = compiled_templates
    app.config["TESTING"] = False  # errors become pages, as they do for people
    return app


@pytest.fixture
def world(site: Site, begun: KeptSite) -> World:
    """Two training centres and two employers; names as invented people have them."""
    return World(site, dict(begun.people))


@pytest.fixture
def form_context() -> Iterator[None]:
    """What a form needs around it, and no site."""
    app = Flask(__name__)
    app.config["SECRET_KEY"] = "x" * 32
    Babel(app)
    with app.test_request_context():
        yield


@pytest.fixture
def visitor(app: Flask) -> Visitor:
    """Somebody who has not signed in."""
    return Visitor(app)


@pytest.fixture
def visit_as(app: Flask, world: World) -> Callable[[str], Visitor]:
    """A visitor signed in as one of the people of the world."""

    def signed_in(key: str) -> Visitor:
        one = Visitor(app)
        one.sign_in(world.people[key].email, PASSWORD)
        return one

    return signed_in


@pytest.fixture
def things(world: World, begun: KeptSite) -> Things:  # noqa: ARG001 (they are of that world)
    """One of everything, in the first training centre."""
    assert begun.things is not None
    return begun.things
