"""What a core result is: how it is asked, and its dimension or the words that it can be."""

from collections.abc import Callable
from dataclasses import dataclass

from trainer.core.dilution import Purge
from trainer.core.interval import Interval
from trainer.domain.policy import Policy
from trainer.domain.purge_run import Expected
from trainer.domain.quantities import Dimension, Never
from trainer.domain.run_breathing import BreathingFigures
from trainer.domain.run_parts import RunParts
from trainer.domain.run_purge import PurgeCourse
from trainer.domain.set_up import SetUp

Found = float | str | Never | Interval | Expected


@dataclass(frozen=True, kw_only=True)
class Question:
    """A set-up to ask about; its purge, and each part of its run, is computed when a result needs it."""

    set_up: SetUp
    policy: Policy
    course: Callable[[], PurgeCourse | None]
    run: Callable[[], RunParts]
    breathing: Callable[[], BreathingFigures | None]

    @property
    def purge(self) -> Purge | None:
        """The solved purge; None where the set-up says too little for one."""
        course = self.course()
        return course.purge if course is not None else None


@dataclass(frozen=True, kw_only=True)
class ResultKind:
    """What a name stands for: its dimension (None: a plain number), or the words that it can be."""

    ask: Callable[[Question], Found | None]
    ask_expected: Callable[[Question], Found | None] | None = None  # where ends cost more than the value
    dimension: Dimension | None = None
    words: tuple[str, ...] = ()
    needs_wait: bool = True  # whether the answer depends on how long is waited before the arc
