"""The layers of many balances at once, from sections full of air: one stack of symmetric eigenproblems."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from trainer.core.column import Floats
from trainer.core.layer_solution import MODES_UP_TO
from trainer.core.level_stack import BalanceStack

Indices = NDArray[np.intp]

_NEWTON_ROUNDS_COUNT = 100
_NEARLY_FRAC = 1e-13
_AT_FIRST = 1e-6  # earliest guess, of the time that the slowest mode lasts


class ModeStack:
    """Air in places of many sections, every one starting full of air, as sums of decaying modes.

    c(t) = c_steady + shape exp(-lambda t),  for all sections together

    Args:
        rate_per_s [1/s]: lambda, the slowest first, one row for each section
        shape_frac [-]: air fraction of each mode in each place at time 0, by section, place and mode
        steady_frac [-]: air fraction that each place ends at
        is_usable [bool]: whether a section's modes keep their digits

    Reference: as `layer_solution.ModeSolution`, whose equations these are.
    """

    def __init__(
        self, *, rate_per_s: Floats, shape_frac: Floats, steady_frac: Floats, is_usable: NDArray[np.bool_]
    ) -> None:
        self._rate_per_s, self._shape, self._steady = rate_per_s, shape_frac, steady_frac
        self._is_usable = is_usable

    def root_air_frac(self, time_s: Floats) -> Floats:
        """Worst air fraction of each section's places at several times.

        max over the places of c(t)

        Args:
            time_s [s]: modelled times, one row for each section
        Returns:
            [-] worst air fractions, of the shape of the times

        Reference: own definition.
        """
        decay = np.exp(-self._rate_per_s[:, np.newaxis, :] * time_s[:, :, np.newaxis])
        air = np.matmul(decay, self._shape.transpose(0, 2, 1)) + self._steady[:, np.newaxis, :]
        # Cancelling modes leave rounding of either sign around 0, where no fraction can lie.
        return np.asarray(np.maximum(air.max(axis=2), 0.0))

    def last_time_above_s(self, air_frac: Floats) -> Floats:
        """The time from which each root holds no more than an air fraction.

        ln max c(t) = ln level, by Newton between bounds that only close in

        Args:
            air_frac [-]: one level for each section
        Returns:
            [s] modelled times; 0 where it never holds more, infinite where it always does

        Reference: Press et al., Numerical Recipes, section 9.4 (Newton kept between bounds).
        """
        time_s = np.full(air_frac.shape, np.inf)
        time_s[air_frac >= 1.0] = 0.0
        falls = (air_frac < 1.0) & (air_frac > 0.0) & (self._steady.max(axis=1) < air_frac)
        rows = np.flatnonzero(falls & self._is_usable)
        if rows.size:
            time_s[rows] = self._crossing_s(air_frac[rows], rows)
        return time_s

    def _crossing_s(self, level: Floats, rows: Indices) -> Floats:
        early, late = np.zeros(rows.size), np.full(rows.size, np.inf)
        found, still = self._slowest_mode_s(level, rows), np.arange(rows.size)
        for _ in range(_NEWTON_ROUNDS_COUNT):
            time_s = found[still]
            log_excess, slope = self._log_excess(time_s, level[still], rows[still])
            above = log_excess > 0.0
            early[still[above]], late[still[~above]] = time_s[above], time_s[~above]
            found[still] = _kept_between(time_s - log_excess / slope, early[still], late[still])
            still = still[np.abs(found[still] - time_s) > _NEARLY_FRAC * found[still]]
            if not still.size:
                break
        return found

    def _slowest_mode_s(self, level: Floats, rows: Indices) -> Floats:
        """When the slowest mode alone would be down to the level: near the answer for a low one."""
        left = level - self._steady[rows].max(axis=1)
        amplitude = np.abs(self._shape[rows, :, 0]).max(axis=1)
        guess = np.log(np.maximum(amplitude / left, 1.1)) / self._rate_per_s[rows, 0]
        return np.asarray(np.maximum(guess, _AT_FIRST / self._rate_per_s[rows, 0]))

    def _log_excess(self, time_s: Floats, level: Floats, rows: Indices) -> tuple[Floats, Floats]:
        """ln(root / level) and how fast it changes."""
        decay = np.exp(-self._rate_per_s[rows] * time_s[:, np.newaxis])
        air = self._steady[rows] + np.matmul(self._shape[rows], decay[:, :, np.newaxis])[:, :, 0]
        worst = air.argmax(axis=1)
        fall_per_s = (self._shape[rows, worst] * self._rate_per_s[rows] * decay).sum(axis=1)
        # The floor lies far below any level, and keeps an empty root finite.
        root = np.maximum(air[np.arange(rows.size), worst], 1e-300)
        return np.log(root / level), np.minimum(-fall_per_s / root, -1e-300)


class LayerStack(ModeStack):
    """Air in the layers of many balances with as many layers each, every one starting full of air.

    c(t) = c_steady + s Phi exp(-lambda t) Phi' (1 - c_steady) / s,  for all balances together

    Args:
        balances [record]: the balances

    Reference: as `layer_solution.ModeSolution`, whose equations these are.
    """

    def __init__(self, balances: BalanceStack) -> None:
        log_scale = log_scale_of(balances)
        self.log_spread = np.ptp(log_scale, axis=1)
        usable = self.log_spread <= MODES_UP_TO
        # A stack too sharp for modes is not asked for its answers; without its scale it stays finite.
        log_scale[~usable] = 0.0
        scale = np.exp(log_scale) / np.sqrt(balances.volume_m3)
        steady = _steady_air_frac(balances)
        rate_per_s, modes = np.linalg.eigh(_symmetric(balances))
        weights = np.matmul(((1.0 - steady) / scale)[:, np.newaxis, :], modes)
        super().__init__(
            rate_per_s=rate_per_s,
            shape_frac=scale[:, :, np.newaxis] * modes * weights,
            steady_frac=steady,
            is_usable=usable,
        )


def _kept_between(guess: Floats, early: Floats, late: Floats) -> Floats:
    """Newton's guess, or the middle of what is left where it strays; doubled while nothing lies beyond."""
    unbounded = np.isinf(late)
    middle = np.where(unbounded, 2.0 * early, 0.5 * (early + late))
    inside = (guess >= early) & (guess <= np.where(unbounded, 4.0 * early, late))
    return np.where(inside, guess, middle)


def log_scale_of(balances: BalanceStack) -> Floats:
    """Logarithm of the scaling that makes each balance symmetric, but for the volumes.

    ln s_k = sum over the faces below of ln(rise / fall) / 2

    Args:
        balances [record]: the balances
    Returns:
        [-] logarithms, from 0; a spread beyond any use where an exchange is 0 to all digits

    Example:
        >>> from trainer.core.layers import Mixing
        >>> from trainer.core.level_stack import level_balances, level_columns
        >>> from trainer.core.purge_case import BASE_CASE
        >>> hard = Mixing(diffusivity_m2_s=100.0, stirring_m2_s=0.0)
        >>> stack = level_balances(level_columns([BASE_CASE]), rows=[0], flows_m3_s=[2.5e-4], mixings=[hard])
        >>> float(np.ptp(log_scale_of(stack))) < 1e-5
        True

    Reference: birth-death processes, Karlin and McGregor, Trans. Am. Math. Soc. 85 (1957) 489.
    """
    # A coefficient that underflows to 0 gives an infinite or undefined scaling, which no mode can serve.
    with np.errstate(divide="ignore", invalid="ignore"):
        half = 0.5 * (np.log(balances.rise_m3_s) - np.log(balances.fall_m3_s))
        scale = np.concatenate((np.zeros((len(half), 1)), np.cumsum(half, axis=1)), axis=1)
    scale[~np.isfinite(scale).all(axis=1)] = np.linspace(0.0, 2.0 * MODES_UP_TO, scale.shape[1])
    return scale


def _symmetric(balances: BalanceStack) -> Floats:
    count = balances.volume_m3.shape[1]
    matrix = np.zeros((len(balances.volume_m3), count, count))
    layer = np.arange(count)
    matrix[:, layer, layer] = balances.loss_m3_s / balances.volume_m3
    # Only the lower triangle is read.
    exchange = np.sqrt(balances.rise_m3_s) * np.sqrt(balances.fall_m3_s)
    root_volume = np.sqrt(balances.volume_m3)
    matrix[:, layer[1:], layer[:-1]] = -exchange / (root_volume[:, :-1] * root_volume[:, 1:])
    return matrix


def _steady_air_frac(balances: BalanceStack) -> Floats:
    steady = np.zeros_like(balances.volume_m3)
    leaky = np.flatnonzero(balances.leak_m3_s.any(axis=1))
    if leaky.size:
        layer = np.arange(steady.shape[1])
        matrix = np.zeros((leaky.size, layer.size, layer.size))
        matrix[:, layer, layer] = balances.loss_m3_s[leaky]
        matrix[:, layer[1:], layer[:-1]] = -balances.rise_m3_s[leaky]
        matrix[:, layer[:-1], layer[1:]] = -balances.fall_m3_s[leaky]
        steady[leaky] = np.linalg.solve(matrix, balances.leak_m3_s[leaky][:, :, np.newaxis])[:, :, 0]
    return steady
