"""What people near the joint breathe as the gas goes on escaping, from the figures of the run itself."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from trainer.domain.run_breathing import breathing_result, escaped_for_s
from trainer.domain.set_up import SetUp

ROWS_COUNT = 33


@dataclass(frozen=True, kw_only=True)
class AirMoment:
    """One time since the gas began to escape: oxygen of the mixed air, and at each face that is in it."""

    time_s: float
    mixed_frac: float | None
    faces_frac: tuple[float | None, ...]  # in the order of the people, None where it is not known


@dataclass(frozen=True, kw_only=True)
class AirOverTime:
    """The moments in order, and the one that the run's figures are for."""

    moments: tuple[AirMoment, ...]
    after_s: float


def air_over_time(set_up: SetUp) -> AirOverTime | None:
    """The air from the start to twice the time of the run's figures; None where none of it is known."""
    around = set_up.surroundings
    after_s = None if around is None else escaped_for_s(set_up, around)
    if after_s is None or after_s <= 0.0:
        return None
    times_s = np.unique(np.append(np.linspace(0.0, 2.0 * after_s, ROWS_COUNT), after_s)).tolist()
    moments = tuple(_moment(set_up, time_s) for time_s in times_s)
    levels = [each for moment in moments for each in (moment.mixed_frac, *moment.faces_frac)]
    return None if set(levels) <= {None} else AirOverTime(moments=moments, after_s=after_s)


def _moment(set_up: SetUp, time_s: float) -> AirMoment:
    assert set_up.surroundings is not None  # asked of surroundings only
    then = replace(set_up, surroundings=replace(set_up.surroundings, after_s=time_s))
    found = breathing_result(then)
    people: Sequence[float | None] = [each.oxygen_frac for each in found.people] if found else []
    return AirMoment(
        time_s=time_s,
        mixed_frac=found.oxygen_mixed_frac if found else None,
        faces_frac=tuple(people),
    )
