"""Everything that keeps a file from being read as a set-up, all of it at once."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from trainer.domain.quantities import FieldKind, specs_of
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import SetUpFault

_LONGEST_SHOWN = 60


# What is said of a value that cannot be used; what is filled in stands as it was written.
NOT_AN_OBJECT = "%(typed)s is not accepted; %(what)s is an object with keys"
NOTHING_SAID = "null says nothing; leave the key out where the value is not known"
NOT_A_LIST = "%(typed)s is not accepted; this is a list of objects"
TOO_MANY = "%(count)s entries; accepted up to %(most)s"
NO_UNIT = '%(typed)s is not accepted; write a text with a unit, such as "%(example)s"'
NO_NUMBER = "%(typed)s is not accepted; write a bare number from %(low)s up to %(high)s, such as 0.5"
NO_OPEN_NUMBER = (
    "%(typed)s is not accepted; write a bare number above %(low)s and up to %(high)s, such as 0.5"
)
TOO_LARGE = "this number is too large to be held"
NO_COUNT = "%(typed)s is not accepted; write a whole number from %(low)s up to %(high)s"
NOT_OF_THESE = "%(typed)s is not accepted; accepted: %(known)s"
NOT_IN_QUOTES = '%(typed)s is not accepted; write a text in quotes, such as "%(example)s"'
TEXT_TOO_LONG = "%(typed)s is not accepted; write a text of 1 to %(longest)s plain characters"
NO_FLAG = "%(typed)s is not accepted; write true or false"
OUT_OF_RANGE = "%(typed)s is out of range; accepted from %(low)s up to %(high)s: %(why)s"
OUT_OF_OPEN_RANGE = "%(typed)s is out of range; accepted above %(low)s and up to %(high)s: %(why)s"


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One fault: where (a dotted path, empty for the whole), what stood there, and what to do about it.

    For other languages there is what the message was made of: a template with its facts, or what the set-up
    itself found wrong.
    """

    path: str
    value: Any
    message: str
    template: str = ""
    facts: Mapping[str, str] = field(default_factory=dict)
    cause: SetUpFault | None = None

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


def messages() -> Iterator[str]:
    """Every template for a value, and why each field has its limits, for those who translate them."""
    yield from (
        NO_UNIT, NO_NUMBER, NO_OPEN_NUMBER, TOO_LARGE, NO_COUNT, NOT_OF_THESE, TEXT_TOO_LONG, OUT_OF_RANGE,
        OUT_OF_OPEN_RANGE,
    )  # fmt: skip
    yield from dict.fromkeys(_reasons(SetUp))


def _reasons(part_class: type[Any]) -> Iterator[str]:
    for spec in specs_of(part_class).values():
        if spec.part is not None and spec.part is not part_class:
            yield from _reasons(spec.part)
        elif spec.kind in (FieldKind.MEASURED, FieldKind.NUMBER, FieldKind.COUNT):
            yield spec.why
