"""Everything that keeps a file from being read as a set-up, all of it at once."""

from dataclasses import dataclass
from typing import Any

_LONGEST_SHOWN = 60


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One fault: where (a dotted path, empty for the whole), what stood there, and what to do about it."""

    path: str
    value: Any
    message: str

    @property
    def line(self) -> str:
        """The fault in one line."""
        return f"{self.path}: {self.message}" if self.path else self.message


class SetUpFaults(ValueError):
    """A set-up that cannot be used; `faults` holds every fault found."""

    def __init__(self, faults: list[Fault]) -> None:
        super().__init__("\n".join(each.line for each in faults))
        self.faults = faults


def shown(value: Any) -> str:
    """A value from a file as one short printable piece of text."""
    text = f"'{value}'" if isinstance(value, str) else _kind(value)
    printable = "".join(each if each.isprintable() else "\N{REPLACEMENT CHARACTER}" for each in text)
    return printable if len(printable) <= _LONGEST_SHOWN else printable[: _LONGEST_SHOWN - 1] + "…"


def _kind(value: Any) -> str:
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    return repr(value)
