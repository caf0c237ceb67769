"""Simulated apprentices: who believes what, how strongly, and what they therefore answer.

A belief is the misconception that a content file names for a wrong answer. Each apprentice either holds it or
does not, decided by their name and the belief alone; what is held fades with every week of training, at the
apprentice's own pace. So the same wrong idea shows in the same person again and again, and then less.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import exp
from random import Random
from typing import Any

from trainer.domain.answered_set_up import item_values, right_set_up
from trainer.domain.core_results import CoreResults
from trainer.domain.diagnosis_parts import MoveKind
from trainer.domain.items.bands import carried_band, trap_values
from trainer.domain.items.explanation import LONGEST_TEXT
from trainer.domain.scenario import Answer, HazardKey, Item, ItemKind, Response, Scenario, SolutionStep
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import with_values
from trainer.domain.simulation.answers import can_be_typed, to_nearest
from trainer.domain.simulation.gaming import until_over
from trainer.scenario_files import response_document
from trainer.wording.quantities import quantity_words

_SHARE_OF_BELIEFS_HELD = 0.5
_SLIP = 0.01  # of answers that go wrong for no reason at all
_SPREAD = 0.05  # of a right quantity, in its logarithm: read off, rounded, a little in hand


@dataclass(frozen=True, kw_only=True)
class Temper:
    """How one apprentice starts and learns; 0 to 1 each, and a rate per week."""

    name: str
    stubbornness: float  # how often a belief that is held decides an answer at the start
    learning_rate: float
    sight: float  # share of hazards seen at the start
    alarm: float  # share of innocent things taken for a hazard at the start


def temper_of(name: str, *, seed: int) -> Temper:
    """The temper of an apprentice, the same for the same name and seed."""
    dice = Random(f"{seed}:temper:{name}")
    return Temper(
        name=name,
        stubbornness=dice.uniform(0.5, 0.95),
        learning_rate=dice.uniform(0.6, 1.4),
        sight=dice.uniform(0.4, 0.9),
        alarm=dice.uniform(0.0, 0.2),
    )


class Apprentice:
    """Answers scenarios week by week."""

    def __init__(self, temper: Temper, *, seed: int) -> None:
        self.temper = temper
        self._dice = Random(f"{seed}:answers:{temper.name}")
        self._seed = seed
        self._right: SetUp | None = None

    def answers(self, scenario: Scenario, *, week: float, core: CoreResults) -> dict[str, Response]:
        """A response to every item, earlier ones carried into the later, as somebody at the drawing would."""
        given: dict[str, Response] = {}
        set_up = self._right = right_set_up(scenario)
        for item in scenario.items:
            answer = scenario.answers[item.id]
            response = self._answer(item, answer, set_up, week, core)
            given[item.id] = response
            set_up = with_values(set_up, item_values(item, response))
        return given

    def _answer(self, item: Item, answer: Answer, set_up: SetUp, week: float, core: CoreResults) -> Response:
        answers: dict[ItemKind, Callable[[], Response]] = {
            ItemKind.QUANTITY: lambda: self._quantity(item, answer, set_up, week, core),
            ItemKind.PLACEMENT: lambda: self._placement(item, answer, week),
            ItemKind.CHOICE: lambda: self._choice(answer, week),
            ItemKind.HAZARDS: lambda: self._hazards(answer.hazards, week),
            ItemKind.ORDER: lambda: self._order(answer, week),
            ItemKind.READING: lambda: self._reading(answer, item, week),
            ItemKind.EXPLANATION: lambda: self._explanation(answer, week),
            ItemKind.DIAGNOSIS: lambda: self._diagnosis(item, answer, week),
        }
        return answers[item.kind]()

    def _is_led_by(self, belief: str, week: float) -> bool:
        """Whether a belief decides this answer: held at all, and not yet worn away."""
        held = Random(f"{self._seed}:{self.temper.name}:{belief}").random() < _SHARE_OF_BELIEFS_HELD
        strength = self.temper.stubbornness * exp(-self.temper.learning_rate * week)
        return self._dice.random() < (strength if held else _SLIP)

    def _quantity(
        self, item: Item, answer: Answer, set_up: SetUp, week: float, core: CoreResults
    ) -> Response:
        rule = answer.rule
        # before anything of theirs differs nothing is carried: an item may ask of the set-up as it was found
        carries = set_up != self._right
        band = carried_band(set_up, rule=rule, core=core) if rule is not None and carries else answer.band
        if rule is None or band is None:  # their own dams lead to no answer: they fall back on the usual one
            return float(answer.key)
        for value, belief in trap_values(set_up, rule=rule, core=core):
            if can_be_typed(item, value) and self._is_led_by(belief, week):
                return to_nearest(value, item)
        return to_nearest(band.key * exp(abs(self._dice.gauss(0.0, _SPREAD))), item)

    def _placement(self, item: Item, answer: Answer, week: float) -> Response:
        placed = dict(answer.key)
        for test in answer.placement:
            if not self._is_led_by(test.misconception, week):
                continue
            # a belief about where a part belongs pulls it to one end of its way, always the same one
            end = Random(f"{self._seed}:{self.temper.name}:{test.misconception}:end").random()
            for handle in item.handles:
                placed[handle.id] = handle.low if end < 0.5 else handle.high
            break
        return placed

    def _choice(self, answer: Answer, week: float) -> Response:
        for option, belief in sorted((answer.misconceptions or {}).items(), key=lambda each: each[1]):
            if option != answer.key and self._is_led_by(belief, week):
                return option
        return str(answer.key)

    def _hazards(self, objects: Iterable[HazardKey], week: float) -> Response:
        worn = exp(-self.temper.learning_rate * week)
        marks = [
            each.object_id
            for each in objects
            if self._dice.random() < (1.0 - (1.0 - self.temper.sight) * worn if each.is_hazard
                                      else self.temper.alarm * worn)
        ]  # fmt: skip
        return tuple(marks)

    def _order(self, answer: Answer, week: float) -> Response:
        """The right order, a step of a held belief taken in, or two neighbours changed by oversight."""
        order = list(answer.key)
        for each in answer.left_out:
            if self._is_led_by(each.misconception, week):
                order.insert(0, each.step_id)
        if self._dice.random() < (1.0 - self.temper.sight) * exp(-self.temper.learning_rate * week):
            place = self._dice.randrange(len(order) - 1)
            order[place : place + 2] = reversed(order[place : place + 2])
        return tuple(order)

    def _reading(self, answer: Answer, item: Item, week: float) -> Response:
        if answer.reading is None:
            return self._choice(answer, week)
        assert item.instrument is not None  # what is read as a quantity has a scale
        slip = self._dice.gauss(0.0, 0.3 + 1.2 * exp(-self.temper.learning_rate * week))
        read = float(answer.key) + slip * item.instrument.division * 0.5
        return min(max(read, item.instrument.low), item.instrument.high)

    def _explanation(self, answer: Answer, week: float) -> Response:
        """As much of the working as they have grasped by now, in its own words; at first hardly any."""
        grasped = 1.0 - self.temper.stubbornness * exp(-self.temper.learning_rate * week)
        known = [each for each in answer.solution if self._dice.random() < grasped]
        sentences = [in_a_sentence(each) for each in known] or ["That is how we always do it."]
        return " ".join(sentences)[:LONGEST_TEXT]

    def _diagnosis(self, item: Item, answer: Answer, week: float) -> Response:
        """The plan; what a belief takes for the cure comes first, and by oversight idle checks."""
        sheet, key = item.diagnosis, answer.diagnosis
        assert sheet is not None  # an item of this kind has both
        assert key is not None
        led = [each.id for each in key.moves if each.belief and key.cause not in each.cures]
        steps = [each for each in led if self._is_led_by(key.move(each).belief, week)]
        oversight = (1.0 - self.temper.sight) * exp(-self.temper.learning_rate * week)
        idle = (each.id for each in sheet.moves if each.kind is MoveKind.CHECK)
        steps += [each for each in idle if self._dice.random() < oversight]
        steps += [each for each in answer.key if each not in steps or sheet.move(each).kind is MoveKind.WAIT]
        return until_over(sheet, steps)


def in_a_sentence(step: SolutionStep) -> str:
    """What a step of the working says, as a sentence."""
    return f"{step.what.rstrip('.')}."


def as_typed(item: Item, response: Any) -> Any:
    """A response as it is typed: what is read off a scale to a few figures and with the scale's unit."""
    if item.kind is ItemKind.READING and item.dimension is not None and isinstance(response, float):
        return quantity_words(response, item.dimension).replace("\u00a0", " ")
    return response_document(item, response)
