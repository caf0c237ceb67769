"""The air in a chain of stages at any time, by powers of a matrix without negative entries."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from trainer.core.chain_balance import ChainBalance
from trainer.core.column import Floats
from trainer.core.layer_solution import Following

_SERIES_TERMS_COUNT = 20


class ChainSolution:
    """The air in all layers of a chain, exact in time.

    c(t) = c_steady + exp(A t) (c_0 - c_steady), by uniformisation, scaling and squaring

    Args:
        balance [record]: the balance at one flow

    Reference: Jensen, Skand. Aktuarietidskr. 36 (1953) 87 (uniformisation); as `PowerSolution`, for a matrix
        that is not tridiagonal.
    """

    def __init__(self, balance: ChainBalance) -> None:
        self._balance = balance
        self._fastest_per_s = float(-balance.rate_per_s.diagonal().min())
        self._moved = np.eye(balance.leak_per_s.size) + balance.rate_per_s / self._fastest_per_s
        self._powers: list[Floats] = []

    @cached_property
    def steady_air_frac(self) -> Floats:
        """The air fraction that each layer ends at: none without in-leaks.

        Returns:
            [-] air fraction by layer
        """
        leak_per_s = self._balance.leak_per_s
        if not leak_per_s.any():
            return np.zeros_like(leak_per_s)
        return np.asarray(np.linalg.solve(-self._balance.rate_per_s, leak_per_s))

    @cached_property
    def slowest_per_s(self) -> float:
        """Rate of the slowest mode, that of the tail in the end.

        Returns:
            [1/s] rate
        """
        return float(-np.linalg.eigvals(self._balance.rate_per_s).real.max())

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
            whole = np.floor(steps)
            air = self._short_step(np.repeat(excess, elapsed_s.size, axis=1), steps - whole)
            # A start below the steady state is a negative excess: rounding may end on either side of 0.
            return np.asarray(np.maximum(steady + self._long_step(air, whole), 0.0))

        return air_frac

    @cached_property
    def from_full_of_air(self) -> Following:
        """The air fractions from a chain full of air, for all that ask.

        Returns:
            [-] function of times in seconds, giving layers by times
        """
        return self.follow(np.ones_like(self.steady_air_frac))

    def _short_step(self, air_frac: Floats, steps: Floats) -> Floats:
        term = air_frac * np.exp(-steps)
        total = term.copy()
        for order in range(1, _SERIES_TERMS_COUNT):
            term = self._moved @ term * (steps / order)
            total += term
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
            if self._powers:
                self._powers.append(self._powers[-1] @ self._powers[-1])
            else:
                identity = np.eye(self._moved.shape[0])
                self._powers.append(self._short_step(identity, np.ones(self._moved.shape[0])))
        return self._powers[doubling]
