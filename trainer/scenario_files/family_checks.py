"""Checks the names in a family's texts and values: each is drawn, and what is shown holds no result."""

from collections.abc import Iterator, Mapping
from typing import Any

from trainer.domain.family import Condition, ItemTemplate, ScenarioFamily
from trainer.domain.result_kinds import RESULTS
from trainer.domain.templates import NAME, FamilyFault, drawn_value, names_in, set_up_value
from trainer.scenario_files.diagnosis_checks import check_diagnoses, diagnosis_texts
from trainer.scenario_files.tables import Table


def check_names(family: ScenarioFamily, top: Table) -> None:
    """Faults for names that are not drawn, for values that no field takes, and for leaks of the key."""
    shown = dict(_shown(family))
    hidden = dict(_hidden(family))
    own = {("nearest", f"item {each.id}.text") for each in family.items if each.quantity is not None}
    for key, text in {**shown, **hidden}.items():
        allowed = family.figures if key in hidden else {}
        for name in names_in(text):
            if name not in allowed and (name, key) not in own:
                _check_drawn(family, top, key, name)
    for where, path, value in _set_up_values(family):
        _check_value(family, top, f"{where}.{path}", path, value)
    for condition in _conditions(family):
        words = RESULTS[condition.left.result].words
        if bool(words) != (condition.relation == "is"):
            top.fault(condition.left.result, "a word is compared by is, a number by above, below or never")
        elif words and str(condition.right) not in words:
            top.fault(condition.left.result, f"{condition.right} is not one of {', '.join(words)}")
    _check_asked_is_hidden(family, top)
    check_diagnoses(family, top)


def _shown(family: ScenarioFamily) -> Iterator[tuple[str, str]]:
    yield "subtitle", family.subtitle
    yield "situation", family.situation
    for fact in family.facts:
        yield f"fact {fact.label}", f"{fact.label} {fact.text}"
    for each in family.draws:
        for place, choice in enumerate(each.choices, start=1):
            yield f"draw {each.name}[{place}]", choice.cue
    for item in family.items:
        yield f"item {item.id}.text", item.text
        yield f"item {item.id}.options", " ".join(_option_texts(item))


def _option_texts(item: ItemTemplate) -> list[str]:
    options = [each.text for each in item.choice.options] if item.choice is not None else []
    steps = [each.text for each in item.order.steps] if item.order is not None else []
    rubric = [text for each in item.rubric for text in (each.text, *each.levels)]
    return options + steps + rubric + (diagnosis_texts(item.diagnosis) if item.diagnosis else [])


def _hidden(family: ScenarioFamily) -> Iterator[tuple[str, str]]:
    for item in family.items:
        for place, step in enumerate(item.solution, start=1):
            says = step.thumb.says if step.thumb is not None else ""
            text = " ".join(
                (
                    step.what,
                    step.formula,
                    step.words,
                    step.numbers,
                    step.result,
                    step.rule,
                    says,
                    step.caution,
                )
            )
            yield f"item {item.id}.solution[{place}]", text
        for each in item.order.precedences if item.order is not None else ():
            yield f"item {item.id}.before {each.first}", each.why
        for thing in item.scene.objects if item.scene is not None else ():
            yield f"item {item.id}.object {thing.hazard}", thing.why


def _check_drawn(family: ScenarioFamily, top: Table, key: str, name: str) -> None:
    head = name.split(".")[0]
    draw = next((each for each in family.draws if each.name == head), None)
    if draw is None:
        names = ", ".join(each.name for each in family.draws)
        hint = "; figures of the core stand only in solutions and reasons" if head in family.figures else ""
        top.fault(key, f"nothing is drawn under {{{name}}}; drawn are {names}{hint}")
        return
    for choice in draw.choices:
        try:
            drawn_value(name, {head: choice.value})
        except FamilyFault as fault:
            top.fault(key, str(fault))
            return


def _set_up_values(family: ScenarioFamily) -> Iterator[tuple[str, str, Any]]:
    sets: list[tuple[str, Mapping[str, Any]]] = [("set_up", family.set_up)]
    sets += [(f"variant {name}", each.set_up) for name, each in family.variants.items()]
    for each in family.draws:
        sets += [(f"draw {each.name}", choice.set_up) for choice in each.choices]
    for item in family.items:
        if item.choice is not None:
            sets += [(f"item {item.id}.option", option.sets) for option in item.choice.options]
        if item.diagnosis is not None:
            sets += [(f"item {item.id}.cause {each.id}", each.set_up) for each in item.diagnosis.causes]
            sets += [(f"item {item.id}.action {each.id}", each.sets) for each in item.diagnosis.moves]
    for where, values in sets:
        for path, value in values.items():
            yield where, path, value


def _check_value(family: ScenarioFamily, top: Table, key: str, path: str, value: Any) -> None:
    """The value itself, or every choice of the draw that it names, is one that the field takes."""
    name = NAME.fullmatch(value) if isinstance(value, str) else None
    values = [value]
    if name is not None:
        draw = next((each for each in family.draws if each.name == name[1].split(".")[0]), None)
        if draw is None:
            _check_drawn(family, top, key, name[1])
            return
        _check_drawn(family, top, key, name[1])
        values = [_inside(choice.value, name[1]) for choice in draw.choices]
    for each in values:
        try:
            if each is not None and not (isinstance(each, str) and NAME.search(each)):
                set_up_value(path, each)
        except FamilyFault as fault:
            top.fault(key, str(fault))
            return


def _inside(value: Any, name: str) -> Any:
    for part in name.split(".")[1:]:
        value = value.get(part) if isinstance(value, Mapping) else None
    return value


def _conditions(family: ScenarioFamily) -> Iterator[Condition]:
    yield from family.constraints
    for item in family.items:
        for option in item.choice.options if item.choice is not None else ():
            yield from option.when
        for thing in item.scene.objects if item.scene is not None else ():
            yield from thing.conditions


def _check_asked_is_hidden(family: ScenarioFamily, top: Table) -> None:
    """What an item asks for is neither stated as a fact nor given by the set-up itself."""
    asked = {path for item in family.items for path in item.sets}
    asked |= {handle.sets for item in family.items for handle in item.handles}
    for fact in family.facts:
        if fact.path in asked:
            top.fault(f"fact {fact.label}", f"{fact.path} is what an item asks for")
