"""A few scenarios of a family, easy and hard, for tests that read what is said."""

from collections.abc import Iterable, Iterator

from trainer.domain.families import draw
from trainer.domain.scenario import Scenario
from trainer.scenario_files import Content


def few_draws(content: Content, family: str, *, at: Iterable[tuple[int, float]]) -> Iterator[Scenario]:
    """The scenarios of these seeds and difficulties."""
    for seed, difficulty in at:
        yield draw(
            content.family(family),
            seed=seed,
            difficulty=difficulty,
            policy=content.policy,
            hazards=content.hazards,
        )
