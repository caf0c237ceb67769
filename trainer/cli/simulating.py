"""`trainer check --simulate`: is difficulty felt, does ability help, does anybody pass without looking?"""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

import click

from trainer.cli.demo_site.courses import courses
from trainer.cli.family_tasks import FamilyTask
from trainer.cli.processors import on_all_processors
from trainer.domain.families import draw
from trainer.domain.simulation.gaming import Pool, Strategy, passes_count, pool_of
from trainer.domain.simulation.modules import DIFFICULTIES, TriedModule, drawn_from, modules_over
from trainer.domain.simulation.trends import Cell
from trainer.scenario_files import Content, load_content
from trainer.scenario_files.simulated_check import CLASS_SIZE, FamilySimulation, simulated_family

ATTEMPTS = 1000
_POOL_SCENARIOS = 6  # marked for each family, difficulty and strategy; attempts are made up of them


@dataclass(frozen=True)
class _PoolTask:
    """The scenarios of one family and difficulty that strategies are tried at."""

    family: str
    difficulty: float


def simulated(tasks: Sequence[FamilyTask], *, jobs: int | None, with_modules: bool) -> list[str]:
    """Print what simulated people made of the families, and of modules over them; returns every fault."""
    faults: list[str] = []
    for found in on_all_processors(_simulate, tasks, jobs=jobs, title="Simulated apprentices"):
        click.echo("\n".join(_lines(found)))
        faults += [f"{found.family}: {each}" for each in found.faults]
    return faults + (_gamed(load_content(), jobs) if with_modules else [])


def _simulate(task: FamilyTask) -> FamilySimulation:
    family, content = task.loaded()
    return simulated_family(family, content, seeds=task.seeds)


def _lines(found: FamilySimulation) -> list[str]:
    """The verdict, the slopes, how many scenarios there are, and the table."""
    over, by = found.over_difficulty, found.over_ability
    verdict = "; ".join(found.faults) or "ok"
    rows = sorted({each.ability_logits for each in found.cells})
    columns = sorted({each.difficulty for each in found.cells})
    head = "".join(f"{each:>12g}" for each in columns)
    return [
        f"{found.family}: {verdict}",
        f"  mean score over difficulty 0 to 1: {over.value:+.3f} (standard error {over.standard_error:.3f}); "
        f"a logit of ability: {by.value:+.3f} ({by.standard_error:.3f})",
        f"  about {found.distinct_least:,.0f} scenarios (choices multiplied, times the share that is kept; "
        f"the fewest of all difficulties), at least {found.distinct_seen_least:,.0f} (Chao1); "
        f"{found.repeats_count} repeats; a repeat among {CLASS_SIZE}: {found.repeat_chance:.1%}",
        f"  ability{head}   difficulty: mean score, share that passes",
        *(f"  {each:>+7g}" + "".join(_cell(found.cells, each, at) for at in columns) for each in rows),
        "",
    ]


def _cell(cells: Sequence[Cell], ability_logits: float, difficulty: float) -> str:
    place = (ability_logits, difficulty)
    cell = next(each for each in cells if (each.ability_logits, each.difficulty) == place)
    return f"{cell.mean_score:>7.2f}{cell.pass_frac:>5.0%}"


def _gamed(content: Content, jobs: int | None) -> list[str]:
    """Modules over all families and those of the demo's school, against people who do not look."""
    mark = content.policy.pass_mark_frac
    taught = (TriedModule(title=each.title, blueprint=each.blueprint) for each in courses(content.policy))
    modules = (*modules_over(content.families, pass_mark_frac=mark, difficulties=DIFFICULTIES), *taught)
    tasks = [_PoolTask(*each) for each in sorted(drawn_from(modules))]
    pools = on_all_processors(_pool, tasks, jobs=jobs, title="People who do not look")
    faults = []
    for strategy in Strategy:
        counts = {each.title: _passes(each, pools, strategy) for each in modules}
        click.echo(
            f"{strategy}: {sum(counts.values())} passes in {ATTEMPTS:,} attempts at each of "
            f"{len(modules)} modules"
        )
        faults += [f"{title}: {strategy} passes {count} times" for title, count in counts.items() if count]
    return faults


def _passes(module: TriedModule, pools: Sequence[Pool], strategy: Strategy) -> int:
    source = Random(f"{module.title} {strategy}")
    return passes_count(module.blueprint, pools=pools, strategy=strategy, attempts=ATTEMPTS, source=source)


def _pool(task: _PoolTask) -> Pool:
    content = load_content()
    family, policy = content.family(task.family), content.policy
    # odd seeds: those of assessed attempts
    seeds = range(1, 2 * _POOL_SCENARIOS, 2)
    scenarios = [
        draw(family, seed=each, difficulty=task.difficulty, policy=policy, hazards=content.hazards)
        for each in seeds
    ]
    return pool_of(scenarios, policy=policy)
