"""The figures of a purge, each computed when it is first asked for: times, oxygen, stages, and the trace."""

import math
from dataclasses import dataclass, fields, replace
from functools import cached_property

from trainer.core.interval import Interval
from trainer.core.purge_watch import highest_o2_frac
from trainer.domain.purge_run import DeadLegResult, Expected, PurgeResult
from trainer.domain.quantities import NEVER, Never
from trainer.domain.run_purge import PurgeCourse, causes_of_floor, purge_course_of
from trainer.domain.run_spool import high_point_results, with_vents_where_air_lingers, worst_place_of
from trainer.domain.run_time_line import (
    expected_of,
    only_falls,
    trace_times_s,
    volume_changes_by,
    wait_on,
)
from trainer.domain.set_up import SetUp, StageKind
from trainer.domain.stage_figures import StageFigures
from trainer.domain.time_line import hold_stage_of, segment_of


@dataclass(kw_only=True)
class PurgeFigures:
    """What PurgeResult holds, under its names. The set-up's purge has been solved."""

    set_up: SetUp
    course: PurgeCourse

    def all(self) -> PurgeResult:
        """Every figure."""
        figures = {each.name: getattr(self, each.name) for each in fields(PurgeResult)}
        return PurgeResult(**{**figures, "stages": tuple(each.all() for each in self.stages)})

    @cached_property
    def time_to_target_s(self) -> Expected | Never | None:
        """When the root stays below the target."""
        target_frac = self._target_frac
        return None if target_frac is None else _expected_or_never(self.course.purge.time_to(target_frac))

    @cached_property
    def volume_changes_to_target(self) -> Expected | Never | None:
        """How often the section could have been filled by then."""
        time_s = self.time_to_target_s
        if not isinstance(time_s, Expected):
            return time_s
        expected, lower, upper = (
            volume_changes_by(self.course.purge, time_s=each)
            for each in (time_s.expected, time_s.lower, time_s.upper)
        )
        return Expected(expected=expected, lower=lower, upper=upper)

    @cached_property
    def never_because(self) -> tuple[str, ...]:
        """What keeps the floor above the target."""
        return causes_of_floor(self.set_up, course=self.course) if self.time_to_target_s is NEVER else ()

    @cached_property
    def floor_frac(self) -> float:
        """What the last flow ends at."""
        return self.course.purge.floors_o2_frac[-1]

    @cached_property
    def oxygen_after_wait_frac(self) -> Expected | None:
        """Oxygen at the root when the arc is struck."""
        return None if self._wait_s is None else expected_of(self.course.purge.oxygen_at(self._wait_s))

    @cached_property
    def expected_oxygen_after_wait_frac(self) -> float | None:
        """The same without its ends, for which more courses have to be solved."""
        return None if self._wait_s is None else self.course.purge.expected_o2_frac(self._wait_s)

    @cached_property
    def highest_in_hold_frac(self) -> float | None:
        """The highest that the root sees while the hold flow runs."""
        if self.stages:
            holds = (each for each in self.stages if each.kind == StageKind.HOLD)
            return max((each.highest_oxygen_frac for each in holds), default=None)
        course, hold, after_frac = (
            self.course,
            hold_stage_of(self.set_up),
            self.expected_oxygen_after_wait_frac,
        )
        air_in = course.air_in_at(hold.flow_m3_s) if hold else None
        if hold is None or air_in is None or after_frac is None:
            return None
        if not air_in and course.spool is None and only_falls(course.purge.case):
            return after_frac  # nothing is higher than the start, and no second course is needed
        until = replace(course.purge.case.segments[0], duration_s=hold.starts_s)
        held = course.through((until, segment_of(hold, case=course.purge.case, air_in=air_in)))
        return highest_o2_frac(held.purge, from_s=hold.starts_s, until_s=hold.ends_s)

    @cached_property
    def highest_after_wait_frac(self) -> float | None:
        """The highest that the root sees from the strike on, whatever the stages bring."""
        if not self.stages or self._wait_s is None:
            return None
        return highest_o2_frac(self.course.purge, from_s=self._wait_s, until_s=math.inf)

    @cached_property
    def stages(self) -> tuple[StageFigures, ...]:
        """What the root sees in each stage of the time line."""
        return tuple(StageFigures(purge=self.course.purge, stage=each) for each in self.course.stages)

    @cached_property
    def dead_legs(self) -> tuple[DeadLegResult, ...]:
        """The high points without a vent, and what a vent at those that the gas crosses would save."""
        spool, target_frac = self.course.spool, self._target_frac
        if spool is None:
            return ()
        with_vents_s = None
        if spool.crossed and target_frac is not None:
            vented = purge_course_of(with_vents_where_air_lingers(self.set_up, spool=spool))
            time_s = None if vented is None else vented.purge.time_to(target_frac)
            with_vents_s = None if time_s is None else time_s.expected
        return high_point_results(self.set_up, spool=spool, with_vents_s=with_vents_s)

    @cached_property
    def body_time_to_target_s(self) -> Expected | Never | None:
        """What the body alone would need where dead legs hold the root up."""
        spool, target_frac = self.course.spool, self._target_frac
        if spool is None or not spool.dead_legs or target_frac is None:
            return None
        return _expected_or_never(spool.body.time_to(target_frac))

    @cached_property
    def worst_place(self) -> str | None:
        """The part of a spool that comes down to the target last."""
        return worst_place_of(self.set_up, spool=self.course.spool) if self.course.spool else None

    @cached_property
    def trace(self) -> tuple[tuple[float, float, float, float], ...]:
        """Rows of time, then root, mean and vent oxygen."""
        times = trace_times_s(self.set_up, purge=self.course.purge, time_s=self.time_to_target_s)
        return tuple(zip(times.tolist(), *self.course.purge.trace(times).T.tolist(), strict=True))

    @property
    def _target_frac(self) -> float | None:
        return self.set_up.target.oxygen_frac if self.set_up.target else None

    @property
    def _wait_s(self) -> float | None:
        wait_s = self.set_up.wait_s
        return None if wait_s is None else wait_on(self.course.purge, wait_s=wait_s)


def _expected_or_never(interval: Interval | None) -> Expected | Never:
    return NEVER if interval is None else expected_of(interval)
