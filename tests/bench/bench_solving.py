"""`solve` in process and as a command, for the base set-up of the tests."""

import json
import subprocess
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
    milliseconds(_run, range(20))
    times = milliseconds(_run, range(IN_PROCESS))
    yield Figure(
        what="solve a set-up in process", value=median(times), unit="ms", goal=2.0, beside=spread(times)
    )
    milliseconds(_solve, range(20))
    times = milliseconds(_solve, range(IN_PROCESS))
    yield Figure(what="read, solve and write", value=median(times), unit="ms", goal=5.0, beside=spread(times))
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
