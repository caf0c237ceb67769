"""Drawing a scenario and marking a full set of responses, family by family and over all, and the whole check."""

import time
from collections.abc import Iterator
from statistics import median

from tests.bench.measuring import Figure, milliseconds, spread
from trainer.domain.families import draw
from trainer.domain.marking import mark
from trainer.domain.people import UnitSystem
from trainer.domain.scenario import Scenario
from trainer.scenario_files import Content, load_content
from trainer.scenario_files.content_check import checked_family

SEEDS = range(1000, 1012)
DIFFICULTIES = (0.0, 0.5, 1.0)
GOAL_MS = 15.0
TOGETHER_GOAL_MS = 10.0  # drawing, with its keys, and marking, at the median over all families
CHECK_SEEDS = 30  # of every family, of which the time of all is reckoned
CHECK_GOAL_S = 360.0  # of one core, so that two are done within three minutes


def bench() -> Iterator[Figure]:
    """Times over seeds and all difficulties; marking by the right responses, which every rule has to look at."""
    content = load_content()
    drawing: list[float] = []
    marking: list[float] = []
    together: list[float] = []
    for family in content.families.values():
        scenarios: list[Scenario] = []

        def one(asked, family=family, scenarios=scenarios) -> None:
            seed, difficulty = asked
            scenarios.append(
                draw(family, seed=seed, difficulty=difficulty, policy=content.policy, hazards=content.hazards)
            )

        one((999, 0.5))
        times = drawn = milliseconds(one, [(seed, each) for seed in SEEDS for each in DIFFICULTIES])
        drawing += times
        yield Figure(what=f"drawing, {family.id}", value=median(times), unit="ms", goal=GOAL_MS, beside=spread(times))  # fmt: skip
        times = milliseconds(lambda each: _mark(each, content.policy), scenarios[1:])
        marking += times
        together += [one + other for one, other in zip(drawn, times, strict=True)]
        yield Figure(what=f"marking, {family.id}", value=median(times), unit="ms", goal=GOAL_MS, beside=spread(times))  # fmt: skip
    yield Figure(
        what="check --seeds 500, of one core", value=_check_s(content, 500), unit="s", goal=CHECK_GOAL_S
    )
    yield Figure(what="drawing, all families", value=median(drawing), unit="ms", goal=GOAL_MS, beside=spread(drawing))  # fmt: skip
    yield Figure(what="marking, all families", value=median(marking), unit="ms", goal=GOAL_MS, beside=spread(marking))  # fmt: skip
    yield Figure(
        what="drawing and marking, all families",
        value=median(together),
        unit="ms",
        goal=TOGETHER_GOAL_MS,
        beside=spread(together),
    )


def _check_s(content: Content, seeds: int) -> float:
    """Processor time of `trainer check` for so many seeds a family, from fewer of every family and edition."""
    took_s = 0.0
    for name, family in content.families.items():
        inch = content.family(name, edition=UnitSystem.INCH_POUND)
        start_s = time.process_time()
        checked_family(family, content, seeds=range(CHECK_SEEDS), inch=inch)
        took_s += time.process_time() - start_s
    return took_s * seeds / CHECK_SEEDS


def _mark(scenario: Scenario, policy) -> None:
    keys = {key: each.key for key, each in scenario.answers.items() if each.key is not None}
    mark(scenario, responses=keys, policy=policy)
