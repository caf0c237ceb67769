"""Modules: the blueprint that an instructor assigns, and the rules by which an attempt at it passes."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from trainer.domain.attempts import ItemMark, weighted_mean
from trainer.domain.reasons import Reason, reason

SKILL_COUNT = 12
LARGEST_ROW_COUNT = 12
LARGEST_ATTEMPT_COUNT = 40  # scenarios in one attempt: more is an examination day, not an attempt
SHORTEST_TIME_LIMIT_S = 60
LONGEST_TIME_LIMIT_S = 8 * 3600
# Means are sums of products of binary fractions: a cut of 0.80 counts as reached at 0.7999999999.
_CUT_TOLERANCE_FRAC = 1e-9


@dataclass(frozen=True, kw_only=True)
class BlueprintRow:
    """So many scenarios on one skill from these families at this difficulty; no cut means the pass mark."""

    skill: int
    families: tuple[str, ...]
    count: int
    difficulty: float
    cut_frac: float | None = None


@dataclass(frozen=True, kw_only=True)
class Blueprint:
    """What an attempt is drawn from and judged by. Critical items are named `family/item`."""

    rows: tuple[BlueprintRow, ...]
    pass_mark_frac: float
    critical_items: tuple[str, ...] = ()
    time_limit_s: int | None = None

    def cut_for(self, skill: int) -> float:
        """The cut of a skill: that of its strictest row, and the pass mark where no row sets one."""
        cuts = [each.cut_frac for each in self.rows if each.skill == skill and each.cut_frac is not None]
        return max(cuts, default=self.pass_mark_frac)


@dataclass(frozen=True, kw_only=True)
class Module:
    """A named blueprint of one training provider; what has been assigned is never changed, only retired."""

    module_id: UUID
    organisation_id: UUID
    title: str
    blueprint: Blueprint
    made_by: UUID
    made_at: datetime
    retired_at: datetime | None = None


@dataclass(frozen=True, kw_only=True)
class SkillVerdict:
    """How one skill came out: mean, cut, and whether it was reached; no mean where nothing was asked.

    While one of its items waits for a grade there is no mean, and `reached` is None.
    """

    skill: int
    mean_frac: float | None
    cut_frac: float
    items_count: int
    reached: bool | None


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """Whether an attempt passes, with everything that speaks against it; items are named `number/item`.

    `waiting` names the items that a person has yet to grade. While they alone stand between the attempt and a
    pass, `passed` is None; what has failed already stays failed.
    """

    skills: tuple[SkillVerdict, ...]
    critical_failures: tuple[str, ...]
    unanswered: tuple[str, ...]
    total_frac: float | None
    passed: bool | None
    waiting: tuple[str, ...] = ()


def judge(blueprint: Blueprint, *, marks: tuple[ItemMark, ...]) -> Verdict:
    """Judge an attempt: every skill reaches its cut, no critical failure stands, every item was answered.

    Good work in one skill does not pay for another; within a skill the weighted mean counts. A skill that the
    blueprint does not name is held to the pass mark.
    """
    named = {each.skill for each in blueprint.rows}
    skills = tuple(
        _skill_verdict(blueprint, skill, tuple(each for each in marks if each.skill == skill))
        for skill in sorted(named | {each.skill for each in marks})
    )
    failures = tuple(_place(each) for each in marks if _failed_critically(each, blueprint.critical_items))
    unanswered = tuple(_place(each) for each in marks if not each.answered)
    waiting = tuple(_place(each) for each in marks if each.waits_for_grade)
    lost = not marks or bool(failures) or bool(unanswered) or any(each.reached is False for each in skills)
    return Verdict(
        skills=skills,
        critical_failures=failures,
        unanswered=unanswered,
        total_frac=weighted_mean(marks) if marks else 0.0,
        passed=False if lost else (None if waiting else True),
        waiting=waiting,
    )


def _skill_verdict(blueprint: Blueprint, skill: int, marks: tuple[ItemMark, ...]) -> SkillVerdict:
    cut = blueprint.cut_for(skill)
    mean = weighted_mean(marks) if marks else None
    return SkillVerdict(
        skill=skill,
        mean_frac=mean,
        cut_frac=cut,
        items_count=len(marks),
        reached=None if marks and mean is None else mean is not None and mean >= cut - _CUT_TOLERANCE_FRAC,
    )


def _failed_critically(mark: ItemMark, critical_items: tuple[str, ...]) -> bool:
    if mark.critical_missed:
        return True
    named = f"{mark.family}/{mark.item_id}" in critical_items
    return named and not mark.correct and not mark.waits_for_grade


def _place(mark: ItemMark) -> str:
    return f"{mark.scenario_no}/{mark.item_id}"


@dataclass(frozen=True, kw_only=True)
class ItemOutline:
    """An item of a family: its skill, and the difficulties at which it is asked, both ends included."""

    item_id: str
    skill: int
    difficulty_from: float = 0.0
    difficulty_to: float = 1.0

    def is_asked_at(self, difficulty: float) -> bool:
        """Whether a scenario of this difficulty has the item."""
        return self.difficulty_from <= difficulty <= self.difficulty_to


@dataclass(frozen=True, kw_only=True)
class FamilyOutline:
    """What a module needs to know of a family."""

    family: str
    title: str
    items: tuple[ItemOutline, ...]

    def skills_at(self, difficulty: float) -> frozenset[int]:
        """The skills asked in a scenario of this difficulty."""
        return frozenset(each.skill for each in self.items if each.is_asked_at(difficulty))


def blueprint_faults(blueprint: Blueprint, *, families: Mapping[str, FamilyOutline]) -> tuple[Reason, ...]:
    """Everything wrong with a blueprint, at once; row numbers count from 1."""
    faults = [] if blueprint.rows else [reason("module-without-rows")]
    for number, row in enumerate(blueprint.rows, start=1):
        faults += _row_faults(row, number, families)
    drawn = sum(each.count for each in blueprint.rows)
    if drawn > LARGEST_ATTEMPT_COUNT:
        faults.append(reason("module-too-long", scenarios=drawn, most=LARGEST_ATTEMPT_COUNT))
    if not 0.0 < blueprint.pass_mark_frac <= 1.0:
        faults.append(reason("pass-mark-out-of-range", value=blueprint.pass_mark_frac))
    limit = blueprint.time_limit_s
    if limit is not None and not SHORTEST_TIME_LIMIT_S <= limit <= LONGEST_TIME_LIMIT_S:
        faults.append(
            reason(
                "time-limit-out-of-range", value=limit, low=SHORTEST_TIME_LIMIT_S, high=LONGEST_TIME_LIMIT_S
            )
        )
    return (*faults, *_critical_faults(blueprint, families))


def _row_faults(row: BlueprintRow, number: int, families: Mapping[str, FamilyOutline]) -> list[Reason]:
    faults = []
    if not 1 <= row.skill <= SKILL_COUNT:
        faults.append(reason("unknown-skill", row=number, skill=row.skill))
    if not 1 <= row.count <= LARGEST_ROW_COUNT:
        faults.append(reason("row-count-out-of-range", row=number, value=row.count, most=LARGEST_ROW_COUNT))
    if not 0.0 <= row.difficulty <= 1.0 or round(row.difficulty, 2) != row.difficulty:
        faults.append(reason("difficulty-out-of-range", row=number, value=row.difficulty))
    if row.cut_frac is not None and not 0.0 < row.cut_frac <= 1.0:
        faults.append(reason("cut-out-of-range", row=number, value=row.cut_frac))
    if not row.families:
        faults.append(reason("row-without-families", row=number))
    return faults + _family_faults(row, number, families)


def _family_faults(row: BlueprintRow, number: int, families: Mapping[str, FamilyOutline]) -> list[Reason]:
    faults = []
    for family in row.families:
        if family not in families:
            faults.append(reason("unknown-family", row=number, family=family))
        elif 0.0 <= row.difficulty <= 1.0 and row.skill not in families[family].skills_at(row.difficulty):
            faults.append(reason("family-does-not-ask-skill", row=number, family=family, skill=row.skill))
    return faults


def _critical_faults(blueprint: Blueprint, families: Mapping[str, FamilyOutline]) -> list[Reason]:
    known = {
        f"{family}/{item.item_id}"
        for row in blueprint.rows
        for family in row.families
        if family in families
        for item in families[family].items
        if item.is_asked_at(row.difficulty)
    }
    unknown = [each for each in blueprint.critical_items if each not in known]
    return [reason("unknown-critical-item", item=each) for each in unknown]


def drawn_families(blueprint: Blueprint, *, turn: int) -> tuple[tuple[str, BlueprintRow], ...]:
    """Which family each scenario of an attempt comes from: a row goes round its families from `turn` on."""
    return tuple(
        (row.families[(turn + place) % len(row.families)], row)
        for row in blueprint.rows
        for place in range(row.count)
    )
