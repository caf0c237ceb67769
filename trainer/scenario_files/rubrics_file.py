"""Reads the rubric of an explanation: what is looked for, with a sentence for each level."""

import re

from trainer.domain.item_parts import Criterion
from trainer.domain.items.explanation import FEWEST_CRITERIA, HIGHEST_LEVEL, MOST_CRITERIA
from trainer.scenario_files.tables import Table

_ID = re.compile(r"[a-z0-9-]{1,60}")  # it enters the ledger, which takes no words


def read_rubric(table: Table) -> tuple[Criterion, ...]:
    """The criteria, three to five of them, each under an id of its own."""
    criteria = tuple(_criterion(each) for each in table.tables("criterion", required=True))
    if not FEWEST_CRITERIA <= len(criteria) <= MOST_CRITERIA:
        table.fault("criterion", f"a rubric has {FEWEST_CRITERIA} to {MOST_CRITERIA} criteria")
    if len({each.id for each in criteria}) < len(criteria):
        table.fault("criterion", "two criteria have one id")
    return criteria


def _criterion(table: Table) -> Criterion:
    criterion = Criterion(
        id=table.text("id"),
        text=table.text("text"),
        levels=table.words("levels"),
        weight=table.number("weight", default=1.0),
        critical=table.truth("critical", default=False),
    )
    if not _ID.fullmatch(criterion.id):
        table.fault("id", f"{criterion.id!r} is not made of small letters, digits and hyphens")
    if len(criterion.levels) != HIGHEST_LEVEL + 1 or not all(each.strip() for each in criterion.levels):
        table.fault("levels", f"has a sentence for each level from 0 to {HIGHEST_LEVEL}")
    if criterion.weight <= 0.0:
        table.fault("weight", f"{criterion.weight:g} is not above zero")
    table.close()
    return criterion
