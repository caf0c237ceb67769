"""An expected value with the range in which it is believed to lie."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.core.errors import Limits, OutOfRange

_WIDTH = Limits(quantity="widening factor", unit="", low=0.0, why="a width is not negative")


@dataclass(frozen=True)
class Interval:
    """A positive quantity between its lower and upper end, all three in one unit.

    0 <= lower <= expected <= upper

    Args:
        expected [-]: the value itself, in the unit of the quantity
        lower [-]: the end below it, in the same unit
        upper [-]: the end above it, in the same unit; may be infinite
    Raises:
        OutOfRange: when the ends do not lie on either side of the expected value, or one is negative

    >>> Interval(2.0, 1.0, 3.0).upper
    3.0

    Reference: own definition.
    """

    expected: float
    lower: float
    upper: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.lower <= self.expected <= self.upper:
            raise OutOfRange(
                "expected value",
                self.expected,
                low=self.lower,
                high=self.upper,
                unit="",
                why="the ends of an interval are positive and lie on either side of it",
            )

    def widened(self, factor_ratio: float) -> Interval:
        """The same expected value between ends whose ratio to it is raised to a power.

        upper' = expected (upper / expected)^f,  lower' = expected (lower / expected)^f

        Args:
            factor_ratio [-]: f, at least 0; 2 makes the interval twice as wide on a logarithmic scale
        Returns:
            [-] the wider interval, in the unit of this one
        Raises:
            OutOfRange: for a negative factor

        >>> Interval(1.0, 0.5, 2.0).widened(2.0)
        Interval(expected=1.0, lower=0.25, upper=4.0)

        Reference: own definition; the closure error of a purge is a ratio of times.
        """
        _WIDTH.check(factor_ratio)
        if self.expected == 0.0:
            return self
        return Interval(
            self.expected,
            self.expected * (self.lower / self.expected) ** factor_ratio,
            self.expected * (self.upper / self.expected) ** factor_ratio,
        )
