"""Reads one table of a content file key by key; what is missing, unknown or wrong becomes a fault."""

import re
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from functools import cache
from typing import Any

from trainer import units
from trainer.domain.family import Amount, Span
from trainer.domain.quantities import Dimension
from trainer.scenario_files.faults import Findings

_GLANCE = 40  # names that can be listed in one message
_AMOUNT = re.compile(r"(?:-?\d+(?:\.\d+)?|(?:\d+ )?\d+/\d+) (?P<unit>\S+)")


def _choice_of(found: str, words: Sequence[str]) -> str:
    """What is accepted: all of it where that can be taken in at a glance, else what comes nearest."""
    if len(words) <= _GLANCE:
        return f"one of {', '.join(words)}"
    near = get_close_matches(found, words, n=4, cutoff=0.4)
    return f"known; near it are {', '.join(near)}" if near else f"one of the {len(words)} that are known"


@cache
def _dimension_of_unit() -> dict[str, Dimension]:
    return {unit: dimension for dimension in Dimension for unit in units.known_units(dimension)}


def value_of(written: Any) -> Any:
    """A value with every text that is a number, a space and a unit turned into an amount."""
    if isinstance(written, Mapping):
        return {key: value_of(each) for key, each in written.items()}
    if isinstance(written, list):
        return tuple(value_of(each) for each in written)
    if isinstance(written, str) and (found := _AMOUNT.fullmatch(written)):
        dimension = _dimension_of_unit().get(found["unit"])
        if dimension is not None:
            return Amount(written, units.parse(written, dimension), dimension)
    return written


class Table:
    """One table: each reader takes its key, `close` names the keys that nobody asked for."""

    def __init__(self, written: Any, *, file: str, key: str, findings: Findings) -> None:
        self.file = file
        self.key = key
        self.findings = findings
        self.written: Mapping[str, Any] = written if isinstance(written, Mapping) else {}
        self._read: dict[str, None] = {}
        if not isinstance(written, Mapping):
            self.fault("", "is not a table")

    def fault(self, name: str, message: str) -> None:
        """One more fault of this file."""
        self.findings.add(self.file, ".".join(part for part in (self.key, name) if part) or "file", message)

    def has(self, name: str) -> bool:
        """Whether the key is there."""
        return name in self.written

    def text(self, name: str, *, default: str | None = None) -> str:
        """A text; required where no default is given."""
        return str(self._typed(name, str, "a text", default=default, fallback=""))

    def number(self, name: str, *, default: float | None = None) -> float:
        """A number; required where no default is given."""
        return float(self._typed(name, (int, float), "a number", default=default, fallback=1.0))

    def whole(self, name: str, *, default: int | None = None) -> int:
        """A whole number; required where no default is given."""
        return int(self._typed(name, int, "a whole number", default=default, fallback=1))

    def truth(self, name: str, *, default: bool | None = None) -> bool:
        """true or false; required where no default is given."""
        found = self._take(name, default)
        if not isinstance(found, bool):
            self.fault(name, "is true or false" if found is not None else "is missing; it is true or false")
        return found is True

    def one_of(self, name: str, words: Sequence[str], *, default: str | None = None) -> str:
        """One of some words."""
        found = self.text(name, default=default)
        if found not in words:
            self.fault(name, f"{found!r} is not {_choice_of(found, words)}")
            return words[0]
        return found

    def value(self, name: str, *, required: bool = True) -> Any:
        """Any value, with its amounts read."""
        found = self._take(name, None)
        if found is None and required:
            self.fault(name, "is missing")
        return value_of(found)

    def words(self, name: str) -> tuple[str, ...]:
        """A list of texts; empty where it is left out."""
        found = self._take(name, [])
        if not isinstance(found, list) or not all(isinstance(each, str) for each in found):
            self.fault(name, "is not a list of texts")
            return ()
        return tuple(found)

    def numbers(self, name: str) -> tuple[float, ...]:
        """A list of numbers; empty where it is left out."""
        found = self._take(name, [])
        if not isinstance(found, list) or not all(isinstance(each, int | float) for each in found):
            self.fault(name, "is not a list of numbers")
            return ()
        return tuple(found)

    def mapping(self, name: str) -> Mapping[str, Any]:
        """A table as it stands; empty where it is left out."""
        found = self._take(name, {})
        if not isinstance(found, Mapping):
            self.fault(name, "is not a table")
            return {}
        return found

    def inner(self, name: str) -> "Table":
        """A table in this one, to be read key by key."""
        return self._inner(self._take(name, {}), name)

    def tables(self, name: str, *, required: bool = False) -> list["Table"]:
        """A list of tables, to be read key by key."""
        found = self._take(name, [])
        if not isinstance(found, list) or (required and not found):
            self.fault(name, "is not a list of tables" if found else "is missing; it is a list of tables")
            return []
        return [self._inner(each, f"{name}[{place}]") for place, each in enumerate(found, start=1)]

    def named_tables(self, name: str) -> dict[str, "Table"]:
        """Tables by name."""
        return {key: self._inner(each, f"{name}.{key}") for key, each in self.mapping(name).items()}

    def span(self) -> Span:
        """`from` and `to`, the difficulties at which this takes part."""
        low, high = self.number("from", default=0.0), self.number("to", default=1.0)
        if not 0.0 <= low <= high <= 1.0:
            self.fault("from", f"difficulties go from 0 to 1, so not from {low:g} to {high:g}")
        return Span(low=low, high=high)

    def close(self) -> None:
        """Names every key that is not known here."""
        for name in self.written:
            if name not in self._read:
                self.fault(name, f"is not known here; known are {', '.join(sorted(self._read))}")

    def _inner(self, written: Any, name: str) -> "Table":
        key = f"{self.key}.{name}" if self.key else name
        return Table(written, file=self.file, key=key, findings=self.findings)

    def _take(self, name: str, default: Any) -> Any:
        self._read[name] = None
        return self.written.get(name, default)

    def _typed(self, name: str, kind: Any, what: str, *, default: Any, fallback: Any) -> Any:
        found = self._take(name, default)
        if isinstance(found, kind) and not isinstance(found, bool):
            return found
        self.fault(name, f"is missing; it is {what}" if found is None else f"{found!r} is not {what}")
        return fallback
