"""Marks one scenario: every response by its kind, the person's own set-up, and the pass rule."""

from collections.abc import Callable, Mapping
from typing import Any

from trainer.domain.answered_set_up import item_values, right_set_up
from trainer.domain.core_results import CoreResults
from trainer.domain.errors import Missing
from trainer.domain.items import why
from trainer.domain.items.bands import carried_band, trap_values
from trainer.domain.items.choice import choice_outcome
from trainer.domain.items.diagnosis import diagnosis_outcome
from trainer.domain.items.explanation import explanation_outcome
from trainer.domain.items.hazards import hazards_outcome
from trainer.domain.items.order import order_outcome
from trainer.domain.items.placement import Effect, placement_outcome
from trainer.domain.items.quantity import quantity_outcome
from trainer.domain.items.reading import reading_outcome
from trainer.domain.policy import Policy
from trainer.domain.purge_run import PurgeRun
from trainer.domain.run_set_up import run
from trainer.domain.scenario import (
    Answer,
    Item,
    ItemKind,
    ItemOutcome,
    Marked,
    Response,
    Scenario,
)
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_faults import UnusableSetUp
from trainer.domain.set_up_paths import value_at, with_values
from trainer.domain.unfolding import unfold, values_left


def mark(scenario: Scenario, *, responses: Mapping[str, Response], policy: Policy) -> Marked:
    """Every outcome, the weighted means, the critical failures, and what the person's own set-up does."""
    for item_id in responses:
        if item_id not in scenario.answers:
            raise Missing("item", item_id)
    core = CoreResults(policy)
    outcomes = tuple(
        outcome_of(scenario, item=each, responses=responses, core=core) for each in scenario.items
    )
    own, missing = own_set_up(scenario, responses=responses)
    own_run, missing = _run(own, missing, policy)
    by_skill = _by_skill(scenario, outcomes)
    critical = tuple(each.item_id for each in outcomes if each.critical_missed)
    return Marked(
        outcomes=outcomes,
        total=_mean(scenario.items, outcomes),
        by_skill=by_skill,
        critical_missed=critical,
        passed=_passed(outcomes, by_skill, policy),
        own_set_up=own,
        run=own_run,
        run_missing=missing,
    )


def _passed(
    outcomes: tuple[ItemOutcome, ...], by_skill: Mapping[int, float | None], policy: Policy
) -> bool | None:
    """False for what no grade can mend, else None while one is missing: a pass stays open until then."""
    means = by_skill.values()
    if any(each.critical_missed or not each.answered for each in outcomes):
        return False
    if any(mean is not None and mean < policy.pass_mark_frac for mean in means):
        return False
    return None if None in means else True


def _run(own: SetUp, missing: tuple[str, ...], policy: Policy) -> tuple[PurgeRun | None, tuple[str, ...]]:
    """The person's own set-up through the core; without a run, the paths that are open or contradict."""
    if missing:
        return None, missing
    try:
        return run(own, policy=policy), ()
    except UnusableSetUp as unusable:
        return None, tuple(dict.fromkeys(each.path for each in unusable.faults))


def own_set_up(scenario: Scenario, *, responses: Mapping[str, Response]) -> tuple[SetUp, tuple[str, ...]]:
    """The set-up as the person decided it, and the paths that were left open."""
    own = with_values(scenario.set_up, _values(scenario, responses))
    # What a diagnosis hides is known once it has been gone through: a fault may be a thing that is not there.
    items = (each for each in scenario.items if each.diagnosis is None or each.id not in responses)
    asked = dict.fromkeys(path for each in items for path in each.sets)
    return own, tuple(path for path in asked if value_at(own, path) is None)


def _values(scenario: Scenario, responses: Mapping[str, Any]) -> dict[str, Any]:
    """The set-up values that responses fill, by path."""
    values: dict[str, Any] = {}
    for item in scenario.items:
        if item.id not in responses:
            continue
        if item.diagnosis is not None:
            values |= values_left(scenario, item=item, steps=responses[item.id])
        else:
            values |= item_values(item, responses[item.id])
    return values


def outcome_of(
    scenario: Scenario, *, item: Item, responses: Mapping[str, Response], core: CoreResults
) -> ItemOutcome:
    """What the response to one item scores among the others; the core may have met the scenario before."""
    markers: dict[ItemKind, Callable[..., ItemOutcome]] = {
        ItemKind.QUANTITY: _quantity,
        ItemKind.PLACEMENT: _placement,
        ItemKind.CHOICE: _choice,
        ItemKind.HAZARDS: _hazards,
        ItemKind.ORDER: _order,
        ItemKind.READING: _reading,
        ItemKind.EXPLANATION: _explanation,
        ItemKind.DIAGNOSIS: _diagnosis,
    }
    return markers[item.kind](scenario, item, responses, core)


def _choice(scenario: Scenario, item: Item, responses: Mapping[str, Any], _core: CoreResults) -> ItemOutcome:
    return choice_outcome(item, answer=scenario.answers[item.id], response=responses.get(item.id))


def _hazards(scenario: Scenario, item: Item, responses: Mapping[str, Any], _core: CoreResults) -> ItemOutcome:
    return hazards_outcome(item, answer=scenario.answers[item.id], marks=responses.get(item.id))


def _order(scenario: Scenario, item: Item, responses: Mapping[str, Any], _core: CoreResults) -> ItemOutcome:
    return order_outcome(item, answer=scenario.answers[item.id], order=responses.get(item.id))


def _reading(scenario: Scenario, item: Item, responses: Mapping[str, Any], core: CoreResults) -> ItemOutcome:
    answer = scenario.answers[item.id]
    if answer.reading is None:
        return _choice(scenario, item, responses, core)
    return reading_outcome(item, band=answer.reading, key=answer.key, response=responses.get(item.id))


def _explanation(
    _scenario: Scenario, item: Item, responses: Mapping[str, Any], _core: CoreResults
) -> ItemOutcome:
    return explanation_outcome(item, response=responses.get(item.id))


def _diagnosis(
    scenario: Scenario, item: Item, responses: Mapping[str, Any], _core: CoreResults
) -> ItemOutcome:
    steps = responses.get(item.id)
    unfolding = unfold(scenario, item=item, steps=steps) if steps else None
    return diagnosis_outcome(item, answer=scenario.answers[item.id], unfolding=unfolding)


def _placement(
    scenario: Scenario, item: Item, responses: Mapping[str, Any], core: CoreResults
) -> ItemOutcome:
    """Judged on the right set-up with this placement alone: other slips are charged at their own items."""
    response = responses.get(item.id)
    if response is None or any(each.id not in response for each in item.handles):
        return placement_outcome(item, effects=None)
    placed = with_values(right_set_up(scenario), item_values(item, response))
    return placement_outcome(item, effects=effects_of(scenario.answers[item.id], placed, core))


def effects_of(answer: Answer, placed: SetUp, core: CoreResults) -> list[Effect]:
    """What the core makes of a placement, test by test."""
    return [core.effect(placed, test=each) for each in answer.placement]


def _quantity(scenario: Scenario, item: Item, responses: Mapping[str, Any], core: CoreResults) -> ItemOutcome:
    """The band follows from the person's own earlier values where they gave some that lead to an answer."""
    answer = scenario.answers[item.id]
    assert answer.rule is not None  # a quantity's answer always has a rule and a band
    assert answer.band is not None
    right = right_set_up(scenario)
    own = with_values(right, _earlier_values(scenario, item, responses))
    carried = carried_band(own, rule=answer.rule, core=core) if own != right else None
    band = carried or answer.band
    traps = trap_values(own if carried else right, rule=answer.rule, core=core)
    outcome = quantity_outcome(item, band=band, response=responses.get(item.id), traps=traps)
    if own == right or not outcome.answered:
        return outcome
    note = why.FROM_OWN_VALUES if carried else why.FROM_RIGHT_VALUES
    return ItemOutcome(**{**outcome.__dict__, "why": (*outcome.why, note)})


def _earlier_values(scenario: Scenario, item: Item, responses: Mapping[str, Any]) -> dict[str, Any]:
    place = scenario.items.index(item)
    earlier = {each.id for each in scenario.items[:place]}
    return _values(scenario, {key: each for key, each in responses.items() if key in earlier})


def _by_skill(scenario: Scenario, outcomes: tuple[ItemOutcome, ...]) -> dict[int, float | None]:
    skills = sorted({each.skill for each in scenario.items})
    return {
        skill: _mean(
            tuple(each for each in scenario.items if each.skill == skill),
            tuple(each for each in outcomes if scenario.item(each.item_id).skill == skill),
        )
        for skill in skills
    }


def _mean(items: tuple[Item, ...], outcomes: tuple[ItemOutcome, ...]) -> float | None:
    """The weighted mean; None while one of them waits for its grade."""
    weight = sum(each.weight for each in items)
    scores = [each.score for each in outcomes if each.score is not None]
    if len(scores) < len(outcomes):
        return None
    return sum(item.weight * each for item, each in zip(items, scores, strict=True)) / weight
