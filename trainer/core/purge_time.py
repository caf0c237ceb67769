"""Time still to wait, from two readings of the analyser, and the gas that a purge uses."""

from __future__ import annotations

import math
from collections.abc import Sequence

from trainer.core.errors import Limits, OutOfRange
from trainer.core.purge_parts import FlowSegment


def wait_still_s(
    later_o2_frac: float,
    *,
    earlier_o2_frac: float,
    apart_s: float,
    target_o2_frac: float,
    floor_o2_frac: float = 0.0,
) -> float:
    """Time still to wait after the later of two readings, when the oxygen falls along an exponential tail.

    t = dt ln[(x_2 - f) / (x - f)] / ln[(x_1 - f) / (x_2 - f)]

    Args:
        later_o2_frac [-]: x_2, the later reading
        earlier_o2_frac [-]: x_1, the earlier reading
        apart_s [s]: dt, time between the two
        target_o2_frac [-]: x, oxygen wanted at the same place
        floor_o2_frac [-]: f, oxygen that time does not remove
    Returns:
        [s] time still to wait; 0 when the later reading is low enough
    Raises:
        OutOfRange: for readings that do not fall, one at or below the floor, a target that is not above the
            floor, or no time between the readings
    Valid: one flow, and past the first volume changes, when only the slowest decay is left; an analyser at
        the vent of a layered purge reads lower than the root.

    Example:
        >>> round(wait_still_s(0.01, earlier_o2_frac=0.1, apart_s=60.0, target_o2_frac=0.001), 6)
        60.0

    Reference: slowest mode of a linear system; one stirred tank in Levenspiel, Chemical Reaction Engineering.
    """
    Limits(
        quantity="time between the readings", unit="s", low=1e-6, why="take two readings, one later"
    ).check(apart_s)
    Limits(quantity="floor", unit="", low=0.0, high=1.0, why="oxygen is a fraction of the gas").check(
        floor_o2_frac
    )
    _above_floor("oxygen wanted", target_o2_frac, floor_o2_frac)
    _above_floor("later reading", later_o2_frac, floor_o2_frac)
    if not later_o2_frac < earlier_o2_frac <= 1.0:
        raise OutOfRange(
            "earlier reading",
            earlier_o2_frac,
            low=later_o2_frac,
            high=1.0,
            unit="",
            why="the oxygen does not fall between the readings; look for a leak before waiting longer",
        )
    if later_o2_frac <= target_o2_frac:
        return 0.0
    falling = math.log((earlier_o2_frac - floor_o2_frac) / (later_o2_frac - floor_o2_frac))
    to_fall = math.log((later_o2_frac - floor_o2_frac) / (target_o2_frac - floor_o2_frac))
    return apart_s * to_fall / falling


def gas_used_m3(segments: Sequence[FlowSegment]) -> float:
    """Purge gas that a chain of flows uses.

    V = sum(Q t)

    Args:
        segments [record]: the flows
    Returns:
        [m3] gas at the pipe's temperature and one atmosphere; infinite for an endless flow

    Example:
        >>> gas_used_m3([FlowSegment(flow_m3_s=2.5e-4, duration_s=60.0)])
        0.015

    Reference: sum.
    """
    return math.fsum(segment.flow_m3_s * segment.duration_s for segment in segments)


def volume_changes_count(time_s: float, *, flow_m3_s: float, volume_m3: float) -> float:
    """How many times the purge gas could have filled the section.

    n = Q t / V

    Args:
        time_s [s]: t, time at this flow
        flow_m3_s [m3/s]: Q, purge gas
        volume_m3 [m3]: V, volume between the dams
    Returns:
        [-] volume changes
    Raises:
        OutOfRange: for a volume of nothing

    Example:
        >>> round(volume_changes_count(144.0, flow_m3_s=2.5e-4, volume_m3=0.012), 6)
        3.0

    Reference: definition.
    """
    Limits(quantity="volume between the dams", unit="m3", low=1e-12, why="there has to be a section").check(
        volume_m3
    )
    return flow_m3_s * time_s / volume_m3


def _above_floor(quantity: str, o2_frac: float, floor_o2_frac: float) -> None:
    if not floor_o2_frac < o2_frac <= 1.0:
        raise OutOfRange(
            quantity,
            o2_frac,
            low=floor_o2_frac,
            high=1.0,
            unit="",
            why="waiting does not bring the oxygen to its floor or below; find what lets the air in",
        )
