"""Reads the worked solution of an item, and says what it leaves out that a beginner needs."""

from collections.abc import Iterator

from trainer.domain.family import ItemTemplate, ScenarioFamily, StepTemplate
from trainer.domain.item_templates import ThumbTemplate
from trainer.domain.scenario import ItemKind
from trainer.domain.templates import names_in
from trainer.scenario_files.parts_file import read_value
from trainer.scenario_files.tables import Table


def read_working(table: Table, known: tuple[str, ...]) -> tuple[StepTemplate, ...]:
    """Every step of an item, at least one."""
    return tuple(_step(each, known) for each in table.tables("solution", required=True))


def _step(table: Table, known: tuple[str, ...]) -> StepTemplate:
    step = StepTemplate(
        what=table.text("what"),
        formula=table.text("formula", default=""),
        words=table.text("words", default=""),
        numbers=table.text("numbers", default=""),
        result=table.text("result", default=""),
        rule=table.text("rule", default=""),
        thumb=_thumb(table.inner("thumb"), known) if table.has("thumb") else None,
        caution=table.text("caution", default=""),
        span=table.span(),
    )
    table.close()
    return step


def _thumb(table: Table, known: tuple[str, ...]) -> ThumbTemplate:
    thumb = ThumbTemplate(
        says=table.text("says"),
        low=read_value(table, "low", known, required=False),
        high=read_value(table, "high", known, required=False),
    )
    table.close()
    return thumb


def faults_of_working(family: ScenarioFamily, difficulties: tuple[float, ...]) -> Iterator[str]:
    """Formulas without words anywhere, and quantities that are not worked through from formula to caution."""
    for item in family.items:
        for step in item.solution:
            if step.formula and not step.words:
                yield f"{item.id}: the formula '{step.formula}' is not said in words"
        if item.kind is ItemKind.QUANTITY:
            yield from dict.fromkeys(
                fault
                for difficulty in difficulties
                if item.span.holds(difficulty)
                for fault in _faults_of_quantity(item, family, difficulty)
            )


def _faults_of_quantity(item: ItemTemplate, family: ScenarioFamily, difficulty: float) -> Iterator[str]:
    steps = [each for each in item.solution if each.span.holds(difficulty)]
    worked = [each for each in steps if each.formula and each.numbers and each.result]
    if not worked:
        yield f"{item.id}: no step has a formula, the numbers put in and the result together"
    if not any(set(names_in(each.result)) & set(family.figures) for each in worked):
        yield f"{item.id}: the result of its formula names no figure of the core"
    if not any(set(names_in(each.numbers)) for each in worked):
        yield f"{item.id}: no drawn value and no figure of the core is put into its formula"
    if not any(each.thumb for each in steps):
        yield f"{item.id}: no rule of thumb is held against the result"
    if not any(each.caution for each in steps):
        yield f"{item.id}: no caution stands with the result"
