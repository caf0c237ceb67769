"""Checks a family by simulated apprentices: is its difficulty felt, and how many scenarios does it hold?"""

from dataclasses import dataclass

from trainer.domain.families import Sources, draw_counted
from trainer.domain.family import ScenarioFamily
from trainer.domain.simulation.distinct import chance_of_a_repeat, chao1, combinations_kept
from trainer.domain.simulation.habits import habits_from
from trainer.domain.simulation.trends import (
    Cell,
    Slope,
    cells_of,
    slope_over_ability,
    slope_over_difficulty,
    turning_steps,
)
from trainer.domain.simulation.trials import Trial, trials_of
from trainer.scenario_files.content import Content
from trainer.scenario_files.content_check import LEAST_DISTINCT, distinct_text

DIFFICULTIES = (0.0, 0.25, 0.5, 0.75, 1.0)
CLASS_SIZE = 30  # attempts among which a repeat is asked about
_HABIT_SEEDS = range(1_000_000, 1_000_020)  # easy scenarios that were met before, none of those in the trials


@dataclass(frozen=True, kw_only=True)
class FamilySimulation:
    """What simulated apprentices made of one family."""

    family: str
    cells: tuple[Cell, ...]
    over_difficulty: Slope
    over_ability: Slope
    distinct_least: float  # by rejection sampling, at the difficulty with the fewest
    distinct_seen_least: float  # Chao1's lower bound over everything drawn
    repeat_chance: float
    repeats_count: int
    faults: tuple[str, ...]


def simulated_family(family: ScenarioFamily, content: Content, *, seeds: range) -> FamilySimulation:
    """Simulated apprentices of five abilities at the scenarios of those seeds, spread over five difficulties.

    Raises NothingDrawn where a family has no scenario to meet.
    """
    sources = Sources(policy=content.policy, hazards=content.hazards)
    easy = (draw_counted(family, seed=each, difficulty=0.0, sources=sources) for each in _HABIT_SEEDS)
    habits = habits_from(each.scenario for each in easy)
    trials: list[Trial] = []
    texts: list[str] = []
    rejected = dict.fromkeys(DIFFICULTIES, 0)
    counts = dict.fromkeys(DIFFICULTIES, 0)
    for seed in seeds:
        difficulty = DIFFICULTIES[seed % len(DIFFICULTIES)]
        found = draw_counted(family, seed=seed, difficulty=difficulty, sources=sources)
        counts[difficulty] += 1
        rejected[difficulty] += len(found.rejections)
        texts.append(distinct_text(found.scenario))
        trials += trials_of(found, habits=habits, policy=content.policy)
    least = min(
        combinations_kept(
            family, difficulty=each, kept_frac=counts[each] / max(1, counts[each] + rejected[each])
        )
        for each in DIFFICULTIES
    )
    return _judged(family.id, trials, texts, least)


def _judged(family: str, trials: list[Trial], texts: list[str], least: float) -> FamilySimulation:
    over_difficulty, over_ability = slope_over_difficulty(trials), slope_over_ability(trials)
    repeats = len(texts) - len(set(texts))
    faults = list(turning_steps(trials))
    if not over_difficulty.is_surely_negative:
        faults.append("difficulty is not felt: success does not surely fall with it")
    if not over_ability.is_surely_positive:
        faults.append("ability does not help: success does not surely rise with it")
    if least <= LEAST_DISTINCT:
        faults.append(
            f"about {least:.0f} different scenarios at one difficulty; over {LEAST_DISTINCT} wanted"
        )
    if repeats:
        faults.append(f"{repeats} of {len(texts)} seeds gave a scenario that another had given")
    return FamilySimulation(
        family=family,
        cells=cells_of(trials),
        over_difficulty=over_difficulty,
        over_ability=over_ability,
        distinct_least=least,
        distinct_seen_least=chao1(texts),
        repeat_chance=chance_of_a_repeat(least, attempts=CLASS_SIZE),
        repeats_count=repeats,
        faults=tuple(faults),
    )
