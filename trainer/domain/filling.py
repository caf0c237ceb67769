"""The section as it fills: oxygen by height at a row of moments, for drawings that show it happening."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trainer.core.column import Floats
from trainer.domain.run_purge import PurgeCourse, purge_course_of
from trainer.domain.set_up import SetUp
from trainer.domain.spool_path import path_of

MOMENTS_COUNT = 40
BANDS_COUNT = 36


@dataclass(frozen=True, kw_only=True)
class Moment:
    """One time: oxygen at the worst point of the root, and in bands of one depth from the bottom up."""

    time_s: float
    root_frac: float
    bands_frac: tuple[float, ...]  # none where the shape is not one section


@dataclass(frozen=True, kw_only=True)
class Filling:
    """The moments in order, and the height from the lowest point of the section to its highest."""

    height_m: float | None
    moments: tuple[Moment, ...]


def filling_of(
    set_up: SetUp, *, until_s: float, closely_until_s: float, also_s: Sequence[float] = ()
) -> Filling | None:
    """How the section fills from the start until some time, more closely while there is much to see.

    `also_s` are times to show besides the even steps. None where too little is known for a purge. A spool has
    no bands: its parts lie at many heights. Raises OutOfRange where the core does, as the set-up's run has.
    """
    course = purge_course_of(set_up)
    if course is None or until_s <= 0.0:
        return None
    close = np.linspace(0.0, min(closely_until_s, until_s), MOMENTS_COUNT)
    asked = [each for each in also_s if 0.0 <= each <= until_s]
    times_s = np.unique(np.concatenate([close, np.linspace(0.0, until_s, MOMENTS_COUNT), asked]))
    height_m = None if path_of(set_up) else course.purge.case.section.height_m
    roots = course.purge.trace(times_s)[:, 0]
    moments = []
    for time_s, root_frac in zip(times_s.tolist(), roots.tolist(), strict=True):
        bands = () if height_m is None else _bands(course.purge.profile(time_s), height_m)
        moments.append(Moment(time_s=time_s, root_frac=root_frac, bands_frac=bands))
    return Filling(height_m=height_m, moments=tuple(moments))


def bands_at(set_up: SetUp, *, course: PurgeCourse | None, time_s: float) -> tuple[float, ...]:
    """Oxygen in the bands at one time; none where the shape is not one section, or no purge is known."""
    if course is None or path_of(set_up):
        return ()
    return _bands(course.purge.profile(time_s), course.purge.case.section.height_m)


def _bands(profile: tuple[Floats, Floats], height_m: float) -> tuple[float, ...]:
    """Oxygen at the middles of bands of one depth, read off between the middles of the layers."""
    heights_m, oxygen_frac = profile
    middles_m = (np.arange(BANDS_COUNT) + 0.5) * height_m / BANDS_COUNT
    return tuple(np.interp(middles_m, heights_m, oxygen_frac).tolist())
