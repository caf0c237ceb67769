"""What the closure goes by and what it gives, and how one rule passes over into another."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields

from trainer.core.terms import InletEnd


@dataclass(frozen=True, kw_only=True)
class Situation:
    """The dimensionless groups that the closure goes by.

    Args:
        end [text]: what the gas leaves the hose through
        rise_deg [deg]: how far the vent's end lies away from where the gas settles
        bulk_froude_ratio [-]: (Q/A) / sqrt(g' D)
        jet_length_ratio [-]: momentum length over bore, l_M / D
        length_ratio [-]: length over bore
        plume_fall_ratio [-]: height of the inlet above its pool, over bore
        density_difference_frac [-]: density difference over that of air

    Reference: momentum length after Turner, Buoyancy Effects in Fluids (1973), section 6.1.
    """

    end: InletEnd
    rise_deg: float
    bulk_froude_ratio: float
    jet_length_ratio: float
    length_ratio: float
    plume_fall_ratio: float
    density_difference_frac: float


@dataclass(frozen=True, kw_only=True)
class Stirring:
    """What one inlet does to the layers, and between which ratios of time the truth is expected.

    Args:
        exchange_ratio [-]: K A / (Q H)
        beyond_vent_ratio [-]: share of it left beyond the vent
        short_cut_ratio [-]: purge gas supplied over purge gas that takes part
        lower_ratio [-]: shortest time over the time modelled
        upper_ratio [-]: longest time over the time modelled
        vent_margin_ratio [-]: worst oxygen of the root over what a well-placed vent may read

    Reference: own definition.
    """

    exchange_ratio: float
    beyond_vent_ratio: float
    short_cut_ratio: float
    lower_ratio: float
    upper_ratio: float
    vent_margin_ratio: float


def smooth_step(value: float, *, start: float, end: float) -> float:
    """Smooth step from 0 at `start` to 1 at `end`, on a logarithmic scale.

    y = x^2 (3 - 2 x),  x = ln(value / start) / ln(end / start)

    Args:
        value [-]: positive number
        start [-]: where the step begins
        end [-]: where it is complete
    Returns:
        [-] share of the step

    Example:
        >>> round(smooth_step(math.sqrt(2.0), start=1.0, end=2.0), 6)
        0.5

    Reference: own definition.
    """
    if value <= start:
        return 0.0
    if value >= end:
        return 1.0
    x = math.log(value / start) / math.log(end / start)
    return x * x * (3.0 - 2.0 * x)


def geometric_mean(first: float, *, second: float, second_frac: float) -> float:
    """Weighted geometric mean of two numbers.

    m = a^(1 - w) b^w

    Args:
        first [-]: a
        second [-]: b
        second_frac [-]: w
    Returns:
        [-] mean; exactly a or b at the ends

    Example:
        >>> geometric_mean(1.0, second=4.0, second_frac=0.5)
        2.0

    Reference: definition.
    """
    return float(first ** (1.0 - second_frac) * second**second_frac)


def between(first: Stirring, *, second: Stirring, second_frac: float) -> Stirring:
    """The stirring between two, each number by the weighted geometric mean.

    Args:
        first [record]: one stirring
        second [record]: the other
        second_frac [-]: weight of the other
    Returns:
        [record] stirring

    Example:
        >>> from dataclasses import replace
        >>> weak = Stirring(exchange_ratio=1.0, beyond_vent_ratio=1.0, short_cut_ratio=1.0, lower_ratio=0.5,
        ...     upper_ratio=2.0, vent_margin_ratio=1.0)
        >>> between(weak, second=replace(weak, exchange_ratio=9.0), second_frac=0.5).exchange_ratio
        3.0

    Reference: own definition.
    """
    means = {
        field.name: geometric_mean(
            getattr(first, field.name), second=getattr(second, field.name), second_frac=second_frac
        )
        for field in fields(first)
    }
    return Stirring(**means)


def upright_frac(rise_deg: float) -> float:
    """How nearly upright a pipe stands.

    sin |rise|

    Args:
        rise_deg [deg]: slope, either way
    Returns:
        [-] exactly 0 when level and 1 when upright

    Example:
        >>> round(upright_frac(-30.0), 6)
        0.5

    Reference: own definition.
    """
    return math.sin(math.radians(abs(rise_deg)))
