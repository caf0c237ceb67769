"""The two axes of an oxygen trace: time in steps that people count in, oxygen on a logarithmic scale."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.drawing.reader import Reader

PLOT = (112.0, 30.0, 664.0, 380.0)  # left, top, right, bottom of the field
AIR_FRAC = O2_IN_DRY_AIR_FRAC  # the upper edge
LOWEST_FRAC = 1e-7

_STEPS_S = (5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 43200, 86400)


@dataclass(frozen=True)
class Scales:
    """Field of the plot and what its edges stand for."""

    until_s: float
    low_decade: int

    @property
    def low_frac(self) -> float:
        """Oxygen at the lower edge."""
        return 10.0**self.low_decade

    def x(self, time_s: float) -> float:
        """Where a time lies."""
        left, _, right, _ = PLOT
        return left + (right - left) * time_s / self.until_s

    def y(self, oxygen_frac: float) -> float:
        """Where an oxygen level lies; what is below the lower edge stands on it."""
        _, top, _, bottom = PLOT
        share = (log10(max(oxygen_frac, self.low_frac)) - self.low_decade) / (
            log10(AIR_FRAC) - self.low_decade
        )
        return bottom - (bottom - top) * min(share, 1.0)

    def decades(self) -> list[float]:
        """Oxygen levels with a line and a figure."""
        return [10.0**power for power in range(self.low_decade, 0)]

    def times(self) -> list[float]:
        """Times with a tick and a figure: six or seven at the most."""
        step = next((each for each in _STEPS_S if self.until_s / each <= 6), _STEPS_S[-1])
        return [float(step * i) for i in range(int(self.until_s // step) + 1)]


def scales_for(trace: Sequence[tuple[float, float, float, float]], *, others_frac: Sequence[float]) -> Scales:
    """Axes that hold a trace and the levels drawn beside it."""
    levels = [each for row in trace for each in row[1:]] + list(others_frac)
    lowest = min((each for each in levels if each > LOWEST_FRAC), default=1e-4)
    until_s = max((row[0] for row in trace), default=60.0) or 60.0
    return Scales(until_s=until_s, low_decade=min(floor(log10(lowest)), -3))


def written_time(time_s: float, until_s: float, *, reader: Reader) -> str:
    """A time in the unit that the whole axis uses."""
    if until_s >= 3 * 3600:
        return reader.number(time_s / 3600, ".3g")
    return reader.number(time_s / 60, ".3g") if until_s >= 120 else f"{ceil(time_s):d}"


def time_unit(until_s: float) -> str:
    """The unit of the time axis."""
    if until_s >= 3 * 3600:
        return "h"
    return "min" if until_s >= 120 else "s"
