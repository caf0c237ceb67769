"""The air in a chain of stages at any time, by powers of a matrix without negative entries."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from trainer.core.chain_balance import ChainBalance
from trainer.core.column import Floats
from trainer.core.solved_layers import PoweredLayers


class ChainSolution(PoweredLayers):
    """The air in all layers of a chain: as `PoweredLayers`, for a matrix that is not tridiagonal.

    Args:
        balance [record]: the balance at one flow

    Reference: as `PoweredLayers`.
    """

    def __init__(self, balance: ChainBalance) -> None:
        self._balance = balance
        fastest_per_s = float(-balance.rate_per_s.diagonal().min())
        super().__init__(_steady_air_frac(balance), fastest_per_s=fastest_per_s)
        self._handed_on = np.eye(balance.leak_per_s.size) + balance.rate_per_s / fastest_per_s

    @cached_property
    def slowest_per_s(self) -> float:
        """Rate of the slowest mode, that of the tail in the end.

        Returns:
            [1/s] rate
        """
        return float(-np.linalg.eigvals(self._balance.rate_per_s).real.max())

    def _hand_on(self, air_frac: Floats, *, into: Floats) -> None:
        np.matmul(self._handed_on, air_frac, out=into)


def _steady_air_frac(balance: ChainBalance) -> Floats:
    """The air fraction that each layer ends at: none without in-leaks."""
    if not balance.leak_per_s.any():
        return np.zeros_like(balance.leak_per_s)
    return np.asarray(np.linalg.solve(-balance.rate_per_s, balance.leak_per_s), dtype=np.float64)
