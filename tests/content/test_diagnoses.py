"""What the words of a diagnosis say of flow and gauge is what the core makes of the fault, and none shows it early."""

from collections.abc import Iterator

import pytest

from trainer.domain.answered_set_up import right_set_up
from trainer.domain.diagnosis_parts import SOUND, MoveKind, Watched
from trainer.domain.families import draw
from trainer.domain.scenario import Item, Scenario
from trainer.domain.set_up_paths import value_at, with_values
from trainer.domain.stretches import Stretch, flow_through, stretched_purge
from trainer.domain.unfolding import unfold
from trainer.scenario_files import load_content

CONTENT = load_content()
FAMILIES = tuple(
    each.id for each in CONTENT.families.values() if any(item.diagnosis is not None for item in each.items)
)
OF_THE_ROOT = tuple(
    each
    for each in FAMILIES
    if any(
        item.diagnosis is not None and item.diagnosis.watches is Watched.ROOT
        for item in CONTENT.family(each).items
    )
)
_CLEARLY_LESS = 0.6


def diagnoses(family: str) -> Iterator[tuple[Scenario, Item]]:
    for seed in range(20):
        scenario = draw(
            CONTENT.family(family),
            seed=seed,
            difficulty=(seed * 37 % 101) / 100,
            policy=CONTENT.policy,
            hazards=CONTENT.hazards,
        )
        yield from ((scenario, each) for each in scenario.items if each.diagnosis is not None)


@pytest.mark.parametrize("family", FAMILIES)
def test_what_a_cause_touches_is_in_no_drawing_and_in_no_fact(family: str) -> None:
    for scenario, item in diagnoses(family):
        assert all(value_at(scenario.set_up, path) is None for path in item.sets)
        assert not {each.path for each in scenario.facts} & set(item.sets)


@pytest.mark.parametrize("family", OF_THE_ROOT)
def test_where_the_float_is_said_to_stand_low_the_core_lets_clearly_less_through(family: str) -> None:
    for scenario, item in diagnoses(family):
        key = scenario.answers[item.id].diagnosis
        assert key is not None
        assert item.diagnosis is not None
        floats = [each.id for each in item.diagnosis.moves if "the float" in each.text.lower()]
        right = right_set_up(scenario)
        for check in floats:
            for cause in key.causes:
                faulty = with_values(right, dict(cause.values))
                line = stretched_purge((Stretch(set_up=faulty, lasts_s=key.faulty_s),))
                flows_on = flow_through(faulty) if line.left_at_m3(key.faulty_s) != 0.0 else 0.0
                if key.seen(check, cause.id) != key.seen(check, SOUND):
                    assert flows_on < _CLEARLY_LESS * flow_through(right), cause.id


@pytest.mark.parametrize("family", OF_THE_ROOT)
def test_waiting_alone_never_ends_well(family: str) -> None:
    for scenario, item in diagnoses(family):
        key, sheet = scenario.answers[item.id].diagnosis, item.diagnosis
        assert key is not None
        assert sheet is not None
        wait = next(each for each in sheet.moves if each.kind is MoveKind.WAIT)
        count = int((sheet.limit_s - 60.0) // wait.takes_s)
        strike = next(each.id for each in key.moves if each.ending is not None and each.ending.is_aim)
        steps = [*[wait.id] * min(count, 38), strike]
        assert unfold(scenario, item=item, steps=steps).outcome != "ready"


@pytest.mark.parametrize("family", FAMILIES)
def test_every_cause_is_drawn_and_found(family: str) -> None:
    found = {scenario.answers[item.id].diagnosis.cause for scenario, item in diagnoses(family)}  # type: ignore[union-attr]

    assert len(found) >= 3
