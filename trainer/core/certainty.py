"""How much wider the interval of a purge is where no run, or few, lie near."""

from __future__ import annotations

from dataclasses import replace

from trainer.core.closure import constant
from trainer.core.slope_effects import level_left_frac, running_down_frac
from trainer.core.stirring_parts import Situation, Stirring, smooth_step, upright_frac


def less_sure(stirring: Stirring, *, widening_ratio: float) -> Stirring:
    """The same stirring with a wider interval.

    lower' = lower^w,  upper' = upper^w

    Args:
        stirring [record]: the stirring
        widening_ratio [-]: w, 1 for the interval that it has
    Returns:
        [record] stirring

    Example:
        >>> even = Stirring(exchange_ratio=1.0, beyond_vent_ratio=1.0, short_cut_ratio=1.0, lower_ratio=0.5,
        ...     upper_ratio=2.0, vent_margin_ratio=1.0)
        >>> less_sure(even, widening_ratio=2.0).upper_ratio
        4.0

    Reference: own definition; the closure error of a purge is a ratio of times.
    """
    if widening_ratio == 1.0:
        return stirring
    return replace(
        stirring,
        lower_ratio=stirring.lower_ratio**widening_ratio,
        upper_ratio=stirring.upper_ratio**widening_ratio,
    )


def gentle_widening_ratio(situation: Situation, *, plume_share_frac: float) -> float:
    """How much wider the interval of a gentle inlet is than that of the runs that it was set on.

    w = 1 + sum of what each step away from those runs adds

    Args:
        situation [record]: the groups
        plume_share_frac [-]: share of the stirring that comes from gas falling from the inlet
    Returns:
        [-] w, 1 for argon from a low diffuser in level pipe

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> gentle_widening_ratio(situation(BASE_CASE, flow_m3_s=2.5e-4), plume_share_frac=0.0)
        1.0

    Reference: own definition; the table says of each part how many runs it rests on.
    """
    return (
        1.0
        + constant("wider, gas falling from its inlet") * plume_share_frac
        + constant("wider, light gas") * _light_frac(situation)
        + (_gentle_slope_adds(situation) if situation.rise_deg else 0.0)
    )


def tube_widening_ratio(situation: Situation, *, sloping: str) -> float:
    """How much wider the interval of an open tube is than that of the runs that it was set on.

    w = 1 + sum of what each step away from those runs adds

    Args:
        situation [record]: the groups
        sloping [text]: the constant that says how much a slope adds
    Returns:
        [-] w, 1 for argon in level or upright pipe

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> tube_widening_ratio(situation(BASE_CASE, flow_m3_s=2.5e-4), sloping="wider, weak jet on a slope")
        1.0

    Reference: own definition; the table says of each part how many runs it rests on.
    """
    return (
        1.0
        + constant("wider, light gas") * _light_frac(situation)
        + (constant(sloping) * _sloping_frac(situation) if situation.rise_deg else 0.0)
    )


def fast_frac(situation: Situation) -> float:
    """How far a gentle flow is a fast one, whose last ribbon at the crown lingers and then goes at once.

    smooth step of F_b

    Args:
        situation [record]: the groups
    Returns:
        [-] share

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> fast_frac(situation(BASE_CASE, flow_m3_s=2.5e-4))
        0.0

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    return smooth_step(
        situation.bulk_froude_ratio,
        start=constant("bulk Froude, gentle flow is fast from"),
        end=constant("bulk Froude, gentle flow is fast at"),
    )


def _gentle_slope_adds(situation: Situation) -> float:
    upright = upright_frac(situation.rise_deg)
    if situation.rise_deg > 0.0:
        rising = constant("wider, gentle flow in a rising pipe") * _sloping_frac(situation)
        return rising + constant("wider, fast flow in an upright pipe") * upright * fast_frac(situation)
    return constant("wider, gentle flow in a falling pipe") * _sloping_frac(situation)


def _sloping_frac(situation: Situation) -> float:
    """How far the flow is neither that of a level pipe nor that of an upright one."""
    off_level = 1.0 - level_left_frac(situation) + running_down_frac(situation)
    return off_level * (1.0 - upright_frac(situation.rise_deg))


def _light_frac(situation: Situation) -> float:
    """Helium against argon, by how far the gas differs from air."""
    return smooth_step(
        situation.density_difference_frac,
        start=constant("density difference over air, argon's kind up to"),
        end=constant("density difference over air, helium's kind from"),
    )
