"""How a gentle inlet stirs the layers at any slope: level, filling from the low end, or running down."""

from __future__ import annotations

import math
from dataclasses import replace

from trainer.core.closure import constant
from trainer.core.stirring_parts import (
    Situation,
    Stirring,
    between,
    geometric_mean,
    smooth_step,
    upright_frac,
)


def gentle_stirring(situation: Situation) -> Stirring:
    """The stirring of a diffuser, from the dimensionless groups and the slope.

    rising: K L/Q = (level) exp(-slope / 4 deg) + (4/pi) 0.005 (L/D) sin(slope), the last of an upright fill;
    falling: K L/Q = (level) cos(slope) + 25 (L H/A) sin^3(slope), and a quarter of the gas takes a short cut

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

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv; no standard gives these figures.
    """
    level = _gentle_level(situation)
    upright = (_gentle_filling if situation.rise_deg > 0.0 else _gentle_falling)(situation)
    share = upright_frac(situation.rise_deg)
    # Exact at the ends, which have rows of their own.
    if share in (0.0, 1.0):
        return upright if share else level
    return (_rising if situation.rise_deg > 0.0 else _falling)(situation, level, upright)


def falling_short_cut_ratio(rise_deg: float) -> float:
    """Purge gas supplied over what takes part, where gas runs down to the vent along a falling pipe.

    s = 1.30^[1 - exp(rise / 2 deg)],  fading out as cos does towards upright

    Args:
        rise_deg [deg]: slope as the gas sees it, negative when falling
    Returns:
        [-] ratio; 1 when level or rising

    Example:
        >>> round(falling_short_cut_ratio(-5.0), 2)
        1.25

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    if rise_deg >= 0.0:
        return 1.0
    running = running_down_frac(rise_deg) * (1.0 - upright_frac(rise_deg))
    return float(constant("short cut, falling pipe") ** running)


def running_down_frac(rise_deg: float) -> float:
    """How far the flow in a falling pipe is that of gas running down its lower side, not that of a level one.

    1 - exp(rise / 2 deg)

    Args:
        rise_deg [deg]: slope as the gas sees it, negative when falling
    Returns:
        [-] share; 0 when level or rising

    Example:
        >>> round(running_down_frac(-5.0), 2)
        0.92

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    return 1.0 - math.exp(min(rise_deg, 0.0) / constant("falling pipe, gas runs down over"))


def _rising(situation: Situation, level: Stirring, upright: Stirring) -> Stirring:
    left = math.exp(-situation.rise_deg / constant("rising pipe, level stirring fades over"))
    share = upright_frac(situation.rise_deg)
    per_flow = level.exchange_ratio * left
    per_flow += constant("upright fill, over u D") * 4.0 / math.pi * situation.length_ratio * share
    mean = between(level, second=upright, second_frac=share)
    return replace(
        mean,
        exchange_ratio=per_flow * _flatness_ratio(situation),
        beyond_vent_ratio=geometric_mean(1.0, second=level.beyond_vent_ratio, second_frac=left),
    )


def _falling(situation: Situation, level: Stirring, upright: Stirring) -> Stirring:
    share = upright_frac(situation.rise_deg)
    mean = between(level, second=upright, second_frac=share)
    beyond = geometric_mean(
        level.beyond_vent_ratio,
        second=constant("left beyond the vent, falling pipe"),
        second_frac=running_down_frac(situation.rise_deg),
    )
    return replace(
        mean,
        exchange_ratio=level.exchange_ratio * _flatness_ratio(situation) * _cosine(situation)
        + upright.exchange_ratio * share ** constant("falling pipe, power of its plume"),
        beyond_vent_ratio=geometric_mean(beyond, second=upright.beyond_vent_ratio, second_frac=share**2),
        short_cut_ratio=mean.short_cut_ratio * falling_short_cut_ratio(situation.rise_deg),
    )


def _flatness_ratio(situation: Situation) -> float:
    """A / (L H) of the sloping section, which turns K L/Q into K A/(Q H)."""
    sine = upright_frac(situation.rise_deg)
    cosine = _cosine(situation)
    length = situation.length_ratio
    return (cosine + math.pi / 4.0 * sine / length) / (cosine + length * sine)


def _cosine(situation: Situation) -> float:
    return math.cos(math.radians(situation.rise_deg))


def _gentle_level(situation: Situation) -> Stirring:
    through_flow = (
        constant("gentle stirring")
        * situation.bulk_froude_ratio ** constant("gentle stirring, power of bulk Froude")
        * situation.length_ratio ** constant("gentle stirring, power of length over bore")
    )
    plume = constant("falling plume, per bore of fall") * situation.plume_fall_ratio
    fast_frac = smooth_step(
        situation.bulk_froude_ratio,
        start=constant("bulk Froude, gentle flow is fast from"),
        end=constant("bulk Froude, gentle flow is fast at"),
    )
    return Stirring(
        exchange_ratio=min(through_flow, constant("gentle stirring, most")) + plume,
        beyond_vent_ratio=constant("left beyond the vent"),
        short_cut_ratio=1.0,
        lower_ratio=geometric_mean(
            constant("gentle, lower"), second=constant("gentle, fast flow, lower"), second_frac=fast_frac
        ),
        upper_ratio=geometric_mean(
            constant("gentle, upper"), second=constant("gentle, fast flow, upper"), second_frac=fast_frac
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
        short_cut_ratio=constant("short cut, upright, gentle inlet above"),
        lower_ratio=constant("upright, gentle inlet above, lower"),
        upper_ratio=constant("upright, gentle inlet above, upper"),
        vent_margin_ratio=constant("root over vent, gentle"),
    )
