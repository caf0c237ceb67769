"""The root of many level sections at once: by few slow modes where they tell it, by all modes elsewhere."""

from __future__ import annotations

from dataclasses import fields

import numpy as np
from numpy.typing import NDArray

from trainer.core.column import Floats
from trainer.core.layer_stack import Indices, LayerStack, ModeStack, log_scale_of
from trainer.core.level_stack import BalanceStack
from trainer.core.slow_modes import SlowModes, slow_modes

# Both keep the answers to 1e-9 of those by all modes: an air fraction as such, a time by that of its level.
_DOUBTED_FRAC = 1e-10
_GENTLE_SPREAD = 4.0
_ROUNDING_RATIO = 1e-12


class RootStack:
    """Air at the root of many level sections, every one starting full of air.

    Where nothing leaks and the purge gas enters each layer no more strongly than the one below, the layer
    farthest from the pool holds the most air at any time: a birth-death process keeps that order. A balance
    whose `log_spread` passes MODES_UP_TO is not answered here.

    Args:
        balances [record]: the balances
        level_frac [-]: for each balance, the air fraction to be timed
        earliest_s [s]: for each balance, the earliest modelled time that is asked

    Reference: Keilson and Kester, Stoch. Process. Appl. 5 (1977) 231 (monotone processes); `slow_modes`.
    """

    def __init__(self, balances: BalanceStack, *, level_frac: Floats, earliest_s: Floats) -> None:
        log_scale = log_scale_of(balances)
        self.log_spread = np.ptp(log_scale, axis=1)
        gentle = self.log_spread <= _GENTLE_SPREAD
        # Without its scale a sharp front stays finite; all modes answer for it.
        log_scale[~gentle] = 0.0
        modes = slow_modes(balances, log_scale=log_scale)
        self._few = ModeStack(
            rate_per_s=modes.rate_per_s,
            shape_frac=modes.amplitude_frac[:, np.newaxis, :],
            steady_frac=np.zeros((len(log_scale), 1)),
            is_usable=gentle,
        )
        self.last_time_above_s = self._few.last_time_above_s(level_frac)
        certain = (
            gentle
            & _farthest_is_worst(balances)
            & (_doubt_frac(modes, earliest_s) <= _DOUBTED_FRAC)
            & (_doubt_frac(modes, self.last_time_above_s) <= _DOUBTED_FRAC * level_frac)
        )
        self._doubted: Indices = np.flatnonzero(~certain)
        if self._doubted.size:
            self._all = LayerStack(_some(balances, self._doubted))
            self.last_time_above_s[self._doubted] = self._all.last_time_above_s(level_frac[self._doubted])

    def root_air_frac(self, time_s: Floats) -> Floats:
        """Worst air fraction of each root at several times.

        max over the layers of c(t)

        Args:
            time_s [s]: modelled times, one row for each balance, none before the earliest
        Returns:
            [-] worst air fractions, of the shape of the times

        Reference: own definition.
        """
        air_frac = self._few.root_air_frac(time_s)
        if self._doubted.size:
            air_frac[self._doubted] = self._all.root_air_frac(time_s[self._doubted])
        return air_frac


def _farthest_is_worst(balances: BalanceStack) -> NDArray[np.bool_]:
    # What leaves a layer but is not made good by its neighbours' air was replaced by purge gas.
    purged_m3_s = balances.loss_m3_s.copy()
    purged_m3_s[:, 1:] -= balances.rise_m3_s
    purged_m3_s[:, :-1] -= balances.fall_m3_s
    rounding_per_s = _ROUNDING_RATIO * (balances.loss_m3_s / balances.volume_m3).max(axis=1, keepdims=True)
    weakens = np.diff(purged_m3_s / balances.volume_m3, axis=1) <= rounding_per_s
    return np.asarray(weakens.all(axis=1) & ~balances.leak_m3_s.any(axis=1))


def _doubt_frac(modes: SlowModes, time_s: Floats) -> Floats:
    """What the modes may be wrong by at a time, and no more than that later; without end at no known time."""
    doubt = (modes.doubt_frac * np.exp(-modes.rate_per_s * time_s[:, np.newaxis])).sum(axis=1)
    return np.where(np.isfinite(time_s), doubt, np.inf)


def _some(balances: BalanceStack, rows: Indices) -> BalanceStack:
    return BalanceStack(**{field.name: getattr(balances, field.name)[rows] for field in fields(balances)})
