"""The line that leads a sample to the oxygen analyser, and the air that a leak in it mixes in."""

from trainer.core.errors import Limits
from trainer.core.gas import O2_IN_DRY_AIR_FRAC

_SHARE = Limits(
    quantity="share of air in the sample", unit="", low=0.0, high=1.0, why="the sample is gas, air, or both"
)
_OXYGEN = Limits(quantity="oxygen sampled", unit="", low=0.0, high=1.0, why="oxygen is a fraction of the gas")


def sampled_o2_frac(o2_frac: float, *, air_share_frac: float = 0.0) -> float:
    """Oxygen that an analyser sees at the end of a line which draws in room air on the way.

    x_seen = (1 - a) x + a 0.2095

    Args:
        o2_frac [-]: x, oxygen where the line takes its sample, mole fraction
        air_share_frac [-]: a, share of what arrives that is room air; 0 for a tight line
    Returns:
        [-] mole fraction of oxygen
    Raises:
        OutOfRange: for a share or an oxygen that is no fraction
    Valid: the leak keeps its share; how large a share a fault makes has no published figure.

    Example:
        >>> round(sampled_o2_frac(50e-6, air_share_frac=0.01), 7)
        0.0021445

    Reference: mass balance.
    """
    _OXYGEN.check(o2_frac)
    _SHARE.check(air_share_frac)
    return (1.0 - air_share_frac) * o2_frac + air_share_frac * O2_IN_DRY_AIR_FRAC
