"""One measured figure with its goal, medians of repeats, and the load of the machine beside them."""

import os
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from statistics import median
from typing import Any


@dataclass(frozen=True, kw_only=True)
class Figure:
    """What was measured. A goal is the most for a time and the least for a share; without one it is told only."""

    what: str
    value: float
    unit: str
    goal: float | None = None
    is_share: bool = False
    beside: str = ""

    @property
    def holds(self) -> bool:
        """Whether the goal is met."""
        if self.goal is None:
            return True
        return self.value >= self.goal if self.is_share else self.value <= self.goal

    @property
    def row(self) -> tuple[str, str, str, str, str, str]:
        """Cells of the table: what, value, goal, value as a part of the goal, whether it holds, what stands beside."""
        if self.goal is None:
            return self.what, f"{self.value:.3g} {self.unit}", "", "", "", self.beside
        sign = ">=" if self.is_share else "<="
        return (
            self.what,
            f"{self.value:.3g} {self.unit}".strip(),
            f"{sign} {self.goal:.3g} {self.unit}".strip(),
            f"{self.value / self.goal:.2f}",
            "met" if self.holds else "MISSED",
            self.beside,
        )


HEADS = ("what", "median", "goal", "part of goal", "", "")


def milliseconds(
    work: Callable[[Any], Any], given: Iterable[Any], *, clock: Callable[[], float] = time.perf_counter
) -> list[float]:
    """How long a piece of work takes on each of the things given; `clock` may be the processor's own."""
    times = []
    for each in given:
        start = clock()
        work(each)
        times.append((clock() - start) * 1e3)
    return times


def spread(values: list[float], unit: str = "ms") -> str:
    """From the least to the most, and of how many."""
    return f"{min(values):.3g} to {max(values):.3g} {unit}, {len(values)} times"


def share(ours: list[float], bare: list[float]) -> float:
    """Median of the pairs' ratios: each pair was measured at the same time of the run."""
    return median(a / b for a, b in zip(ours, bare, strict=True))


def load() -> str:
    """What else the machine was doing."""
    return f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} processors"


def table(figures: list[Figure]) -> str:
    """All figures in columns."""
    rows = [HEADS, *(each.row for each in figures)]
    widths = [max(len(row[i]) for row in rows) for i in range(len(HEADS))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )
