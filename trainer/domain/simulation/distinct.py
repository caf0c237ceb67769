"""How many different scenarios a family holds: by its draws, and a lower bound from what was drawn."""

from collections import Counter
from collections.abc import Iterable
from math import prod

from trainer.domain.family import ScenarioFamily


def combinations(family: ScenarioFamily, *, difficulty: float) -> int:
    """The product of the numbers of choices that each draw has at this difficulty."""
    return prod(sum(choice.span.holds(difficulty) for choice in each.choices) for each in family.draws)


def combinations_kept(family: ScenarioFamily, *, difficulty: float, kept_frac: float) -> float:
    """The estimate by rejection sampling: all combinations times the share that the constraints keep.

    Every combination is as likely, so that the kept share is an unbiased estimate; the places of options and
    objects are not counted as differences.
    """
    return combinations(family, difficulty=difficulty) * kept_frac


def chao1(seen: Iterable[str]) -> float:
    """A lower bound from how often each was seen: S + f1 (f1 - 1) / (2 (f2 + 1)), bias-corrected.

    S were seen at all, f1 once, f2 twice. Chao, A. (1984), Scandinavian Journal of Statistics 11:265.
    """
    times = Counter(Counter(seen).values())
    observed, once, twice = sum(times.values()), times[1], times[2]
    return observed + once * (once - 1) / (2.0 * (twice + 1))


def chance_of_a_repeat(kinds: float, *, attempts: int) -> float:
    """The chance that at least two of so many attempts meet the same of equally likely scenarios."""
    return 1.0 - prod(max(0.0, 1.0 - each / kinds) for each in range(attempts))
