"""What content files are written in: amounts, core results of named set-ups, conditions, difficulties."""

from dataclasses import dataclass
from typing import Any

from trainer.domain.quantities import Dimension

RIGHT = "right"  # name of the set-up with every key filled in

# What a draw or a template holds: a word, a number, an amount, a table of these, or a list of these.
Value = Any


@dataclass(frozen=True)
class Amount:
    """A quantity as written in a content file, with its SI value."""

    text: str
    value: float
    dimension: Dimension

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, kw_only=True)
class Span:
    """The difficulties at which something takes part, both ends included."""

    low: float = 0.0
    high: float = 1.0

    def holds(self, difficulty: float) -> bool:
        """Whether it takes part at this difficulty."""
        return self.low <= difficulty <= self.high


@dataclass(frozen=True, kw_only=True)
class ResultOf:
    """A core result of a named set-up, times a factor; with others named, the least of them all."""

    of: str
    result: str
    times: float | str = 1.0  # a text names a drawn number
    others: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Condition:
    """A core result held against a value, a draw or another result; it must clear it by `clear_ratio`."""

    left: ResultOf
    relation: str  # "above", "below", "is" or "is never"
    right: Value
    clear_ratio: float = 1.01
    span: Span = Span()
