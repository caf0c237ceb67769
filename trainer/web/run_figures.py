"""The figures of a run in words, for results and the bench alike; a dash for what is not known."""

from flask_babel import gettext

from trainer.core.pool import PoolSide
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.quantities import Dimension, Never
from trainer.web.figures import number_shown, oxygen_shown, shown
from trainer.web.happened import grade_words


def oxygen_words(oxygen_frac: float | None) -> str:
    """Oxygen at the root."""
    return "–" if oxygen_frac is None else oxygen_shown(oxygen_frac)


def spread_words(run: PurgeRun, value: Expected | None) -> str:
    """The root's colour in a word, and between which ends nine runs in ten fall."""
    if value is None:
        return ""
    colour = grade_words(run.root.grade if run.root else None)
    low, high = oxygen_shown(value.lower), oxygen_shown(value.upper)
    if low == high:
        return gettext("%(colour)s; nine runs in ten come to the same", colour=colour)
    return gettext(
        "%(colour)s; nine runs in ten fall between %(low)s and %(high)s", colour=colour, low=low, high=high
    )


def time_words(needed: Expected | Never | None) -> str:
    """The time that is expected until the target is reached."""
    if isinstance(needed, Expected):
        return shown(needed.expected, Dimension.DURATION)
    return gettext("never") if isinstance(needed, Never) else "–"


def air_words(oxygen_frac: float | None) -> str:
    """Oxygen to breathe to a tenth of a per cent, never rounded up over the limit that it misses."""
    if oxygen_frac is None:
        return "–"
    tenths = int(oxygen_frac * 1000.0 + 1e-9)
    return f"{number_shown(tenths / 10, '.1f')}\u00a0%"


def pool_words(run: PurgeRun) -> str:
    """How deep the gas lies unmixed: the mixed figure says nothing of a face at the floor."""
    if run.breathing is None or run.breathing.oxygen_mixed_frac is None:
        return gettext("not reckoned for this place; test the air all the same")
    depth_m = run.breathing.pool_depth_m
    if not depth_m:
        return gettext("if it mixes")
    depth = shown(depth_m, Dimension.LENGTH)
    if run.breathing.pool_side == PoolSide.CEILING:
        return gettext(
            "if it mixes; unmixed, a layer without oxygen %(depth)s deep under the ceiling", depth=depth
        )
    return gettext("if it mixes; unmixed, a layer without oxygen %(depth)s deep at the floor", depth=depth)
