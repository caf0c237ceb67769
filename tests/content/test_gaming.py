"""Nobody passes a module who does not look: strategies against modules over all families, by the real marking."""

from functools import cache
from random import Random

import pytest

from trainer.cli.demo_site.courses import courses
from trainer.domain.attempts import ItemMark
from trainer.domain.families import draw
from trainer.domain.marking import mark
from trainer.domain.simulation.gaming import Pool, Strategy, passes_count, pool_of, responses_by
from trainer.domain.simulation.modules import TriedModule, drawn_from, modules_over
from trainer.scenario_files import load_content

ATTEMPTS = 1000
CONTENT = load_content()
MARK = CONTENT.policy.pass_mark_frac
MODULES = (
    *modules_over(CONTENT.families, pass_mark_frac=MARK, difficulties=(0.0,)),
    *(TriedModule(title=each.title, blueprint=each.blueprint) for each in courses(CONTENT.policy)),
)
SLOW = "many-elbows"  # dear to mark; two scenarios of it do


@cache
def pools() -> tuple[Pool, ...]:
    """Scenarios with odd seeds, as assessed attempts have them, drawn and marked once for all the attempts."""
    return tuple(pool(family, difficulty) for family, difficulty in sorted(drawn_from(MODULES)))


def pool(family: str, difficulty: float) -> Pool:
    scenarios = [
        draw(
            CONTENT.family(family), seed=seed, difficulty=difficulty,
            policy=CONTENT.policy, hazards=CONTENT.hazards,
        )
        for seed in ((1, 3) if family == SLOW else (1, 3, 5))
    ]  # fmt: skip
    return pool_of(scenarios, policy=CONTENT.policy)


@pytest.mark.slow
@pytest.mark.xdist_group("gaming")
@pytest.mark.parametrize("strategy", Strategy)
def test_a_strategy_passes_no_module_in_a_thousand_attempts(strategy: Strategy) -> None:
    passes = {
        module.title: passes_count(
            module.blueprint, pools=pools(), strategy=strategy, attempts=ATTEMPTS, source=Random(module.title)
        )
        for module in MODULES
    }
    assert passes == dict.fromkeys(passes, 0)


@pytest.mark.slow
@pytest.mark.xdist_group("gaming")
def test_the_strategies_answer_everything_but_the_empty_one_and_are_not_all_the_same() -> None:
    for each in pools():
        for strategy, marked in each.marks.items():
            answered = {one.answered for marks in marked for one in marks}
            assert answered == {strategy is not Strategy.EMPTY}, (each.family, strategy)
    means = {
        strategy: [one.score for each in pools() for marks in each.marks[strategy] for one in marks]
        for strategy in Strategy
    }
    assert len({sum(score or 0.0 for score in scores) for scores in means.values()}) == len(Strategy)


@pytest.mark.slow
@pytest.mark.xdist_group("gaming")
def test_who_gives_every_key_passes_where_the_strategies_fail() -> None:
    """The attempts are not lost for another reason: with the marks of the keys in the pool all of them pass."""
    right = tuple(
        Pool(
            family=each.family,
            difficulty=each.difficulty,
            marks={
                Strategy.RANDOM: tuple(
                    tuple(_as_right(one) for one in marks) for marks in each.marks[Strategy.RANDOM]
                )
            },
        )
        for each in pools()
    )  # fmt: skip
    for module in MODULES:
        passes = passes_count(
            module.blueprint, pools=right, strategy=Strategy.RANDOM, attempts=20, source=Random(1)
        )
        assert passes == 20, module.title


def _as_right(one: ItemMark) -> ItemMark:
    return ItemMark(**{**one.__dict__, "score": 1.0, "correct": True, "critical_missed": False})


def test_a_flow_tube_read_as_nothing_is_marked() -> None:
    scenario = draw(
        CONTENT.family("riser"), seed=1, difficulty=0.0, policy=CONTENT.policy, hazards=CONTENT.hazards
    )
    responses = responses_by(scenario, strategy=Strategy.SMALLEST, dice=Random(1))
    assert responses["tube"] == 0.0
    assert mark(scenario, responses=responses, policy=CONTENT.policy).passed is False
