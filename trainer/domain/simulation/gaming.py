"""People who answer by a rule and never by the scenario: none of them may pass a module.

Guesses are generous: amounts are guessed around the right one, which nobody who guesses knows, and what is
written as an explanation is taken to be graded in full.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import exp, log
from random import Random

from trainer.domain.attempts import ItemMark, item_marks
from trainer.domain.diagnosis_parts import MOST_STEPS, DiagnosisSheet, MoveKind
from trainer.domain.marking import mark
from trainer.domain.modules import Blueprint, drawn_families, judge
from trainer.domain.policy import Policy
from trainer.domain.quantities import Dimension
from trainer.domain.scenario import Item, ItemKind, Response, Scenario
from trainer.domain.set_up_paths import spec_at

_GUESSED_WITHIN = log(5.0)  # guesses of an amount lie up to five times off either way
_TINY_FRAC, _HUGE_TIMES = 0.02, 50.0
_WAITS = 30  # times that somebody waits who does nothing else
_LONG_WAITS = 8.0  # times the right one: safe, and far more than anybody has


class Strategy(StrEnum):
    """A way to answer without looking."""

    LARGEST = "always the largest"
    SMALLEST = "always the smallest"
    EVERYTHING = "everything ticked"
    NOTHING = "nothing ticked"
    MIDDLE = "the middle option"
    FIRST = "the first option"
    RANDOM = "random marks"
    LONG_WAITS = "long waits for everything"
    EMPTY = "empty"


@dataclass(frozen=True, kw_only=True)
class Pool:
    """Marked scenarios of one family at one difficulty, by strategy."""

    family: str
    difficulty: float
    marks: dict[Strategy, tuple[tuple[ItemMark, ...], ...]]


def pool_of(scenarios: Sequence[Scenario], *, policy: Policy) -> Pool:
    """Every strategy at each of these scenarios of one family and difficulty, marked by the real rules."""
    return Pool(
        family=scenarios[0].family,
        difficulty=scenarios[0].difficulty,
        marks={
            strategy: tuple(_marks(each, strategy, policy) for each in scenarios) for strategy in Strategy
        },
    )


def passes_count(
    blueprint: Blueprint, *, pools: Sequence[Pool], strategy: Strategy, attempts: int, source: Random
) -> int:
    """How many of so many attempts at a module pass, each of scenarios taken from the pools at random."""
    found = {(each.family, each.difficulty): each.marks[strategy] for each in pools}
    return sum(_passes(blueprint, found, turn, source) for turn in range(attempts))


def _passes(
    blueprint: Blueprint,
    found: dict[tuple[str, float], tuple[tuple[ItemMark, ...], ...]],
    turn: int,
    source: Random,
) -> bool:
    marks: list[ItemMark] = []
    for number, (family, row) in enumerate(drawn_families(blueprint, turn=turn), start=1):
        taken = source.choice(found[family, row.difficulty])
        marks += [replace(each, scenario_no=number) for each in taken]
    return judge(blueprint, marks=tuple(marks)).passed is not False


def _marks(scenario: Scenario, strategy: Strategy, policy: Policy) -> tuple[ItemMark, ...]:
    dice = Random(f"{scenario.family}\x00{scenario.seed}\x00{strategy}")
    responses = {} if strategy is Strategy.EMPTY else responses_by(scenario, strategy=strategy, dice=dice)
    marked = mark(scenario, responses=responses, policy=policy)
    found = item_marks(scenario, marked=marked, scenario_no=1)
    return tuple(replace(each, score=1.0, correct=True) if each.waits_for_grade else each for each in found)


def responses_by(scenario: Scenario, *, strategy: Strategy, dice: Random) -> dict[str, Response]:
    """What a strategy answers; its rule where the kind of item has something for it, else the dice."""
    answers: dict[ItemKind, Callable[[Item], Response]] = {
        ItemKind.QUANTITY: lambda item: _amount(item, float(scenario.answers[item.id].key), strategy, dice),
        ItemKind.PLACEMENT: lambda item: _placed(item, strategy, dice),
        ItemKind.CHOICE: lambda item: _option(item, strategy, dice),
        ItemKind.HAZARDS: lambda item: _some([each.id for each in item.objects], strategy, dice),
        ItemKind.ORDER: lambda item: _ordered(item, strategy, dice),
        ItemKind.READING: lambda item: _read(item, strategy, dice),
        ItemKind.EXPLANATION: lambda _: "It is always done like that.",
        ItemKind.DIAGNOSIS: lambda item: _steps(item, strategy, dice),
    }
    return {each.id: answers[each.kind](each) for each in scenario.items}


def _amount(item: Item, right: float, strategy: Strategy, dice: Random) -> float:
    """Capped by what a set-up takes at all, so that the amount can be typed."""
    guessed = right * exp(dice.uniform(-_GUESSED_WITHIN, _GUESSED_WITHIN))
    guesses = {
        Strategy.LARGEST: right * _HUGE_TIMES,
        Strategy.SMALLEST: right * _TINY_FRAC,
        Strategy.LONG_WAITS: right * _LONG_WAITS if item.dimension is Dimension.DURATION else guessed,
        Strategy.EVERYTHING: right * _HUGE_TIMES,
        Strategy.NOTHING: right * _TINY_FRAC,
    }
    guess = guesses.get(strategy, guessed)
    highest = [spec.high for spec in map(spec_at, item.sets) if spec.high is not None]
    lowest = [spec.low for spec in map(spec_at, item.sets) if spec.low is not None]
    return max(min([guess, *highest]), *lowest, 1e-9)


def _share(strategy: Strategy, dice: Random) -> float:
    """Where on the way from the lowest to the highest."""
    ends = {
        Strategy.LARGEST: 1.0, Strategy.EVERYTHING: 1.0, Strategy.LONG_WAITS: 1.0,
        Strategy.SMALLEST: 0.0, Strategy.NOTHING: 0.0, Strategy.FIRST: 0.0, Strategy.MIDDLE: 0.5,
    }  # fmt: skip
    return ends.get(strategy, dice.random())


def _placed(item: Item, strategy: Strategy, dice: Random) -> Response:
    return {each.id: each.low + (each.high - each.low) * _share(strategy, dice) for each in item.handles}


def _option(item: Item, strategy: Strategy, dice: Random) -> str:
    """The place in the list; "largest" takes the option with the most words, as people who game tests do."""
    options, last = item.options, len(item.options) - 1
    places = {Strategy.FIRST: 0, Strategy.MIDDLE: last // 2, Strategy.EVERYTHING: last}
    if strategy is Strategy.LARGEST:
        return max(options, key=lambda each: len(each.text)).id
    if strategy is Strategy.SMALLEST:
        return min(options, key=lambda each: len(each.text)).id
    return options[places.get(strategy, dice.randrange(len(options)))].id


def _some(ids: Sequence[str], strategy: Strategy, dice: Random) -> tuple[str, ...]:
    if strategy in (Strategy.EVERYTHING, Strategy.LARGEST):
        return tuple(ids)
    if strategy in (Strategy.NOTHING, Strategy.SMALLEST):
        return ()
    if strategy is Strategy.FIRST:
        return tuple(ids[: len(ids) // 2])
    return tuple(each for each in ids if dice.random() < 0.5)


def _ordered(item: Item, strategy: Strategy, dice: Random) -> tuple[str, ...]:
    steps = [each.id for each in item.steps]
    if strategy in (Strategy.EVERYTHING, Strategy.FIRST):
        return tuple(steps)
    if strategy in (Strategy.NOTHING, Strategy.SMALLEST):
        return tuple(steps[:1])
    dice.shuffle(steps)
    return tuple(steps)


def _read(item: Item, strategy: Strategy, dice: Random) -> Response:
    scale = item.instrument
    if item.options or scale is None:
        return _option(item, strategy, dice)
    return scale.low + (scale.high - scale.low) * _share(strategy, dice)


def _steps(item: Item, strategy: Strategy, dice: Random) -> tuple[str, ...]:
    """Everything in a row, an end at once, waiting and then the end, or steps at random."""
    sheet = item.diagnosis
    assert sheet is not None  # an item of this kind has one
    moves = [each.id for each in sheet.moves]
    ends = [each.id for each in sheet.moves if each.kind is MoveKind.FINISH]
    waits = [each.id for each in sheet.moves if each.kind is MoveKind.WAIT] or moves
    lines = {
        Strategy.LARGEST: moves[::-1], Strategy.EVERYTHING: moves, Strategy.FIRST: moves,
        Strategy.SMALLEST: ends[:1], Strategy.NOTHING: ends[-1:],
        Strategy.LONG_WAITS: [*waits[:1] * _WAITS, ends[0]],
    }  # fmt: skip
    line = lines.get(strategy) or [*dice.sample(moves, len(moves)), dice.choice(ends)]
    return until_over(sheet, line)


def until_over(sheet: DiagnosisSheet, steps: Sequence[str]) -> tuple[str, ...]:
    """The steps up to the end of the matter, as far as they may go."""
    ends = (count for count in range(1, len(steps)) if sheet.is_over(steps[:count]))
    return tuple(steps[: min(next(ends, len(steps)), MOST_STEPS)])
