"""What one change of a set-up does: how bad each thing that counts is before and after, through the core.

Severities serve to put changes in an order, and are our own judgement, measured on nothing: a severity of 0
lies within its limit, and a whole step is ten times the limit (for air to breathe: a tenth of it short). The
figures that are shown beside are the core's.
"""

import math
from dataclasses import dataclass

from trainer.domain.policy import Policy
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.quantities import NEVER, Never
from trainer.domain.run_people_air import LEAST_TO_BREATHE_FRAC
from trainer.domain.set_up import SetUp

_NEVER_STEPS = 6.0  # a time that does not come, as if it were a million times too long
_PEOPLE_WEIGHT = 100.0  # nothing else outweighs somebody's air
_CAUTION_WEIGHT = 0.5
_TIME_WEIGHT = 0.1  # between changes that cure the same, the quicker purge comes first
_PRESSURE_CODES = ("vent-too-small", "pressure-on-bead")
# What the oxygen, the pressure and the air tell by figures of their own need not be counted twice; how sure
# the model is, and that a purge is not needed, are nothing wrong with the set-up.
_NOT_COUNTED = (
    "root-lost", "oxygen-above-target", "floor-above-target", *_PRESSURE_CODES, "asphyxiation",
    "beyond-tested-range", "no-purge-needed",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Figures:
    """What is held against each other before and after a change; None where it is not known."""

    time_to_target_s: Expected | Never | None
    oxygen_at_strike_frac: float | None
    pressure_pa: float | None
    lowest_oxygen_frac: float | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Severities:
    """How far each thing lies beyond its limit; 0 where it does not, or where it is not known."""

    oxygen: float
    pressure: float
    air: float
    cautions: float
    time: float  # of the purge, within limits or not

    @property
    def is_nothing_wrong(self) -> bool:
        """Whether everything that is known lies within its limit."""
        return not (self.oxygen or self.pressure or self.air or self.cautions)

    @property
    def whole(self) -> float:
        """All of it as one number, people's air above everything."""
        weighed = _PEOPLE_WEIGHT * self.air + self.oxygen + self.pressure
        return weighed + _CAUTION_WEIGHT * self.cautions + _TIME_WEIGHT * self.time


def figures_of(run: PurgeRun) -> Figures:
    """The figures of a run; the pressure is the larger of purging and welding."""
    purge, vent = run.purge, run.vent
    pressures = (vent.pressure_rise_pa, vent.pressure_while_welding_pa) if vent else ()
    after = purge.oxygen_after_wait_frac if purge else None
    return Figures(
        time_to_target_s=purge.time_to_target_s if purge else None,
        oxygen_at_strike_frac=after.expected if after is not None else None,
        pressure_pa=max((each for each in pressures if each is not None), default=None),
        lowest_oxygen_frac=lowest_oxygen_frac(run),
        cautions=tuple(each.code for each in run.cautions),
    )


def lowest_oxygen_frac(run: PurgeRun) -> float | None:
    """The least oxygen that anybody breathes: at a face, or where nobody is told, if the space mixes."""
    air = run.breathing
    if air is None:
        return None
    faces = [each.oxygen_frac for each in air.people if each.oxygen_frac is not None]
    known = [*faces, *([air.oxygen_mixed_frac] if air.oxygen_mixed_frac is not None else [])]
    return min(known, default=None)


def severities_of(run: PurgeRun, *, set_up: SetUp, policy: Policy) -> Severities:
    """How far a run lies beyond its limits."""
    found = figures_of(run)
    target_frac = set_up.target.oxygen_frac if set_up.target else None
    air_frac = found.lowest_oxygen_frac
    short_frac = 0.0 if air_frac is None else max(LEAST_TO_BREATHE_FRAC - air_frac, 0.0)
    dangers = float("asphyxiation" in found.cautions)
    return Severities(
        oxygen=_oxygen_steps(found, target_frac),
        pressure=_pressure_steps(found, run, policy),
        air=short_frac / (0.1 * LEAST_TO_BREATHE_FRAC) + dangers,
        cautions=float(sum(each not in _NOT_COUNTED for each in found.cautions)),
        time=_time_steps(found.time_to_target_s),
    )


def _oxygen_steps(found: Figures, target_frac: float | None) -> float:
    """By how much the root's oxygen misses the target, with what it takes at the slow end of the interval."""
    if target_frac is None:
        return 0.0
    at_strike = 0.0
    if found.oxygen_at_strike_frac is not None:
        at_strike = max(math.log10(max(found.oxygen_at_strike_frac, 1e-9) / target_frac), 0.0)
    return at_strike + (_NEVER_STEPS if found.time_to_target_s is NEVER else 0.0)


def _pressure_steps(found: Figures, run: PurgeRun, policy: Policy) -> float:
    vent = run.vent
    if vent is None or found.pressure_pa is None:
        return 0.0
    pressures = (vent.pressure_rise_pa, vent.pressure_while_welding_pa)
    limits = (policy.threshold(code).value for code in _PRESSURE_CODES)
    steps = (
        math.log10(pressure_pa / limit_pa) if pressure_pa and pressure_pa >= limit_pa else 0.0
        for pressure_pa, limit_pa in zip(pressures, limits, strict=True)
    )
    return max(steps)


def _time_steps(time_s: Expected | Never | None) -> float:
    if time_s is NEVER:
        return _NEVER_STEPS
    return math.log10(max(time_s.upper, 1.0)) if isinstance(time_s, Expected) else 0.0
