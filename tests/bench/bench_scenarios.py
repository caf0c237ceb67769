"""Drawing a scenario and marking a full set of responses, family by family and over all of them."""

from collections.abc import Iterator
from statistics import median

from tests.bench.measuring import Figure, milliseconds, spread
from trainer.domain.families import draw
from trainer.domain.marking import mark
from trainer.domain.scenario import Scenario
from trainer.scenario_files import load_content

SEEDS = range(1000, 1012)
DIFFICULTIES = (0.0, 0.5, 1.0)
GOAL_MS = 15.0


def bench() -> Iterator[Figure]:
    """Times over seeds and all difficulties; marking by the right responses, which every rule has to look at."""
    content = load_content()
    drawing: list[float] = []
    marking: list[float] = []
    for family in content.families.values():
        scenarios: list[Scenario] = []

        def one(asked, family=family, scenarios=scenarios) -> None:
            seed, difficulty = asked
            scenarios.append(
                draw(family, seed=seed, difficulty=difficulty, policy=content.policy, hazards=content.hazards)
            )

        one((999, 0.5))
        times = milliseconds(one, [(seed, each) for seed in SEEDS for each in DIFFICULTIES])
        drawing += times
        yield Figure(what=f"drawing, {family.id}", value=median(times), unit="ms", goal=GOAL_MS, beside=spread(times))  # fmt: skip
        times = milliseconds(lambda each: _mark(each, content.policy), scenarios)
        marking += times
        yield Figure(what=f"marking, {family.id}", value=median(times), unit="ms", goal=GOAL_MS, beside=spread(times))  # fmt: skip
    yield Figure(what="drawing, all families", value=median(drawing), unit="ms", goal=GOAL_MS, beside=spread(drawing))  # fmt: skip
    yield Figure(what="marking, all families", value=median(marking), unit="ms", goal=GOAL_MS, beside=spread(marking))  # fmt: skip


def _mark(scenario: Scenario, policy) -> None:
    keys = {key: each.key for key, each in scenario.answers.items() if each.key is not None}
    mark(scenario, responses=keys, policy=policy)
