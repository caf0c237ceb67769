"""Every family over many seeds and difficulties: solvable, inside the core's range, its keys worth full marks."""

import re
from collections.abc import Iterator

import pytest

from trainer.domain.core_results import CoreResults
from trainer.domain.diagnosis_parts import DiagnosisSheet, MoveKind
from trainer.domain.families import Sources, draw_counted
from trainer.domain.marking import mark, right_set_up
from trainer.domain.run_set_up import run
from trainer.domain.scenario import ItemKind, Response, Scenario
from trainer.domain.skills import SKILLS
from trainer.scenario_files import load_content, public_document
from trainer.scenario_files.content_check import (
    DIFFICULTIES,
    LEAST_DISTINCT,
    MOST_REJECTED_FRAC,
    distinct_text,
    faults_of_run,
    faults_of_scores,
)

CONTENT = load_content()
FAMILIES = tuple(CONTENT.families)
SEEDS_COUNT, MARKED_EVERY = 510, 13
SOURCES = Sources(policy=CONTENT.policy, hazards=CONTENT.hazards)


def scenarios(family: str, *, seeds: range) -> Iterator[Scenario]:
    for seed in seeds:
        difficulty = (seed * 37 % 101) / 100
        found = draw_counted(CONTENT.family(family), seed=seed, difficulty=difficulty, sources=SOURCES)
        yield found.scenario


def test_the_families_cover_what_a_first_module_asks() -> None:
    assert len(FAMILIES) >= 4
    assert {3, 4, 6, 11} <= {skill for each in CONTENT.families.values() for skill in each.skills}
    for kind in ItemKind:
        assert sum(kind in each.item_kinds for each in CONTENT.families.values()) >= 2, kind


@pytest.mark.parametrize("family", FAMILIES)
def test_each_family_asks_at_least_four_items_and_lets_people_set_part_of_the_set_up(family: str) -> None:
    found = CONTENT.family(family)
    for difficulty in DIFFICULTIES:
        items = [each for each in found.items if each.span.holds(difficulty)]
        assert len(items) >= 4
        assert any(each.sets or each.handles for each in items)
    assert {each.skill for each in found.items} == set(found.skills) <= {each.number for each in SKILLS}


@pytest.mark.parametrize("family", FAMILIES)
def test_difficulty_changes_what_takes_part_and_not_only_numbers(family: str) -> None:
    open_choices = [
        frozenset(
            (each.name, str(choice.value))
            for each in CONTENT.family(family).draws
            for choice in each.choices
            if choice.span.holds(difficulty)
        )
        for difficulty in DIFFICULTIES
    ]
    assert len(set(open_choices)) == 3


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
def test_five_hundred_seeds_draw_scenarios_that_differ_and_keys_that_hold(family: str) -> None:
    """One long draw a family, looked at in several ways, since drawing is what takes the time."""
    drawn: dict[float, set[str]] = {difficulty: set() for difficulty in DIFFICULTIES}
    rejected = 0
    for seed in range(SEEDS_COUNT):
        difficulty = DIFFICULTIES[seed % 3] if seed % MARKED_EVERY else (seed * 37 % 101) / 100
        found = draw_counted(CONTENT.family(family), seed=seed, difficulty=difficulty, sources=SOURCES)
        rejected += len(found.rejections)
        drawn.setdefault(difficulty, set()).add(distinct_text(found.scenario))
        assert faults_of_scores(found.scenario, found.drawn.core) == []
        if seed % MARKED_EVERY == 0:
            # from the scenario alone, as a page marks it, which knows of no draw
            assert faults_of_scores(found.scenario, CoreResults(CONTENT.policy)) == []
            assert faults_of_run(found.scenario, CONTENT) == []
            check_target(found.scenario)
    assert sum(map(len, drawn.values())) > LEAST_DISTINCT
    assert rejected / (rejected + SEEDS_COUNT) <= MOST_REJECTED_FRAC


def check_target(scenario: Scenario) -> None:
    """A time that is asked meets its target, inside the range that the core was tested in."""
    right = right_set_up(scenario)
    result = run(right, policy=CONTENT.policy)  # whatever is asked, the right set-up runs
    if "wait" not in {path for each in scenario.items for path in each.sets}:
        return
    assert result.purge is not None
    course = CoreResults(CONTENT.policy).course(right)
    assert course is not None
    assert course.purge.beyond_tested_range == ()
    assert right.target is not None
    assert right.target.oxygen_frac is not None
    assert result.purge.oxygen_after_wait_frac is not None
    assert result.purge.oxygen_after_wait_frac.expected <= right.target.oxygen_frac


@pytest.mark.parametrize("family", FAMILIES)
def test_no_constant_strategy_passes(family: str) -> None:
    for scenario in scenarios(family, seeds=range(4)):
        for strategy in ("first and all", "nothing marked", "tiny", "huge"):
            marked = mark(scenario, responses=by_strategy(scenario, strategy), policy=CONTENT.policy)
            assert marked.passed is False, (scenario.seed, strategy)
            scores = [each.score for each in marked.outcomes if not scenario.item(each.item_id).rubric]
            assert all(score is not None and 0.0 <= score <= 1.0 for score in scores)


@pytest.mark.parametrize("family", FAMILIES)
def test_answering_nothing_scores_nothing_and_names_what_is_missing(family: str) -> None:
    for scenario in scenarios(family, seeds=range(3)):
        marked = mark(scenario, responses={}, policy=CONTENT.policy)
        assert marked.total == 0.0
        assert not marked.passed
        assert marked.run is None
        assert set(marked.run_missing) == {path for each in scenario.items for path in each.sets}


@pytest.mark.parametrize("family", FAMILIES)
def test_what_is_shown_before_marking_holds_no_answer(family: str) -> None:
    for scenario in scenarios(family, seeds=range(6)):
        shown = public_document(scenario)
        assert "seed" not in shown
        for each in shown["items"]:
            hidden = {"key", "band", "rule", "tests", "misconceptions", "hazards", "solution", "critical"}
            assert not hidden & set(each)
        for path in (path for each in scenario.items for path in each.sets):
            assert not any(fact.path == path for fact in scenario.facts)


@pytest.mark.parametrize("family", FAMILIES)
def test_option_ids_and_object_ids_say_nothing_about_the_key(family: str) -> None:
    places: dict[str, set[str]] = {}
    for scenario in scenarios(family, seeds=range(30)):
        for item in scenario.items:
            ids = [each.id for each in (*item.options, *item.objects)]
            assert all(re.fullmatch(r"[a-f]|h\d+", each) for each in ids)
            if item.options:
                places.setdefault(item.id, set()).add(scenario.answers[item.id].key)
    assert all(len(each) >= 3 for each in places.values())


@pytest.mark.parametrize("family", FAMILIES)
def test_scene_objects_lie_in_the_scene_apart_from_each_other_and_large_enough_for_a_finger(
    family: str,
) -> None:
    for scenario in scenarios(family, seeds=range(10)):
        for item in scenario.items:
            boxes = [each.box for each in item.objects]
            assert len(set(boxes)) == len(boxes)
            for x, y, width, height in boxes:
                assert 0 <= x <= 800 - width
                assert 0 <= y <= 420 - height
                assert min(width, height) >= 54  # 24 px on a screen 360 px wide, of 800 units
            for one in boxes:
                assert not any(overlap(one, other) for other in boxes if other is not one)


def overlap(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return (
        one[0] < other[0] + other[2]
        and other[0] < one[0] + one[2]
        and one[1] < other[1] + other[3]
        and other[1] < one[1] + one[3]
    )


def constant_steps(sheet: DiagnosisSheet, strategy: str) -> tuple[str, ...]:
    """Everything in order, every look and then the last end, the first end, or waiting until time is up."""
    of_kind = {kind: [each.id for each in sheet.moves if each.kind is kind] for kind in MoveKind}
    ends, checks = of_kind[MoveKind.FINISH], of_kind[MoveKind.CHECK]
    waits = (of_kind[MoveKind.WAIT] or checks)[:1] * 30
    line = {"first and all": [each.id for each in sheet.moves], "nothing marked": [*checks, ends[-1]],
            "tiny": ends[:1], "huge": [*waits, *ends]}[strategy]  # fmt: skip
    count = next((place for place in range(1, len(line)) if sheet.is_over(line[:place])), len(line))
    return tuple(line[:count])


def by_strategy(scenario: Scenario, strategy: str) -> dict[str, Response]:
    chosen: dict[str, Response] = {each.id: "Everything." for each in scenario.items if each.rubric}
    chosen |= {
        each.id: constant_steps(each.diagnosis, strategy)
        for each in scenario.items
        if each.diagnosis is not None
    }
    for item in (each for each in scenario.items if each.id not in chosen):
        if item.options:
            chosen[item.id] = item.options[0].id
        elif item.kind is ItemKind.ORDER:
            chosen[item.id] = tuple(each.id for each in item.steps)
        elif item.instrument is not None:
            chosen[item.id] = item.instrument.division / 10.0 if strategy == "tiny" else item.instrument.high
        elif item.kind is ItemKind.HAZARDS:
            chosen[item.id] = tuple(each.id for each in item.objects) if strategy == "first and all" else ()
        elif item.kind is ItemKind.QUANTITY:
            chosen[item.id] = 1.0 if strategy == "tiny" else 500_000.0
            if item.sets[0] not in ("wait", "surroundings.after"):
                chosen[item.id] = 1e-5 if strategy == "tiny" else 900.0
        else:
            chosen[item.id] = {
                each.id: each.high if strategy == "huge" else each.low for each in item.handles
            }
    return chosen
