"""Work on all processors at once, with a bar on standard error while it takes."""

import gc
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from multiprocessing import get_context
from os import cpu_count
from typing import TypeVar

from rich.console import Console
from rich.progress import Progress

Task = TypeVar("Task")
Found = TypeVar("Found")

_COLLECT_EVERY = 20_000  # new objects


def on_all_processors(
    work: Callable[[Task], Found], tasks: Sequence[Task], *, jobs: int | None, title: str
) -> list[Found]:
    """What the work found for each task, in the order of the tasks."""
    count = min(jobs or cpu_count() or 1, len(tasks))
    found: dict[int, Found] = {}
    with Progress(console=Console(stderr=True), transient=True) as progress:
        bar = progress.add_task(title, total=len(tasks))
        if count <= 1:
            for place, task in enumerate(tasks):
                found[place] = work(task)
                progress.advance(bar)
        else:
            # A new interpreter for each: what the parent has loaded must not decide what a child draws.
            spawn = get_context("spawn")
            with ProcessPoolExecutor(count, mp_context=spawn, initializer=_collect_seldom) as pool:
                waiting = {pool.submit(work, task): place for place, task in enumerate(tasks)}
                for done in as_completed(waiting):
                    found[waiting[done]] = done.result()
                    progress.advance(bar)
    return [found[place] for place in range(len(tasks))]


def _collect_seldom() -> None:
    """The content stays to the end; looked through for garbage as often as Python does it costs a tenth."""
    gc.set_threshold(_COLLECT_EVERY, 20, 50)
