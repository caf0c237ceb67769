"""One fault of a set-up, and the refusal that carries them all.

A fault names the field, a stable code and the figures that a reader needs; the words are the edge's affair.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.core.errors import OutOfRange, UnknownName
from trainer.domain.errors import DomainError
from trainer.domain.quantities import Dimension


@dataclass(frozen=True, kw_only=True)
class SetUpFault:
    """One fault: the field's path, its SI value (None where it is missing), the code and the facts behind it.

    `involves` names the other fields that it rests on: where one of those is at fault, this may be no fault.
    """

    path: str
    code: str
    value: float | str | None = None
    dimension: Dimension | None = None
    facts: Mapping[str, float | str] = field(default_factory=dict)
    involves: tuple[str, ...] = ()


class UnusableSetUp(DomainError):
    """A set-up that cannot be calculated, with every fault that was found."""

    def __init__(self, faults: tuple[SetUpFault, ...]) -> None:
        super().__init__("; ".join(f"{each.path}: {each.code}" for each in faults))
        self.faults = faults


def fault_from(error: OutOfRange | UnknownName, *, path: str) -> SetUpFault:
    """The core's refusal as a fault of the field that it concerns."""
    if isinstance(error, UnknownName):
        return SetUpFault(
            path=path, code="unknown-name", value=error.name, facts={"known": ", ".join(error.known)}
        )
    facts: dict[str, float | str] = {
        "quantity": error.quantity,
        "unit": error.unit,
        "why": error.why,
        "number": error.value,
    }
    limits = {"low": error.low, "high": error.high}
    known = {name: limit for name, limit in limits.items() if limit is not None}
    return SetUpFault(path=path, code="out-of-formula", facts={**facts, **known})
