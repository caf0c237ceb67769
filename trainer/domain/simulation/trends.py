"""Whether success falls with difficulty and rises with ability, with the standard error of each slope."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import fmean, stdev

from trainer.domain.simulation.trials import Trial

SURE = 1.645  # standard errors of a one-sided test at 5 %
ODD = 3.0  # standard errors that a single step may go the wrong way by chance


@dataclass(frozen=True, kw_only=True)
class Slope:
    """The change of the mean score for one unit, and its standard error."""

    value: float
    standard_error: float

    @property
    def is_surely_negative(self) -> bool:
        """Whether it lies below zero by more than chance allows."""
        return self.value + SURE * self.standard_error < 0.0

    @property
    def is_surely_positive(self) -> bool:
        """Whether it lies above zero by more than chance allows."""
        return self.value - SURE * self.standard_error > 0.0


@dataclass(frozen=True, kw_only=True)
class Cell:
    """The mean score and the share that passed of one ability at one difficulty."""

    ability_logits: float
    difficulty: float
    mean_score: float
    pass_frac: float
    count: int


def cells_of(trials: Sequence[Trial]) -> tuple[Cell, ...]:
    """One cell for each ability and difficulty, in order."""
    places = sorted({(each.ability_logits, each.difficulty) for each in trials})
    return tuple(
        _cell([each for each in trials if (each.ability_logits, each.difficulty) == place])
        for place in places
    )


def _cell(trials: Sequence[Trial]) -> Cell:
    return Cell(
        ability_logits=trials[0].ability_logits,
        difficulty=trials[0].difficulty,
        mean_score=fmean(each.score for each in trials),
        pass_frac=fmean(each.passed for each in trials),
        count=len(trials),
    )


def slope_over_difficulty(trials: Sequence[Trial]) -> Slope:
    """Least squares over scenarios: those who met the same one are one observation, their mean."""
    points = [
        (group[0].difficulty, fmean(each.score for each in group)) for group in _by_scenario(trials).values()
    ]
    return least_squares(points)


def slope_over_ability(trials: Sequence[Trial]) -> Slope:
    """The mean of the slopes within each scenario, a logit."""
    groups = _by_scenario(trials).values()
    slopes = [least_squares([(one.ability_logits, one.score) for one in group]).value for group in groups]
    return Slope(value=fmean(slopes), standard_error=stdev(slopes) / sqrt(len(slopes)))


def least_squares(points: Sequence[tuple[float, float]]) -> Slope:
    """The slope of a straight line through points and its standard error."""
    middle_x, middle_y = fmean(x for x, _ in points), fmean(y for _, y in points)
    spread = sum((x - middle_x) ** 2 for x, _ in points)
    slope = sum((x - middle_x) * (y - middle_y) for x, y in points) / spread
    left = sum((y - middle_y - slope * (x - middle_x)) ** 2 for x, y in points)
    return Slope(value=slope, standard_error=sqrt(left / max(1, len(points) - 2) / spread))


def turning_steps(trials: Sequence[Trial]) -> tuple[str, ...]:
    """Steps from one difficulty or ability to the next that go the wrong way by more than chance allows."""
    falls = _steps(trials, lambda each: each.difficulty, wrong=1.0)
    rises = _steps(trials, lambda each: each.ability_logits, wrong=-1.0)
    return (
        *(f"success rises from difficulty {low:g} to {high:g}" for low, high in falls),
        *(f"success falls from ability {low:g} to {high:g}" for low, high in rises),
    )


def _steps(
    trials: Sequence[Trial], place: Callable[[Trial], float], *, wrong: float
) -> list[tuple[float, float]]:
    values = {at: _scores_at(trials, place, at) for at in sorted({place(each) for each in trials})}
    found = []
    for low, high in zip(list(values), list(values)[1:], strict=False):
        step = wrong * (fmean(values[high]) - fmean(values[low]))
        if step > ODD * sqrt(_squared_error(values[low]) + _squared_error(values[high])):
            found.append((low, high))
    return found


def _scores_at(trials: Iterable[Trial], place: Callable[[Trial], float], at: float) -> list[float]:
    """The mean of each scenario: who met the same one is no observation of their own."""
    return [fmean(one.score for one in group) for group in
            _by_scenario(each for each in trials if place(each) == at).values()]  # fmt: skip


def _squared_error(values: Sequence[float]) -> float:
    return stdev(values) ** 2 / len(values) if len(values) > 1 else 0.0


def _by_scenario(trials: Iterable[Trial]) -> dict[tuple[float, int], list[Trial]]:
    groups: dict[tuple[float, int], list[Trial]] = {}
    for each in trials:
        groups.setdefault((each.difficulty, each.seed), []).append(each)
    return groups
