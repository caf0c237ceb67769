"""Seeds, difficulties and streams: what a draw rests on and what it refuses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.core.errors import OutOfRange
from trainer.domain.families import NothingDrawn, draw
from trainer.domain.family import Condition, ResultOf, ScenarioFamily
from trainer.domain.scenario import Scenario
from trainer.domain.streams import LAST_SEED, checked_difficulty, shuffle, stream
from trainer.scenario_files import load_content

CONTENT = load_content()


def drawn(seed: int, difficulty: float, family: ScenarioFamily | None = None) -> Scenario:
    return draw(
        family or CONTENT.family("pump-pit"),
        seed=seed,
        difficulty=difficulty,
        policy=CONTENT.policy,
        hazards=CONTENT.hazards,
    )


@pytest.mark.parametrize("seed", [-1, LAST_SEED + 1])
def test_a_seed_beyond_what_json_carries_exactly_is_refused(seed: int) -> None:
    with pytest.raises(OutOfRange, match="seed"):
        drawn(seed, 0.5)


@pytest.mark.parametrize("difficulty", [-0.01, 1.01, 0.505, float("nan")])
def test_a_difficulty_between_steps_or_outside_is_refused(difficulty: float) -> None:
    with pytest.raises(OutOfRange, match="difficulty"):
        drawn(1, difficulty)


def test_the_last_seed_draws() -> None:
    assert drawn(LAST_SEED, 1.0).seed == LAST_SEED


@given(st.integers(0, 100))
def test_every_step_of_difficulty_stays_itself(step: int) -> None:
    assert checked_difficulty(step / 100) == step / 100


def test_the_same_seed_draws_the_same_and_another_another() -> None:
    assert drawn(7, 0.5) == drawn(7, 0.5)
    assert drawn(7, 0.5) != drawn(8, 0.5)


def test_streams_of_two_purposes_are_apart() -> None:
    asked = {"family": "f", "content_version": "v", "seed": 1, "difficulty": 0.5}
    first = stream(**asked, purpose="layout")  # type: ignore[arg-type]
    other = stream(**asked, purpose="draws")  # type: ignore[arg-type]
    assert first.random() != other.random()


def test_shuffling_keeps_what_there_is() -> None:
    items = list(range(20))
    shuffle(items, stream(family="f", content_version="v", seed=1, difficulty=0.0, purpose="p"))
    assert items != list(range(20))
    assert sorted(items) == list(range(20))


def test_a_family_that_nothing_can_meet_says_so() -> None:
    found = CONTENT.family("pump-pit")
    impossible = Condition(left=ResultOf(of="as_found", result="pool depth"), relation="is never", right=True)
    broken = ScenarioFamily(**{**found.__dict__, "constraints": (impossible,)})
    with pytest.raises(NothingDrawn, match="no draw in 300"):
        drawn(1, 0.5, broken)
