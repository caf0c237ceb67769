"""Takes values out of the tables of a policy file, noting what is missing, unknown or of the wrong kind."""

from collections.abc import Callable
from typing import Any

from trainer import units
from trainer.domain.quantities import Dimension
from trainer.scenario_files.faults import Findings


class TableReader:
    """Reads the tables of one file and collects what is wrong with it."""

    def __init__(self, file: str, findings: Findings) -> None:
        self.file = file
        self.findings = findings

    def fault(self, key: str, message: str) -> None:
        self.findings.add(self.file, key, message)

    def table(
        self, value: Any, where: str, keys: tuple[str, ...], *, optional: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        """The value as a table that holds these keys, may hold the optional ones, and no others."""
        if not isinstance(value, dict):
            self.fault(where, "a table is accepted here")
            return {}
        for key in value:
            if key not in (*keys, *optional):
                accepted = ", ".join((*keys, *optional))
                self.fault(dotted(where, key), f"unknown key; accepted here: {accepted}")
        for key in keys:
            if key not in value:
                self.fault(dotted(where, key), "missing")
        return value

    def read(self, read: Callable[[Any], Any], value: Any, where: str, accepted: str) -> Any:
        """What `read` makes of a value; a fault where it refuses it. Missing values were noted before."""
        if value is None:
            return None
        try:
            return read(value)
        except (ValueError, TypeError) as error:
            shown = f"{error}" if isinstance(error, units.UnitFault) else f"{value!r} is not accepted"
            self.fault(where, f"{shown}; accepted: {accepted}")
            return None


def dotted(where: str, key: str) -> str:
    """A key within a table."""
    return f"{where}.{key}" if where else key


def words(value: Any) -> str:
    """A text that says something."""
    if not isinstance(value, str) or not value.strip():
        raise ValueError
    return value


def status_letter(value: Any) -> str:
    """Where a figure comes from: a, b, c or d, with words after it where needed."""
    if words(value)[0] not in "abcd":
        raise ValueError
    return str(value)


def flag(value: Any) -> bool:
    """True or false."""
    if not isinstance(value, bool):
        raise TypeError
    return value


def whole(value: Any) -> int:
    """A whole number from 1 to 1000."""
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= 1000:
        raise ValueError
    return value


def within(low: float, high: float) -> Callable[[Any], float]:
    """Reads a number above one end and up to the other."""

    def read(value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or not low < value <= high:
            raise ValueError
        return float(value)

    return read


def fraction(value: Any) -> float:
    """A mole fraction above 0 and up to 20 %, typed with its unit."""
    frac = units.parse(words(value), Dimension.FRACTION)
    if not 0.0 < frac <= 0.2:
        raise ValueError
    return frac
