"""Purges that were solved already, kept while set-ups are compared that differ around the purge only."""

from dataclasses import dataclass, field, replace

from trainer.domain.run_purge import PurgeCourse, purge_course_of
from trainer.domain.set_up import SetUp


@dataclass
class KeptCourses:
    """Solves a purge once for all set-ups that differ in what the purge itself does not rest on."""

    _kept: dict[SetUp, PurgeCourse | None] = field(default_factory=dict)

    def of(self, set_up: SetUp) -> PurgeCourse | None:
        """The purge of a set-up; raises what the core refuses."""
        key = replace(
            set_up,
            wait_s=None, surroundings=None, scene=None, supply=None, prices=None, arc=None, target=None,
            readings=(), analyser=None, near_heat=(),
        )  # fmt: skip
        if key not in self._kept:
            self._kept[key] = purge_course_of(key)
        return self._kept[key]
