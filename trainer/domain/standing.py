"""How far a skill has been shown: a count of scenarios, and the chance that enough of them are right."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import comb

# Ours: a bar that says "shown" is right in nine cases of ten, and "likely" is better than even.
SHOWN_FROM = 0.9
LIKELY_FROM = 0.5
OUTSIDE_FRAC = 0.1  # of cases that lie outside the interval shown, half of them at either end
_HALVINGS = 30


class Standing(StrEnum):
    """How far a skill has been shown."""

    NOT_SHOWN = "not shown yet"
    LIKELY = "likely"
    SHOWN = "shown"


@dataclass(frozen=True, kw_only=True)
class SkillStanding:
    """One skill of one person: scenarios behind it, those that reached the cut, and what follows."""

    skill: int
    scenarios_count: int
    right_count: int
    cut_frac: float
    chance_frac: float
    standing: Standing

    @property
    def share_frac(self) -> float | None:
        """The share that reached the cut; None before any."""
        return self.right_count / self.scenarios_count if self.scenarios_count else None

    @property
    def interval_frac(self) -> tuple[float, float] | None:
        """Between which shares the true one lies in nine cases of ten; None before any."""
        if not self.scenarios_count:
            return None
        return share_interval(self.right_count, of_count=self.scenarios_count)


def chance_of_share(right_count: int, *, of_count: int, cut_frac: float) -> float:
    """The chance that the true share right is at least the cut; before any, all shares are as likely.

    The posterior is Beta(right + 1, wrong + 1), whose tail above the cut is a sum of the binomial
    distribution: P(share >= c) = P(Bin(n + 1, c) <= right).

    >>> round(chance_of_share(12, of_count=12, cut_frac=0.8), 3)
    0.945
    """
    if not 0 <= right_count <= of_count:
        raise ValueError(f"{right_count} right of {of_count}")
    tries = of_count + 1
    return sum(
        comb(tries, each) * cut_frac**each * (1.0 - cut_frac) ** (tries - each)
        for each in range(right_count + 1)
    )


@cache
def share_interval(right_count: int, *, of_count: int) -> tuple[float, float]:
    """The ends between which the true share lies in nine cases of ten, by the same distribution.

    >>> low, high = share_interval(12, of_count=12)
    >>> round(low, 3)
    0.794
    """
    half = OUTSIDE_FRAC / 2.0
    return _share_above(right_count, of_count, 1.0 - half), _share_above(right_count, of_count, half)


def _share_above(right_count: int, of_count: int, chance_frac: float) -> float:
    """The share that the true one exceeds with that chance, found by halving."""
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        exceeded = chance_of_share(right_count, of_count=of_count, cut_frac=middle)
        low, high = (middle, high) if exceeded > chance_frac else (low, middle)
    return (low + high) / 2.0


def skill_standing(skill: int, *, means: Sequence[float], cut_frac: float) -> SkillStanding:
    """The standing that the means of single scenarios give; a scenario counts as right from the cut on."""
    right = sum(each >= cut_frac - 1e-9 for each in means)
    chance = chance_of_share(right, of_count=len(means), cut_frac=cut_frac)
    standing = Standing.NOT_SHOWN
    if means and chance >= LIKELY_FROM:
        standing = Standing.SHOWN if chance >= SHOWN_FROM else Standing.LIKELY
    return SkillStanding(
        skill=skill,
        scenarios_count=len(means),
        right_count=right,
        cut_frac=cut_frac,
        chance_frac=chance,
        standing=standing,
    )
