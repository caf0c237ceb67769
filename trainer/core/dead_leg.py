"""A dead leg: a closed high point without a vent, which only diffusion at its mouth can clear."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.core.gas import O2_IN_DRY_AIR_FRAC

_TERMS_COUNT = 6
_IMAGES_COUNT = 3
# Up to here the images of the mouth converge at once, beyond it the modes do.
_EARLY = 0.2
# Up to here what leaves a leg is what leaves an endless one, to 1e-6.
_FIRST_IMAGE = 0.05
_EARLIEST = 3e-3
# From here on the terms after the first are nothing beside it, and are kept from numbers slow to handle.
_LATEST = 5.0


@dataclass(frozen=True, kw_only=True)
class DeadLeg:
    """A part of a spool that the purge gas passes by.

    Args:
        place [text]: name of the part at its closed end
        mouth [text]: name of the part at its mouth
        volume_m3 [m3]: volume beyond the mouth
        length_m [m]: from the mouth to the place farthest from it
        mouth_above_m [m]: height of the mouth above the side where the gas settles
        diffusivity_m2_s [m2/s]: of the gas in air
        source_o2_frac [-]: oxygen in the purge gas

    Reference: own definition.
    """

    place: str
    mouth: str
    volume_m3: float
    length_m: float
    mouth_above_m: float
    diffusivity_m2_s: float
    source_o2_frac: float

    def time_to(self, o2_frac: float) -> float | None:
        """Time that the closed end alone needs, the purge gas standing pure at the mouth from the start.

        x_O2 = x_source + (0.2095 - x_source) c(D t / L^2)

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time, 0 for more than air holds; None for the source's own oxygen or less

        Reference: as `closed_end_air_frac`.
        """
        from scipy.optimize import brentq  # noqa: PLC0415 (slow to import, and few commands need it)

        wanted = (o2_frac - self.source_o2_frac) / (O2_IN_DRY_AIR_FRAC - self.source_o2_frac)
        if wanted <= 0.0:
            return None
        if wanted >= float(closed_end_air_frac(np.array([_EARLIEST]))[0]):
            return 0.0

        def excess(log_tau: float) -> float:
            return math.log(float(closed_end_air_frac(np.array([math.exp(log_tau)]))[0]) / wanted)

        # Before the earliest nothing has come to the closed end that a number could hold; the latest is past
        # the time of the first mode alone.
        latest = 4.0 / math.pi**2 * math.log(4.0 / math.pi / wanted) + 1.0
        log_tau = brentq(excess, math.log(_EARLIEST), math.log(latest), xtol=1e-12)
        return math.exp(float(log_tau)) * self._diffusing_s

    def air_frac(self, elapsed_s: Floats) -> Floats:
        """Air fraction at the closed end after the mouth has been held free of air for some time.

        Args:
            elapsed_s [s]: times since
        Returns:
            [-] air fractions

        Reference: as `closed_end_air_frac`.
        """
        return closed_end_air_frac(elapsed_s / self._diffusing_s)

    def mean_air_frac(self, elapsed_s: Floats) -> Floats:
        """Air fraction averaged over the leg after the mouth has been held free of air for some time.

        Args:
            elapsed_s [s]: times since
        Returns:
            [-] air fractions

        Reference: as `mean_leg_air_frac`.
        """
        return mean_leg_air_frac(elapsed_s / self._diffusing_s)

    @property
    def _diffusing_s(self) -> float:
        return self.length_m**2 / self.diffusivity_m2_s


def closed_end_air_frac(tau_ratio: Floats) -> Floats:
    """Air fraction at the closed end of a leg full of air, whose mouth is held free of it.

    c = (4/pi) sum (-1)^k / (2k+1) exp[-(2k+1)^2 pi^2 tau / 4] = 1 - 2 sum (-1)^k erfc[(2k+1) / (2 sqrt(tau))]

    Args:
        tau_ratio [-]: D t / L^2
    Returns:
        [-] air fractions

    Example:
        >>> closed_end_air_frac(np.array([0.0, 0.1, 1.0])).round(4).tolist()
        [1.0, 0.9493, 0.108]

    Reference: Crank, The Mathematics of Diffusion, 2nd ed. (1975), equations 2.3.9 and 2.3.8, half a slab.
    """
    tau = np.asarray(tau_ratio, dtype=np.float64)
    early = tau < _EARLY
    air = np.empty_like(tau)
    air[early] = _end_by_images(np.maximum(tau[early], 1e-9))
    air[~early] = _end_by_modes(tau[~early])
    return air


def mean_leg_air_frac(tau_ratio: Floats) -> Floats:
    """Air fraction averaged over a leg full of air, whose mouth is held free of it.

    c = 8/pi^2 sum 1/(2k+1)^2 exp[-(2k+1)^2 pi^2 tau / 4] = 1 - 2 sqrt(tau) [1/sqrt(pi) + 2 sum (-1)^n
    ierfc(n / sqrt(tau))]

    Args:
        tau_ratio [-]: D t / L^2
    Returns:
        [-] air fractions

    Example:
        >>> mean_leg_air_frac(np.array([0.0, 0.1, 1.0])).round(4).tolist()
        [1.0, 0.6432, 0.0687]

    Reference: Crank, The Mathematics of Diffusion, 2nd ed. (1975), equations 4.18 and 4.20, half a sheet; the
    images are below 1e-6 where they are left out.
    """
    tau = np.maximum(np.asarray(tau_ratio, dtype=np.float64), 0.0)
    early = tau < _FIRST_IMAGE
    air = np.empty_like(tau)
    air[early] = 1.0 - 2.0 * np.sqrt(tau[early] / math.pi)
    air[~early] = 8.0 / math.pi**2 * sum(term / odd**2 for odd, term in _decayed(tau[~early]))
    return air


def _end_by_images(tau: Floats) -> Floats:
    from scipy.special import erfc  # noqa: PLC0415 (slow to import, and few commands need it)

    air = np.ones_like(tau)
    for n in range(_IMAGES_COUNT):
        air -= 2.0 * (-1.0) ** n * erfc((2 * n + 1) / (2.0 * np.sqrt(tau)))
    return air


def _end_by_modes(tau: Floats) -> Floats:
    signed = (term / odd if odd % 4 == 1 else -term / odd for odd, term in _decayed(tau))
    return np.asarray(4.0 / math.pi * sum(signed))


def _decayed(tau: Floats) -> Iterator[tuple[int, Floats]]:
    """exp(-n^2 pi^2 tau / 4) for odd n, each from the one before, the squares being 4 (n + 1) apart."""
    eighth = np.exp(-2.0 * math.pi**2 * np.minimum(tau, _LATEST))
    step, term = eighth, np.exp(-(math.pi**2) / 4.0 * tau)
    for k in range(_TERMS_COUNT):
        yield 2 * k + 1, term
        term, step = term * step, step * eighth
