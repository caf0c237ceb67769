"""The page of a practice attempt and keeping one response, against bare Flask on the same server.

Both servers stand up the whole time; ours and the bare one are measured in turn, and the ratio is taken pair by pair.
"""

import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from http.cookiejar import CookieJar
from pathlib import Path
from statistics import median
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, OpenerDirector, build_opener

from crew import PASSWORD, crew_of
from serving import TrainerServe, free_port

from tests.bench.measuring import Figure, share, spread
from tests.bench.requests_a_second import Asked, rate, tool
from trainer.app import wire
from trainer.config import make_secret, settings_from
from trainer.domain.scenario import ItemKind
from trainer.services import assessment, practice

PAIRS = 5
WORKERS = 2
FAMILY = "long-run"


def bench() -> Iterator[Figure]:
    """Rates of ours and of the bare site, and their ratios."""
    with tempfile.TemporaryDirectory(prefix="brightroot-bench-") as folder, _our_site(Path(folder)) as ours:
        page, keeping, page_bytes = ours
        with _bare_site(Path(folder), page_bytes) as address:
            yield from _pairs(
                "practice page",
                page,
                Asked(f"{address}/sheets/1"),
                goal=1 / 3,
                beside=f"{page_bytes} bytes, {tool()}",
            )
            yield from _pairs("keeping a response", keeping, Asked(f"{address}/notes", body="text=10+min"), goal=1 / 2, beside=tool())  # fmt: skip


def _pairs(what: str, ours: Asked, bare: Asked, *, goal: float, beside: str) -> Iterator[Figure]:
    rate(ours)
    rate(bare)
    measured = [(rate(ours), rate(bare)) for _ in range(PAIRS)]
    of_ours, of_bare = [list(each) for each in zip(*measured, strict=True)]
    yield Figure(
        what=f"{what}, ours", value=median(of_ours), unit="a second", beside=spread(of_ours, "a second")
    )
    yield Figure(
        what=f"{what}, bare", value=median(of_bare), unit="a second", beside=spread(of_bare, "a second")
    )
    yield Figure(what=f"{what}, ours to bare", value=share(of_ours, of_bare), unit="", goal=goal, is_share=True, beside=beside)  # fmt: skip


@contextmanager
def _our_site(folder: Path) -> Iterator[tuple[Asked, Asked, int]]:
    """`trainer serve` with an apprentice in the middle of a practice attempt."""
    data = folder / "data"
    make_secret(data)
    site = wire(settings_from({}, data=data))
    site.database.migrate()
    apprentice = crew_of(site)["apprentice"]
    attempt_id = practice.start_practice(site, apprentice.acting, family=FAMILY, difficulty=0.5)
    scenario = assessment.attempt_page(site, apprentice.acting, attempt_id=attempt_id).scenarios[0].scenario
    item = next(each for each in scenario.items if each.kind is ItemKind.QUANTITY)
    site.database.dispose()
    server = TrainerServe(data)
    server.start()
    try:
        path = f"{server.address}/apprentice/attempts/{attempt_id}/scenarios/1"
        opener, cookies = _signed_in(server.address, apprentice.email)
        shown = opener.open(path).read()
        cookie = "; ".join(f"{each.name}={each.value}" for each in cookies)
        form = urlencode({"csrf_token": _token(shown.decode()), f"item-{item.id}": "10 min"})
        yield Asked(path, cookie), Asked(f"{path}/items/{item.id}", cookie, form), len(shown)
    finally:
        server.stop()


def _signed_in(address: str, email: str) -> tuple[OpenerDirector, CookieJar]:
    cookies = CookieJar()
    opener = build_opener(HTTPCookieProcessor(cookies))
    page = opener.open(f"{address}/account/sign-in").read().decode()
    form = {"csrf_token": _token(page), "email": email, "password": PASSWORD}
    opener.open(f"{address}/account/sign-in", data=urlencode(form).encode())
    return opener, cookies


def _token(page: str) -> str:
    return re.search(r'name="csrf_token"[^>]*value="([^"]+)"', page).group(1)


@contextmanager
def _bare_site(folder: Path, page_bytes: int) -> Iterator[str]:
    port = free_port()
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.bench.bare_site", folder, str(port), str(WORKERS), str(page_bytes)],
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert "bare site" in process.stdout.readline()
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(timeout=30)
        process.stdout.close()
