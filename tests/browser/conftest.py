"""Fixtures of tests in a real browser: the browser, the site on a port, and screens that tell of every fault."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from browsers import installed_browser
from crew import PASSWORD, Member, crew_of
from playwright.sync_api import Browser, expect, sync_playwright
from screens import DESKTOP, PATIENCE_MS, Screen, Size
from serving import TrainerServe, served
from two_databases import SqliteFiles

from trainer.services.site import Site

FOLDER = Path(__file__).resolve().parent
_SWITCHES = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leaves out what no browser can run; the end of the run says so, and in CI it fails."""
    if installed_browser() is not None:
        return
    left_out = [each for each in items if each.get_closest_marker("browser")]
    config.hook.pytest_deselected(items=left_out)
    items[:] = [each for each in items if not each.get_closest_marker("browser")]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    expect.set_options(timeout=PATIENCE_MS)  # a busy machine is no fault of a page
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(executable_path=installed_browser(), args=_SWITCHES)
        yield found
        found.close()


@pytest.fixture
def on_port(sqlite_files: SqliteFiles, tmp_path: Path) -> Iterator[tuple[str, Site]]:
    """The site without people on a port of its own."""
    with sqlite_files.empty(tmp_path) as url, served(url, tmp_path) as found:
        yield found


@pytest.fixture
def site(on_port: tuple[str, Site]) -> Site:
    """The same site from behind, to make accounts on and to look up the right answers."""
    return on_port[1]


@pytest.fixture
def crew(site: Site) -> dict[str, Member]:
    return crew_of(site)


@pytest.fixture
def screen(browser: Browser, on_port: tuple[str, Site]) -> Iterator[Callable[..., Screen]]:
    """Opens browsers, of a size, of people who are signed in or of strangers; none may have seen a fault."""
    opened: list[Screen] = []

    def open_screen(member: Member | None = None, *, size: Size = DESKTOP, **more: object) -> Screen:
        one = Screen(browser, on_port[0], size, **more)
        opened.append(one)
        if member is not None:
            one.sign_in(member.email, PASSWORD)
        return one

    yield open_screen
    for each in opened:
        each.close()
    assert [fault for each in opened for fault in each.faults] == []


@pytest.fixture
def trainer_serve(tmp_path: Path) -> Iterator[TrainerServe]:
    """`trainer serve` on a folder of its own, not yet started; killed at the end whatever happened."""
    server = TrainerServe(tmp_path / "data")
    yield server
    server.stop()
