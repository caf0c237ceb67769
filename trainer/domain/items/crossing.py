"""Where a course crosses its limit, found by few questions, each of which may cost a run of the core."""

from collections.abc import Callable
from math import inf, isfinite

_MOST_GUESSES = 12
_NEAR_FRAC = 0.1  # how far beside a guess the next question is put, as a share of what is wanted


class Over:
    """A quantity that once it is over 0 stays so; each place is asked about once.

    `over_at` answers by how much it is over at a place.
    """

    def __init__(self, over_at: Callable[[float], float]) -> None:
        self._over_at = over_at
        self._known: dict[float, float] = {}

    def is_over(self, place: float) -> bool:
        """Whether it is over at a place."""
        if place not in self._known:
            self._known[place] = self._over_at(place)
        return self._known[place] > 0.0

    def first_over(self, low: float, high: float, *, sharp: float) -> float:
        """The end that halving comes to between two places until they lie within `sharp`.

        The crossing is guessed first, along a straight line between the nearest answers, so that hardly
        one of the halves has to be asked about; what is found is what halving alone finds.
        """
        below, above = self._guessed(low, high, sharp)
        while high - low > sharp:
            middle = (low + high) / 2.0
            if middle >= above or (middle > below and self.is_over(middle)):
                high = middle
                above = min(above, middle)
            else:
                low = middle
                below = max(below, middle)
        return high

    def _guessed(self, low: float, high: float, sharp: float) -> tuple[float, float]:
        """Places as near each other as can be had cheaply, the second of them over and the first not."""
        if self.is_over(low) or not self.is_over(high):
            return -inf, inf  # no crossing in between: nothing is told of the halves
        at_low, at_high, near = self._known[low], self._known[high], _NEAR_FRAC * sharp
        was_over: bool | None = None
        for _ in range(_MOST_GUESSES):
            if high - low <= 2.0 * near:
                break
            # A guess beside one end is put a little off it, where it closes the gap if it is right.
            guess = min(max(_straight(low, high, at_low, at_high), low + near), high - near)
            is_over = self.is_over(guess)
            # An end that stays twice counts half, or the guesses would creep up on it from one side.
            share = 0.5 if is_over is was_over else 1.0
            if is_over:
                high, at_low, at_high = guess, at_low * share, self._known[guess]
            else:
                low, at_low, at_high = guess, self._known[guess], at_high * share
            was_over = is_over
        return low, high


def _straight(low: float, high: float, at_low: float, at_high: float) -> float:
    if not isfinite(at_low) or not isfinite(at_high) or at_low == at_high:
        return (low + high) / 2.0
    return low + (high - low) * at_low / (at_low - at_high)
