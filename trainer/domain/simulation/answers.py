"""What a simulated apprentice answers, item by item, each later one worked from their own earlier values."""

from collections.abc import Callable
from math import exp

from trainer.domain.answered_set_up import item_values, right_set_up
from trainer.domain.items.bands import carried_band, trap_values
from trainer.domain.items.order import covers
from trainer.domain.items.quantity import UNIT_SLIPS
from trainer.domain.scenario import Answer, Item, ItemKind, Response
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import spec_at, with_values
from trainer.domain.simulation.diagnosing import diagnosis_steps
from trainer.domain.simulation.person import THINKS_BEFORE_HABIT, Person

WRITTEN = "What the set-up does, and why."
_SEES_A_HAZARD, _KNOWS_IT_HARMLESS, _KNOWS_WHAT_COMES_FIRST = 1.6, 2.2, 2.5
_OBJECTS_AT_A_GLANCE, _EASE_LOST_TO_A_CROWD = 6, 0.15
_READS_WITHIN = 0.3  # of a division at ability 0
_STILL_SHARP_READING = 0.4
_PLACES_WITHIN = 0.08  # of a handle's way, for each effect
_OFF_BY = 0.7  # what an overlooked thing does to a quantity, in its logarithm


def responses_of(person: Person) -> dict[str, Response]:
    """A response to every item of the person's scenario."""
    scenario, given = person.task.scenario, dict[str, Response]()
    right = own = right_set_up(scenario)
    for item in scenario.items:
        answer = scenario.answers[item.id]
        if item.kind is ItemKind.QUANTITY:
            response: Response = _quantity(person, item, answer, right=right, own=own)
        else:
            response = _BY_KIND[item.kind](person, item, answer)
        given[item.id] = response
        own = with_values(own, item_values(item, response))
    return given


def _quantity(person: Person, item: Item, answer: Answer, *, right: SetUp, own: SetUp) -> float:
    rule, core = answer.rule, person.task.core
    assert rule is not None  # a quantity's answer always has a rule and a band
    assert answer.band is not None
    carried = carried_band(own, rule=rule, core=core) if own != right else None
    for value, belief in trap_values(own if carried else right, rule=rule, core=core):
        if can_be_typed(item, value) and person.is_led_by(belief, item.id):
            return to_nearest(value, item)
    dice, demands = person.dice(f"{item.id} worked"), person.task.demands[item.id]
    off = (
        dice.gauss(0.0, 1.0) * person.spread(effects_count=len(demands.effects) + demands.amounts // 3) / 2.0
    )
    off += _OFF_BY * dice.choice((-1.0, 1.0)) * person.overlooked(item.id)
    key = (carried or answer.band).key * exp(off)
    if person.unconverted(item.id):
        key *= dice.choice(UNIT_SLIPS)[1] ** dice.choice((-1.0, 1.0))
    return to_nearest(key if can_be_typed(item, key) else (carried or answer.band).key, item)


def _placement(person: Person, item: Item, answer: Answer) -> Response:
    """Near the right place; anywhere where an idea pulls or something was overlooked."""
    led = any(person.is_led_by(each.misconception, item.id) for each in answer.placement)
    lost = led or not person.sees_it_all(item.id)
    dice, effects = person.dice(f"{item.id} placed"), len(person.task.demands[item.id].effects)
    placed = {}
    for each in item.handles:
        way = each.high - each.low
        wild, near = dice.uniform(each.low, each.high), dice.gauss(0.0, 1.0)
        off = near * way * _PLACES_WITHIN * person.spread(effects_count=effects)
        aimed = wild if lost else answer.key[each.id] + off
        placed[each.id] = min(max(aimed, each.low), each.high)
    return placed


def _choice(person: Person, item: Item, answer: Answer) -> Response:
    """By habit, by an idea that is wrong, by thinking, or by a guess where that comes to nothing."""
    guess = person.dice(f"{item.id} guess").choice([each.id for each in item.options])
    habit = person.task.habits.expected(item)
    if habit is not None and not person.manages(f"{item.id} thinks", ease=THINKS_BEFORE_HABIT):
        return habit
    for option, belief in sorted((answer.misconceptions or {}).items()):
        if person.is_led_by(belief, item.id):
            return option
    if not person.tells_apart(item.id):
        return next(each.id for each in item.options if each.id != answer.key)
    return str(answer.key) if person.sees_it_all(item.id) else habit or guess


def _hazards(person: Person, item: Item, answer: Answer) -> Response:
    """What is seen in a scene: the more stands in it, the less; and what is taken for a hazard."""
    crowd = max(0, len(item.objects) - _OBJECTS_AT_A_GLANCE)
    seen_ease = _SEES_A_HAZARD - _EASE_LOST_TO_A_CROWD * crowd
    marks = []
    for each in answer.hazards:
        event = f"{item.id} object {each.object_id}"
        is_right = person.manages(event, ease=seen_ease if each.is_hazard else _KNOWS_IT_HARMLESS)
        if is_right == each.is_hazard:
            marks.append(each.object_id)
    return tuple(marks)


def _order(person: Person, item: Item, answer: Answer) -> Response:
    """The right order, with steps taken in that do not belong and others put before what they need."""
    order = list(answer.key)
    for first, then in sorted(covers([(each.before, each.after) for each in answer.precedences])):
        if not person.manages(f"{item.id} {first} before {then}", ease=_KNOWS_WHAT_COMES_FIRST):
            order.remove(then)
            order.insert(order.index(first), then)
    led = [each.step_id for each in answer.left_out if person.is_led_by(each.misconception, item.id)]
    return (*led, *order)


def _reading(person: Person, item: Item, answer: Answer) -> Response:
    if answer.reading is None:
        return _choice(person, item, answer)
    scale = item.instrument
    assert scale is not None  # what is read as a quantity has a scale
    spread = _READS_WITHIN * exp(-_STILL_SHARP_READING * person.ability_logits) * scale.division
    off = person.dice(f"{item.id} read").gauss(0.0, 1.0) * spread
    known = person.manages(f"{item.id} scale", ease=2.0)
    read = float(answer.key) + (off if known else off + 5.0 * scale.division)
    return min(max(read, scale.low), scale.high)


def _explanation(_person: Person, _item: Item, _answer: Answer) -> Response:
    return WRITTEN


def _diagnosis(person: Person, item: Item, answer: Answer) -> Response:
    return diagnosis_steps(person, item=item, answer=answer)


_BY_KIND: dict[ItemKind, Callable[[Person, Item, Answer], Response]] = {
    ItemKind.PLACEMENT: _placement,
    ItemKind.CHOICE: _choice,
    ItemKind.HAZARDS: _hazards,
    ItemKind.ORDER: _order,
    ItemKind.READING: _reading,
    ItemKind.EXPLANATION: _explanation,
    ItemKind.DIAGNOSIS: _diagnosis,
}


def can_be_typed(item: Item, value: float) -> bool:
    """Whether the fields that an item sets would take the value."""
    limits = [spec_at(path) for path in item.sets]
    return value > 0.0 and all(each.high is None or value <= each.high for each in limits)


def to_nearest(value: float, item: Item) -> float:
    """The value as the item wants it rounded."""
    step = item.nearest
    return value if step is None or step <= 0.0 else max(step, round(value / step) * step)
