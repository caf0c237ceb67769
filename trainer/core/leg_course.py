"""The air at the closed end of a dead leg, while what stands at its mouth changes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np

from trainer.core.closure import constant
from trainer.core.column import Floats
from trainer.core.dead_leg import DeadLeg
from trainer.core.gas import O2_IN_DRY_AIR_FRAC
from trainer.core.interval import Interval
from trainer.core.purge_parts import FlowSegment

_TIMES_COUNT = 300
_FIRST_WAIT_S = 1.0
_LEAST_CHANGE = 1e-17
# A mouth that is not half way below the level after four months stands at its floor.
_LONGEST_WAIT_S = 1e7


class LegCourse:
    """The course of a dead leg, coupled to its body only by diffusion at the mouth.

    c_end(t) = 1 + integral of [1 - f(D (t - s) / L^2)] dc_mouth(s),  f the closed end with a clean mouth

    Args:
        leg [record]: the leg
        mouth_air_frac [record]: air fraction at its mouth as a function of times
        segments [record]: the flows, one after the other

    Reference: Duhamel's theorem, Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), 1.14.
    """

    def __init__(
        self, leg: DeadLeg, *, mouth_air_frac: Callable[[Floats], Floats], segments: Sequence[FlowSegment]
    ) -> None:
        self._leg = leg
        self._mouth_air_frac = mouth_air_frac
        self._segments = segments

    def time_to(self, o2_frac: float) -> Interval | None:
        """The last time at which the closed end holds more than some oxygen.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time, at least that of the leg alone; None when it never gets there with these flows

        Reference: as the class.
        """
        alone_s = self._leg.time_to(o2_frac)
        if alone_s is None:
            return None
        until_s = self._until_s(o2_frac)
        times = until_s * np.linspace(0.0, 1.0, _TIMES_COUNT) ** 2
        oxygen = self.oxygen_at(times)
        if oxygen[-1] > o2_frac:
            return None
        time_s = _crossing_s(times, oxygen, o2_frac) if (oxygen > o2_frac).any() else 0.0
        # Nothing stirs a leg that the model leaves to diffusion; what does in truth can only be guessed at.
        width = constant("gentle, upper") ** 2
        return Interval(time_s, min(alone_s, time_s) / width, time_s * width)

    def oxygen_at(self, times_s: Floats) -> Floats:
        """Oxygen at the closed end.

        Args:
            times_s [s]: rising times since the gas was turned on, the first of them 0
        Returns:
            [-] mole fractions

        Reference: as the class.
        """
        source = self._leg.source_o2_frac
        return np.asarray(source + (O2_IN_DRY_AIR_FRAC - source) * self.air_at(times_s))

    def oxygen_by(self, time_s: float) -> float:
        """Oxygen at the closed end at one time.

        Args:
            time_s [s]: time since the gas was turned on
        Returns:
            [-] mole fraction

        Reference: as the class.
        """
        return float(self.oxygen_at(time_s * np.linspace(0.0, 1.0, _TIMES_COUNT) ** 2)[-1])

    def air_at(self, times_s: Floats) -> Floats:
        """Air fraction at the closed end.

        Args:
            times_s [s]: rising times since the gas was turned on, the first of them 0
        Returns:
            [-] air fractions

        Reference: as the class.
        """
        return self._following_mouth(times_s, self._leg.air_frac)[0]

    def end_and_mean_air_at(self, times_s: Floats) -> tuple[Floats, Floats]:
        """Air fraction at the closed end and averaged over the leg.

        Args:
            times_s [s]: rising times since the gas was turned on, the first of them 0
        Returns:
            [-] air fractions at the end, and on average

        Reference: as the class.
        """
        end, mean = self._following_mouth(times_s, self._leg.air_frac, self._leg.mean_air_frac)
        return end, mean

    def _following_mouth(self, times_s: Floats, *clean_mouths: Callable[[Floats], Floats]) -> list[Floats]:
        mouth = self._mouth_air_frac(times_s)
        change = np.diff(mouth)
        # A mouth is clean long before its leg is; what no longer changes there sends nothing in.
        moving = np.abs(change) > _LEAST_CHANGE
        middle = ((times_s[1:] + times_s[:-1]) / 2.0)[moving]
        since = times_s[:, np.newaxis] - middle
        past = since > 0.0
        elapsed_s, arrived, found = since[past], np.zeros_like(since), []
        for clean_mouth in clean_mouths:
            arrived[past] = 1.0 - clean_mouth(elapsed_s)
            found.append(np.asarray(np.maximum(1.0 + arrived @ change[moving], 0.0)))
        return found

    def _until_s(self, o2_frac: float) -> float:
        """A time by which the closed end is there, if it ever is: the mouth at half, then the leg alone."""
        source = self._leg.source_o2_frac
        half_frac = source + (o2_frac - source) / 2.0
        end_s = sum(segment.duration_s for segment in self._segments)
        start_s = sum(segment.duration_s for segment in self._segments[:-1])
        alone_s = self._leg.time_to(half_frac) or 0.0
        wait_s = _FIRST_WAIT_S
        while start_s + wait_s < end_s and wait_s < _LONGEST_WAIT_S:
            mouth = float(self._mouth_air_frac(np.array([start_s + wait_s]))[0])
            if source + (O2_IN_DRY_AIR_FRAC - source) * mouth <= half_frac:
                break
            wait_s *= 2.0
        return min(end_s, start_s + wait_s + alone_s)


def _crossing_s(times_s: Floats, oxygen_frac: Floats, o2_frac: float) -> float:
    oxygen = np.log(np.maximum(oxygen_frac, 1e-300))
    last = int(np.flatnonzero(oxygen > math.log(o2_frac))[-1])
    share = (oxygen[last] - math.log(o2_frac)) / (oxygen[last] - oxygen[last + 1])
    return float(times_s[last] + share * (times_s[last + 1] - times_s[last]))
