"""What of a module is asked on paper, and when a sheet may have been sat."""

from datetime import date

import pytest

from trainer.domain.modules import Blueprint, BlueprintRow
from trainer.domain.paper import on_paper, sat_faults, unfolds
from trainer.scenario_files import load_content


def row(skill: int, *families: str) -> BlueprintRow:
    return BlueprintRow(skill=skill, families=families, count=2, difficulty=0.5)


def unfolding(family: str, difficulty: float) -> bool:
    return family.startswith("unfolding") and difficulty == 0.5


def printed(*rows: BlueprintRow, critical: tuple[str, ...] = ()):
    blueprint = Blueprint(rows=rows, pass_mark_frac=0.8, critical_items=critical, time_limit_s=900)
    return on_paper(blueprint, unfolding=unfolding)


def test_a_row_goes_on_with_the_families_that_do_not_unfold() -> None:
    found = printed(row(3, "plain", "unfolding-a"), row(4, "other"))

    assert [each.families for each in found.blueprint.rows] == [("plain",), ("other",)]
    assert found.left_out == ()
    assert found.families_left_out == ("unfolding-a",)
    assert found.scenarios_count == 4


def test_a_row_of_nothing_else_is_left_out_with_its_critical_items() -> None:
    found = printed(
        row(3, "plain"), row(10, "unfolding-a", "unfolding-b"), critical=("plain/x", "unfolding-a/y")
    )

    assert [each.skill for each in found.blueprint.rows] == [3]
    assert found.left_out == (10,)
    assert found.blueprint.critical_items == ("plain/x",)


def test_paper_has_no_time_limit_and_keeps_the_pass_mark() -> None:
    found = printed(row(3, "plain"))

    assert found.blueprint.time_limit_s is None
    assert found.blueprint.pass_mark_frac == 0.8


def test_the_families_that_unfold_are_those_with_a_diagnosis() -> None:
    families = load_content().families

    found = {each.id for each in families.values() if unfolds(each, difficulty=0.6)}

    assert {"came-back", "man-down", "will-not-come-down"} <= found
    assert "long-run" not in found


@pytest.mark.parametrize(
    ("day", "why"),
    [(1, "sat-before-printed"), (2, None), (5, None), (6, "sat-in-the-future")],
)
def test_a_sheet_is_sat_between_printing_and_today(day: int, why: str | None) -> None:
    faults = sat_faults(date(2026, 3, day), printed_on=date(2026, 3, 2), today=date(2026, 3, 5))

    assert [each.code for each in faults] == ([] if why is None else [why])
