"""The air in the layers at any time, exact in time: by eigenmodes, or by powers where a front stays sharp."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.column import Floats
from trainer.core.layers import LayerBalance
from trainer.core.solved_layers import Following, PoweredLayers, SolvedLayers

# The scaling that makes the balance symmetric spans exp(half the sum of flow over conductance) and rounding
# grows with it, so past e^11 (6e4, errors near 1e-11) powers take over from modes.
MODES_UP_TO = 11.0


@dataclass(frozen=True, kw_only=True)
class _Modes:
    rate_per_s: Floats
    shape: Floats
    projection: Floats


class ModeSolution(SolvedLayers):
    """The air in the layers as a sum of decaying eigenmodes.

    c(t) = c_steady + s Phi exp(-lambda t) Phi' (c_0 - c_steady) / s,  s symmetrising M / V

    Args:
        balance [record]: the balance of air at one flow

    Reference: birth-death processes, Karlin and McGregor, Trans. Am. Math. Soc. 85 (1957) 489.
    """

    def __init__(self, balance: LayerBalance) -> None:
        super().__init__(steady_air_frac(balance))
        self._balance = balance

    @cached_property
    def _modes(self) -> _Modes:
        """Solved when first followed: of many a flow only the steady state is asked."""
        from scipy.linalg import eigh_tridiagonal  # noqa: PLC0415 (slow to import, and few commands need it)

        balance = self._balance
        rate_per_s, modes = eigh_tridiagonal(*_symmetric(balance), check_finite=False)
        scale = np.exp(_log_scale(balance)) / np.sqrt(balance.volume_m3)
        return _Modes(rate_per_s=rate_per_s, shape=scale[:, np.newaxis] * modes, projection=modes.T / scale)

    @property
    def slowest_per_s(self) -> float:
        """Rate of the slowest mode, that of the tail in the end.

        Returns:
            [1/s] rate
        """
        return float(self._modes.rate_per_s[0])

    def follow(self, start_air_frac: Floats) -> Following:
        """The air fractions as a function of elapsed times.

        Args:
            start_air_frac [-]: air fraction by layer at time 0
        Returns:
            [-] function of times in seconds, giving layers by times

        Reference: own definition.
        """
        return _Followed(self, start_air_frac)

    def shape_from(self, start_air_frac: Floats) -> tuple[Floats, Floats]:
        """The modes as a start excites them.

        Args:
            start_air_frac [-]: air fraction by layer at time 0
        Returns:
            [1/s] rates, as a column, and the air fraction of each mode by layer

        Reference: own definition.
        """
        modes = self._modes
        excited = modes.projection @ (start_air_frac - self.steady_air_frac)
        return modes.rate_per_s[:, np.newaxis], modes.shape * excited


class _Followed:
    """The air fractions by modes; what a start excites is found when first asked."""

    def __init__(self, solution: ModeSolution, start_air_frac: Floats) -> None:
        self._solution, self._start_air_frac = solution, start_air_frac
        self._steady = solution.steady_air_frac[:, np.newaxis]

    @cached_property
    def _excited(self) -> tuple[Floats, Floats]:
        return self._solution.shape_from(self._start_air_frac)

    def __call__(self, elapsed_s: Floats) -> Floats:
        rate_per_s, shape = self._excited
        # Cancelling modes leave rounding of either sign around 0, where no fraction can lie.
        return np.asarray(np.maximum(self._steady + shape @ np.exp(-rate_per_s * elapsed_s), 0.0))


class PowerSolution(PoweredLayers):
    """The air in the layers of one column by powers: as `PoweredLayers`, for a matrix that is tridiagonal.

    Args:
        balance [record]: the balance of air at one flow

    Reference: as `PoweredLayers`.
    """

    def __init__(self, balance: LayerBalance) -> None:
        self._balance = balance
        volume = balance.volume_m3
        fastest_per_s = float((balance.loss_m3_s / volume).max())
        super().__init__(steady_air_frac(balance), fastest_per_s=fastest_per_s)
        self._keep = (1.0 - balance.loss_m3_s / (volume * fastest_per_s))[:, np.newaxis]
        self._from_below = (balance.rise_m3_s / (volume[1:] * fastest_per_s))[:, np.newaxis]
        self._from_above = (balance.fall_m3_s / (volume[:-1] * fastest_per_s))[:, np.newaxis]

    @cached_property
    def slowest_per_s(self) -> float:
        """Rate of the slowest mode, that of the tail in the end; unlike its shape it needs no scaling.

        Returns:
            [1/s] rate
        """
        from scipy.linalg import eigvalsh_tridiagonal  # noqa: PLC0415 (as above)

        slowest = eigvalsh_tridiagonal(
            *_symmetric(self._balance), select="i", select_range=(0, 0), check_finite=False
        )
        return float(slowest[0])

    def _hand_on(self, air_frac: Floats, *, into: Floats) -> None:
        np.multiply(self._keep, air_frac, out=into)
        into[1:] += self._from_below * air_frac[:-1]
        into[:-1] += self._from_above * air_frac[1:]


def solve_layers(balance: LayerBalance) -> ModeSolution | PowerSolution:
    """The solution of a balance by the route that keeps its digits.

    Args:
        balance [record]: the balance of air at one flow
    Returns:
        [record] eigenmodes where the scaling stays within e^11, powers beyond

    Example:
        >>> from trainer.core.gas_column import one_layer
        >>> from trainer.core.layers import Mixing, layer_balance
        >>> from trainer.core.purge_case import BASE_CASE
        >>> still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
        >>> balance = layer_balance(one_layer(BASE_CASE), flow_m3_s=2.5e-4, mixing=still)
        >>> solution = solve_layers(balance)
        >>> one_change = np.array([BASE_CASE.section.volume_m3 / 2.5e-4])
        >>> solution.follow(np.ones(1))(one_change).round(4).tolist()
        [[0.3679]]

    Reference: own definition; both routes agree to 1e-9 where they meet.
    """
    scale = _log_scale(balance)
    spread = scale.max() - scale.min() if np.isfinite(scale).all() else np.inf
    return ModeSolution(balance) if spread <= MODES_UP_TO else PowerSolution(balance)


def steady_air_frac(balance: LayerBalance) -> Floats:
    """The air fraction that each layer ends at: none without in-leaks.

    M c = b

    Args:
        balance [record]: the balance of air at one flow
    Returns:
        [-] air fraction by layer

    Example:
        >>> from trainer.core.gas_column import one_layer
        >>> from trainer.core.layers import Mixing, layer_balance
        >>> from trainer.core.purge_case import BASE_CASE
        >>> still = Mixing(diffusivity_m2_s=1.9e-5, stirring_m2_s=0.0)
        >>> balance = layer_balance(one_layer(BASE_CASE), flow_m3_s=2.5e-4, mixing=still)
        >>> steady_air_frac(balance).tolist()
        [0.0]

    Reference: own definition.
    """
    if not balance.leak_m3_s.any():
        return np.zeros_like(balance.volume_m3)
    matrix = np.diag(balance.loss_m3_s) - np.diag(balance.rise_m3_s, -1) - np.diag(balance.fall_m3_s, 1)
    return np.asarray(np.linalg.solve(matrix, balance.leak_m3_s), dtype=np.float64)


def _symmetric(balance: LayerBalance) -> tuple[Floats, Floats]:
    """The balance made symmetric by scaling: its diagonal and the one beside it."""
    root_volume = np.sqrt(balance.volume_m3)
    exchange = np.sqrt(balance.rise_m3_s) * np.sqrt(balance.fall_m3_s)
    return balance.loss_m3_s / balance.volume_m3, -exchange / (root_volume[:-1] * root_volume[1:])


def _log_scale(balance: LayerBalance) -> Floats:
    """Logarithm of the scaling: half the sum of ln(rise / fall), which is half of flow over conductance."""
    # A coefficient that underflows to 0 gives an infinite or undefined scaling, which no mode can serve.
    with np.errstate(divide="ignore", invalid="ignore"):
        half = 0.5 * (np.log(balance.rise_m3_s) - np.log(balance.fall_m3_s))
        return np.concatenate(([0.0], np.cumsum(half)))
