"""A change on the bench in a real browser: from sending the form until the answer stands on the page."""

import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from browsers import installed_browser
from playwright.sync_api import sync_playwright
from screens import DESKTOP, Screen
from serving import TrainerServe

from tests.bench.measuring import Figure, spread
from trainer.app import wire
from trainer.config import make_secret, settings_from

CHANGES = 30
GOAL_MS = 150.0
# Of a spool the core has much more to solve; that is told beside, without a goal.
STARTS = (("shop", GOAL_MS), ("trench", GOAL_MS), ("spool-riser", None))
_SHOWN = "performance.getEntriesByName('bench change').map((each) => each.duration)"


def bench() -> Iterator[Figure]:
    """The median of so many changes of the flow, on a straight section and on a spool, and the worst of them."""
    with tempfile.TemporaryDirectory(prefix="brightroot-bench-") as folder, sync_playwright() as playwright:
        data = Path(folder) / "data"
        make_secret(data)
        site = wire(settings_from({}, data=data))
        site.database.migrate()
        site.database.dispose()
        server, browser = TrainerServe(data), None
        server.start()
        try:
            browser = playwright.chromium.launch(executable_path=installed_browser(), args=["--no-sandbox"])
            for start, goal_ms in STARTS:
                screen = Screen(browser, server.address, DESKTOP)
                times = _changes_ms(screen, start)
                screen.close()
                yield Figure(
                    what=f"bench change, {start}", value=median(times), unit="ms", goal=goal_ms,
                    beside=f"{spread(times)}; worst {max(times):.0f} ms of {len(times)}",
                )  # fmt: skip
        finally:
            if browser is not None:
                browser.close()
            server.stop()


def _changes_ms(screen: Screen, start: str) -> list[float]:
    """The first changes warm the server's workers up and are left out."""
    screen.open_page(f"/bench/set-up?v=1&start={start}")
    warm_up = 4
    for number in range(warm_up + CHANGES):
        screen.page.locator('[id="flow.purge"]').fill(f"{12 + number / 4:g}")
        screen.page.wait_for_function(
            "count => performance.getEntriesByName('bench change').length > count", arg=number
        )
    times: list[float] = screen.page.evaluate(_SHOWN)
    return times[warm_up:]
