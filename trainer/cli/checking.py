"""`trainer check`: every content file, or some, drawn from and marked, on all processors at once."""

from pathlib import Path

import click

from trainer.cli.exits import refuse
from trainer.cli.family_tasks import FamilyTask
from trainer.cli.processors import on_all_processors
from trainer.domain.people import UnitSystem
from trainer.scenario_files import ContentFault, load_content, load_one_family
from trainer.scenario_files.content_check import FamilyCheck, checked_family

_SEEDS, _SIMULATED_SEEDS, _MOST_SEEDS = 600, 200, 100_000
_LAST_FIRST_SEED = 900_000  # from there all of them still lie below the seeds that habits come from
_FEWEST_SIMULATED = 25  # five at each of five difficulties: fewer say nothing of a slope


@click.command
@click.argument("files", nargs=-1, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--seeds",
    type=click.IntRange(1, _MOST_SEEDS),
    default=None,
    help=f"Seeds a family: {_SEEDS} when left out, {_SIMULATED_SEEDS} with --simulate.",
)
@click.option(
    "--first-seed",
    type=click.IntRange(0, _LAST_FIRST_SEED),
    default=0,
    help="The seed to begin with: a family is judged on others than those that it was tuned on.",
)
@click.option(
    "--jobs", type=click.IntRange(1, 64), default=None, help="Families at once; all processors when left out."
)
@click.option(
    "--simulate",
    is_flag=True,
    help="Let simulated apprentices try each family, and people who guess every module, instead.",
)
def check(
    files: tuple[Path, ...], seeds: int | None, first_seed: int, jobs: int | None, simulate: bool
) -> None:
    """Check every content file, or the family FILES alone, and draw and mark scenarios of every family.

    It draws from each family and marks the key and every other option of each scenario: the key, as printed,
    has to score 1 and any other option less. In every tenth the right set-up also goes through the core, as
    when an attempt is marked.

    A fault names file, line and key, and what is accepted there. With --simulate: does success fall with
    difficulty and rise with ability in every family, how many scenarios does it hold, and (over the whole
    library) does anybody pass a module who does not look?
    """
    if simulate and seeds is not None and seeds < _FEWEST_SIMULATED:
        raise click.BadParameter(f"--simulate wants at least {_FEWEST_SIMULATED}", param_hint="--seeds")
    count = seeds or (_SIMULATED_SEEDS if simulate else _SEEDS)
    tasks = _tasks(files, range(first_seed, first_seed + count))
    if simulate:
        from trainer.cli.simulating import simulated  # noqa: PLC0415 (a plain check has no need of it)

        faults = simulated(tasks, jobs=jobs, with_modules=not files)
    else:
        faults = _checked(tasks, jobs)
    if faults:
        refuse(faults)


def _tasks(files: tuple[Path, ...], seeds: range) -> list[FamilyTask]:
    """One a family; refuses every file that cannot be used, with all its faults, before any is drawn from."""
    faults: list[str] = []
    tasks = []
    try:
        content = load_content()
    except ContentFault as fault:
        refuse(fault.lines)
    for file in files:
        try:
            tasks.append(FamilyTask(load_one_family(file).id, seeds, file))
        except ContentFault as fault:
            faults += fault.lines
    if faults:
        refuse(faults)
    return tasks if files else [FamilyTask(each, seeds) for each in content.families]


def _checked(tasks: list[FamilyTask], jobs: int | None) -> list[str]:
    faults = []
    for found in on_all_processors(_check, tasks, jobs=jobs, title="Drawing and marking"):
        click.echo(found.line)
        faults += [f"{found.family}: {each}" for each in found.faults]
    return faults


def _check(task: FamilyTask) -> FamilyCheck:
    family, content = task.loaded()
    inch, _ = task.loaded(edition=UnitSystem.INCH_POUND)
    return checked_family(family, content, seeds=task.seeds, inch=inch)
