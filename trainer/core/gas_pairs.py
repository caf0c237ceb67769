"""Diffusion of one gas in another: the table where it holds the pair, Fuller's formula where it does not."""

import math

from trainer.core.gas import REFERENCE_TEMPERATURE_K, TEMPERATURE, fuller_diffusivity_m2_s
from trainer.core.tables import table_rows


def pair_diffusivity_m2_s(symbol: str, other: str, *, temperature_k: float) -> float:
    """Diffusion coefficient of a pair of gases at one atmosphere.

    D = D_293 (T / 293.15 K)^1.75

    Args:
        symbol [text]: one gas of data/gases.csv
        other [text]: the other one; their order does not matter
        temperature_k [K]: T
    Returns:
        [m2/s] diffusion coefficient
    Raises:
        UnknownGas: for a gas that the tables do not hold
        OutOfRange: for a temperature outside 230 to 400 K
    Valid: within 4 % from 273 to 373 K for tabulated pairs, 10 % for the others.

    Example:
        >>> round(pair_diffusivity_m2_s("O2", "I1", temperature_k=293.15) * 1e4, 3)
        0.187

    Reference: CRC Handbook of Chemistry and Physics, "Diffusion in gases"; else Fuller et al. 1966.
    """
    TEMPERATURE.check(temperature_k)
    pair = {symbol, other}
    tabulated = [
        float(row["diffusivity_m2_s"])
        for row in table_rows("diffusion_pairs")
        if {row["gas"], row["other"]} == pair
    ]
    at_reference = tabulated[0] if tabulated else fuller_diffusivity_m2_s(symbol, other)
    return at_reference * math.pow(temperature_k / REFERENCE_TEMPERATURE_K, 1.75)
