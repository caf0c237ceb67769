"""Which single change of a set-up helps most with what is wrong now, without harm elsewhere."""

from collections.abc import Iterator
from dataclasses import dataclass

from trainer.core.errors import OutOfRange, UnknownName, UnknownSize
from trainer.domain.change_effects import Figures, Severities, figures_of, severities_of
from trainer.domain.change_kinds import ChangeKind
from trainer.domain.kept_courses import KeptCourses
from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeRun
from trainer.domain.run_set_up import run
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.domain.set_up_paths import with_values
from trainer.domain.single_changes import SingleChange, single_changes

# Above it the air counts as fresh, and less of it is no harm; our own choice, common practice, no source.
FRESH_ENOUGH_FRAC = 0.205
_LEAST_GAIN = 0.005
_ALIKE = 1e-9


@dataclass(frozen=True, kw_only=True)
class HelpfulChange:
    """One change with the set-up that it makes, and the figures after it."""

    change: SingleChange
    set_up: SetUp
    after: Figures
    gain: float


@dataclass(frozen=True, kw_only=True)
class WhatHelps:
    """The figures as they are, whether anything is wrong, and the best changes, best first."""

    before: Figures
    is_nothing_wrong: bool
    changes: tuple[HelpfulChange, ...]
    tried_count: int


def what_helps(
    set_up: SetUp, *, policy: Policy, most: int = 5, courses: KeptCourses | None = None
) -> WhatHelps:
    """The changes that help most, the best size of each kind; raises UnusableSetUp.

    A change counts only where it leaves nothing beyond a limit that was within it, nothing that was beyond
    one farther out, and nobody with worse air.
    """
    kept = courses or KeptCourses()
    now = run(set_up, policy=policy, solved=kept.of)
    before = severities_of(now, set_up=set_up, policy=policy)
    tried = single_changes(set_up, run=now)
    best: dict[ChangeKind, HelpfulChange] = {}
    for found in _helpful(set_up, now, before, tried, policy=policy, courses=kept):
        known = best.get(found.change.kind)
        if known is None or found.gain > known.gain + _ALIKE:
            best[found.change.kind] = found
    ranked = sorted(best.values(), key=lambda each: -each.gain)
    return WhatHelps(
        before=figures_of(now),
        is_nothing_wrong=before.is_nothing_wrong,
        changes=tuple(ranked[:most]),
        tried_count=len(tried),
    )


def _helpful(  # noqa: PLR0913 (what is held against what, and how)
    set_up: SetUp,
    now: PurgeRun,
    before: Severities,
    tried: tuple[SingleChange, ...],
    *,
    policy: Policy,
    courses: KeptCourses,
) -> Iterator[HelpfulChange]:
    for change in tried:
        changed = with_values(set_up, dict(change.values))
        then = _run_or_none(changed, policy=policy, courses=courses)
        if changed == set_up or then is None or not _harms_nobody(now, then):
            continue
        after = severities_of(then, set_up=changed, policy=policy)
        gain = before.whole - after.whole
        if gain >= _LEAST_GAIN and not _is_worse(before, after, now, then):
            yield HelpfulChange(change=change, set_up=changed, after=figures_of(then), gain=gain)


def _run_or_none(set_up: SetUp, *, policy: Policy, courses: KeptCourses) -> PurgeRun | None:
    """The run; None where the change does not fit the set-up, or leads out of what the core calculates."""
    try:
        return run(set_up, policy=policy, solved=courses.of)
    except (UnusableSetUp, OutOfRange, UnknownName, UnknownSize):
        return None


def _is_worse(before: Severities, after: Severities, now: PurgeRun, then: PurgeRun) -> bool:
    """Whether anything is past a limit that was not, or farther past it than it was."""
    pairs = ((before.oxygen, after.oxygen), (before.pressure, after.pressure), (before.air, after.air))
    new = {each.code for each in then.cautions} - {each.code for each in now.cautions}
    return bool(new) or any(later > earlier + _ALIKE for earlier, later in pairs)


def _harms_nobody(now: PurgeRun, then: PurgeRun) -> bool:
    """Whether the air at every face, mixed, and with the supply let go is no worse than it was."""
    return all(_is_air_kept(earlier, later) for earlier, later in zip(_air(now), _air(then), strict=True))


def _air(done: PurgeRun) -> list[float | None]:
    air = done.breathing
    if air is None:
        return [None]
    people = (each.oxygen_frac for each in air.people)
    return [air.oxygen_mixed_frac, air.supply_emptied_frac, *people]


def _is_air_kept(earlier: float | None, later: float | None) -> bool:
    if earlier is None:
        return True
    if later is None:
        return False
    return later >= min(earlier - _ALIKE, FRESH_ENOUGH_FRAC)
