"""The page of a practice attempt and keeping one response, against bare Flask on the same server.

Both servers stand up the whole time; ours and the bare one are measured in turn, and the ratio is taken pair by pair.
"""

import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
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
            bare = {"page": f"{address}/sheets/1", "table": f"{address}/tables/1", "note": f"{address}/notes"}
            size = f"{page_bytes} bytes, {tool()}"
            constant = Pair("practice page", page, "bare constant", Asked(bare["page"]), 1 / 3, size)
            templated = Pair("practice page", page, "bare template", Asked(bare["table"]), None, size)
            insert = Pair(
                "keeping a response",
                keeping,
                "bare insert",
                Asked(bare["note"], body="text=10+min"),
                1 / 2,
                tool(),
            )
            for pair in (constant, templated, insert):
                yield from pair.measured()


@dataclass(frozen=True)
class Pair:
    """Two kinds of request that are measured in turn, and the least that ours may be of the other."""

    what: str
    ours: Asked
    other: str
    bare: Asked
    goal: float | None
    beside: str

    def measured(self) -> Iterator[Figure]:
        """Both rates and their ratio, after a run to warm up."""
        rate(self.ours)
        rate(self.bare)
        rates = [(rate(self.ours), rate(self.bare)) for _ in range(PAIRS)]
        for name, values in zip((self.what, self.other), zip(*rates, strict=True), strict=True):
            told = spread(list(values), "a second")
            yield Figure(what=name, value=median(values), unit="a second", beside=told)
        ratio = share([each[0] for each in rates], [each[1] for each in rates])
        what = f"{self.what} to {self.other}"
        yield Figure(what=what, value=ratio, unit="", goal=self.goal, is_share=True, beside=self.beside)


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
