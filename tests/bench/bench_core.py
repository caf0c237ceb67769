"""How fast the calculation core is: `python -m tests.bench.bench_core` from the project's root.

Prints medians over repeats in one run, in processor time, so that what else the machine does counts little; small
linear algebra is kept on one thread, so a second of it is a second of one core.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import math
import random
import resource
import subprocess
import sys
import time
from statistics import median

import numpy as np
from scipy.integrate import solve_ivp

from trainer.core.batch import PurgeQuestion, purge_many
from trainer.core.closure import CONSTANTS
from trainer.core.dilution import BASE_CASE, purge
from trainer.core.gas import O2_IN_DRY_AIR_FRAC, gas
from trainer.core.gas_column import gas_column
from trainer.core.layers import layer_balance
from trainer.core.oxidation import film_colour
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_courses import mixing_of
from trainer.core.purge_groups import situation
from trainer.core.purge_parts import FlowSegment, Inlet, PurgeSection, VentHole
from trainer.core.stirring import closure
from trainer.core.terms import InletEnd, MaterialGroup

BORES_M = (0.0543, 0.0779, 0.1023, 0.1541, 0.2027, 0.2545, 0.3048)
SET_UPS_COUNT = 10_000
COMPARED_COUNT = 60
WANTED_ACCURACY = 1e-4


def random_question(source):
    """A level set-up within the tested range, with the ends, gases and heights mixed."""
    bore_m = source.choice(BORES_M)
    end = source.choice(list(InletEnd))
    size = (
        {"face_area_m2": 10 ** source.uniform(-3.5, -2.3)}
        if end is InletEnd.DIFFUSER
        else {"bore_m": 0.00635}
    )
    case = PurgeCase(
        section=PurgeSection(bore_m=bore_m, length_m=source.uniform(2.0, 15.0) * bore_m),
        inlet=Inlet(height_frac=source.uniform(0.15, 0.85), end=end, **size),
        vent=VentHole(height_frac=source.uniform(0.12, 0.88), diameter_m=source.choice((0.004, 0.006, 0.01))),
        gas=gas(source.choice(("I1", "I1", "I1", "I2", "N1"))),
        source_o2_frac=5e-6,
        segments=(FlowSegment(flow_m3_s=source.uniform(2.0, 40.0) / 60000.0, duration_s=math.inf),),
    )
    return PurgeQuestion(
        case=case, target_o2_frac=10 ** source.uniform(-4.0, -2.0), wait_s=source.uniform(30.0, 1800.0)
    )


def timed(work, repeats):
    """Median time of a piece of work in seconds."""
    work()
    times = []
    for _ in range(repeats):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return median(times)


def base_solve():
    """The base case alone: time with its interval, and oxygen after a wait."""
    course = purge(BASE_CASE)
    course.time_to(0.001)
    course.oxygen_at(120.0)


def balances_of(question):
    """The different balances that the answer takes: the expected one and those at the ends of the interval."""
    case = question.case
    flow = case.segments[0].flow_m3_s
    closing = closure(situation(case, flow_m3_s=flow))
    column = gas_column(case)
    return [
        layer_balance(column, flow_m3_s=flow, mixing=mixing_of(case, flow_m3_s=flow, stirring=stirring))
        for stirring in dict.fromkeys((closing.expected, *closing.ends))
    ]


def by_solve_ivp(question, balance, method, accuracy):
    """Time to target on the same layers, stepped by scipy, which stops there."""
    source = question.case.source_o2_frac
    level = (question.target_o2_frac - source) / (O2_IN_DRY_AIR_FRAC - source)

    def reached(_, air_frac):
        return math.log(max(float(air_frac.max()), 1e-12) / level)

    reached.terminal = True
    given = {"LSODA": {"lband": 1, "uband": 1}}.get(method, {"jac": jacobian(balance)})
    found = solve_ivp(
        lambda _, air_frac: balance.rate_per_s(air_frac), (0.0, 1e9), np.ones(balance.volume_m3.size),
        method=method, rtol=accuracy, atol=accuracy * level, events=reached, **given,
    )  # fmt: skip
    return float(found.t_events[0][0])


def jacobian(balance):
    """Constant Jacobian of the balance, dense, for the implicit methods that do not take bands."""
    matrix = np.diag(balance.rise_m3_s, -1) + np.diag(balance.fall_m3_s, 1) - np.diag(balance.loss_m3_s)
    return matrix / balance.volume_m3[:, np.newaxis]


def stepped(questions, expected_s, method):
    """Time for each set-up and tolerance, the loosest that is accurate enough nine times in ten; all its balances."""
    balances = [balances_of(question) for question in questions]
    for accuracy in (1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6, 1e-6):
        start = time.process_time()
        found = [
            [by_solve_ivp(question, balance, method, accuracy) for balance in each]
            for question, each in zip(questions, balances, strict=True)
        ]
        each_s = (time.process_time() - start) / len(questions)
        error = float(np.quantile(np.abs(np.array([times[0] for times in found]) / expected_s - 1.0), 0.9))
        if error <= WANTED_ACCURACY:
            return each_s, accuracy, error
    raise SystemExit(f"{method} does not get to {WANTED_ACCURACY}")


def main():
    """Measure and print."""
    source = random.Random(20)
    questions = [random_question(source) for _ in range(SET_UPS_COUNT)]
    imported = [
        sys.executable,
        "-c",
        "import time; s = time.perf_counter(); import trainer.core.dilution, trainer.core.batch; print(time.perf_counter() - s)",
    ]
    import_s = median(
        float(subprocess.run(imported, capture_output=True, check=True, text=True).stdout) for _ in range(3)
    )
    print(f"import of the core              {import_s:8.3f} s")
    print(f"closure constants               {len(CONSTANTS):8d}")
    print(f"base solve                      {1e3 * timed(base_solve, 200):8.3f} ms")
    print(
        f"film colour                     {1e3 * timed(lambda: film_colour(40e-9, group=MaterialGroup.DUPLEX), 500):8.3f} ms"
    )
    before_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    batch_s = timed(lambda: purge_many(questions), 3)
    after_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    print(f"batch of {SET_UPS_COUNT}                  {SET_UPS_COUNT / batch_s:8.0f} set-ups a second")
    print(
        f"memory, whole process           {after_mb:8.0f} MB, {after_mb - before_mb:.0f} MB of it by the batch"
    )
    asked = questions[:COMPARED_COUNT]
    expected_s = np.array([answer.time_to_target_s.expected for answer in purge_many(asked)])
    for method in ("LSODA", "BDF", "Radau"):
        each_s, accuracy, error = stepped(asked, expected_s, method)
        batch_s = timed(lambda: purge_many(questions), 1)
        print(
            f"solve_ivp, {method:6s} rtol {accuracy:.0e}    {1e3 * each_s:8.3f} ms, error {error:.1e} (9 in 10): "
            f"batch {each_s / (batch_s / SET_UPS_COUNT):.0f} times faster"
        )


if __name__ == "__main__":
    main()
