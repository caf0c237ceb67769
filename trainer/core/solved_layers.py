"""What every solution of a balance of layers shares: following the air in time, and doing so by powers."""

from __future__ import annotations

import math
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
_ORDERS = np.arange(_SERIES_TERMS_COUNT, dtype=np.float64)[:, np.newaxis]
# Products of two numbers above this stay clear of those that the processor handles a hundred times slower; no
# answer sees an air fraction so small.
_LEAST_FRAC = 1e-150
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
        return _Stepped(self, start_air_frac)

    def terms_of(self, excess: Floats) -> Floats:
        """The terms of the series for a start.

        (I + A / q)^m x / m!

        Args:
            excess [-]: x, air fraction by layer above the steady one
        Returns:
            [-] layers by terms

        Reference: as the class.
        """
        terms = np.empty((excess.size, _SERIES_TERMS_COUNT))
        term, following = excess[:, np.newaxis].copy(), np.empty((excess.size, 1))
        terms[:, :1] = term
        for order in range(1, _SERIES_TERMS_COUNT):
            self._hand_on(term, into=following)
            following /= order
            terms[:, order : order + 1] = following
            term, following = following, term
        return terms

    def after(self, terms: Floats, elapsed_s: Floats) -> Floats:
        """The air above the steady state after some times.

        Args:
            terms [-]: the terms of the series for the start
            elapsed_s [s]: times
        Returns:
            [-] layers by times
        Raises:
            OutOfRange: for more steps than there are doublings

        Reference: as the class.
        """
        steps = elapsed_s * self._fastest_per_s
        _STEPS.check(float(steps.min(initial=0.0)))
        _STEPS.check(float(steps.max(initial=0.0)))
        whole = np.floor(steps)
        part = steps - whole
        return self._long_step(terms @ (np.exp(-part) * part**_ORDERS), whole)

    def _long_step(self, air_frac: Floats, whole_steps: Floats) -> Floats:
        if whole_steps.size == 1:
            return self._long_step_of_one(air_frac, int(whole_steps[0]))
        left, doubling = whole_steps.copy(), 0
        by_time = np.ascontiguousarray(air_frac.T)
        while left.any():
            odd = np.mod(left, 2.0) == 1.0
            if odd.any():
                by_time[odd] = by_time[odd] @ self._power(doubling).T
            left = np.floor(left / 2.0)
            doubling += 1
        return by_time.T

    def _long_step_of_one(self, air_frac: Floats, left: int) -> Floats:
        """The same for a single time, of which searches ask one after the other."""
        doubling = 0
        while left:
            if left & 1:
                air_frac = np.asarray(self._power(doubling) @ air_frac)
            left >>= 1
            doubling += 1
        return air_frac

    def _power(self, doubling: int) -> Floats:
        while len(self._powers) <= doubling:
            power = self._powers[-1] @ self._powers[-1] if self._powers else self._one_step()
            power[power < _LEAST_FRAC] = 0.0
            self._powers.append(power)
        return self._powers[doubling]

    def _one_step(self) -> Floats:
        count = self.steady_air_frac.size
        total: Floats = np.eye(count) * math.exp(-1.0)
        term, following = total.copy(), np.empty_like(total)
        for order in range(1, _SERIES_TERMS_COUNT):
            self._hand_on(term, into=following)
            following /= order
            total += following
            term, following = following, term
        return total


class _Stepped:
    """The air fractions by powers; the terms of the start are found when first asked."""

    def __init__(self, solution: PoweredLayers, start_air_frac: Floats) -> None:
        self._solution = solution
        self._excess = start_air_frac - solution.steady_air_frac

    @cached_property
    def _terms(self) -> Floats:
        return self._solution.terms_of(self._excess)

    def __call__(self, elapsed_s: Floats) -> Floats:
        steady = self._solution.steady_air_frac[:, np.newaxis]
        # A start below the steady state is a negative excess: rounding may end on either side of 0.
        return np.asarray(np.maximum(steady + self._solution.after(self._terms, elapsed_s), 0.0))
