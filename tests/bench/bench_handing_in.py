"""Handing in: the attempt ended, marked and entered into the ledger, on SQLite as the site uses it."""

import tempfile
from collections.abc import Iterator
from dataclasses import replace
from itertools import count
from pathlib import Path
from statistics import median
from uuid import UUID

import training_steps as steps

from tests.bench.measuring import Figure, milliseconds, spread
from trainer.app import wire
from trainer.config import Settings
from trainer.services import assessment, practice
from trainer.services.site import Site

GOAL_MS = 60.0
PRACTICE_EACH, ASSESSED = 6, 8


def bench() -> Iterator[Figure]:
    """One scenario of each family, and a whole assessed attempt of six."""
    with tempfile.TemporaryDirectory(prefix="brightroot-bench-") as folder:
        site = _site(Path(folder))
        place = steps.school(site)
        everything: list[float] = []
        for family in site.content.families:
            open_attempts = [_practised(site, place, family) for _ in range(PRACTICE_EACH)]
            times = milliseconds(lambda each: _hand_in(site, place, each), open_attempts)
            everything += times
            yield Figure(what=f"handing in one scenario, {family}", value=median(times), unit="ms", beside=spread(times))  # fmt: skip
        yield Figure(
            what="handing in one scenario, all families", value=median(everything), unit="ms", goal=GOAL_MS, beside=spread(everything)
        )  # fmt: skip
        open_attempts = [_assessed(site, place) for _ in range(ASSESSED)]
        times = milliseconds(lambda each: _hand_in(site, place, each), open_attempts)
        yield Figure(what="handing in six scenarios", value=median(times), unit="ms", goal=GOAL_MS, beside=spread(times))  # fmt: skip
        site.database.dispose()


def _site(folder: Path) -> Site:
    settings = Settings(
        data=folder,
        database_url=f"sqlite:///{folder / 'bench.sqlite3'}",
        secret_key="x" * 40,
        password_cost="test",
    )
    seeds = count(1)
    site = replace(wire(settings), new_seed=lambda: next(seeds))
    site.database.migrate()
    return site


def _practised(site: Site, place: steps.School, family: str) -> UUID:
    attempt_id = practice.start_practice(site, place.apprentice, family=family, difficulty=0.5)
    steps.answer_right(site, place.apprentice, attempt_id)
    return attempt_id


def _assessed(site: Site, place: steps.School) -> UUID:
    assignment_id = steps.assigned(site, place, rows=steps.WHOLE_PURGE)
    attempt_id = assessment.start_assignment(site, place.apprentice, assignment_id=assignment_id)
    steps.answer_right(site, place.apprentice, attempt_id)
    return attempt_id


def _hand_in(site: Site, place: steps.School, attempt_id: UUID) -> None:
    with site.database.reading() as work:
        token = steps.attempts.get_attempt(work, attempt_id=attempt_id).hand_in_token
    assessment.hand_in(site, place.apprentice, attempt_id=attempt_id, token=token)
