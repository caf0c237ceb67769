"""A single change in words: what to do, and the figures that it moves."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext

from trainer.domain.change_effects import Figures
from trainer.domain.change_kinds import ChangeKind
from trainer.domain.quantities import Dimension
from trainer.domain.set_up_paths import spec_at
from trainer.domain.what_helps import HelpfulChange, WhatHelps
from trainer.services.bench_set_up import WorkedOut, changed_values
from trainer.web.bench.asked import Asked
from trainer.web.figures import plain, shown
from trainer.web.run_figures import air_words, oxygen_words, time_words


@dataclass(frozen=True, kw_only=True)
class Moved:
    """One figure that a change moves."""

    label: str
    before: str
    after: str


@dataclass(frozen=True, kw_only=True)
class ChangeView:
    """One change that helps: what to do, what it moves, and the address of the set-up with it."""

    words: str
    moved: tuple[Moved, ...]
    address: str


@dataclass(frozen=True, kw_only=True)
class HelpView:
    """The changes that help most, and what was wrong to begin with."""

    is_nothing_wrong: bool
    changes: tuple[ChangeView, ...]
    tried_count: int


def help_view(helped: WhatHelps, worked: WorkedOut, question: Asked) -> HelpView:
    """The best changes in words."""
    return HelpView(
        is_nothing_wrong=helped.is_nothing_wrong,
        changes=tuple(_change_view(each, helped.before, worked, question) for each in helped.changes),
        tried_count=helped.tried_count,
    )


def _change_view(found: HelpfulChange, before: Figures, worked: WorkedOut, question: Asked) -> ChangeView:
    changed = question.with_values(changed_values(worked, found.set_up))
    return ChangeView(
        words=change_words(found.change.kind, found.change.values),
        moved=tuple(_moved(before, found.after)),
        address=changed.address(),
    )


def _moved(before: Figures, after: Figures) -> list[Moved]:
    """The figures that read differently afterwards."""
    rows = (
        (gettext("Time to the target"), *(time_words(each.time_to_target_s) for each in (before, after))),
        (
            gettext("Oxygen at strike"),
            *(oxygen_words(each.oxygen_at_strike_frac) for each in (before, after)),
        ),
        (
            gettext("Pressure, the higher of purging and welding"),
            *(shown(each.pressure_pa, Dimension.PRESSURE) for each in (before, after)),
        ),
        (
            gettext("Lowest oxygen to breathe"),
            *(air_words(each.lowest_oxygen_frac) for each in (before, after)),
        ),
        (gettext("Cautions"), str(len(before.cautions)), str(len(after.cautions))),
    )
    return [Moved(label=label, before=one, after=other) for label, one, other in rows if one != other]


def change_words(kind: ChangeKind, values: Mapping[str, Any]) -> str:
    """What to do, in one sentence."""
    if kind is ChangeKind.VENT_AT_HIGH_POINT:
        return gettext("Put a further vent on %(place)s, where air stays.", place=values["vents"][-1].at)
    amounts = {path.rpartition(".")[2]: _amount(value, path) for path, value in values.items()}
    first = next(iter(amounts.values()))
    return _sentences()[kind] % {"first": first, **amounts}


def _sentences() -> dict[ChangeKind, str]:
    """A sentence a kind, with the change's own amounts by the last key of their path."""
    return {
        ChangeKind.VENT_TO_POOL_END: gettext("Move the vent to where the air gathers: height %(first)s."),
        ChangeKind.INLET_TO_GAS_SIDE: gettext("Move the inlet to where the gas gathers: height %(first)s."),
        ChangeKind.DIFFUSER: gettext("Let the gas in through a diffuser."),
        ChangeKind.DAMS_NEARER: gettext(
            "Set the dams nearer: %(left_dam)s and %(right_dam)s from the joint."
        ),
        ChangeKind.DAMS_FARTHER: gettext(
            "Set the dams farther away: %(left_dam)s and %(right_dam)s from the joint."
        ),
        ChangeKind.LIFT_VENT_END: gettext("Tilt the pipe to a slope of %(first)s, up from inlet to vent."),
        ChangeKind.MORE_FLOW: gettext("Turn the purge flow up to %(first)s."),
        ChangeKind.LESS_FLOW: gettext("Turn the purge flow down to %(first)s."),
        ChangeKind.MORE_HOLD: gettext("Turn the hold flow up to %(first)s."),
        ChangeKind.LESS_HOLD: gettext("Turn the hold flow down to %(first)s."),
        ChangeKind.TAPE_JOINT: gettext("Tape the whole joint until the arc."),
        ChangeKind.CLOSE_LEAKS: gettext("Close the leaks."),
        ChangeKind.PURER_GAS: gettext("Take purer gas, with at most %(first)s of oxygen in it."),
        ChangeKind.ARGON: gettext("Take argon (I1) as the backing gas."),
        ChangeKind.WAIT_LONGER: gettext("Wait %(wait)s in all before the arc."),
        ChangeKind.LARGER_VENT: gettext("Make the vent hole larger: %(first)s."),
        ChangeKind.SMALLER_VENT: gettext("Make the vent hole smaller: %(first)s."),
        ChangeKind.CLEAR_VENT: gettext("Clear the vent that is blocked."),
        ChangeKind.SOUND_HOSE: gettext("Take the kink out of the hose."),
        ChangeKind.WIDER_HOSE: gettext("Take a wider hose: %(first)s inside."),
        ChangeKind.NEW_FOAM: gettext("Put new foam in place of the old."),
        ChangeKind.VENTILATE: gettext("Ventilate with a fan of %(fan_flow)s."),
        ChangeKind.VENT_OUTSIDE: gettext("Lead the vent's gas outside by a hose."),
        ChangeKind.SUPPLY_OUTSIDE: gettext("Put the supply outside this space."),
        ChangeKind.MORE_CYLINDERS: gettext("Couple up %(first)s cylinders."),
    }


def _amount(value: Any, path: str) -> str:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return ""
    dimension = spec_at(path).dimension
    return plain(float(value)) if dimension is None else shown(float(value), dimension)
