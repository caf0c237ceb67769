"""Oxygen against time in a dammed section: layered by inlet and vent, or one of the limits of that."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cached_property

import numpy as np

from trainer.core.column import Column, Floats
from trainer.core.entering_flow import EnteringFlow
from trainer.core.errors import Limits
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.gas_column import gas_column
from trainer.core.interval import Interval
from trainer.core.plug_course import displacement_time_s, mixing_time_s
from trainer.core.purge_case import BASE_CASE, PurgeCase
from trainer.core.purge_courses import CaseCourses, Course, Courses
from trainer.core.purge_groups import beyond_tested_range
from trainer.core.purge_parts import FlowSegment, InLeak, Inlet, PurgeSection, VentHole
from trainer.core.terms import InletEnd, PurgeModel

__all__ = [
    "BASE_CASE",
    "FlowSegment",
    "InLeak",
    "Inlet",
    "InletEnd",
    "Purge",
    "PurgeCase",
    "PurgeModel",
    "PurgeSection",
    "VentHole",
    "displacement_time_s",
    "mixing_time_s",
    "purge",
]

LOWEST_TESTED_O2_FRAC = 100e-6
_BEYOND_RANGE_WIDENING_RATIO = 2.0


def purge(case: PurgeCase) -> Purge:
    """How the oxygen falls in a dammed section of pipe.

    V_k dc_k/dt = F_(k-1/2) - F_(k+1/2) - O_k c_k + leaks_k,  c_k(0) = 1,  x_O2 = x_source (1 - c) + 0.2095 c

    Args:
        case [record]: the purge
    Returns:
        [record] its course, to be asked for times and oxygen
    Valid: bores 54 to 305 mm, L/D up to 19, 2 to 40 L/min, above 100 ppm; beyond, the intervals are twice as
        wide and `beyond_tested_range` says why.

    Example:
        >>> time = purge(BASE_CASE).time_to(0.01)
        >>> time.lower < 1.79 * 60 < time.upper
        True

    Reference: fluxes of Scharfetter and Gummel 1969; stirring from simulation, see `closure`.
    """
    return Purge(case)


class Purge(EnteringFlow):
    """The course of one purge; made by `purge`.

    x_O2 = x_source (1 - c) + 0.2095 c

    Args:
        case [record]: the purge
        layers [record]: gives the layers of a case, where they are not those of a straight section

    Reference: as `purge`.
    """

    def __init__(self, case: PurgeCase, *, layers: Callable[[PurgeCase], Column] = gas_column) -> None:
        super().__init__(case)
        self.volume_change_s = case.section.volume_m3 / case.segments[0].flow_m3_s
        self.courses: Courses = CaseCourses(case, layers=layers)

    @cached_property
    def beyond_tested_range(self) -> tuple[str, ...]:
        """Why the set-up lies outside what was simulated; empty inside, and for the limits.

        Returns:
            [text] reasons
        """
        return beyond_tested_range(self.case) if self.case.model is PurgeModel.LAYERED else ()

    @cached_property
    def floor_o2_frac(self) -> float:
        """Oxygen at the worst point of the root that the first flow ends at, however long it lasts.

        Returns:
            [-] mole fraction
        """
        # Where no air comes in the source is all that stays, whatever the layers do.
        if not self.case.during(self.case.segments[0]).leak_m3_s:
            return self.case.source_o2_frac
        return self.floors_o2_frac[0]

    @cached_property
    def floors_o2_frac(self) -> tuple[float, ...]:
        """The same for each flow.

        Returns:
            [-] mole fractions
        """
        return tuple(self.case.o2_frac(air) for air in self.courses.expected.root_floor_frac)

    def time_to(self, o2_frac: float) -> Interval | None:
        """The last time at which the worst point of the root holds more than some oxygen.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time between its ends; None when it never gets there with these flows
        Valid: as `purge`; below 100 ppm the interval is twice as wide.

        Reference: as `purge`.
        """
        expected = self.expected_time_s(o2_frac)
        if expected is None:
            return None
        below_tested = o2_frac < LOWEST_TESTED_O2_FRAC
        widening = _BEYOND_RANGE_WIDENING_RATIO if below_tested else self.widening_ratio
        ends = [self._time_s(course, o2_frac) for course in self.courses.ends(widening)]
        known = [expected, *(end for end in ends if end is not None)]
        return Interval(expected, min(known), math.inf if None in ends else max(known))

    def expected_time_s(self, o2_frac: float) -> float | None:
        """The same without its ends, for which more courses have to be solved.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time; None when it never gets there with these flows

        Reference: as `purge`.
        """
        return self._time_s(self.courses.expected, o2_frac)

    def oxygen_at(self, time_s: float) -> Interval:
        """Oxygen at the worst point of the root, with the source's and the floor's.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction between its ends
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as `purge`.
        """
        expected = self.expected_o2_frac(time_s)
        lower, upper = self._ends_at(time_s, expected, self.widening_ratio)
        wide_lower, wide_upper = lower, upper
        if lower < LOWEST_TESTED_O2_FRAC:
            wide_lower, wide_upper = self._ends_at(time_s, expected, _BEYOND_RANGE_WIDENING_RATIO)
        # Only the end that lies below what was tested moves, and not past the level where that starts.
        return Interval(
            expected,
            wide_lower,
            upper if upper >= LOWEST_TESTED_O2_FRAC else min(LOWEST_TESTED_O2_FRAC, wide_upper),
        )

    def expected_o2_frac(self, time_s: float) -> float:
        """The same without its ends, for which more courses have to be solved.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as `purge`.
        """
        return self._now(self.courses.expected, time_s)[0]

    def mean_oxygen_at(self, time_s: float) -> float:
        """Oxygen averaged over the section.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as `purge`.
        """
        return self._now(self.courses.expected, time_s)[1]

    def vent_oxygen_at(self, time_s: float) -> float:
        """Oxygen in what leaves through the vent, by the balance of gas.

        A real vent reads lower than the layers say where the purge displaces; see `vent_margin_ratio`.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as `purge`.
        """
        return self._now(self.courses.expected, time_s)[2]

    def trace(self, times_s: Floats) -> Floats:
        """Oxygen at the worst point of the root, on average and at the vent.

        Args:
            times_s [s]: times since the gas was turned on, in any order
        Returns:
            [-] one row for each time, of three mole fractions
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as `purge`.
        """
        times = np.asarray(times_s, dtype=np.float64)
        if times.size:
            self._check_time(float(times.min()))
            self._check_time(float(times.max()))
        return self.case.o2_frac(self.courses.expected.root_mean_vent(times))

    def profile(self, time_s: float) -> tuple[Floats, Floats]:
        """Oxygen by height, from the lowest layer to the highest.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] heights of the layers' middles in metres, and mole fractions
        Raises:
            OutOfRange: for a time before the start or after the end of the last flow

        Reference: as `purge`.
        """
        self._check_time(time_s)
        height_m, air_frac = self.courses.expected.profile(time_s)
        return height_m, self.case.o2_frac(air_frac)

    @property
    def widening_ratio(self) -> float:
        """How much wider than within what was simulated the intervals are.

        Returns:
            [-] factor on a logarithmic scale
        """
        return _BEYOND_RANGE_WIDENING_RATIO if self.beyond_tested_range else 1.0

    def _ends_at(self, time_s: float, expected_frac: float, widening_ratio: float) -> tuple[float, float]:
        ends = (self._now(course, time_s)[0] for course in self.courses.ends(widening_ratio))
        known = [expected_frac, *ends]
        return min(known), max(known)

    def _check_time(self, time_s: float) -> None:
        end_s = sum(segment.duration_s for segment in self.case.segments)
        Limits(
            quantity="time since the gas was turned on",
            unit="s",
            low=0.0,
            high=None if math.isinf(end_s) else end_s,
            why="the flows given say nothing about any other time",
        ).check(time_s)

    def _now(self, course: Course, time_s: float) -> tuple[float, float, float]:
        self._check_time(time_s)
        root, mean, vent = self.case.o2_frac(course.root_mean_vent(np.array([time_s])))[0]
        return float(root), float(mean), float(vent)

    def _time_s(self, course: Course, o2_frac: float) -> float | None:
        source = self.case.source_o2_frac
        air_frac = (o2_frac - source) / (O2_IN_DRY_AIR_FRAC - source)
        return None if air_frac <= 0.0 else course.last_time_above(air_frac)
