"""Builds a choice item: the core decides which option is right, and ids and order say nothing about it."""

from collections.abc import Mapping
from random import Random
from string import ascii_lowercase
from typing import Any

from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import ChoiceTemplate, ItemTemplate, OptionTemplate, ResultOf
from trainer.domain.family_conditions import holds
from trainer.domain.quantities import Never
from trainer.domain.scenario import Answer, Item, Option
from trainer.domain.streams import shuffle
from trainer.domain.templates import filled, sentence, set_up_value


def built_choice(
    template: ItemTemplate, *, drawn: Drawn, source: Random
) -> tuple[Item, Mapping[str, Any], Answer]:
    """The item, the set-up values that its key fills, and its answer; Rejected without one clear key."""
    asked = template.choice
    assert asked is not None  # the loader fills it for this kind
    offered = [each for each in asked.options if each.span.holds(drawn.difficulty)]
    right = (
        _least(asked, offered, drawn) if asked.least else _only_one_that_holds(template.id, offered, drawn)
    )
    shown = _shown(offered, right, asked.count, source)
    options = tuple(_option(each, ascii_lowercase[place], drawn) for place, each in enumerate(shown))
    if len({each.text for each in options}) < len(options):
        raise Rejected(f"{template.id}: two options say the same")
    key = options[shown.index(right)]
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        sets=template.sets,
        options=options,
    )
    beliefs = {
        option.id: sentence(each.belief, drawn.values)
        for option, each in zip(options, shown, strict=True)
        if each is not right
    }
    answer = Answer(item_id=item.id, key=key.id, critical=template.critical, misconceptions=beliefs)
    return item, dict(key.values), answer


def _least(asked: ChoiceTemplate, offered: list[OptionTemplate], drawn: Drawn) -> OptionTemplate:
    """The option whose set-up has clearly the least of a result; what never comes is more than anything."""
    ranked = sorted(((_number(each.of, asked.least, drawn), place) for place, each in enumerate(offered)))
    (best, place), (second, _) = ranked[0], ranked[1]
    if not best * asked.clear_ratio < second:
        raise Rejected(f"two options lie within {asked.clear_ratio:g} of each other in {asked.least}")
    return offered[place]


def _number(name: str, result: str, drawn: Drawn) -> float:
    found = drawn.result(ResultOf(of=name, result=result))
    if isinstance(found, str):
        raise TypeError(f"{result} is a word and cannot be ranked")
    return float("inf") if isinstance(found, Never) else found


def _only_one_that_holds(item_id: str, offered: list[OptionTemplate], drawn: Drawn) -> OptionTemplate:
    right = []
    for each in offered:
        verdicts = [holds(condition, drawn) for condition in each.when]
        if None in verdicts and False not in verdicts:
            raise Rejected(f"{item_id}: '{each.text}' lies too near its limit to be right or wrong")
        if each.when and all(verdicts):
            right.append(each)
    if len(right) != 1:
        raise Rejected(f"{item_id}: {len(right)} options are right")
    return right[0]


def _shown(
    offered: list[OptionTemplate], right: OptionTemplate, most: int, source: Random
) -> list[OptionTemplate]:
    wrong = [each for each in offered if each is not right]
    shuffle(wrong, source)
    shown = [right, *wrong[: most - 1]]
    shuffle(shown, source)
    return shown


def _option(template: OptionTemplate, option_id: str, drawn: Drawn) -> Option:
    values = tuple(
        (path, set_up_value(path, filled(each, drawn.values))) for path, each in template.sets.items()
    )
    return Option(id=option_id, text=sentence(template.text, drawn.values), values=values)
