"""An expected value with the range in which it is believed to lie."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.core.errors import OutOfRange


@dataclass(frozen=True)
class Interval:
    """A positive quantity with its lower and upper end, all three in the same unit.

    lower <= expected <= upper

    expected: the value itself [1], or in the unit of the quantity
    lower, upper: the ends [1], in the same unit

    Holds for 0 <= lower <= expected <= upper; anything else, or a NaN, raises OutOfRange.

    >>> Interval(2.0, 1.0, 3.0).widened(2.0)
    Interval(expected=2.0, lower=0.5, upper=4.5)

    Reference: own definition; closure errors of a purge are ratios, so widening works on ratios.
    """

    expected: float
    lower: float
    upper: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.lower <= self.expected <= self.upper:
            raise OutOfRange(
                "expected value of an interval",
                self.expected,
                low=self.lower,
                high=self.upper,
                unit="",
                why="the ends of an interval are positive and lie on either side of the expected value",
            )

    def widened(self, factor_ratio: float) -> Interval:
        """The same expected value between ends whose distance, as a ratio, is raised to a power.

        upper' = expected (upper / expected)^f,  lower' = expected (lower / expected)^f

        factor_ratio: f [dimensionless], 2 makes the interval twice as wide on a logarithmic scale

        Returns a new Interval. Holds for f >= 0; a smaller one raises OutOfRange.

        >>> Interval(1.0, 0.5, 2.0).widened(2.0)
        Interval(expected=1.0, lower=0.25, upper=4.0)

        Reference: own definition.
        """
        if not factor_ratio >= 0.0:
            raise OutOfRange(
                "widening factor", factor_ratio, low=0.0, high=None, unit="", why="a width is not negative"
            )
        if self.expected == 0.0:
            return self
        return Interval(
            self.expected,
            self.expected * (self.lower / self.expected) ** factor_ratio,
            self.expected * (self.upper / self.expected) ** factor_ratio,
        )
