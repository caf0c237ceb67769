"""The balance of air between the horizontal layers of a dammed section."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.column import Column, Floats


@dataclass(frozen=True, kw_only=True)
class Mixing:
    """How strongly the layers exchange.

    Args:
        diffusivity_m2_s [m2/s]: molecular diffusion of the gas in air
        stirring_m2_s [m2/s]: stirring below the vent, on top of it
        beyond_vent_ratio [-]: share of the stirring that is left where no gas flows upwards
        short_cut_ratio [-]: purge gas supplied over what takes part; the rest leaves unmixed

    Reference: own definition.
    """

    diffusivity_m2_s: float
    stirring_m2_s: float
    beyond_vent_ratio: float = 1.0
    short_cut_ratio: float = 1.0


@dataclass(frozen=True, kw_only=True)
class LayerBalance:
    """The linear balance of air  V dc/dt = -M c + b  of a column at one flow.

    Args:
        volume_m3 [m3]: V, by layer
        rise_m3_s [m3/s]: what layer k hands to layer k + 1 for each unit of its own air fraction
        fall_m3_s [m3/s]: what layer k + 1 hands to layer k for each unit of its own
        exit_m3_s [m3/s]: outflow from each layer
        vent_m3_s [m3/s]: the part of it that leaves through the vent
        vent_frac [-]: share of the outflow through the vent that leaves each layer
        leak_m3_s [m3/s]: b, air leaking into each layer
        outflow_m3_s [m3/s]: everything that leaves through the vent, unmixed purge gas included

    Reference: Scharfetter and Gummel, IEEE Trans. Electron Devices 16 (1969) 64, for the fluxes.
    """

    volume_m3: Floats
    rise_m3_s: Floats
    fall_m3_s: Floats
    exit_m3_s: Floats
    vent_m3_s: Floats
    vent_frac: Floats
    leak_m3_s: Floats
    outflow_m3_s: float

    @cached_property
    def loss_m3_s(self) -> Floats:
        """Diagonal of M: all that leaves a layer for each unit of its air fraction.

        Returns:
            [m3/s] loss, by layer
        """
        loss = self.exit_m3_s.copy()
        loss[:-1] += self.rise_m3_s
        loss[1:] += self.fall_m3_s
        return loss

    def rate_per_s(self, air_frac: Floats) -> Floats:
        """Rate of change of the air fraction in each layer.

        dc_k/dt = [rise_(k-1) c_(k-1) + fall_k c_(k+1) - loss_k c_k + b_k] / V_k

        Args:
            air_frac [-]: c, by layer
        Returns:
            [1/s] dc/dt, by layer

        Reference: own definition; linear in c.
        """
        change = self.leak_m3_s - self.loss_m3_s * air_frac
        change[1:] += self.rise_m3_s * air_frac[:-1]
        change[:-1] += self.fall_m3_s * air_frac[1:]
        return np.asarray(change / self.volume_m3)

    def vent_air_frac(self, air_frac: Floats) -> Floats:
        """Air fraction of the gas that leaves through the vent, unmixed purge gas included.

        c_vent = sum(O_k c_k) / (Q + leaks); of what stands at the vent when nothing leaves

        Args:
            air_frac [-]: c by layer (rows) and time (columns)
        Returns:
            [-] air fraction at the vent for each time

        Reference: own definition.
        """
        if self.outflow_m3_s == 0.0:
            return np.asarray(self.vent_frac @ air_frac)
        return np.asarray(self.vent_m3_s @ air_frac / self.outflow_m3_s)

    @cached_property
    def is_closed(self) -> bool:
        """Whether nothing enters or leaves, so that the air only spreads.

        Returns:
            [bool] true when closed
        """
        return not (self.exit_m3_s.any() or self.leak_m3_s.any())


def bernoulli(x_ratio: Floats) -> Floats:
    """Bernoulli function of the exponentially fitted flux, for x >= 0.

    B(x) = x / (exp(x) - 1), by its series 1 - x/2 + x^2/12 near 0

    Args:
        x_ratio [-]: flow over conductance, not negative
    Returns:
        [-] B(x); B(-x) is B(x) + x

    Example:
        >>> bernoulli(np.array([0.0, 1.0])).round(6).tolist()
        [1.0, 0.581977]

    Reference: Scharfetter and Gummel, IEEE Trans. Electron Devices 16 (1969) 64.
    """
    small = x_ratio < 1e-4
    # Past 700 the exponential overflows while B is 0 to all digits.
    safe = np.clip(x_ratio, 1e-4, 700.0)
    return np.where(small, 1.0 - x_ratio / 2.0 + x_ratio**2 / 12.0, safe / np.expm1(safe))


def layer_balance(column: Column, *, flow_m3_s: float, mixing: Mixing) -> LayerBalance:
    """The balance of air between the layers of a column at one flow.

    F = G [B(-W/G) c_below - B(W/G) c_above],  G = A (D + K) / dz,  W = what enters less what leaves below

    Args:
        column [record]: the layers
        flow_m3_s [m3/s]: purge gas supplied
        mixing [record]: diffusion and stirring
    Returns:
        [record] the balance
    Valid: any ratio of flow to exchange; the fitted flux keeps every coefficient positive.

    Example:
        >>> from trainer.core.gas_column import gas_column
        >>> from trainer.core.purge_case import BASE_CASE
        >>> still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
        >>> balance = layer_balance(gas_column(BASE_CASE), flow_m3_s=2.5e-4, mixing=still)
        >>> bool((balance.rise_m3_s > balance.fall_m3_s).all())
        True

    Reference: Scharfetter and Gummel, IEEE Trans. Electron Devices 16 (1969) 64.
    """
    mixed_flow = flow_m3_s / mixing.short_cut_ratio
    vent = column.exit_frac * (mixed_flow + column.through_leak_m3_s)
    exits = vent + column.returned_m3_s
    upward = np.cumsum(column.supply_frac * mixed_flow + column.leak_m3_s - exits)[:-1]
    # Stirring fades with the share of the outflow that has already left below, so a vent half way across a
    # layer counts half.
    share_left = 1.0 - np.cumsum(column.exit_frac)[:-1]
    fading = mixing.beyond_vent_ratio + (1.0 - mixing.beyond_vent_ratio) * share_left
    conductance = column.exchange_length_m * (mixing.diffusivity_m2_s + mixing.stirring_m2_s * fading)
    fitted = bernoulli(np.abs(upward) / conductance) * conductance
    return LayerBalance(
        volume_m3=column.volume_m3,
        rise_m3_s=fitted + np.maximum(upward, 0.0),
        fall_m3_s=fitted + np.maximum(-upward, 0.0),
        exit_m3_s=exits,
        vent_m3_s=vent,
        vent_frac=column.exit_frac,
        leak_m3_s=column.leak_m3_s,
        outflow_m3_s=flow_m3_s + column.through_leak_m3_s,
    )
