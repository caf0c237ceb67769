"""How a result of a run is written to a file: beside the field itself, its key, whose ending is the unit."""

from dataclasses import dataclass, field, fields
from typing import Any

PPM = 1e6
PERCENT = 100.0
MM = 1e3
LITRES = 1e3
L_MIN = 60_000.0
L_DAY = 86_400_000.0
BAR = 1e-5
M3_H = 3600.0

_WRITTEN = "written"


@dataclass(frozen=True)
class Written:
    """How a result is written to a file: its key and the factor from SI."""

    key: str
    factor: float = 1.0


def written(key: str, factor: float = 1.0) -> Any:
    """A result that is None until its inputs are known."""
    return field(default=None, metadata={_WRITTEN: Written(key, factor)})


def listed(key: str) -> Any:
    """A list of results, each with keys of its own; empty, and not written, until its inputs are known."""
    return field(default=(), metadata={_WRITTEN: Written(key)})


def written_as(part_class: type[Any]) -> dict[str, Written]:
    """How each attribute of a result is written, by attribute, in order."""
    return {each.name: each.metadata[_WRITTEN] for each in fields(part_class) if _WRITTEN in each.metadata}


@dataclass(frozen=True, kw_only=True)
class Expected:
    """An expected value with the ends of the interval that holds nine cases in ten."""

    expected: float = field(metadata={_WRITTEN: Written("expected")})
    lower: float = field(metadata={_WRITTEN: Written("lower")})
    upper: float = field(metadata={_WRITTEN: Written("upper")})
