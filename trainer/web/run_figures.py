"""The figures of a run in words, for results and the bench alike; a dash for what is not known."""

from dataclasses import dataclass

from flask_babel import gettext

from trainer.core.pool import PoolSide
from trainer.domain.change_effects import lowest_oxygen_frac
from trainer.domain.purge_run import Expected, PurgeRun
from trainer.domain.quantities import Dimension, Never
from trainer.web.figures import air_shown, oxygen_shown, shown
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
    """Oxygen to breathe."""
    return "–" if oxygen_frac is None else air_shown(oxygen_frac)


@dataclass(frozen=True, kw_only=True)
class LowestAir:
    """The least that anybody breathes, where that is, and the key of it in what `trainer solve` prints."""

    oxygen_frac: float | None
    words: str
    beside: str
    key: str


def lowest_air(run: PurgeRun) -> LowestAir:
    """At a face, or where nobody is told, if the space mixes."""
    lowest_frac = lowest_oxygen_frac(run)
    people = run.breathing.people if run.breathing else ()
    at = next((n for n, each in enumerate(people, 1) if each.oxygen_frac == lowest_frac), None)
    return LowestAir(
        oxygen_frac=lowest_frac,
        words=air_words(lowest_frac),
        beside=gettext("at the face of person %(number)s", number=at) if at else pool_words(run),
        key=f"breathing.people.{at - 1}.oxygen_percent" if at else "breathing.oxygen_mixed_percent",
    )


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
