"""`solve` in process and as a command, for the base set-up of the tests."""

import json
import subprocess
import time
from collections.abc import Iterator
from statistics import median

from serving import TRAINER, own_environment
from set_up_examples import BASE, POLICY

from tests.bench.measuring import Figure, milliseconds, spread
from trainer.domain.run_set_up import run
from trainer.set_up_files import read_set_up, write_run

IN_PROCESS, AS_COMMAND = 300, 9
BASE_SET_UP = read_set_up(BASE)


def bench() -> Iterator[Figure]:
    """The answer alone; document in, answer out; then the same through a process of its own."""
    for what, work, goal in (
        ("solve a set-up in process", _run, 2.0),
        ("read, solve and write", _solve, 5.0),
    ):
        milliseconds(work, range(20))
        times = milliseconds(work, range(IN_PROCESS), clock=time.process_time)
        yield Figure(
            what=what, value=median(times), unit="ms", goal=goal, beside=f"of one core; {spread(times)}"
        )
    _command(0)
    times = milliseconds(_command, range(AS_COMMAND))
    yield Figure(what="trainer solve as a command", value=median(times), unit="ms", goal=900.0, beside=spread(times))  # fmt: skip


def _run(_: int) -> None:
    run(BASE_SET_UP, policy=POLICY)


def _solve(_: int) -> None:
    write_run(run(read_set_up(BASE), policy=POLICY))


def _command(_: int) -> None:
    subprocess.run(
        [TRAINER, "solve", "-"], input=json.dumps(BASE), text=True, check=True, capture_output=True, env=own_environment()
    )  # fmt: skip
