"""The course of a purge in time: layers solved flow by flow and joined exactly."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial

import numpy as np

from trainer.core.column import Column, Floats
from trainer.core.course_parts import Balance, Solution
from trainer.core.peak import highest_between
from trainer.core.solved_layers import LONGEST_S, Following

_SCAN_COUNT = 192
_FIRST_WAIT_S = 1.0
# In a stretch without end what is left of the way to its end counts as settled below this.
_SETTLED_FRAC = 1e-9
_DOUBLED = np.array([1.0, 2.0, 4.0, 8.0])  # asked together: one time costs hardly less


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """One flow of a purge: its balance, solved, for how long, and how much slower than modelled it may run.

    Args:
        balance [record]: balance of air at this flow
        solution [record]: the same, solved
        duration_s [s]: how long the flow lasts
        time_ratio [-]: real over modelled time
        found [record]: crossings found already from a section full of air, by level and modelled duration;
            stretches of one solution that differ only in pace may share it

    Reference: own definition.
    """

    balance: Balance
    solution: Solution
    duration_s: float
    time_ratio: float = 1.0
    found: dict[tuple[float, float], float | None] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class _Leg:
    stretch: Stretch
    start_s: float
    air_frac: Following
    start_air_frac: Floats

    def modelled_s(self, time_s: Floats) -> Floats:
        return (time_s - self.start_s) / self.stretch.time_ratio


class LayeredCourse:
    """Air in the layers over a chain of flows, from a section full of air.

    c(t) within a flow is exact; the next flow starts from where the last one ended.

    Args:
        column [record]: the layers
        stretches [record]: the flows, one after the other

    Reference: own definition.
    """

    def __init__(self, column: Column, stretches: Sequence[Stretch]) -> None:
        self._column = column
        self._asked: tuple[bytes, Floats] | None = None
        self._legs: list[_Leg] = []
        start_s, air_frac = 0.0, np.ones_like(column.volume_m3)
        for stretch in stretches:
            solution = stretch.solution
            following = solution.follow(air_frac) if self._legs else solution.from_full_of_air
            self._legs.append(
                _Leg(stretch=stretch, start_s=start_s, air_frac=following, start_air_frac=air_frac)
            )
            if math.isinf(stretch.duration_s):
                break
            air_frac = following(np.array([stretch.duration_s / stretch.time_ratio]))[:, 0]
            start_s += stretch.duration_s

    @property
    def root_floor_frac(self) -> tuple[float, ...]:
        """Worst air fraction of the root that each flow ends at.

        Returns:
            [-] air fractions
        """
        return tuple(self._root_floor_frac(leg) for leg in self._legs)

    def root_mean_vent(self, time_s: Floats) -> Floats:
        """Air fraction at the worst point of the root, on average and at the vent.

        Args:
            time_s [s]: times, in any order
        Returns:
            [-] one row for each time, of three air fractions

        Reference: own definition.
        """
        result = np.empty((time_s.size, 3))
        everywhere = self.layers_air_frac(time_s)
        for leg, here in self._by_leg(time_s):
            air = everywhere[:, here]
            result[here, 0] = self._column.root_air_frac(air)
            result[here, 1] = self._column.volume_m3 @ air / self._column.total_volume_m3
            result[here, 2] = leg.stretch.balance.vent_air_frac(air)
        return result

    def layers_air_frac(self, time_s: Floats) -> Floats:
        """Air fraction of each layer.

        Args:
            time_s [s]: times, in any order
        Returns:
            [-] one row for each layer, from the settling side, one column for each time

        Reference: own definition.
        """
        asked = time_s.tobytes()
        if self._asked is None or self._asked[0] != asked:  # root and legs ask for the same times in turn
            air = np.empty((self._column.volume_m3.size, time_s.size))
            for leg, here in self._by_leg(time_s):
                air[:, here] = leg.air_frac(leg.modelled_s(time_s[here]))
            air.flags.writeable = False
            self._asked = asked, air
        return self._asked[1]

    def profile(self, time_s: float) -> tuple[Floats, Floats]:
        """Heights and air fractions of the layers, from the bottom of the pipe to the top.

        Args:
            time_s [s]: time
        Returns:
            [-] heights of the middles in metres, and air fractions

        Reference: own definition.
        """
        times = np.array([time_s])
        ((leg, _),) = self._by_leg(times)
        air = leg.air_frac(leg.modelled_s(times))[:, 0]
        middle = (self._column.edge_m[1:] + self._column.edge_m[:-1]) / 2.0
        if self._column.is_turned_over:
            return (self._column.edge_m[-1] - middle)[::-1], air[::-1]
        return middle, air

    def last_time_above(self, air_frac: float) -> float | None:
        """The last time at which the root holds more than some air fraction.

        max over the root of c(t) = level, the last solution

        Args:
            air_frac [-]: the level
        Returns:
            [s] the time, 0 when it never holds more; None when it does so for ever or to the end

        Reference: own definition.
        """
        endless = math.isinf(self._legs[-1].stretch.duration_s)
        if endless and self.root_floor_frac[-1] >= air_frac:
            return None
        for leg in reversed(self._legs):
            crossing = self._last_crossing_s(leg, air_frac)
            if crossing is not None:
                at_the_end = crossing >= leg.stretch.duration_s / leg.stretch.time_ratio
                if at_the_end and leg is self._legs[-1]:
                    return None
                return leg.start_s + crossing * leg.stretch.time_ratio
        return 0.0

    def highest_root_frac(self, from_s: float, *, until_s: float) -> float:
        """The highest air fraction at the worst point of the root within a stretch of time.

        Args:
            from_s [s]: its start
            until_s [s]: its end; may be infinite
        Returns:
            [-] air fraction; for a stretch without end also the one that it ends at

        Reference: own definition.
        """
        highest = 0.0
        for leg in self._legs:
            begins_s = max(from_s, leg.start_s)
            ends_s = min(until_s, leg.start_s + leg.stretch.duration_s)
            if begins_s > ends_s or (begins_s == ends_s and from_s < until_s):
                continue
            first, last = (float(each) for each in leg.modelled_s(np.array([begins_s, ends_s])))
            if math.isinf(last):
                floor_frac = self._root_floor_frac(leg)
                highest = max(highest, floor_frac)
                last = max(first, self._settled_s(leg, floor_frac + _SETTLED_FRAC))
            course = partial(self._root, leg)
            highest = max(highest, highest_between(course, first_s=first, last_s=last))
        return highest

    def tail_rate_per_s(self, time_s: float) -> float:
        """Rate of the slowest mode of the flow at some time.

        Args:
            time_s [s]: time
        Returns:
            [1/s] rate

        Reference: own definition.
        """
        ((leg, _),) = self._by_leg(np.array([time_s]))
        return leg.stretch.solution.slowest_per_s / leg.stretch.time_ratio

    def _by_leg(self, time_s: Floats) -> list[tuple[_Leg, np.ndarray]]:
        if len(self._legs) == 1:
            return [(self._legs[0], np.ones(time_s.shape, dtype=bool))]
        starts = [leg.start_s for leg in self._legs]
        owner = np.searchsorted(starts, time_s, side="right") - 1
        return [(self._legs[index], owner == index) for index in np.unique(owner).tolist()]

    def _root(self, leg: _Leg, modelled_s: Floats) -> Floats:
        return self._column.root_air_frac(leg.air_frac(modelled_s))

    def _last_crossing_s(self, leg: _Leg, air_frac: float) -> float | None:
        """Last modelled time within a leg at which the root is above the level; its end when still above."""
        duration_s = leg.stretch.duration_s / leg.stretch.time_ratio
        if leg is not self._legs[0]:
            return self._found_crossing_s(leg, air_frac, duration_s)
        found = leg.stretch.found
        if (air_frac, duration_s) not in found:
            found[air_frac, duration_s] = self._found_crossing_s(leg, air_frac, duration_s)
        return found[air_frac, duration_s]

    def _found_crossing_s(self, leg: _Leg, air_frac: float, duration_s: float) -> float | None:
        settled_s = min(duration_s, self._settled_s(leg, air_frac))
        if leg is self._legs[0]:
            # From a section full of air every layer only falls, so the ends tell all.
            points = np.array([0.0, settled_s])
        else:
            points = settled_s * np.linspace(0.0, 1.0, _SCAN_COUNT) ** 2
        above = np.flatnonzero(self._root(leg, points) > air_frac)
        if above.size == 0:
            return None
        last = int(above[-1])
        if last == points.size - 1:
            return duration_s
        return self._crossing_s(leg, air_frac, float(points[last]), float(points[last + 1]))

    def _settled_s(self, leg: _Leg, air_frac: float) -> float:
        """A time after which the root stays on one side: the largest distance from the end only shrinks."""
        steady = self._steady_air_frac(leg)
        margin = abs(air_frac - self._root_floor_frac(leg))
        outflow_m3_s = leg.stretch.balance.outflow_m3_s
        settled_s = self._column.total_volume_m3 / outflow_m3_s if outflow_m3_s else _FIRST_WAIT_S
        latest_s = min(leg.stretch.duration_s / leg.stretch.time_ratio, LONGEST_S)
        while settled_s < latest_s:
            times = settled_s * _DOUBLED
            times = times[times < latest_s]
            distance = np.abs(leg.air_frac(times) - steady[:, np.newaxis]).max(axis=0)
            near = np.flatnonzero(distance < margin)
            if near.size:
                return float(times[near[0]])
            settled_s = 2.0 * float(times[-1])
        return settled_s

    def _root_floor_frac(self, leg: _Leg) -> float:
        return float(self._column.root_air_frac(self._steady_air_frac(leg)[:, np.newaxis])[0])

    def _steady_air_frac(self, leg: _Leg) -> Floats:
        if leg.stretch.balance.is_closed:
            spread = self._column.volume_m3 @ leg.start_air_frac / self._column.total_volume_m3
            return np.full_like(leg.start_air_frac, spread)
        return leg.stretch.solution.steady_air_frac

    def _crossing_s(self, leg: _Leg, air_frac: float, early_s: float, late_s: float) -> float:
        from scipy.optimize import brentq  # noqa: PLC0415 (slow to import, and few commands need it)

        log_level = math.log(air_frac)

        def excess(modelled_s: float) -> float:
            root = float(self._root(leg, np.array([modelled_s]))[0])
            # The floor on the logarithm lies far below any level, and keeps an empty root finite.
            return math.log(max(root, 1e-300)) - log_level

        return float(brentq(excess, early_s, late_s, xtol=1e-9 * late_s, rtol=1e-12))
