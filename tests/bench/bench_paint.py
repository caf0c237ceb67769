"""When the practice page shows on a poor line: first contentful paint in a real browser that has nothing stored.

The line is made slow by the browser itself: 150 ms for every round trip and 1.6 Mbit/s, each way.
"""

import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from browsers import installed_browser
from crew import PASSWORD, crew_of
from playwright.sync_api import Browser, sync_playwright
from screens import SIZES, Screen, Size
from serving import TrainerServe

from tests.bench.measuring import Figure, spread
from trainer.app import wire
from trainer.config import make_secret, settings_from
from trainer.services import practice

FAMILIES = ("long-run", "many-elbows")
TURNS = 7
GOAL_MS = 1500.0
_SLOW = {"offline": False, "latency": 150, "downloadThroughput": 200_000, "uploadThroughput": 200_000}


def bench() -> Iterator[Figure]:
    """First contentful paint of the page of a straight section and of a spool, on a desktop and on a phone."""
    with tempfile.TemporaryDirectory(prefix="brightroot-bench-") as folder, sync_playwright() as playwright:
        data = Path(folder) / "data"
        make_secret(data)
        site = wire(settings_from({}, data=data))
        site.database.migrate()
        apprentice = crew_of(site)["apprentice"]
        opened = {
            each: practice.start_practice(site, apprentice.acting, family=each, difficulty=0.5)
            for each in FAMILIES
        }
        site.database.dispose()
        server, browser = TrainerServe(data), None
        server.start()
        try:
            browser = playwright.chromium.launch(executable_path=installed_browser(), args=["--no-sandbox"])
            for family, attempt_id in opened.items():
                for size in SIZES:
                    path = f"/apprentice/attempts/{attempt_id}/scenarios/1"
                    yield _figure(browser, server.address, (apprentice.email, path), family, size)
        finally:
            if browser is not None:
                browser.close()
            server.stop()


def _figure(browser: Browser, address: str, asked: tuple[str, str], family: str, size: Size) -> Figure:
    email, path = asked
    screen = Screen(browser, address, size)
    screen.sign_in(email, PASSWORD)
    line = screen.context.new_cdp_session(screen.page)
    line.send("Network.enable")
    line.send("Network.setCacheDisabled", {"cacheDisabled": True})
    line.send("Network.emulateNetworkConditions", _SLOW)
    paints = [_first_paint_ms(screen, path) for _ in range(TURNS)]
    kilobytes = sum(screen.weights_bytes().values()) / 1e3
    screen.close()
    return Figure(
        what=f"first paint, {family}, {size.name}",
        value=median(paints),
        unit="ms",
        goal=GOAL_MS,
        beside=f"{spread(paints)}; {kilobytes:.0f} kB as sent",
    )


def _first_paint_ms(screen: Screen, path: str) -> float:
    screen.open_page(path)
    screen.page.wait_for_function("() => performance.getEntriesByName('first-contentful-paint').length > 0")
    return float(screen.page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime"))
