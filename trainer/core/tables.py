"""Reads the core's data tables: comma-separated, header lines of provenance start with '#'."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType


@cache
def table_rows(name: str) -> tuple[Mapping[str, str], ...]:
    """The rows of one data table, in file order, as text by column name.

    Args:
        name [text]: file name in the data folder, without its ending
    Returns:
        [record] one read-only mapping per row

    Example:
        >>> table_rows("gases")[0]["symbol"]
        'I1'

    Reference: own definition; each table names its sources in its header.
    """
    # csv would read the commented header as rows of its own, so those lines are dropped first.
    text = files("trainer.core").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    return tuple(MappingProxyType(row) for row in csv.DictReader(lines))
