"""The calculation core: how soon it is there, and how fast a batch of random set-ups is against stepping in time.

In processor time, with the linear algebra on one thread: a second of it is a second of one core.
"""

import random
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from statistics import median

import numpy as np

from tests.bench.measuring import Figure, spread
from tests.bench.random_purges import random_questions
from tests.bench.stepping import METHODS, WANTED_ACCURACY, exact_error, loosest_stepping
from trainer.core.batch import purge_many
from trainer.core.dilution import BASE_CASE, purge
from trainer.core.oxidation import film_colour
from trainer.core.terms import MaterialGroup

SET_UPS_COUNT, COMPARED_COUNT, REPEATS = 10_000, 60, 3
IMPORT = "import time; s = time.perf_counter(); import trainer.core.dilution, trainer.core.batch; print(time.perf_counter() - s)"  # fmt: skip


def bench() -> Iterator[Figure]:
    """Import, single answers, the batch, and the batch against each solver of differential equations."""
    yield _import()
    yield from _alone()
    before_mb = _peak_mb()
    each_ms = [_batch_ms(seed) for seed in range(REPEATS)]
    yield Figure(
        what=f"batch of {SET_UPS_COUNT}, set-ups a second", value=1e3 / median(each_ms), unit="", goal=3000.0,
        is_share=True, beside=spread([1e3 / each for each in each_ms], ""),
    )  # fmt: skip
    after_mb = _peak_mb()
    yield Figure(
        what="memory of the whole process after it", value=after_mb, unit="MB", goal=500.0,
        beside=f"{before_mb:.0f} MB before",
    )  # fmt: skip
    yield from _against_stepping()


def _against_stepping() -> Iterator[Figure]:
    """Both sides in turn, each solver with the loosest tolerance that is accurate enough."""
    asked = random_questions(random.Random(20), COMPARED_COUNT)
    answers = purge_many(asked)
    yield Figure(
        what="batch against the matrix exponential", value=exact_error(asked, answers), unit="", goal=WANTED_ACCURACY,
        beside="largest error of time and air over that of the level",
    )  # fmt: skip
    for method in METHODS:
        stepped = loosest_stepping(asked, answers, method)
        each_ms = [_batch_ms(seed) for seed in range(REPEATS)]
        yield Figure(
            what=f"batch against solve_ivp, {method}", value=stepped.each_ms / median(each_ms), unit="times", goal=50.0,
            is_share=True,
            beside=f"{stepped.each_ms:.3g} ms at rtol {stepped.tolerance:.0e}, error {stepped.error_frac:.0e} (9 in 10);"
            f" batch {median(each_ms):.3g} ms",
        )  # fmt: skip


def _batch_ms(seed: int) -> float:
    """A set-up's part of a batch made anew, so that nothing is known of it beforehand."""
    questions = random_questions(random.Random(seed), SET_UPS_COUNT)
    return _processor_ms(lambda: purge_many(questions)) / SET_UPS_COUNT


def _alone() -> Iterator[Figure]:
    for what, work in (("base purge", _base_purge), ("film colour", _film_colour)):
        work()
        times = [_processor_ms(work) for _ in range(200)]
        yield Figure(what=f"{what} of the core", value=median(times), unit="ms", beside=spread(times))


def _base_purge() -> None:
    course = purge(BASE_CASE)
    course.time_to(0.001)
    course.oxygen_at(120.0)


def _film_colour() -> None:
    film_colour(40e-9, group=MaterialGroup.DUPLEX)


def _import() -> Figure:
    took_s = [
        float(
            subprocess.run([sys.executable, "-c", IMPORT], capture_output=True, check=True, text=True).stdout
        )
        for _ in range(5)
    ]
    return Figure(
        what="import of the core", value=float(np.median(took_s)), unit="s", goal=0.5, beside=spread(took_s, "s")
    )  # fmt: skip


def _processor_ms(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return (time.process_time() - start) * 1e3


def _peak_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
