"""SIGKILL to the whole server in the middle of an assessed attempt: what was acknowledged is there afterwards.

The server is the command `trainer serve` with its workers, on a folder and a port of its own.
"""

import http.client
import json
import sqlite3
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlencode, urlsplit

import pytest
import training_steps as steps
from crew import PASSWORD, Member, crew_of
from playwright.sync_api import Browser, expect
from screens import Screen
from serving import TRAINER, TrainerServe, own_environment
from sheets import (
    answer,
    answer_all,
    expect_all_kept,
    expect_saved,
    item_of,
    of_kind,
    open_attempt,
    scenarios,
)

from trainer.app import wire
from trainer.config import Settings, make_secret, settings_from
from trainer.domain.scenario import ItemKind
from trainer.services import teaching
from trainer.services.site import Site

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("journeys")]

WRITERS = 6
KILLS = 3


@dataclass(frozen=True)
class Hall:
    """A served site with an apprentice who was given a module."""

    server: TrainerServe
    site: Site
    settings: Settings
    apprentice: Member
    browser: Browser

    def screen(self) -> Screen:
        """A browser signed in as the apprentice."""
        one = Screen(self.browser, self.server.address)
        one.sign_in(self.apprentice.email, PASSWORD)
        return one

    def start_attempt(self, screen: Screen) -> None:
        """Starts what was given."""
        screen.follow("See its limits and start")
        screen.press("Start the attempt")


@pytest.fixture
def hall(trainer_serve: TrainerServe, browser: Browser, tmp_path: Path) -> Iterator[Hall]:
    data = tmp_path / "data"
    make_secret(data)
    settings = settings_from({}, data=data)
    site = wire(settings)
    site.database.migrate()
    crew = crew_of(site)
    teacher, apprentice = crew["instructor"].acting, crew["apprentice"]
    class_id = teaching.make_class(site, teacher, name="Morning class")
    place = steps.School(crew["founder"].acting, teacher, teacher, apprentice.acting, class_id)
    teaching.add_to_class(site, teacher, class_id=class_id, person_id=apprentice.acting.person_id)
    steps.assigned(site, place, rows=(steps.row(3, "long-run", how_many=2),))
    trainer_serve.start()
    yield Hall(trainer_serve, site, settings, apprentice, browser)
    site.database.dispose()


def test_every_acknowledged_response_outlives_the_server_and_is_scored(hall):
    first = hall.screen()
    hall.start_attempt(first)
    attempt_id = open_attempt(first)
    drawn = scenarios(hall.site, attempt_id)
    answer_all(first, drawn[1])
    first.press("Go on to scenario 2")
    wait, choice = of_kind(drawn[2], ItemKind.QUANTITY), of_kind(drawn[2], ItemKind.CHOICE)
    right = steps.keys(drawn[2])
    answer(first, drawn[2], wait, right[wait.id])
    expect_saved(item_of(first, drawn[2], wait))
    acknowledged = item_of(first, drawn[2], wait).get_by_role("status").inner_text()

    hall.server.kill()
    with first.cut_off():
        answer(first, drawn[2], choice, right[choice.id])
        unsaved = item_of(first, drawn[2], choice).get_by_role("status")
        expect(unsaved).to_have_text("not sent yet: no connection, kept on this device")
        hall.server.start()
        expect_saved(item_of(first, drawn[2], choice))  # the open page sends again by itself
    first.no_faults()
    first.close()

    again = hall.screen()
    assert "You have an open attempt" in again.text
    again.follow("Go on with it")
    assert again.path.endswith("/scenarios/2")  # the first with something unanswered
    assert item_of(again, drawn[2], wait).get_by_role("status").inner_text() == acknowledged
    shown = item_of(again, drawn[2], wait).get_by_label(
        f"Answer {drawn[2].items.index(wait) + 1}", exact=True
    )
    assert right[wait.id].startswith(shown.input_value())
    assert (
        item_of(again, drawn[2], choice).locator("input:checked").get_attribute("value") == right[choice.id]
    )
    for item in drawn[2].items:
        if item not in (wait, choice):
            answer(again, drawn[2], item, right[item.id])
    expect_all_kept(again)
    again.press("Go on to hand in")
    assert "Every item is answered." in again.text
    again.press("Hand in", within=again.page.locator("main"))

    assert again.page.locator("p.verdict").first.inner_text() == "Passed"
    assert {row[1] for row in again.rows("Skill by skill")} == {"100 %"}
    again.no_faults()
    again.close()
    assert ledger_holds(hall)


def test_of_responses_in_flight_whatever_was_acknowledged_is_kept(hall):
    screen = hall.screen()
    hall.start_attempt(screen)
    drawn = scenarios(hall.site, open_attempt(screen))
    wait = of_kind(drawn[1], ItemKind.QUANTITY)
    writers = Writers(
        hall.server.address, screen, item_of(screen, drawn[1], wait).get_attribute("data-keep-at")
    )

    for turn in range(KILLS):
        before = len(writers.acknowledged)
        writers.start()
        wait_until(lambda goal=before + 20: len(writers.acknowledged) >= goal)
        time.sleep(0.01 * turn)
        hall.server.kill()
        writers.join()
        assert writers.broken_off > 0, "no response was in flight when the server was killed"
        kept = kept_values(hall.settings)
        assert [each for each in writers.acknowledged if each not in kept] == []
        hall.server.start()

    screen.open_page(screen.path)
    shown = item_of(screen, drawn[1], wait).get_by_label("Answer 2", exact=True).input_value()
    assert f"{shown} s" == kept_values(hall.settings)[-1]
    screen.no_faults()
    screen.close()
    assert ledger_holds(hall)


@dataclass
class Writers:
    """Several browsers' worth of requests at once, each a new value for one item."""

    address: str
    screen: Screen
    keep_at: str
    acknowledged: list[str] = field(default_factory=list)
    broken_off: int = 0
    _threads: list[threading.Thread] = field(default_factory=list)
    _next: int = 100

    def __post_init__(self) -> None:
        token = self.screen.page.locator("form[data-keep] input[name=csrf_token]").get_attribute("value")
        cookies = self.screen.context.cookies()
        self._headers = {
            "Cookie": "; ".join(f"{each['name']}={each['value']}" for each in cookies),
            "Accept": "application/json",
            "Content-Type": "application/x-www-form-urlencoded",
        }
        self._form = {"csrf_token": token}
        self._name = f"item-{self.keep_at.rsplit('/', 1)[1]}"
        self._lock = threading.Lock()

    def start(self) -> None:
        """Begins to send until the server is gone."""
        self.broken_off = 0
        self._threads = [threading.Thread(target=self._send_on) for _ in range(WRITERS)]
        for each in self._threads:
            each.start()

    def join(self) -> None:
        """Waits until every one has noticed."""
        for each in self._threads:
            each.join()

    def _send_on(self) -> None:
        while True:
            with self._lock:
                self._next += 1
                value = f"{self._next} s"
            try:
                status, told = self._send(value)
            except (OSError, http.client.HTTPException, ValueError):
                with self._lock:
                    self.broken_off += 1
                return
            assert status == 200, (status, told)
            with self._lock:
                self.acknowledged.append(value)

    def _send(self, value: str) -> tuple[int, dict[str, str]]:
        connection = http.client.HTTPConnection(urlsplit(self.address).netloc, timeout=30)
        try:
            body = urlencode({**self._form, self._name: value})
            connection.request("POST", self.keep_at, body=body, headers=self._headers)
            answered = connection.getresponse()
            return answered.status, json.loads(answered.read())
        finally:
            connection.close()


def kept_values(settings: Settings) -> list[str]:
    """Every version of every response, oldest first, read from the file with no code of the site."""
    path = settings.database_url.removeprefix("sqlite:///")
    with sqlite3.connect(path) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        rows = connection.execute("SELECT raw FROM response ORDER BY version").fetchall()
    connection.close()
    return [json.loads(raw) for (raw,) in rows]


def wait_until(holds: Callable[[], bool]) -> None:
    deadline = time.monotonic() + 60
    while not holds():
        assert time.monotonic() < deadline, "waited a minute in vain"
        time.sleep(0.002)


def ledger_holds(hall: Hall) -> bool:
    """Whether `trainer verify` proves the ledger of the folder."""
    done = subprocess.run(
        [TRAINER, "verify", "--data", hall.settings.data],
        capture_output=True,
        check=False,
        env=own_environment(),
    )
    return done.returncode == 0
