"""`python -m tests.bench`: every speed goal measured in one run; exits 1 when one was missed.

Names of benches, such as `solving site`, measure those alone.
"""

import sys
from collections.abc import Callable, Iterator

from tests.bench import (
    bench_core,
    bench_handing_in,
    bench_page,
    bench_paint,
    bench_scenarios,
    bench_site,
    bench_solving,
)
from tests.bench.measuring import Figure, load, table

BENCHES: dict[str, Callable[[], Iterator[Figure]]] = {
    "core": bench_core.bench,
    "solving": bench_solving.bench,
    "scenarios": bench_scenarios.bench,
    "handing-in": bench_handing_in.bench,
    "site": bench_site.bench,
    "paint": bench_paint.bench,
    "bench-page": bench_page.bench,
}


def main(asked: list[str]) -> int:
    """Measures and prints; the number of goals missed decides the exit."""
    if unknown := set(asked) - set(BENCHES):
        print(f"unknown: {', '.join(sorted(unknown))}; known: {', '.join(BENCHES)}", file=sys.stderr)
        return 2
    before = load()
    figures: list[Figure] = []
    for name in asked or BENCHES:
        for figure in BENCHES[name]():
            print(".", end="", file=sys.stderr, flush=True)
            figures.append(figure)
    print(file=sys.stderr)
    print(table(figures))
    missed = [each for each in figures if not each.holds]
    print(
        f"\n{len(missed)} of {sum(each.goal is not None for each in figures)} goals missed; before: {before}; after: {load()}"
    )
    return 1 if missed else 0


sys.exit(main(sys.argv[1:]))
