"""Where a value in SI lies along a line of the drawing, and back: straight between a few knots.

A long run is drawn true to scale around the joint and squeezed beyond a break, as on an engineering sheet;
the two straight pieces are three knots. The same knots go to the script that moves a handle.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.drawing.svg import number


@dataclass(frozen=True)
class Knots:
    """Pairs of value (SI, rising) and place (drawing units, rising or falling)."""

    pairs: tuple[tuple[float, float], ...]

    def place(self, value: float) -> float:
        """The place of a value; straight on beyond the ends."""
        return _between([v for v, _ in self.pairs], [p for _, p in self.pairs], value)

    def value(self, place: float) -> float:
        """The value at a place; straight on beyond the ends."""
        rising = sorted((p, v) for v, p in self.pairs)
        return _between([p for p, _ in rising], [v for _, v in rising], place)

    def mirrored(self) -> "Knots":
        """The same values on the other side of place 0."""
        return Knots(tuple((value, -place) for value, place in self.pairs))

    def text(self) -> str:
        """The knots as the script reads them: ``value,place value,place``."""
        return " ".join(f"{value:.6g},{number(place)}" for value, place in self.pairs)


def _between(xs: Sequence[float], ys: Sequence[float], x: float) -> float:
    i = min(max(bisect_right(xs, x), 1), len(xs) - 1)
    share = (x - xs[i - 1]) / (xs[i] - xs[i - 1])
    return ys[i - 1] + share * (ys[i] - ys[i - 1])
