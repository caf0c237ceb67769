"""Ideal displacement: the purge gas drives the air out like a plug."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.core.gas import O2_IN_DRY_AIR_FRAC


@dataclass(frozen=True, kw_only=True)
class PlugStretch:
    """One flow of a displacement.

    Args:
        flow_m3_s [m3/s]: purge gas supplied
        leak_m3_s [m3/s]: air leaking in, mixed into the plug
        returned_m3_s [m3/s]: the part of it that drives out as much elsewhere than through the vent
        duration_s [s]: how long the flow lasts

    Reference: own definition.
    """

    flow_m3_s: float
    leak_m3_s: float
    duration_s: float
    returned_m3_s: float = 0.0

    @property
    def behind_frac(self) -> float:
        """Air fraction of the plug.

        Returns:
            [-] air fraction
        """
        entering_m3_s = self.flow_m3_s + self.leak_m3_s
        return self.leak_m3_s / entering_m3_s if entering_m3_s else 0.0


@dataclass(frozen=True, kw_only=True)
class _Leg:
    start_s: float
    end_s: float
    start_frac: float
    pace_per_s: float
    behind_frac: float


class PlugCourse:
    """The air in front of a plug that drives it out without mixing.

    x(t) = integral of (Q + leaks) dt / V; the root is clear when x passes its place, all is clear at x = 1

    Args:
        volume_m3 [m3]: volume of the section
        height_m [m]: height of the gas space
        root_place_frac [-]: share of the volume to be filled before the root is clear
        stretches [record]: the flows, one after the other

    Reference: plug flow, Levenspiel, Chemical Reaction Engineering.
    """

    def __init__(
        self, *, volume_m3: float, height_m: float, root_place_frac: float, stretches: Sequence[PlugStretch]
    ) -> None:
        self._height_m = height_m
        self._root_place_frac = root_place_frac
        self._legs: list[_Leg] = []
        start_s, start_frac = 0.0, 0.0
        for stretch in stretches:
            pace = (stretch.flow_m3_s + stretch.leak_m3_s - stretch.returned_m3_s) / volume_m3
            leg = _Leg(
                start_s=start_s,
                end_s=start_s + stretch.duration_s,
                start_frac=start_frac,
                pace_per_s=pace,
                behind_frac=stretch.behind_frac,
            )
            self._legs.append(leg)
            start_s = leg.end_s
            start_frac += pace * stretch.duration_s if pace else 0.0

    @property
    def root_floor_frac(self) -> tuple[float, ...]:
        """Air fraction that each flow ends at.

        Returns:
            [-] air fractions
        """
        return tuple(leg.behind_frac for leg in self._legs)

    def root_mean_vent(self, time_s: Floats) -> Floats:
        """Air fraction at the root, on average and at the vent.

        Args:
            time_s [s]: times, in any order
        Returns:
            [-] one row for each time, of three air fractions

        Reference: own definition.
        """
        return np.array([self._root_mean_vent(float(time)) for time in time_s])

    def profile(self, time_s: float) -> tuple[Floats, Floats]:
        """Heights and air fractions, as the plug were a level surface.

        Args:
            time_s [s]: time
        Returns:
            [-] heights in metres, and air fractions

        Reference: own definition.
        """
        leg = self._leg_at(time_s)
        height = np.linspace(0.0, 1.0, 65)
        air = np.where(height < self._filled_frac(leg, time_s), leg.behind_frac, 1.0)
        return height * self._height_m, air

    def last_time_above(self, air_frac: float) -> float | None:
        """The last time at which the root holds more than some air fraction.

        Args:
            air_frac [-]: the level
        Returns:
            [s] the time; None when it does so for ever or to the end

        Reference: own definition.
        """
        if air_frac >= 1.0:
            return 0.0
        for leg in reversed(self._legs):
            clear_s = leg.start_s + self._clearing_s(leg)
            if leg.behind_frac > air_frac or clear_s > leg.end_s or math.isinf(clear_s):
                return None if leg is self._legs[-1] else leg.end_s
            if clear_s > leg.start_s:
                return clear_s
        return 0.0

    def highest_root_frac(self, from_s: float, *, until_s: float) -> float:
        """The highest air fraction at the root within a stretch of time: all air until a plug has passed.

        Args:
            from_s [s]: its start
            until_s [s]: its end; may be infinite
        Returns:
            [-] air fraction

        Reference: own definition.
        """
        begins = [leg.start_s for leg in self._legs if from_s < leg.start_s < until_s]
        return max(self._root_mean_vent(each)[0] for each in (from_s, *begins))

    def _clearing_s(self, leg: _Leg) -> float:
        to_fill_frac = max(0.0, self._root_place_frac - leg.start_frac)
        if leg.pace_per_s == 0.0:
            return math.inf if to_fill_frac else 0.0
        return to_fill_frac / leg.pace_per_s

    def _leg_at(self, time_s: float) -> _Leg:
        return [leg for leg in self._legs if leg.start_s <= time_s][-1]

    def _filled_frac(self, leg: _Leg, time_s: float) -> float:
        return min(1.0, leg.start_frac + leg.pace_per_s * (time_s - leg.start_s))

    def _root_mean_vent(self, time_s: float) -> tuple[float, float, float]:
        leg = self._leg_at(time_s)
        filled = self._filled_frac(leg, time_s)
        root = leg.behind_frac if filled >= self._root_place_frac else 1.0
        vent = leg.behind_frac if filled >= 1.0 else 1.0
        return root, 1.0 - filled * (1.0 - leg.behind_frac), vent


def mixing_time_s(
    volume_m3: float,
    *,
    flow_m3_s: float,
    o2_frac: float,
    source_o2_frac: float = 0.0,
    start_o2_frac: float = O2_IN_DRY_AIR_FRAC,
) -> float:
    """Time to an oxygen level when the section is perfectly mixed.

    t = V/Q ln[(x_0 - x_s) / (x - x_s)]

    Args:
        volume_m3 [m3]: V, volume between the dams
        flow_m3_s [m3/s]: Q, purge gas
        o2_frac [-]: x, oxygen wanted
        source_o2_frac [-]: x_s, oxygen in the purge gas
        start_o2_frac [-]: x_0, oxygen at the start
    Returns:
        [s] the time; infinite when the source holds as much as is wanted
    Valid: perfect mixing; a stratified section may take far less or far more.

    Example:
        >>> round(mixing_time_s(0.012, flow_m3_s=2.5e-4, o2_frac=0.01) / (0.012 / 2.5e-4), 2)
        3.04

    Reference: stirred tank, Levenspiel, Chemical Reaction Engineering.
    """
    if o2_frac <= source_o2_frac:
        return math.inf
    return (
        volume_m3
        / flow_m3_s
        * max(0.0, math.log((start_o2_frac - source_o2_frac) / (o2_frac - source_o2_frac)))
    )


def displacement_time_s(volume_m3: float, *, flow_m3_s: float) -> float:
    """Time in which an ideal plug drives all the air out.

    t = V/Q

    Args:
        volume_m3 [m3]: V, volume between the dams
        flow_m3_s [m3/s]: Q, purge gas
    Returns:
        [s] the time of one volume change
    Valid: the lower bound for the whole section; no purge gets there.

    Example:
        >>> displacement_time_s(0.012, flow_m3_s=2.5e-4)
        48.0

    Reference: plug flow, Levenspiel, Chemical Reaction Engineering.
    """
    return volume_m3 / flow_m3_s
