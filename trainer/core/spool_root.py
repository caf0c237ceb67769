"""What the root of a spool sees: its body's oxygen, what dead legs give off into it, or a leg's own."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from trainer.core.closure import constant
from trainer.core.column import Floats
from trainer.core.dead_leg import DeadLeg
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.interval import Interval
from trainer.core.leg_course import LegCourse
from trainer.core.purge_courses import Course
from trainer.core.spool_body import SpoolBody

_GRID_COUNT = 400
_FIRST_VOLUME_CHANGE = 1e-3
_VOLUME_CHANGES = 60.0
_DIFFUSING_TIMES = 8.0  # what is left in a leg by then is below 1e-8
_LEAST_AIR_FRAC = 1e-12


@dataclass(frozen=True, kw_only=True)
class Bleeding:
    """A dead leg, its course, and what it does to the root of the body.

    Args:
        leg [record]: the leg
        course [record]: how it empties
        root_s_m3 [s/m3]: air fraction at the root for each m3/s of air that leaves the leg
        is_root [bool]: whether the root lies in the leg itself

    Reference: own definition.
    """

    leg: DeadLeg
    course: LegCourse
    root_s_m3: float
    is_root: bool


class SpoolRoot(SpoolBody):
    """The purge of a spool with dead legs, as its root sees it; asked as any other purge.

    c_root = 1 - (1 - c_body) (1 - sum of F_leg r_leg),  F the air that diffuses out of a leg,
    r what a steady inflow of air at its mouth adds at the root

    Args:
        body [record]: the purge of the body
        legs [record]: the dead legs
        sees_legs [bool]: whether the closed ends of all legs count as the root

    Reference: own definition; a leg empties so much slower than its body is flushed that the body follows it.
    """

    def __init__(self, body: SpoolBody, *, legs: Sequence[Bleeding], sees_legs: bool) -> None:
        vars(self).update(vars(body))
        self._body = body
        self._legs = tuple(legs)
        self._counting = [each for each in self._legs if sees_legs or each.is_root]
        self._is_body_root = sees_legs or not self._counting

    def time_to(self, o2_frac: float) -> Interval | None:
        """The last time at which the root holds more than some oxygen.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time between its ends; None when it never gets there with these flows

        Reference: as the class.
        """
        body = self._body.time_to(o2_frac)
        if body is None:
            return None
        expected, lower, upper = (self._last_above_s(air, o2_frac) for air in self._airs_on_grid)
        if expected is None:
            return None
        least_s = body if self._is_body_root else Interval(0.0, 0.0, 0.0)
        return Interval(
            max(expected, least_s.expected),
            min(max(lower or 0.0, least_s.lower), max(expected, least_s.expected)),
            math.inf if upper is None else max(upper, expected, least_s.upper),
        )

    def expected_time_s(self, o2_frac: float) -> float | None:
        """The same without its ends.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time; None when it never gets there with these flows

        Reference: as the class.
        """
        body_s = self._body.expected_time_s(o2_frac)
        if body_s is None:
            return None
        expected = self._last_above_s(self._expected_air_on_grid, o2_frac)
        if expected is None or not self._is_body_root:
            return expected
        return max(expected, body_s)

    def oxygen_at(self, time_s: float) -> Interval:
        """Oxygen at the root.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction between its ends
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as the class.
        """
        self._check_time(time_s)
        oxygen = [float(self.case.o2_frac(air)[0]) for air in self._airs(np.array([time_s]))]
        return Interval(oxygen[0], min(oxygen), max(oxygen))

    def expected_o2_frac(self, time_s: float) -> float:
        """The same without its ends.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as the class.
        """
        self._check_time(time_s)
        return float(self.case.o2_frac(self._expected_air(np.array([time_s])))[0])

    def trace(self, times_s: Floats) -> Floats:
        """Oxygen at the root, on average over the whole spool and at the vents.

        Args:
            times_s [s]: times since the gas was turned on, in any order
        Returns:
            [-] one row for each time, of three mole fractions
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as the class.
        """
        times = np.asarray(times_s, dtype=np.float64)
        oxygen = self._body.trace(times)
        if not times.size:
            return oxygen
        body_m3 = self.case.section.volume_m3
        whole_m3 = body_m3 + sum(each.leg.volume_m3 for each in self._legs)
        air = self.courses.expected.root_mean_vent(times)
        root = self._expected_air(times)
        held_m3 = body_m3 * air[:, 1] + sum(
            each.leg.volume_m3 * self._of_leg(each, times, 1) for each in self._legs
        )
        vent = air[:, 2] + sum(self._given_off_m3_s(each, times) for each in self._legs) / self._flow_m3_s(
            times
        )
        return np.asarray(
            self.case.o2_frac(np.column_stack([root, held_m3 / whole_m3, np.minimum(vent, 1.0)]))
        )

    def highest_o2_frac(self, *, from_s: float, until_s: float) -> float:
        """Highest oxygen that the root sees within a stretch of time.

        Args:
            from_s [s]: start of the stretch
            until_s [s]: its end; infinite for all that follows
        Returns:
            [-] mole fraction

        Reference: as the class; at the times of the grid.
        """
        within = self._grid_s[(self._grid_s > from_s) & (self._grid_s < until_s)]
        end_s = min(until_s, max(from_s, float(self._grid_s[-1])))
        times = np.array([from_s, *within, end_s])
        root = self._expected_air(times)
        return max(float(self.case.o2_frac(root).max()), self.floor_o2_frac if math.isinf(until_s) else 0.0)

    @cached_property
    def _expected_air_on_grid(self) -> Floats:
        return self._expected_air(self._grid_s)

    @cached_property
    def _airs_on_grid(self) -> list[Floats]:
        """The same for every level that is asked."""
        return self._airs(self._grid_s)

    def _airs(self, times_s: Floats) -> list[Floats]:
        """Air at the root by the expected course and by those at the ends of the interval."""
        slower = constant("gentle, upper") ** 2
        root = self._expected_air(times_s)
        courses = self._body.courses.ends(self._body.widening_ratio) or [self.courses.expected]
        bodies = [self._body_air(each, times_s) for each in courses]
        ends = [
            self._air(body, times_s, times_s * pace) for body in bodies for pace in (slower, 1.0 / slower)
        ]
        everything = np.array([root, *ends])
        return [root, everything.min(axis=0), everything.max(axis=0)]

    def _expected_air(self, times_s: Floats) -> Floats:
        return self._air(self._body_air(self.courses.expected, times_s), times_s, times_s)

    def _body_air(self, course: Course, times_s: Floats) -> Floats | None:
        """Air at the root of the body; None where the root lies in a leg."""
        return course.root_mean_vent(times_s)[:, 0] if self._is_body_root else None

    def _air(self, body: Floats | None, times_s: Floats, leg_times_s: Floats) -> Floats:
        air = np.zeros_like(times_s)
        if body is not None:
            clean = 1.0 - body
            for each in self._legs:
                given_off = self._given_off_m3_s(each, leg_times_s) * self._response_s_m3(each, times_s)
                clean = clean * (1.0 - np.minimum(1.0, given_off))
            air = 1.0 - clean
        for each in self._counting:
            air = np.maximum(air, self._of_leg(each, leg_times_s, 0))
        return np.asarray(air)

    def _response_s_m3(self, leg: Bleeding, times_s: Floats) -> Floats:
        return leg.root_s_m3 * self.case.segments[0].flow_m3_s / self._flow_m3_s(times_s)

    def _flow_m3_s(self, times_s: Floats) -> Floats:
        """The flow at each time; while none flows, the one before it."""
        flows = [self.case.segments[0].flow_m3_s]
        for segment in self.case.segments[1:]:
            flows.append(segment.flow_m3_s or flows[-1])
        starts_s = np.cumsum([segment.duration_s for segment in self.case.segments[:-1]])
        return np.asarray(np.array(flows)[np.searchsorted(starts_s, times_s, side="right")])

    def _of_leg(self, leg: Bleeding, times_s: Floats, what: int) -> Floats:
        """Air at the closed end (0) or on average (1), from the course laid out on the grid."""
        log_air = np.log(np.maximum(self._laid_out[leg.leg.place][what], _LEAST_AIR_FRAC))
        return np.asarray(np.exp(np.interp(times_s, self._grid_s, log_air)))

    def _given_off_m3_s(self, leg: Bleeding, times_s: Floats) -> Floats:
        rate = self._laid_out[leg.leg.place][2]
        return np.asarray(np.interp(times_s, self._grid_s, rate))

    @cached_property
    def _laid_out(self) -> dict[str, tuple[Floats, Floats, Floats]]:
        """Air at the closed end and on average, and what is given off, of each leg on the grid."""
        times, laid_out = self._grid_s, {}
        for each in self._legs:
            end, mean = each.course.end_and_mean_air_at(times)
            given_off_m3_s = each.leg.volume_m3 * np.maximum(-np.gradient(mean, times), 0.0)
            laid_out[each.leg.place] = (end, mean, given_off_m3_s)
        return laid_out

    @cached_property
    def _grid_s(self) -> Floats:
        end_s = sum(segment.duration_s for segment in self.case.segments)
        start_s = sum(segment.duration_s for segment in self.case.segments[:-1])
        slowest_s = max(each.leg.length_m**2 / each.leg.diffusivity_m2_s for each in self._legs)
        late_s = start_s + _VOLUME_CHANGES * self.volume_change_s + _DIFFUSING_TIMES * slowest_s
        first_s = _FIRST_VOLUME_CHANGE * self.volume_change_s
        until_s = min(end_s, late_s)
        return np.concatenate([[0.0], np.geomspace(min(first_s, until_s / 2.0), until_s, _GRID_COUNT)])

    def _last_above_s(self, air: Floats, o2_frac: float) -> float | None:
        """When the air last lies above a level, straight between logarithms; None at the end still."""
        source = self.case.source_o2_frac
        wanted = (o2_frac - source) / (O2_IN_DRY_AIR_FRAC - source)
        if wanted <= 0.0 or air[-1] > wanted:
            return None
        above = np.flatnonzero(air > wanted)
        if not above.size:
            return 0.0
        last = int(above[-1])
        log_air = np.log(np.maximum(air[last : last + 2], _LEAST_AIR_FRAC))
        share = (log_air[0] - math.log(wanted)) / (log_air[0] - log_air[1])
        times = self._grid_s
        return float(times[last] + share * (times[last + 1] - times[last]))
