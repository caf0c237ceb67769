"""One simulated apprentice at one scenario: what they overlook, what they believe, how well they estimate.

Every event has a random number of its own, so that what one person overlooks says nothing of the next. An
event goes well with the chance 1 / (1 + exp(-(ability + ease))), both in logits.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp, inf, sqrt
from random import Random

from trainer.domain.core_results import CoreResults
from trainer.domain.scenario import Scenario
from trainer.domain.simulation.demands import Demands
from trainer.domain.simulation.habits import Habits

# Ease of single things, in logits: our judgement of apprentices half way through a course, not measured.
SEES_AN_EFFECT = 1.5
CUES_HELP = 0.7
KNOWS_A_MARK = 2.0
CONVERTS_A_UNIT = 2.0
TAKES_AN_AMOUNT_RIGHT = 3.0
RESISTS_A_BELIEF = 2.5
THINKS_BEFORE_HABIT = 1.0
_STAYS_RIGHT = 0.6  # what one overlooked thing leaves of the chance that the answer still comes out right
_ESTIMATES_WITHIN = 0.2  # spread of a ratio guessed from one effect at ability 0, in its logarithm
_SHARPER = 0.7  # how the spread falls with ability, a logit


@dataclass(frozen=True, kw_only=True)
class Task:
    """A scenario as a simulated apprentice meets it."""

    scenario: Scenario
    demands: Mapping[str, Demands]
    margins: Mapping[str, float]
    habits: Habits
    core: CoreResults


class Person:
    """Somebody of one ability at one scenario."""

    def __init__(self, *, ability_logits: float, task: Task) -> None:
        self.ability_logits = ability_logits
        self.task = task
        self._named = f"{task.scenario.family}\x00{task.scenario.seed}\x00{ability_logits}"

    def dice(self, event: str) -> Random:
        """The random numbers of an event."""
        return Random(f"{self._named}\x00{event}")

    def manages(self, event: str, *, ease: float) -> bool:
        """Whether something goes well."""
        return self.dice(event).random() < 1.0 / (1.0 + exp(-(self.ability_logits + ease)))

    def spread(self, *, effects_count: int) -> float:
        """How far off a mental estimate is, in its logarithm: errors of several effects add in squares."""
        return _ESTIMATES_WITHIN * exp(-_SHARPER * self.ability_logits) * sqrt(1.0 + effects_count)

    def overlooked(self, item_id: str) -> int:
        """How many things that the item rests on were not seen, known or converted."""
        asked = self.task.demands[item_id]
        ease = SEES_AN_EFFECT + (CUES_HELP if asked.cues else 0.0)
        unseen = sum(not self.manages(f"effect {each}", ease=ease) for each in asked.effects)
        unknown = sum(not self.manages(f"mark {each}", ease=KNOWS_A_MARK) for each in asked.marks)
        amounts = range(asked.amounts)
        mistaken = sum(not self.manages(f"amount {each}", ease=TAKES_AN_AMOUNT_RIGHT) for each in amounts)
        return unseen + unknown + mistaken + self.unconverted(item_id)

    def unconverted(self, item_id: str) -> int:
        """How many of the amounts in mixed units were taken for what they are not."""
        mixed = range(self.task.demands[item_id].mixed_units)
        return sum(not self.manages(f"unit {each}", ease=CONVERTS_A_UNIT) for each in mixed)

    def sees_it_all(self, item_id: str, *, step: str = "") -> bool:
        """Whether nothing that was overlooked spoils this answer: some of it does not matter here."""
        left = _STAYS_RIGHT ** self.overlooked(item_id)
        return self.dice(f"{item_id} overlooked {step}").random() < left

    def is_led_by(self, belief: str, item_id: str) -> bool:
        """Whether a wrong idea decides this answer."""
        return not self.manages(f"{item_id} belief {belief}", ease=RESISTS_A_BELIEF)

    def tells_apart(self, item_id: str) -> bool:
        """Whether the right option's lead over the next one is seen through the error of the estimate."""
        margin = self.task.margins.get(item_id, inf)
        effects = len(self.task.demands[item_id].effects)
        return self.dice(f"{item_id} estimate").gauss(0.0, 1.0) * self.spread(effects_count=effects) < margin
