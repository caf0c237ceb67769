"""The core's results by name: what content files and stored answers may ask about a set-up.

Each name asks only for the part of a run that it needs, and a purge that was solved once is asked again for
any time, so that a search over waiting times costs no second solution.
"""

from collections.abc import Callable

import numpy as np

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.core.interval import Interval
from trainer.domain.errors import DomainError, Missing
from trainer.domain.items.placement import Effect
from trainer.domain.kept_courses import KeptCourses
from trainer.domain.policy import Policy
from trainer.domain.purge_run import Expected
from trainer.domain.quantities import NEVER, Never
from trainer.domain.result_kind import Found, Question
from trainer.domain.result_kinds import RESULTS
from trainer.domain.run_breathing import BreathingFigures, breathing_figures
from trainer.domain.run_parts import SingleFigures
from trainer.domain.run_purge import PurgeCourse
from trainer.domain.scenario import PlacementTest
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import SetUpFault, UnusableSetUp, faults_of
from trainer.domain.set_up_paths import with_value
from trainer.domain.set_ups_met import SetUpsMet

_WAIT = "wait"


class NotKnown(DomainError):
    """A result that the set-up says too little for."""


class CoreResults:
    """Asks the core about set-ups under one policy, each purge solved once."""

    def __init__(self, policy: Policy) -> None:
        self.policy = policy
        self._met = SetUpsMet()
        self._kept = KeptCourses()
        self._courses: dict[int, PurgeCourse | None] = {}
        self._asked: dict[tuple[int, Callable[[Question], Found | None]], Found] = {}
        self._parts: dict[int, SingleFigures] = {}
        self._breathing: dict[int, BreathingFigures | None] = {}

    def result(self, set_up: SetUp, name: str) -> float | str | Never:
        """The expected value, or the word; raises NotKnown where the set-up says too little."""
        return self.end(set_up, name, end="expected")

    def end(self, set_up: SetUp, name: str, *, end: str) -> float | str | Never:
        """The same at one end of its interval: expected, lower or upper."""
        found = self._found(set_up, name, with_ends=end != "expected")
        if isinstance(found, Interval | Expected):
            value: float = getattr(found, end)
            return value
        return found

    def number(self, set_up: SetUp, name: str) -> float | Never:
        """The expected value of a result that is a number."""
        found = self.result(set_up, name)
        if isinstance(found, str):
            raise TypeError(f"{name} is a word")
        return found

    def interval(self, set_up: SetUp, name: str) -> Interval | None:
        """The value between its ends; both ends are the value itself where the core gives no interval."""
        found = self._found(set_up, name)
        if isinstance(found, Expected):
            return Interval(found.expected, found.lower, found.upper)
        if isinstance(found, float):
            return Interval(found, found, found)
        return found if isinstance(found, Interval) else None

    def curve(self, set_up: SetUp, *, sets: str, result: str) -> Callable[[float], float]:
        """How a result follows from the value at one path; what is never reached counts as infinite."""
        course = self.course(set_up)
        if sets == _WAIT and result == "root oxygen" and course is not None:
            return lambda wait_s: float(course.purge.trace(np.array([wait_s]))[0, 0])

        def asked(value: float) -> float:
            found = self.number(with_value(set_up, sets, value), result)
            return float("inf") if isinstance(found, Never) else found

        return asked

    def effect(self, set_up: SetUp, *, test: PlacementTest) -> Effect:
        """What the core makes of a placement for one test, or why it can't tell."""
        asked = set_up if test.after_s is None else with_value(set_up, _WAIT, test.after_s)
        try:
            return Effect(test=test, value=self.number(asked, test.quantity))
        except (OutOfRange, UnknownName, UnknownSize, NotKnown) as error:
            return Effect(test=test, value=NEVER, fault=str(error))

    def course(self, set_up: SetUp) -> PurgeCourse | None:
        """The purge, solved once for all waiting times and whatever else it does not rest on."""
        number = self._met.number(set_up)
        if number not in self._courses:
            self._courses[number] = self._kept.of(set_up)
        return self._courses[number]

    def _parts_of(self, set_up: SetUp) -> SingleFigures:
        """The run, part by part, for results that are figures of it; raises NotKnown where it contradicts."""
        number = self._met.number(set_up)
        parts = self._parts.get(number)
        if parts is None:
            if faults := faults_of(set_up):
                raise NotKnown(str(UnusableSetUp(faults)))
            parts = SingleFigures(set_up=set_up, policy=self.policy, on_fault=_not_known, solved=self.course)
            self._parts[number] = parts
        return parts

    def _breathing_of(self, set_up: SetUp) -> BreathingFigures | None:
        number = self._met.number(set_up)
        if number not in self._breathing:
            self._breathing[number] = breathing_figures(set_up)
        return self._breathing[number]

    def _found(self, set_up: SetUp, name: str, *, with_ends: bool = True) -> Found:
        if name not in RESULTS:
            raise Missing("core result", name)
        kind = RESULTS[name]
        ask = kind.ask if with_ends or kind.ask_expected is None else kind.ask_expected
        key = self._met.number(set_up if kind.needs_wait else self._met.before_wait(set_up)), ask
        found = self._asked.get(key)
        if found is None:
            found = ask(
                Question(
                    set_up=set_up,
                    policy=self.policy,
                    course=lambda: self.course(set_up),
                    run=lambda: self._parts_of(set_up),
                    breathing=lambda: self._breathing_of(set_up),
                )
            )
            if found is None:
                raise NotKnown(f"the set-up says too little for: {name}")
            self._asked[key] = found
        return found


def _not_known(fault: SetUpFault) -> None:
    raise NotKnown(str(UnusableSetUp((fault,))))
