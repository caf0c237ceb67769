"""How a gentle inlet stirs the layers at any slope: level, filling from the low end, or running down."""

from __future__ import annotations

import math
from dataclasses import replace

from trainer.core.certainty import fast_frac, gentle_widening_ratio, less_sure
from trainer.core.closure import constant
from trainer.core.slope_effects import (
    flatness_ratio,
    gentle_short_cut_ratio,
    left_beyond_frac,
    level_left_frac,
)
from trainer.core.stirring_parts import Situation, Stirring, between, geometric_mean, upright_frac

# The entrained flow of a plume grows with height as (1 + z / z_0)^(5/3), z_0 for the gas that it starts with.
_PLUME_POWER = 5.0 / 3.0


def gentle_stirring(situation: Situation) -> Stirring:
    """The stirring of a diffuser, from the dimensionless groups and the slope.

    level: K L/Q = min(8.0 F_b^1.03 (L/D)^0.23, 0.25) + p,  p = 0.28 [(1 + 0.357 s F_b^-0.4)^(5/3) - 1];
    rising: K L/Q = (level less p) / (1 + (r / 0.13)^1.5) + p cos^2(slope) (L H/A)^0.5
    + (4/pi) 0.005 (L/D) sin(slope), with r = (L/D) tan(slope);
    falling: K L/Q = (level) cos(slope) + 25 (L H/A) sin^3(slope), and part of the gas takes a short cut;
    beyond the vent K = 0.006 u D + 0.185 p Q/L, u = Q / (pi D^2/4)

    Args:
        situation [record]: the groups
    Returns:
        [record] stirring
    Valid: as `closure`.

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> round(gentle_stirring(situation(BASE_CASE, flow_m3_s=2.5e-4)).exchange_ratio, 3)
        0.152

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv; the plume after Morton, Taylor and
        Turner, Proc. R. Soc. A 234 (1956) 1.
    """
    plume = _plume_ratio(situation)
    level = _gentle_level(situation, plume_ratio=plume)
    stirring = _on_a_slope(situation, level, plume_ratio=plume) if situation.rise_deg else level
    plume_share = plume / level.exchange_ratio * (1.0 - upright_frac(situation.rise_deg)) if plume else 0.0
    return less_sure(stirring, widening_ratio=gentle_widening_ratio(situation, plume_share_frac=plume_share))


def _on_a_slope(situation: Situation, level: Stirring, *, plume_ratio: float) -> Stirring:
    rises = situation.rise_deg > 0.0
    upright = (_gentle_filling if rises else _gentle_falling)(situation)
    # Exact when upright, which has rows of its own.
    if upright_frac(situation.rise_deg) == 1.0:
        return upright
    if rises:
        return _rising(situation, level, upright, plume_ratio=plume_ratio)
    return _falling(situation, level, upright)


def _rising(situation: Situation, level: Stirring, upright: Stirring, *, plume_ratio: float) -> Stirring:
    share = upright_frac(situation.rise_deg)
    flatness = flatness_ratio(situation)
    # A plume stirs the slices that it falls through, however far the pipe goes on: were it spread over the
    # height and again over what lies beside it, a longer section would be purged sooner.
    plume = plume_ratio * math.cos(math.radians(situation.rise_deg)) ** 2 / math.sqrt(flatness)
    per_flow = (level.exchange_ratio - plume_ratio) * level_left_frac(situation) + plume
    per_flow += constant("upright fill, over u D") * _over_u_d(situation) * share
    return replace(
        between(level, second=upright, second_frac=share),
        exchange_ratio=per_flow * flatness,
        beyond_vent_ratio=_no_more_than_below(
            _beyond_ratio(situation, plume_ratio=plume), below_ratio=per_flow
        ),
    )


def _falling(situation: Situation, level: Stirring, upright: Stirring) -> Stirring:
    share = upright_frac(situation.rise_deg)
    mean = between(level, second=upright, second_frac=share)
    cosine = math.cos(math.radians(situation.rise_deg))
    return replace(
        mean,
        exchange_ratio=level.exchange_ratio * flatness_ratio(situation) * cosine
        + upright.exchange_ratio * share ** constant("falling pipe, power of its plume"),
        beyond_vent_ratio=geometric_mean(
            level.beyond_vent_ratio * left_beyond_frac(situation),
            second=upright.beyond_vent_ratio,
            second_frac=share**2,
        ),
        short_cut_ratio=mean.short_cut_ratio * gentle_short_cut_ratio(situation),
    )


def _over_u_d(situation: Situation) -> float:
    """u D over Q/L: what turns K / (u D) into K L/Q."""
    return 4.0 / math.pi * situation.length_ratio


def _plume_ratio(situation: Situation) -> float:
    """What gas falling from its inlet to the pool stirs, as K L/Q."""
    if situation.bulk_froude_ratio == 0.0:
        return 0.0
    drawn_in = constant("falling plume, drawn in") * situation.plume_fall_ratio
    grown = math.pow(1.0 + drawn_in * situation.bulk_froude_ratio**-0.4, _PLUME_POWER) - 1.0
    return constant("falling plume, over what it draws in") * grown


def _beyond_ratio(situation: Situation, *, plume_ratio: float) -> float:
    """K L/Q beyond the vent: what any flow through the pipe stirs, and what a plume draws from there."""
    flow = constant("stirring beyond the vent, over u D") * _over_u_d(situation)
    return flow + constant("left of a plume beyond the vent") * plume_ratio


def _no_more_than_below(beyond_ratio: float, *, below_ratio: float) -> float:
    """Share of the stirring beyond the vent: what the flow stirs below it, it does not stir more beyond."""
    return beyond_ratio / below_ratio if beyond_ratio < below_ratio else 1.0


def _gentle_level(situation: Situation, *, plume_ratio: float) -> Stirring:
    through_flow = min(
        constant("gentle stirring")
        * situation.bulk_froude_ratio ** constant("gentle stirring, power of bulk Froude")
        * situation.length_ratio ** constant("gentle stirring, power of length over bore"),
        constant("gentle stirring, most"),
    )
    beyond = _beyond_ratio(situation, plume_ratio=plume_ratio)
    fast = fast_frac(situation)
    return Stirring(
        exchange_ratio=through_flow + plume_ratio,
        beyond_vent_ratio=_no_more_than_below(beyond, below_ratio=through_flow + plume_ratio),
        short_cut_ratio=1.0,
        lower_ratio=geometric_mean(
            constant("gentle, lower"), second=constant("gentle, fast flow, lower"), second_frac=fast
        ),
        upper_ratio=geometric_mean(
            constant("gentle, upper"), second=constant("gentle, fast flow, upper"), second_frac=fast
        ),
        vent_margin_ratio=constant("root over vent, gentle"),
    )


def _gentle_filling(situation: Situation) -> Stirring:
    return Stirring(
        # K = a u D, and K A / (Q H) = K / (u L).
        exchange_ratio=constant("upright fill, over u D") / situation.length_ratio,
        beyond_vent_ratio=1.0,
        short_cut_ratio=1.0,
        lower_ratio=constant("upright fill, lower"),
        upper_ratio=constant("upright fill, upper"),
        vent_margin_ratio=1.0,
    )


def _gentle_falling(_: Situation) -> Stirring:
    return Stirring(
        exchange_ratio=constant("strong jet"),
        beyond_vent_ratio=1.0,
        short_cut_ratio=constant("short cut, strong jet"),
        lower_ratio=constant("upright, gentle inlet above, lower"),
        upper_ratio=constant("upright, gentle inlet above, upper"),
        vent_margin_ratio=constant("root over vent, gentle"),
    )
