"""What a slope does to the layers: stirring fades in a rising pipe, and gas runs down a falling one."""

from __future__ import annotations

import math

from trainer.core.closure import constant
from trainer.core.stirring_parts import Situation, upright_frac


def level_left_frac(situation: Situation) -> float:
    """How much of the stirring of a level pipe is left as the vent's end rises.

    1 / (1 + (r / 0.13)^1.5),  r = (L/D) tan(slope), the rise from end to end in bores

    Args:
        situation [record]: the groups
    Returns:
        [-] share; 1 when level or falling

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> level_left_frac(situation(BASE_CASE, flow_m3_s=2.5e-4))
        1.0

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    rise = max(0.0, _end_to_end_rise_ratio(situation))
    fades_from = constant("rising pipe, level stirring fades from")
    return 1.0 / (1.0 + math.pow(rise / fades_from, 1.5))


def running_down_frac(situation: Situation) -> float:
    """How far the flow in a falling pipe is that of gas running down its lower side, not that of a level one.

    r^2 / (r^2 + 0.105^2),  r = (L/D) tan(fall), the fall from end to end in bores

    Args:
        situation [record]: the groups
    Returns:
        [-] share; 0 when level or rising

    Example:
        >>> from dataclasses import replace
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> falling = replace(situation(BASE_CASE, flow_m3_s=2.5e-4), rise_deg=-5.0)
        >>> round(running_down_frac(falling), 2)
        0.91

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    fall = max(0.0, -_end_to_end_rise_ratio(situation))
    return 1.0 - 1.0 / (1.0 + (fall / constant("falling pipe, gas runs down from")) ** 2)


def left_beyond_frac(situation: Situation) -> float:
    """How much of the stirring beyond the vent is left in a falling pipe.

    0.45^(share running down)

    Args:
        situation [record]: the groups
    Returns:
        [-] share; 1 when level or rising

    Example:
        >>> from dataclasses import replace
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> falling = replace(situation(BASE_CASE, flow_m3_s=2.5e-4), rise_deg=-5.0)
        >>> round(left_beyond_frac(falling), 2)
        0.49

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    return float(constant("left beyond the vent, falling pipe") ** running_down_frac(situation))


def gentle_short_cut_ratio(situation: Situation) -> float:
    """Purge gas supplied over what takes part, where a gentle flow runs down to the vent of a falling pipe.

    ln s = m [1 - exp(-9.3 F_b^0.76 / m)] (share running down) (1 - sin(fall)),  m = 1.0

    Args:
        situation [record]: the groups
    Returns:
        [-] ratio; 1 when level or rising

    Example:
        >>> from dataclasses import replace
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> falling = replace(situation(BASE_CASE, flow_m3_s=2.5e-4), rise_deg=-5.0)
        >>> round(gentle_short_cut_ratio(falling), 2)
        1.31

    Reference: three-dimensional simulation, tests/reference/purge_3d.csv.
    """
    most = constant("short cut, falling pipe, most")
    power = constant("short cut, falling pipe, power of bulk Froude")
    grown = constant("short cut, falling pipe") * situation.bulk_froude_ratio**power
    return math.exp(most * -math.expm1(-grown / most) * _running_past_frac(situation))


def weak_jet_short_cut_ratio(situation: Situation) -> float:
    """The same for a weak jet, which throws its gas down the slope whatever the flow.

    ln s = ln 1.30 (share running down) (1 - sin(fall))

    Args:
        situation [record]: the groups
    Returns:
        [-] ratio; 1 when level or rising

    Example:
        >>> from dataclasses import replace
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> falling = replace(situation(BASE_CASE, flow_m3_s=2.5e-4), rise_deg=-5.0)
        >>> round(weak_jet_short_cut_ratio(falling), 2)
        1.24

    Reference: no simulated row of its kind was fitted; by analogy with gentle flow.
    """
    return float(constant("short cut, falling pipe, weak jet") ** _running_past_frac(situation))


def flatness_ratio(situation: Situation) -> float:
    """What turns K L/Q into K A/(Q H) in a sloping section.

    A / (L H) = [cos + (pi/4) sin / (L/D)] / [cos + (L/D) sin]

    Args:
        situation [record]: the groups
    Returns:
        [-] ratio; 1 when level

    Example:
        >>> from trainer.core.purge_case import BASE_CASE
        >>> from trainer.core.purge_groups import situation
        >>> flatness_ratio(situation(BASE_CASE, flow_m3_s=2.5e-4))
        1.0

    Reference: geometry.
    """
    sine, cosine = upright_frac(situation.rise_deg), math.cos(math.radians(situation.rise_deg))
    length = situation.length_ratio
    return (cosine + math.pi / 4.0 * sine / length) / (cosine + length * sine)


def _running_past_frac(situation: Situation) -> float:
    return running_down_frac(situation) * (1.0 - upright_frac(situation.rise_deg))


def _end_to_end_rise_ratio(situation: Situation) -> float:
    if abs(situation.rise_deg) == 90.0:
        return math.copysign(math.inf, situation.rise_deg)
    return situation.length_ratio * math.tan(math.radians(situation.rise_deg))
