"""Purges that were solved already, kept while set-ups are compared that differ little or around the purge."""

from dataclasses import dataclass, field, replace

from trainer.core.dilution import Purge
from trainer.core.purge_case import PurgeCase
from trainer.domain.run_purge import PurgeCourse, purge_course_of
from trainer.domain.set_up import SetUp


@dataclass
class KeptCourses:
    """Solves a purge once for all set-ups that differ in what the purge itself does not rest on."""

    _kept: dict[SetUp, PurgeCourse | None] = field(default_factory=dict)
    _solved: dict[PurgeCase, Purge] = field(default_factory=dict)

    def of(self, set_up: SetUp) -> PurgeCourse | None:
        """The purge of a set-up; raises what the core refuses."""
        key = replace(
            set_up,
            wait_s=None, surroundings=None, scene=None, supply=None, prices=None, arc=None, target=None,
            readings=(), analyser=None, near_heat=(),
        )  # fmt: skip
        if key not in self._kept:
            course = purge_course_of(key)
            if course is not None and course.spool is None:  # what the hold flow is, say, changes no case
                course = replace(course, purge=self._solved.setdefault(course.purge.case, course.purge))
            self._kept[key] = course
        return self._kept[key]
