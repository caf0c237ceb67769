"""Reads the items of a family file, each by its kind."""

from collections.abc import Mapping
from typing import Any

from trainer.domain.family import (
    ChoiceTemplate,
    EffectTemplate,
    HandleTemplate,
    ItemTemplate,
    ObjectTemplate,
    OptionTemplate,
    QuantityTemplate,
    SceneTemplate,
    TrapTemplate,
)
from trainer.domain.hazards import HazardCatalogue
from trainer.domain.result_kinds import RESULTS
from trainer.domain.scenario import EffectScale, InstrumentKind, ItemKind
from trainer.domain.skills import SKILLS
from trainer.scenario_files.diagnosis_file import read_diagnosis
from trainer.scenario_files.orders_file import read_order
from trainer.scenario_files.parts_file import flat_set_up, read_condition, read_value
from trainer.scenario_files.readings_file import read_reading
from trainer.scenario_files.rubrics_file import read_rubric
from trainer.scenario_files.tables import Table, value_of
from trainer.scenario_files.working_file import read_working

_ALONG = ("pipe left", "pipe right", "height")


def read_item(table: Table, known: tuple[str, ...], hazards: HazardCatalogue) -> ItemTemplate:
    """One item; `known` names the set-ups that its conditions may speak of."""
    kind = ItemKind(table.one_of("kind", [each.value for each in ItemKind]))
    parts: dict[ItemKind, Any] = {
        ItemKind.QUANTITY: lambda: {
            "quantity": _quantity(table, known),
            "unit_hint": table.text("unit_hint"),
        },
        ItemKind.PLACEMENT: lambda: _placement(table, known),
        ItemKind.CHOICE: lambda: {"choice": _choice(table, known)},
        ItemKind.HAZARDS: lambda: {"scene": _scene(table, known, hazards)},
        ItemKind.ORDER: lambda: {"order": read_order(table)},
        ItemKind.READING: lambda: _reading(table, known),
        ItemKind.EXPLANATION: lambda: {"rubric": read_rubric(table)},
        ItemKind.DIAGNOSIS: lambda: read_diagnosis(table),
    }
    item = ItemTemplate(
        id=table.text("id"),
        kind=kind,
        skill=_skill(table),
        text=table.text("text"),
        weight=table.number("weight", default=1.0),
        critical=table.truth("critical", default=False),
        solution=read_working(table, known),
        span=table.span(),
        **{"sets": table.words("sets"), **parts[kind]()},
    )
    _check_sets(item, table)
    table.close()
    return item


def _check_sets(item: ItemTemplate, table: Table) -> None:
    flat_set_up(dict.fromkeys(item.sets, 0), table)
    if item.kind is ItemKind.QUANTITY and len(item.sets) != 1:
        table.fault("sets", "a quantity sets exactly one path of the set-up")
    if item.kind is ItemKind.EXPLANATION and item.sets:
        table.fault("sets", "an explanation sets nothing: only a person reads it")
    if item.kind is ItemKind.EXPLANATION and item.critical:
        table.fault("critical", "an explanation is critical through a criterion, the one whose level 0 fails")
    if item.choice is not None:
        for each in item.choice.options:
            if tuple(each.sets) != item.sets:
                table.fault("sets", f"the option '{each.text}' does not set the paths that the item names")


def _skill(table: Table) -> int:
    number = table.whole("skill")
    if number not in {each.number for each in SKILLS}:
        table.fault("skill", f"{number} is not a skill from 1 to {len(SKILLS)}")
    return number


def _quantity(table: Table, known: tuple[str, ...]) -> QuantityTemplate:
    return QuantityTemplate(
        result=table.one_of("result", tuple(RESULTS)),
        outcome=table.one_of("outcome", tuple(RESULTS)),
        limit=read_value(table, "limit", known),
        fails_above=table.truth("fails_above"),
        more_is_safer=table.truth("more_is_safer"),
        nearest=table.value("nearest"),
        safe_zero_ratio=table.number("safe_zero") if table.has("safe_zero") else None,
        input_uncertainties=table.numbers("input_uncertainties"),
        traps=tuple(_trap(each, known) for each in table.tables("trap")),
    )


def _reading(table: Table, known: tuple[str, ...]) -> dict[str, Any]:
    """A root is judged by options; every other instrument is read off as a quantity."""
    reading = read_reading(table, known)
    if reading.instrument is InstrumentKind.ROOT:
        return {"reading": reading, "choice": _choice(table, known)}
    return {"reading": reading, "unit_hint": table.text("unit_hint")}


def _trap(table: Table, known: tuple[str, ...]) -> TrapTemplate:
    """A core result of a set-up, or the wrong value itself."""
    is_value = table.has("value")
    trap = TrapTemplate(
        misconception=table.text("belief"),
        value=table.value("value", required=False),
        result="" if is_value else table.one_of("result", tuple(RESULTS)),
        of=table.one_of("of", ("", *known), default=""),
        times=table.number("times", default=1.0),
        span=table.span(),
    )
    table.close()
    return trap


def _placement(table: Table, known: tuple[str, ...]) -> dict[str, Any]:
    handles = tuple(_handle(each) for each in table.tables("handle", required=True))
    keys = [each.written for each in table.tables("key", required=True)]
    for each in keys:
        if set(each) != {handle.id for handle in handles}:
            table.fault("key", f"gives a place for each of {', '.join(handle.id for handle in handles)}")
    return {
        "handles": handles,
        "tests": tuple(_effect(each, known) for each in table.tables("effect", required=True)),
        "keys": tuple(value_of(each) for each in keys),
    }


def _handle(table: Table) -> HandleTemplate:
    handle = HandleTemplate(
        id=table.text("id"),
        label=table.text("label"),
        sets=table.text("sets"),
        along=table.one_of("along", _ALONG),
        low=table.value("low"),
        high=table.value("high"),
        step=table.value("step"),
    )
    flat_set_up({handle.sets: 0}, table)
    table.close()
    return handle


def _effect(table: Table, known: tuple[str, ...]) -> EffectTemplate:
    effect = EffectTemplate(
        result=table.one_of("result", tuple(RESULTS)),
        good=read_value(table, "good", known),
        bad=read_value(table, "bad", known, required=False),
        after=read_value(table, "after", known, required=False),
        misconception=table.text("belief"),
        scale=EffectScale(table.one_of("scale", [each.value for each in EffectScale], default="ratio")),
        span=table.span(),
    )
    table.close()
    return effect


def _choice(table: Table, known: tuple[str, ...]) -> ChoiceTemplate:
    least = table.one_of("least", ("", *RESULTS), default="")
    choice = ChoiceTemplate(
        options=tuple(_option(each, known, bool(least)) for each in table.tables("option", required=True)),
        least=least,
        clear_ratio=table.number("clear", default=1.1),
        count=table.whole("count", default=4),
    )
    if len(choice.options) < 3:
        table.fault("option", "a choice has at least three options")
    return choice


def _option(table: Table, known: tuple[str, ...], ranked: bool) -> OptionTemplate:
    option = OptionTemplate(
        text=table.text("text"),
        belief=table.text("belief", default=""),
        when=tuple(read_condition(each, known) for each in table.tables("when")),
        of=table.one_of("of", known) if ranked else "",
        sets=flat_set_up(table.mapping("sets"), table),
        span=table.span(),
    )
    if not option.belief and not option.when and not ranked:
        table.fault("", "an option that is never right names the belief behind it")
    table.close()
    return option


def _scene(table: Table, known: tuple[str, ...], hazards: HazardCatalogue) -> SceneTemplate:
    scene = SceneTemplate(
        objects=tuple(_object(each, known, hazards) for each in table.tables("object", required=True)),
        innocent_pool=table.words("innocent_pool"),
        innocent_count=table.whole("innocent_count"),
        least_hazards=table.whole("least_hazards", default=2),
    )
    for key in scene.innocent_pool:
        _check_entry(table, "innocent_pool", key, hazards, is_hazard=False)
    return scene


def _object(table: Table, known: tuple[str, ...], hazards: HazardCatalogue) -> ObjectTemplate:
    thing = ObjectTemplate(
        hazard=table.text("hazard", default=""),
        innocent=table.text("innocent", default=""),
        chance=table.number("chance", default=0.5),
        when=_when(table),
        conditions=tuple(read_condition(each, known) for each in table.tables("condition")),
        why=table.text("why", default=""),
        span=table.span(),
    )
    if thing.hazard:
        _check_entry(table, "hazard", thing.hazard, hazards, is_hazard=True)
    if thing.innocent:
        _check_entry(table, "innocent", thing.innocent, hazards, is_hazard=False)
    if not thing.hazard and not thing.innocent:
        table.fault("", "needs a hazard, an innocent object, or both")
    table.close()
    return thing


def _when(table: Table) -> dict[str, tuple[str, ...]]:
    written: Mapping[str, Any] = table.mapping("when")
    return {name: tuple(map(str, words)) for name, words in written.items()}


def _check_entry(table: Table, name: str, key: str, hazards: HazardCatalogue, *, is_hazard: bool) -> None:
    entry = hazards.entries.get(key)
    if entry is None or entry.is_hazard is not is_hazard:
        what = "a hazard" if is_hazard else "an innocent object"
        table.fault(name, f"{key!r} is not {what} of the catalogue")
