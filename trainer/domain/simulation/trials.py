"""One scenario met by simulated apprentices of every ability, marked by the real rules."""

from dataclasses import dataclass

from trainer.domain.core_results import CoreResults
from trainer.domain.families import DrawnScenario
from trainer.domain.marking import mark
from trainer.domain.policy import Policy
from trainer.domain.scenario import Item, ItemOutcome, Marked, Scenario
from trainer.domain.simulation.answers import responses_of
from trainer.domain.simulation.closeness import margins_of
from trainer.domain.simulation.demands import demands_of
from trainer.domain.simulation.habits import Habits
from trainer.domain.simulation.person import Person, Task

ABILITIES_LOGITS = (-2.0, -1.0, 0.0, 1.0, 2.0)


@dataclass(frozen=True, kw_only=True)
class Trial:
    """How one simulated apprentice did at one scenario; an explanation, which no machine grades, left out."""

    seed: int
    difficulty: float
    ability_logits: float
    score: float
    passed: bool


def trials_of(found: DrawnScenario, *, habits: Habits, policy: Policy) -> tuple[Trial, ...]:
    """One trial for each ability, at the same scenario, each with luck of their own."""
    scenario = found.scenario
    task = Task(
        scenario=scenario,
        demands={each.id: demands_of(scenario, item=each) for each in scenario.items},
        margins=margins_of(found.drawn),
        habits=habits,
        core=CoreResults(policy),
    )
    return tuple(_trial(task, ability, policy) for ability in ABILITIES_LOGITS)


def _trial(task: Task, ability_logits: float, policy: Policy) -> Trial:
    responses = responses_of(Person(ability_logits=ability_logits, task=task))
    marked = mark(task.scenario, responses=responses, policy=policy)
    scored = _scored(task.scenario, marked)
    skills = {item.skill for item, _ in scored}
    means = [_mean([each for each in scored if each[0].skill == skill]) for skill in skills]
    return Trial(
        seed=task.scenario.seed or 0,
        difficulty=task.scenario.difficulty,
        ability_logits=ability_logits,
        score=_mean(scored),
        passed=not marked.critical_missed and all(each >= policy.pass_mark_frac for each in means),
    )


def _scored(scenario: Scenario, marked: Marked) -> list[tuple[Item, ItemOutcome]]:
    pairs = zip(scenario.items, marked.outcomes, strict=True)
    return [(item, outcome) for item, outcome in pairs if outcome.score is not None]


def _mean(scored: list[tuple[Item, ItemOutcome]]) -> float:
    weight = sum(item.weight for item, _ in scored)
    return sum(item.weight * (outcome.score or 0.0) for item, outcome in scored) / weight
