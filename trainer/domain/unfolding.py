"""Unfolds a diagnosis: step after step, what was seen, what the oxygen did, and whether it is over.

A pure function of the drawn scenario and the list of steps: the set-up before a step runs through the core
for the time that the step takes, the changed one from then on.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.sample_line import sampled_o2_frac
from trainer.domain.air_chain import air_chain
from trainer.domain.answered_set_up import right_set_up
from trainer.domain.diagnosis_parts import (
    MOST_STEPS,
    SLACK_S,
    SOUND,
    DiagnosisKey,
    DiagnosisSheet,
    Ending,
    MoveKey,
    Shows,
    Watched,
)
from trainer.domain.drawn import rounded
from trainer.domain.errors import Missing
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Item, Scenario
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import value_at, with_values
from trainer.domain.stretches import (
    Stretch,
    StretchedPurge,
    flow_through,
    gauge_of,
    stretched_purge,
)
from trainer.domain.unfolded import NoFurtherStep, Outcome, Seen, StepSeen, Unfolding

__all__ = [
    "NoFurtherStep",
    "Outcome",
    "Seen",
    "StepSeen",
    "Unfolding",
    "unfold",
    "unfolded",
    "unfolded_trace",
    "values_left",
]

# Whoever changes one of these opens the section or swaps what fills it: the purge begins anew.
_OF_THE_SECTION = ("pipe", "section", "inlet", "vent", "vents", "gas", "temperature")
_TRACE_COUNT = 120
_SHOWN_FIGURES, _SHOWN_FIGURES_OF_AIR = 2, 3  # what of an analyser's reading means something: 0.37 %, 19.4 %
_LIKE_AIR_FRAC = 0.1


class Course(Protocol):
    """Oxygen and gas against time, whichever part of the core gives them."""

    def oxygen_at(self, time_s: float) -> tuple[float, ...]:
        """Oxygen at some time."""
        ...

    def gas_until_m3(self, time_s: float) -> float:
        """Gas until some time."""
        ...


@dataclass(frozen=True, kw_only=True)
class _State:
    """The set-up between two steps: what actions have set in it, and whether the fault is still there."""

    set_up: SetUp
    sets: tuple[tuple[str, Any], ...] = ()
    cured: bool = False
    opens: bool = False


def unfold(scenario: Scenario, *, item: Item, steps: Sequence[str]) -> Unfolding:
    """What each step of a diagnosis led to. Raises Missing for a move that there is not, NoFurtherStep after
    the end."""
    sheet, key = item.diagnosis, scenario.answers[item.id].diagnosis
    assert sheet is not None  # an item of this kind has both
    assert key is not None
    return unfolded(sound_set_up(scenario, item=item), sheet=sheet, key=key, steps=steps)


def unfolded_trace(
    scenario: Scenario, *, item: Item, steps: Sequence[str]
) -> tuple[tuple[float, float, float, float], ...]:
    """Rows of time, root, mean and vent oxygen from the first look to the last step; none of people's air."""
    sheet, key = item.diagnosis, scenario.answers[item.id].diagnosis
    assert sheet is not None  # an item of this kind has both
    assert key is not None
    if sheet.watches is Watched.AIR:
        return ()
    sound = sound_set_up(scenario, item=item)
    return _Unfolding(sound=sound, sheet=sheet, key=key).trace(tuple(steps))


def values_left(scenario: Scenario, *, item: Item, steps: Sequence[str]) -> dict[str, Any]:
    """The set-up values that the steps left behind, by path: what was hidden, and what actions set."""
    key = scenario.answers[item.id].diagnosis
    assert key is not None
    left = unfold(scenario, item=item, steps=steps).set_up
    paths = dict.fromkeys((*item.sets, *(path for step in steps for path, _ in key.move(step).sets)))
    known = {path: value_at(left, path) for path in paths}
    return {path: value for path, value in known.items() if value is not None}


def sound_set_up(scenario: Scenario, *, item: Item) -> SetUp:
    """The set-up without the fault, as its draw left it, with what the other items' keys make of it."""
    key = scenario.answers[item.id].diagnosis
    assert key is not None
    return with_values(right_set_up(scenario), dict(key.sound))


def unfolded(sound: SetUp, *, sheet: DiagnosisSheet, key: DiagnosisKey, steps: Sequence[str]) -> Unfolding:
    """The same from its parts, as a draw has them before there is a scenario."""
    if len(steps) > MOST_STEPS:
        raise NoFurtherStep(f"{len(steps)} steps were taken; at most {MOST_STEPS} are")
    return _Unfolding(sound=sound, sheet=sheet, key=key).through(tuple(steps))


@dataclass(kw_only=True)
class _Unfolding:
    """One unfolding in the making: the stretches behind the steps, and what stood after each."""

    sound: SetUp
    sheet: DiagnosisSheet
    key: DiagnosisKey
    done: list[str] = field(default_factory=list)
    outcome: Outcome = Outcome.OPEN

    def through(self, steps: tuple[str, ...]) -> Unfolding:
        states, stretches, times_s = self._stretches(steps)
        course = self._course(stretches)
        found = [self._seen("", states[0], course, 0.0)]
        for step, after, time_s in zip(steps, states[1:], times_s, strict=True):
            if self.outcome.is_over:
                raise NoFurtherStep("it was over before this step")
            found.append(self._seen(step, after, course, time_s))
            self.outcome = self._stands(step, after, found[-2:])
            self.done.append(step)
        last = states[-1]
        return Unfolding(
            steps=tuple(found),
            outcome=self.outcome,
            set_up=last.set_up,
            cured=last.cured,
            done=frozenset(self.done),
        )

    def trace(self, steps: tuple[str, ...]) -> tuple[tuple[float, float, float, float], ...]:
        _, stretches, times_s = self._stretches(steps)
        course, starts_s = stretched_purge(stretches), self.key.sound_s + self.key.faulty_s
        ends_s = times_s[-1] if times_s else 0.0
        count = _TRACE_COUNT if ends_s else 1
        rows = (course.row_at(starts_s + ends_s * each / max(1, count - 1)) for each in range(count))
        return tuple((time_s - starts_s, root, mean, vent) for time_s, root, mean, vent in rows)

    def _stretches(self, steps: tuple[str, ...]) -> tuple[list[_State], list[Stretch], list[float]]:
        """The state before each step and after the last, the stretches that they make, and their ends."""
        faulty = _State(set_up=self._faulty)
        states, times_s = [faulty], [0.0]
        stretches = [
            Stretch(set_up=self.sound, lasts_s=self.key.sound_s),
            Stretch(set_up=faulty.set_up, lasts_s=self.key.faulty_s),
        ]
        for step in steps:
            takes_s, before = self._takes_s(step), states[-1]
            stretches.append(Stretch(set_up=before.set_up, lasts_s=takes_s, opens=before.opens))
            states.append(self._changed(before, self.key.move(step)))
            times_s.append(times_s[-1] + takes_s)
        last = states[-1]
        stretches.append(Stretch(set_up=last.set_up, lasts_s=0.0, opens=last.opens))
        return states, stretches, times_s[1:]

    def _takes_s(self, step: str) -> float:
        found = next((each for each in self.sheet.moves if each.id == step), None)
        if found is None:
            raise Missing("step", step)
        return found.takes_s

    def _course(self, stretches: list[Stretch]) -> Course:
        return air_chain(stretches) if self.sheet.watches is Watched.AIR else stretched_purge(stretches)

    def _changed(self, before: _State, move: MoveKey) -> _State:
        """What an action makes of the set-up; a cure takes the fault out of it."""
        cures = self.key.cause in move.cures and not before.cured
        sets = (*before.sets, *move.sets)
        cured = before.cured or cures
        start = self.sound if cured else self._faulty
        changed = {path for path, _ in (*move.sets, *(self.key.drawn.values if cures else ()))}
        return _State(
            set_up=with_values(start, dict(sets)),
            sets=sets,
            cured=cured,
            opens=move.opens or any(path.split(".")[0] in _OF_THE_SECTION for path in changed),
        )

    @property
    def _faulty(self) -> SetUp:
        return with_values(self.sound, dict(self.key.drawn.values))

    def _seen(self, step: str, state: _State, course: Course, time_s: float) -> StepSeen:
        starts_s = self.key.sound_s + self.key.faulty_s
        opened = (O2_IN_DRY_AIR_FRAC, O2_IN_DRY_AIR_FRAC)
        is_opened = state.opens and self.sheet.watches is Watched.ROOT
        true = opened if is_opened else course.oxygen_at(starts_s + time_s)
        gas_m3 = course.gas_until_m3(starts_s + time_s) - course.gas_until_m3(starts_s)
        return StepSeen(
            move_id=step,
            time_s=time_s,
            shown_frac=tuple(self._shown(each, state) for each in true),
            true_frac=true,
            gas_m3=gas_m3,
            seen=self._words(step, state),
            figures=self._figures(step, state, course, starts_s + time_s),
        )

    def _shown(self, oxygen_frac: float, state: _State) -> float:
        """What the analyser shows of it, through its line, to as many figures as mean something."""
        air_frac = 0.0 if state.cured else self.key.drawn.sample_air_frac
        sampled_frac = sampled_o2_frac(oxygen_frac, air_share_frac=air_frac)
        figures = _SHOWN_FIGURES if sampled_frac < _LIKE_AIR_FRAC else _SHOWN_FIGURES_OF_AIR
        return rounded(sampled_frac, figures=figures)

    def _words(self, step: str, state: _State) -> str:
        return self.key.seen(step, SOUND if state.cured else self.key.cause) if step else ""

    def _figures(self, step: str, state: _State, course: Course, time_s: float) -> tuple[Seen, ...]:
        found = []
        for shows in self.key.move(step).shows if step else ():
            if shows is Shows.FLOW:
                value: float | None = flow_through(state.set_up)
                dimension = Dimension.VOLUME_FLOW
            else:
                value, dimension = _gauge(state.set_up, course, time_s), Dimension.PRESSURE
            if value is not None:
                found.append(Seen(shows=shows, value=value, dimension=dimension))
        return tuple(found)

    def _stands(self, step: str, after: _State, last_two: list[StepSeen]) -> Outcome:
        ending = self.key.move(step).ending
        if last_two[-1].time_s > self.sheet.limit_s + SLACK_S:
            return Outcome.LOST
        if ending is None:
            return Outcome.OPEN
        if ending is Ending.CALL:
            return Outcome.CALLED
        needed = {each.id for each in self.key.moves if each.needed}
        if ending is Ending.OUT:
            return Outcome.READY if after.cured and needed <= set(self.done) else Outcome.NOT_READY
        # What counts is what was read before the arc: striking is no reading.
        if last_two[0].shown_frac[0] > self.key.target_frac:
            return Outcome.TOO_EARLY
        return Outcome.READY if after.cured else Outcome.STILL_FAULTY


def _gauge(set_up: SetUp, course: Course, time_s: float) -> float | None:
    """The supply's gauge at some time of a purge's course."""
    if not isinstance(course, StretchedPurge):
        return None
    left_m3 = course.left_at_m3(time_s)
    return None if left_m3 is None else gauge_of(set_up, left_m3=left_m3)
