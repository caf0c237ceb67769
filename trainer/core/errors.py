"""Errors that the calculation core raises; nothing in it is ever clamped silently."""

import math
from collections.abc import Sequence
from dataclasses import dataclass


class OutOfRange(ValueError):
    """A quantity lies outside the range in which the formula that asked for it holds."""

    # The six facts are what a page needs to say the fault in its own words, so they stay apart.
    def __init__(  # noqa: PLR0913
        self, quantity: str, value: float, *, low: float | None, high: float | None, unit: str, why: str
    ) -> None:
        self.quantity = quantity
        self.value = value
        self.low = low
        self.high = high
        self.unit = unit
        self.why = why
        super().__init__(f"{quantity} is {_with_unit(value, unit)} but must be {self._limits()}: {why}")

    def _limits(self) -> str:
        if self.low is not None and self.high is not None:
            return f"between {self.low:.6g} and {_with_unit(self.high, self.unit)}"
        if self.low is not None:
            return f"at least {_with_unit(self.low, self.unit)}"
        if self.high is not None:
            return f"at most {_with_unit(self.high, self.unit)}"
        return "a finite number"


class UnknownSize(ValueError):
    """A pipe size or schedule that the tables do not hold; `known` lists those that exist."""

    def __init__(self, size: str, *, schedule: str | None, known: Sequence[str]) -> None:
        self.size = size
        self.schedule = schedule
        self.known = tuple(known)
        wanted = size if schedule is None else f"{size} schedule {schedule}"
        super().__init__(f"{wanted} is not in the pipe tables; known: {', '.join(self.known) or 'none'}")


class UnknownName(ValueError):
    """A name (gas, material, dam, fitting) that the tables do not hold; `known` lists what is accepted."""

    def __init__(self, kind: str, name: str, *, known: Sequence[str]) -> None:
        self.kind = kind
        self.name = name
        self.known = tuple(known)
        super().__init__(f"{name!r} is not a known {kind}; accepted: {', '.join(self.known)}")


class UnknownGas(UnknownName):
    """A shielding-gas symbol that the core does not calculate with."""

    def __init__(self, symbol: str, *, known: Sequence[str]) -> None:
        super().__init__("gas", symbol, known=known)


class CompositionNeeded(UnknownGas):
    """A symbol that stands for a range of mixtures and names none of them by itself."""

    def __init__(self, symbol: str, *, accepted: Sequence[str]) -> None:
        super().__init__(symbol, known=accepted)
        self.symbol = symbol
        self.accepted = tuple(accepted)
        self.args = (f"{symbol} is a range of mixtures; say which: {', '.join(self.accepted)}",)


@dataclass(frozen=True, kw_only=True)
class Limits:
    """The range of one quantity, both ends included, and why it ends there; `why` says what to do next."""

    quantity: str
    unit: str
    why: str
    low: float | None = None
    high: float | None = None

    def check(self, value: float) -> None:
        """Raise OutOfRange unless the value is finite and within the limits.

        Args:
            value [-]: the number to judge, in the unit that `unit` names
        Returns:
            [-] nothing
        """
        # Written out as in `holds`, since every quantity of every question comes by here.
        if not (
            math.isfinite(value)
            and (self.low is None or value >= self.low)
            and (self.high is None or value <= self.high)
        ):
            raise OutOfRange(self.quantity, value, low=self.low, high=self.high, unit=self.unit, why=self.why)

    def holds(self, value: float) -> bool:
        """Whether the value is finite and within the limits.

        Args:
            value [-]: the number to judge, in the unit that `unit` names
        Returns:
            [bool] true when it is
        """
        return (
            math.isfinite(value)
            and (self.low is None or value >= self.low)
            and (self.high is None or value <= self.high)
        )


def _with_unit(value: float, unit: str) -> str:
    return f"{value:.6g} {unit}".rstrip()
