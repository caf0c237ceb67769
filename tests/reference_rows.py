"""Loads the reference rows of tests/reference: values from outside the project, judged by their own tolerance."""

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent / "reference"


@dataclass(frozen=True)
class ReferenceRow:
    """One expected value, where it comes from, and how near ours has to come."""

    id: str
    quantity: str
    inputs: str
    expected: float
    unit: str
    tolerance_rel: float
    source: str
    status: str

    def holds(self, value):
        # Zero has no relative neighbourhood: a tolerance on it can only be absolute.
        absolute = self.tolerance_rel if self.expected == 0.0 else 0.0
        return value == pytest.approx(self.expected, rel=self.tolerance_rel, abs=absolute)


@cache
def reference_rows(name):
    """The rows of one file by id."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    loaded = [
        ReferenceRow(
            id=row["id"],
            quantity=row.get("quantity", ""),
            inputs=row["inputs"],
            expected=float(row["expected"]),
            unit=row["unit"],
            tolerance_rel=float(row["tolerance_rel"]),
            source=row["source"],
            status=row["status"],
        )
        for row in rows
    ]
    by_id = {row.id: row for row in loaded}
    assert len(by_id) == len(loaded), f"{name} holds an id twice"
    return by_id
