"""The few slow modes that a purge's later course rests on, for many balances at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.core.level_stack import BalanceStack

SLOW_MODES_COUNT = 8
# The Krylov space is used up where the next vector is shorter than this share of the first: well-stirred
# layers fall as one, and what is left over is rounding.
_USED_UP_RATIO = 1e-12


@dataclass(frozen=True, kw_only=True)
class SlowModes:
    """The air of the last layer of many balances as sums of few decaying modes, one row for each balance.

    c(t) = sum amplitude exp(-rate t),  within sum doubt exp(-rate t)

    Args:
        rate_per_s [1/s]: how fast each mode decays, the slowest first
        amplitude_frac [-]: air fraction of each mode at time 0; 0 for one that is not there
        doubt_frac [-]: what each mode may add to the error, from its residual

    Reference: own definition.
    """

    rate_per_s: Floats
    amplitude_frac: Floats
    doubt_frac: Floats


def slow_modes(
    balances: BalanceStack, *, log_scale: Floats, modes_count: int = SLOW_MODES_COUNT
) -> SlowModes:
    """Few modes that stand for all: those of the inverse in a small Krylov space, where the slow ones lead.

    T = s^-1 A s symmetric,  T^-1 Q = Q H + beta q e',  c_N(t) = |u| s_N e_N' Q exp(-t H^-1) e_1,  u = s^-1 1,
    the residual beta e' H^-1 exp(-t H^-1) e_1 decaying as the modes do

    Args:
        balances [record]: balances of sections full of air, into which no air leaks
        log_scale [-]: logarithm of the scaling s that makes each balance symmetric, but for the volumes
        modes_count [-]: steps of Lanczos
    Returns:
        [record] modes of the last layer, and their doubt
    Valid: exact at time 0 and, by the doubt, soon after the first volume changes; poor in between.

    Example:
        >>> from trainer.core.layers import Mixing
        >>> from trainer.core.level_stack import level_balances, level_columns
        >>> from trainer.core.purge_case import BASE_CASE
        >>> hard = Mixing(diffusivity_m2_s=100.0, stirring_m2_s=0.0)
        >>> stack = level_balances(level_columns([BASE_CASE]), rows=[0], flows_m3_s=[2.5e-4], mixings=[hard])
        >>> found = slow_modes(stack, log_scale=np.zeros((1, 32)))
        >>> round(float(found.rate_per_s[0, 0]) * BASE_CASE.section.volume_m3 / 2.5e-4, 3)
        1.0

    Reference: van den Eshof and Hochbruck, SIAM J. Sci. Comput. 27 (2006) 1438 (Lanczos on a shifted inverse,
        here without a shift); Hochbruck and Lubich, SIAM J. Numer. Anal. 34 (1997) 1911 (the residual).
    """
    scale = np.exp(log_scale.T) / np.sqrt(balances.volume_m3.T)
    length = np.sqrt((scale**-2).sum(axis=0))
    projected, last_layer, beyond = _projected(_Inverse(balances), 1.0 / (scale * length), modes_count)
    lasting_s, modes = (each[..., ::-1] for each in np.linalg.eigh(projected))
    there = lasting_s > _USED_UP_RATIO * lasting_s[:, :1]
    rate_per_s = 1.0 / np.where(there, lasting_s, lasting_s[:, :1])
    at_start = np.where(there, modes[:, 0, :] * (length * scale[-1])[:, np.newaxis], 0.0)
    return SlowModes(
        rate_per_s=rate_per_s,
        amplitude_frac=np.matmul(last_layer[:, np.newaxis, :], modes)[:, 0, :] * at_start,
        doubt_frac=np.abs(beyond[:, np.newaxis] * modes[:, -1, :] * at_start) * rate_per_s,
    )


def _projected(inverse: _Inverse, first: Floats, count: int) -> tuple[Floats, Floats, Floats]:
    """Each inverse in the Krylov space of a vector, the last layers of that space, and what leads beyond."""
    projected = np.zeros((first.shape[1], count, count))
    basis: list[Floats] = []
    off, following = np.ones(first.shape[1]), first
    for step in range(count):
        basis.append(following * np.divide(1.0, off, out=np.zeros_like(off), where=off > 0.0))
        following = inverse.times(basis[-1])
        projected[:, step, step] = (following * basis[-1]).sum(axis=0)
        # Against all, or slow modes come back as ghosts of themselves and cast doubt on what is certain.
        for known in basis:
            following -= (following * known).sum(axis=0) * known
        off = np.sqrt((following * following).sum(axis=0))
        off[off <= _USED_UP_RATIO * projected[:, 0, 0]] = 0.0
        if step + 1 < count:
            projected[:, step + 1, step] = off
    return projected, np.array([vector[-1] for vector in basis]).T, off


class _Inverse:
    """Solves with the symmetric matrices of many balances, layers down the rows and balances along them."""

    def __init__(self, balances: BalanceStack) -> None:
        volume = np.ascontiguousarray(balances.volume_m3.T)
        exchange = np.sqrt(balances.rise_m3_s.T * balances.fall_m3_s.T / (volume[:-1] * volume[1:]))
        loss = balances.loss_m3_s.T / volume
        self._carried = np.empty_like(exchange)
        for layer in range(1, len(loss)):
            self._carried[layer - 1] = exchange[layer - 1] / loss[layer - 1]
            loss[layer] -= self._carried[layer - 1] * exchange[layer - 1]
        self._left = 1.0 / loss

    def times(self, vector: Floats) -> Floats:
        solved = vector.copy()
        for layer in range(1, len(solved)):
            solved[layer] += self._carried[layer - 1] * solved[layer - 1]
        solved *= self._left
        for layer in range(len(solved) - 2, -1, -1):
            solved[layer] += self._carried[layer] * solved[layer + 1]
        return solved
