"""What every use case is given: database, content, clock, seeds and the way of hashing passwords."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING

from trainer.services.passwords import Passwords
from trainer.storage.database import Database

if TYPE_CHECKING:
    from trainer.scenario_files import Content


@dataclass(frozen=True, kw_only=True)
class Site:
    """One site. Services take the clock and the seeds from here, so that tests and histories can set both."""

    database: Database
    content: Content
    now: Callable[[], datetime]  # aware of its zone, in UTC
    new_seed: Callable[[], int]
    passwords: Passwords

    def today(self) -> date:
        """The day, in UTC, that memberships, shares and validity are held against."""
        return self.now().date()
