"""What every solution of a balance of layers shares: following the air in time, and doing so by powers."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from functools import cached_property

import numpy as np

from trainer.core.column import Floats
from trainer.core.errors import Limits

Following = Callable[[Floats], Floats]

# What has not come about after thirty thousand years never does: no question waits longer than this, so that
# the doublings below are bounded.
LONGEST_S = 1e12
_SERIES_TERMS_COUNT = 20
_MOST_DOUBLINGS_COUNT = 80
_STEPS = Limits(
    quantity="time over that of the fastest exchange between layers",
    unit="",
    low=0.0,
    high=2.0**_MOST_DOUBLINGS_COUNT,
    why="each doubling keeps a matrix of all layers; a layer that empties so fast holds next to nothing",
)


class SolvedLayers(ABC):
    """The air in layers at any time, from any start, exact in time.

    c(t) = c_steady + exp(A t) (c_0 - c_steady)

    Args:
        steady_air_frac [-]: c_steady, by layer

    Reference: own definition.
    """

    def __init__(self, steady_air_frac: Floats) -> None:
        self.steady_air_frac = steady_air_frac

    @property
    @abstractmethod
    def slowest_per_s(self) -> float:
        """Rate of the slowest mode, that of the tail in the end.

        Returns:
            [1/s] rate
        """

    @abstractmethod
    def follow(self, start_air_frac: Floats) -> Following:
        """The air fractions as a function of elapsed times.

        Args:
            start_air_frac [-]: air fraction by layer at time 0
        Returns:
            [-] function of times in seconds, giving layers by times

        Reference: own definition.
        """

    @cached_property
    def from_full_of_air(self) -> Following:
        """The air fractions from layers full of air, for all that ask.

        Returns:
            [-] function of times in seconds, giving layers by times
        """
        return self.follow(np.ones_like(self.steady_air_frac))


class PoweredLayers(SolvedLayers):
    """The air in layers by powers of a matrix without negative entries, so that nothing cancels.

    exp(A t) = E_0^(b_0) E_1^(b_1) ... exp(A r),  E_k = exp(A 2^k / q),  r < 1/q,
    exp(A r) = exp(-q r) sum (q r)^m / m! (I + A / q)^m,  q the fastest rate

    Args:
        steady_air_frac [-]: air fraction that each layer ends at
        fastest_per_s [1/s]: q

    Reference: Jensen, Skand. Aktuarietidskr. 36 (1953) 87 (uniformisation); scaling and squaring.
    """

    def __init__(self, steady_air_frac: Floats, *, fastest_per_s: float) -> None:
        super().__init__(steady_air_frac)
        self._fastest_per_s = fastest_per_s
        self._powers: list[Floats] = []

    @abstractmethod
    def _hand_on(self, air_frac: Floats, *, into: Floats) -> None:
        """Fills in (I + A / q) c for the columns of c."""

    def follow(self, start_air_frac: Floats) -> Following:
        """The air fractions as a function of elapsed times.

        Args:
            start_air_frac [-]: air fraction by layer at time 0
        Returns:
            [-] function of times in seconds, giving layers by times

        Reference: own definition.
        """
        steady = self.steady_air_frac[:, np.newaxis]
        excess = start_air_frac[:, np.newaxis] - steady

        def air_frac(elapsed_s: Floats) -> Floats:
            steps = elapsed_s * self._fastest_per_s
            _STEPS.check(float(steps.min(initial=0.0)))
            _STEPS.check(float(steps.max(initial=0.0)))
            whole = np.floor(steps)
            air = self._short_step(np.repeat(excess, elapsed_s.size, axis=1), steps - whole)
            # A start below the steady state is a negative excess: rounding may end on either side of 0.
            return np.asarray(np.maximum(steady + self._long_step(air, whole), 0.0))

        return air_frac

    def _short_step(self, air_frac: Floats, steps: Floats) -> Floats:
        term = air_frac * np.exp(-steps)
        total, following = term.copy(), np.empty_like(term)
        for order in range(1, _SERIES_TERMS_COUNT):
            self._hand_on(term, into=following)
            following *= steps / order
            total += following
            term, following = following, term
        return total

    def _long_step(self, air_frac: Floats, whole_steps: Floats) -> Floats:
        left, doubling = whole_steps.copy(), 0
        while left.any():
            odd = np.mod(left, 2.0) == 1.0
            if odd.any():
                air_frac[:, odd] = self._power(doubling) @ air_frac[:, odd]
            left = np.floor(left / 2.0)
            doubling += 1
        return air_frac

    def _power(self, doubling: int) -> Floats:
        while len(self._powers) <= doubling:
            self._powers.append(self._powers[-1] @ self._powers[-1] if self._powers else self._one_step())
        return self._powers[doubling]

    def _one_step(self) -> Floats:
        count = self.steady_air_frac.size
        return self._short_step(np.eye(count), np.ones(count))
