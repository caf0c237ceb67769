"""Modules on paper: what of a module can be asked there, and the days on which a sheet may have been sat."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from trainer.domain.family import ScenarioFamily
from trainer.domain.modules import Blueprint, BlueprintRow
from trainer.domain.reasons import Reason, reason
from trainer.domain.scenario import ItemKind

MOST_BLANK_SHEETS = 60


@dataclass(frozen=True, kw_only=True)
class OnPaper:
    """A module as it is printed: its blueprint without what unfolds, and what that leaves out.

    `left_out` are the skills of rows of which nothing can be printed; `families_left_out` are the families
    that are not drawn, also where their row has others.
    """

    blueprint: Blueprint
    left_out: tuple[int, ...]
    families_left_out: tuple[str, ...]

    @property
    def scenarios_count(self) -> int:
        """How many scenarios one sheet has."""
        return sum(each.count for each in self.blueprint.rows)


def unfolds(family: ScenarioFamily, *, difficulty: float) -> bool:
    """Whether it asks step after step, each showing what it led to, which no sheet of paper can."""
    return any(
        each.kind is ItemKind.DIAGNOSIS and each.span.low <= difficulty <= each.span.high
        for each in family.items
    )


def on_paper(blueprint: Blueprint, *, unfolding: Callable[[str, float], bool]) -> OnPaper:
    """The module as it is printed; `unfolding` tells of a family and a difficulty whether it unfolds there.

    A row that has nothing but unfolding families is left out as a whole, and so is the time limit, to which a
    printed sheet holds nobody.
    """
    kept: list[BlueprintRow] = []
    left_out: list[int] = []
    unprinted: list[str] = []
    for row in blueprint.rows:
        families = tuple(each for each in row.families if not unfolding(each, row.difficulty))
        unprinted += [each for each in row.families if each not in families]
        if families:
            kept.append(replace(row, families=families))
        else:
            left_out.append(row.skill)
    drawn = {family for row in kept for family in row.families}
    critical = tuple(each for each in blueprint.critical_items if each.partition("/")[0] in drawn)
    return OnPaper(
        blueprint=replace(blueprint, rows=tuple(kept), critical_items=critical, time_limit_s=None),
        left_out=tuple(sorted(set(left_out))),
        families_left_out=tuple(dict.fromkeys(unprinted)),
    )


def sat_faults(sat_on: date, *, printed_on: date, today: date) -> tuple[Reason, ...]:
    """What is wrong with the day on which a sheet is said to have been sat."""
    if sat_on > today:
        return (reason("sat-in-the-future", day=sat_on.isoformat()),)
    if sat_on < printed_on:
        return (reason("sat-before-printed", day=sat_on.isoformat(), printed=printed_on.isoformat()),)
    return ()
