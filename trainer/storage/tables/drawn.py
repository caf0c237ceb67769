"""What every table of drawn scenarios holds of each: where it comes from, what is shown and what is kept."""

from typing import Any

from sqlalchemy import BigInteger, CheckConstraint, String
from sqlalchemy.orm import Mapped, mapped_column

from trainer.storage.tables.base import Document


class DrawnColumns:
    """The columns of one drawn scenario: `shown` goes to people, `drawn` also holds keys and solutions."""

    scenario_no: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    family: Mapped[str] = mapped_column(String(100))
    seed: Mapped[int] = mapped_column(BigInteger)
    difficulty_percent: Mapped[int]
    fingerprint: Mapped[str] = mapped_column(String(64))
    content_version: Mapped[str] = mapped_column(String(100))
    core_version: Mapped[str] = mapped_column(String(100))
    policy_version: Mapped[str] = mapped_column(String(100))
    shown: Mapped[dict[str, Any]] = mapped_column(Document)
    drawn: Mapped[dict[str, Any]] = mapped_column(Document, deferred=True)


def drawn_checks() -> tuple[CheckConstraint, ...]:
    """The constraints of those columns, anew for each table."""
    return (
        CheckConstraint("scenario_no >= 1", name="number_from_one"),
        CheckConstraint("seed >= 0 AND seed <= 9007199254740991", name="seed_below_2_53"),
        CheckConstraint("difficulty_percent BETWEEN 0 AND 100", name="difficulty_0_to_100"),
    )
