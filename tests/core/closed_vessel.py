"""Washout of a closed vessel with axial dispersion, by the series of Danckwerts."""

import math
from functools import cache

import numpy as np
from scipy.optimize import brentq

_POINTS, _WEIGHTS = np.polynomial.legendre.leggauss(400)
_PLACE = (1.0 + _POINTS) / 2.0
_TERMS_COUNT = 60


def closed_vessel_air_frac(place_frac: float, volume_changes: float, peclet: float) -> float:
    """What is left at a place of what filled the vessel at the start.

    dc/dn = c''/Pe - c',  c(0) = c'(0)/Pe,  c'(1) = 0  (Danckwerts, Chem. Eng. Sci. 2 (1953) 1)
    with w = exp(-Pe x / 2) c:  w_k = cos(b x) + Pe/(2 b) sin(b x),  tan b = b Pe / (b^2 - Pe^2/4)
    """
    half = peclet / 2.0
    b, start_over_norm = _modes(peclet)
    shape = np.cos(b * place_frac) + half / b * np.sin(b * place_frac)
    decay = np.exp(-(b * b + half * half) / peclet * volume_changes)
    return float((start_over_norm * decay * shape).sum() * math.exp(half * place_frac))


@cache
def _modes(peclet: float) -> tuple[np.ndarray, np.ndarray]:
    half = peclet / 2.0

    def condition(b: float) -> float:
        return 2.0 * half * b * math.cos(b) - (b * b - half * half) * math.sin(b)

    roots = [
        brentq(condition, k * math.pi + 1e-9, (k + 1) * math.pi - 1e-9, xtol=1e-14)
        for k in range(_TERMS_COUNT)
    ]
    b = np.array(roots)[:, np.newaxis]
    shape = np.cos(b * _PLACE) + half / b * np.sin(b * _PLACE)
    start = (shape * np.exp(-half * _PLACE)) @ (_WEIGHTS / 2.0)
    norm = shape**2 @ (_WEIGHTS / 2.0)
    return b[:, 0], start / norm
