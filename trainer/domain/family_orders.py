"""Builds an order item: the steps offered, shuffled under opaque ids, and what has to come before what."""

from collections.abc import Mapping, Sequence
from random import Random
from typing import Any

from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.family import ItemTemplate, OrderStepTemplate, OrderTemplate
from trainer.domain.scenario import Answer, Item, LeftOut, OrderStep, Precedence
from trainer.domain.streams import shuffle
from trainer.domain.templates import sentence


def built_order(
    template: ItemTemplate, *, drawn: Drawn, source: Random
) -> tuple[Item, Mapping[str, Any], Answer]:
    """The item, no set-up values, and its answer; Rejected where too few steps take part to be an order."""
    asked = template.order
    assert asked is not None  # the loader fills it for this kind
    offered = [each for each in asked.steps if each.span.holds(drawn.difficulty)]
    shuffle(offered, source)
    ids = {each.id: f"s{number}" for number, each in enumerate(offered, start=1)}
    steps = tuple(OrderStep(id=ids[each.id], text=sentence(each.text, drawn.values)) for each in offered)
    precedences = _precedences(asked, ids, drawn)
    if len(precedences) < 2:
        raise Rejected(f"{template.id}: fewer than two precedences are left to keep")
    item = Item(
        id=template.id,
        kind=template.kind,
        skill=template.skill,
        text=sentence(template.text, drawn.values),
        weight=template.weight,
        steps=steps,
    )
    answer = Answer(
        item_id=item.id,
        key=one_right_order([ids[each.id] for each in offered if not each.belief], precedences),
        critical=any(each.critical for each in precedences),
        precedences=precedences,
        left_out=tuple(_left_out(each, ids, drawn) for each in offered if each.belief),
    )
    return item, {}, answer


def one_right_order(steps: Sequence[str], precedences: Sequence[Precedence]) -> tuple[str, ...]:
    """An order that keeps every precedence: of those that may come next, the first of the list."""
    waiting, order = list(steps), list[str]()
    while waiting:
        ready = next(
            each for each in waiting if not any(p.after == each and p.before in waiting for p in precedences)
        )
        waiting.remove(ready)
        order.append(ready)
    return tuple(order)


def _precedences(asked: OrderTemplate, ids: Mapping[str, str], drawn: Drawn) -> tuple[Precedence, ...]:
    """Those whose steps both take part at this difficulty."""
    return tuple(
        Precedence(
            before=ids[each.first],
            after=ids[each.then],
            why=sentence(each.why, drawn.values),
            critical=each.critical,
        )
        for each in asked.precedences
        if each.first in ids and each.then in ids
    )


def _left_out(step: OrderStepTemplate, ids: Mapping[str, str], drawn: Drawn) -> LeftOut:
    return LeftOut(
        step_id=ids[step.id], misconception=sentence(step.belief, drawn.values), critical=step.critical
    )
