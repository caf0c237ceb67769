"""Modules for trying out strategies: one for each skill at each of three difficulties, over all families."""

from collections.abc import Mapping
from dataclasses import dataclass

from trainer.domain.family import ScenarioFamily
from trainer.domain.modules import SKILL_COUNT, Blueprint, BlueprintRow

DIFFICULTIES = (0.0, 0.5, 1.0)
_SCENARIOS = 3  # behind every critical, as a qualification wants them


@dataclass(frozen=True, kw_only=True)
class TriedModule:
    """A module by its title."""

    title: str
    blueprint: Blueprint


def modules_over(
    families: Mapping[str, ScenarioFamily], *, pass_mark_frac: float, difficulties: tuple[float, ...]
) -> tuple[TriedModule, ...]:
    """One module a skill and difficulty, of all the families that ask the skill there."""
    return tuple(
        TriedModule(
            title=f"skill {skill} at {difficulty:g}",
            blueprint=Blueprint(
                rows=(
                    BlueprintRow(
                        skill=skill,
                        families=_asking(families, skill, difficulty),
                        count=_SCENARIOS,
                        difficulty=difficulty,
                    ),
                ),
                pass_mark_frac=pass_mark_frac,
            ),
        )
        for difficulty in difficulties
        for skill in range(1, SKILL_COUNT + 1)
        if _asking(families, skill, difficulty)
    )


def _asking(families: Mapping[str, ScenarioFamily], skill: int, difficulty: float) -> tuple[str, ...]:
    return tuple(
        name
        for name, family in families.items()
        if any(each.skill == skill and each.span.holds(difficulty) for each in family.items)
    )


def drawn_from(modules: tuple[TriedModule, ...]) -> frozenset[tuple[str, float]]:
    """The families and difficulties that the modules draw from."""
    rows = (row for each in modules for row in each.blueprint.rows)
    return frozenset((family, row.difficulty) for row in rows for family in row.families)
