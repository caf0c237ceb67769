"""`trainer check`: every content file, or some, drawn from and marked, on all processors at once."""

from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from multiprocessing import get_context
from os import cpu_count
from pathlib import Path

import click
from rich.console import Console
from rich.progress import Progress

from trainer.cli.exits import refuse
from trainer.domain.family import ScenarioFamily
from trainer.scenario_files import Content, ContentFault, load_content, load_one_family
from trainer.scenario_files.content_check import FamilyCheck, checked_family


@dataclass(frozen=True)
class _Task:
    """One family to check: by its id in the library, or by its file."""

    family: str
    seeds: int
    file: Path | None = None


@click.command
@click.argument("files", nargs=-1, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option(
    "--seeds", type=click.IntRange(1, 100_000), default=600, show_default=True, help="Seeds a family."
)
@click.option(
    "--jobs", type=click.IntRange(1, 64), default=None, help="Families at once; all processors when left out."
)
def check(files: tuple[Path, ...], seeds: int, jobs: int | None) -> None:
    """Check every content file, or the family FILES alone, and draw and mark scenarios of every family.

    A fault names file, line and key, and what is accepted there.
    """
    tasks = _tasks(files, seeds)
    faults: list[str] = []
    for found in _checked(tasks, jobs or cpu_count() or 1):
        click.echo(found.line)
        faults += [f"{found.family}: {each}" for each in found.faults]
    if faults:
        refuse(faults)


def _tasks(files: tuple[Path, ...], seeds: int) -> list[_Task]:
    """One a family; refuses every file that cannot be used, with all its faults, before any is drawn from."""
    faults: list[str] = []
    tasks = []
    try:
        content = load_content()
    except ContentFault as fault:
        refuse(fault.lines)
    for file in files:
        try:
            tasks.append(_Task(load_one_family(file).id, seeds, file))
        except ContentFault as fault:
            faults += fault.lines
    if faults:
        refuse(faults)
    return tasks if files else [_Task(each, seeds) for each in content.families]


def _checked(tasks: list[_Task], jobs: int) -> Iterable[FamilyCheck]:
    """What each family showed, in the order of the tasks; a bar on standard error while it takes."""
    found: dict[str, FamilyCheck] = {}
    with Progress(console=Console(stderr=True), transient=True) as progress:
        bar = progress.add_task("Drawing and marking", total=len(tasks))
        if jobs == 1 or len(tasks) == 1:
            for task in tasks:
                found[task.family] = _check(task)
                progress.advance(bar)
        else:
            # A new interpreter for each: what the parent has loaded must not decide what a child draws.
            with ProcessPoolExecutor(min(jobs, len(tasks)), mp_context=get_context("spawn")) as pool:
                waiting = {pool.submit(_check, task): task for task in tasks}
                for done in as_completed(waiting):
                    found[waiting[done].family] = done.result()
                    progress.advance(bar)
    return [found[each.family] for each in tasks]


def _check(task: _Task) -> FamilyCheck:
    content: Content = load_content()
    family: ScenarioFamily = content.family(task.family) if task.file is None else load_one_family(task.file)
    return checked_family(family, content, seeds=task.seeds)
