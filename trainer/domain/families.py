"""Draws a scenario from a family: the same family, version, seed and difficulty give the same one anywhere.

Draws that break a constraint are thrown away and drawn again from the same stream, within a budget.
"""

from collections import Counter
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from random import Random

import trainer
from trainer.core.errors import OutOfRange
from trainer.domain.core_results import NotKnown
from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.errors import DomainError
from trainer.domain.family import Choice, ScenarioFamily, Value
from trainer.domain.family_conditions import require
from trainer.domain.family_facts import facts_of
from trainer.domain.family_given import given_of
from trainer.domain.family_items import BuiltItem, built_item
from trainer.domain.hazards import HazardCatalogue
from trainer.domain.policy import Policy
from trainer.domain.scenario import Cue, Scenario
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import value_at, with_values, without_empty_parts
from trainer.domain.streams import checked_difficulty, checked_seed, one_of, stream
from trainer.domain.templates import filled, sentence, with_templates

BUDGET = 300
_UNFIT = (Rejected, OutOfRange, NotKnown)  # draws of which nothing can be asked


class NothingDrawn(DomainError):
    """No draw met the constraints within the budget: the family has to be changed."""


@dataclass(frozen=True, kw_only=True)
class Sources:
    """What a draw rests on besides the family: the site's policy and the hazard catalogue."""

    policy: Policy
    hazards: HazardCatalogue


@dataclass(frozen=True, kw_only=True)
class DrawnScenario:
    """A scenario, the draw that it was made of, and why earlier ones of the stream were thrown away."""

    scenario: Scenario
    drawn: Drawn
    rejections: tuple[str, ...]


def draw(
    family: ScenarioFamily, *, seed: int, difficulty: float, policy: Policy, hazards: HazardCatalogue
) -> Scenario:
    """The scenario of a seed and difficulty; raises OutOfRange for a seed or difficulty that there is not."""
    sources = Sources(policy=policy, hazards=hazards)
    return draw_counted(family, seed=seed, difficulty=difficulty, sources=sources).scenario


def draw_counted(family: ScenarioFamily, *, seed: int, difficulty: float, sources: Sources) -> DrawnScenario:
    """The same, with the draws that were thrown away on the way."""
    checked_seed(seed)
    level = checked_difficulty(difficulty)
    streams = Streams(family=family, seed=seed, difficulty=level)
    rejections: list[str] = []
    budget = 1 if family.fixed else BUDGET  # numbers that stay the same would be rejected alike again
    for _ in range(budget):
        try:
            scenario, drawn = _scenario(streams, sources)
        except _UNFIT as reason:
            rejections.append(str(reason))
        else:
            return DrawnScenario(scenario=scenario, drawn=drawn, rejections=tuple(rejections))
    ((commonest, count),) = Counter(rejections).most_common(1)
    raise NothingDrawn(f"{family.id}: no draw in {budget} met the constraints; {count} times: {commonest}")


def fixed_set_up(family: ScenarioFamily) -> SetUp:
    """The set-up of a family whose numbers are fixed: there is one choice in each draw, whatever the seed."""
    choices = {each.name: each.choices[0] for each in family.draws}
    values = {name: filled(each.value, _values(choices)) for name, each in choices.items()}
    return _base(family, choices, values)


def drawn_otherwise(
    drawn: DrawnScenario, *, family: ScenarioFamily, sources: Sources, moved: Mapping[str, Value]
) -> Scenario:
    """The same draw, its keys worked out anew with some values of the set-up moved, whatever its constraints.

    Tells whether a value decides that nobody was told. Raises Rejected where no option is right any more.
    """
    scenario = drawn.scenario
    if scenario.seed is None:
        raise ValueError("a scenario without its seed cannot be drawn again")
    streams = Streams(family=family, seed=scenario.seed, difficulty=scenario.difficulty)
    for _ in drawn.rejections:
        with suppress(*_UNFIT):
            _scenario(streams, sources)
    return _scenario(streams, sources, moved=moved)[0]


@dataclass(frozen=True, kw_only=True)
class Streams:
    """What is drawn, and its random streams: one for each purpose, going on from draw to draw."""

    family: ScenarioFamily
    seed: int
    difficulty: float
    opened: dict[str, Random] = field(default_factory=dict)

    def of(self, purpose: str) -> Random:
        """The stream of a purpose."""
        if purpose not in self.opened:
            self.opened[purpose] = stream(
                family=self.family.id,
                content_version=self.family.content_version,
                seed=self.seed,
                difficulty=self.difficulty,
                purpose=purpose,
            )
        return self.opened[purpose]


def _choices(streams: Streams) -> dict[str, Choice]:
    """One choice for each named draw, each from a stream of its own."""
    return {
        each.name: one_of(
            [choice for choice in each.choices if choice.span.holds(streams.difficulty)],
            streams.of(f"draw {each.name}"),
        )
        for each in streams.family.draws
    }


def _scenario(
    streams: Streams, sources: Sources, *, moved: Mapping[str, Value] | None = None
) -> tuple[Scenario, Drawn]:
    family, choices = streams.family, _choices(streams)
    values = {name: filled(each.value, _values(choices)) for name, each in choices.items()}
    drawn = Drawn(family=family, difficulty=streams.difficulty, values=values, policy=sources.policy)
    drawn.go_on_from(with_values(_base(family, choices, values), dict(moved or {})))
    items = _items(drawn, streams, sources.hazards)
    if moved is None:
        require(drawn)
    paths = (path for each in items for path in each.item.sets)
    asked = {path: None for path in paths if value_at(drawn.right, path) is not None}
    shown = without_empty_parts(with_values(drawn.right, asked))
    facts = facts_of(drawn, shown)
    scenario = Scenario(
        family=family.id,
        title=sentence(family.drawn_title, values),
        seed=streams.seed,
        difficulty=streams.difficulty,
        content_version=family.content_version,
        core_version=trainer.__version__,
        policy_version=sources.policy.version,
        situation=sentence(family.situation, values),
        set_up=shown,
        facts=facts,
        given=given_of(family, shown, told=facts),
        cues=_cues(choices, values),
        items=tuple(each.item for each in items),
        answers={each.item.id: each.answer(drawn) for each in items},
    )
    return scenario, drawn


def _values(choices: dict[str, Choice]) -> dict[str, Value]:
    return {name: each.value for name, each in choices.items()}


def _base(family: ScenarioFamily, choices: dict[str, Choice], values: dict[str, Value]) -> SetUp:
    templates: dict[str, Value] = {}
    for told in (family.set_up, *(each.set_up for each in choices.values())):
        for path, template in told.items():
            # a later one takes its place in the order too: parts before what is in them
            templates.pop(path, None)
            templates[path] = template
    return with_templates(SetUp(), templates, values)


def _items(drawn: Drawn, streams: Streams, hazards: HazardCatalogue) -> list[BuiltItem]:
    """Every item in order, each seeing the right set-up with the keys of those before it filled in."""
    built = []
    for template in drawn.family.items:
        if template.span.holds(drawn.difficulty):
            source = streams.of(f"layout {template.id}")
            item = built_item(template, drawn=drawn, source=source, hazards=hazards)
            drawn.go_on_from(with_values(drawn.right, dict(item.right_values)))
            built.append(item)
    return built


def _cues(choices: dict[str, Choice], values: dict[str, Value]) -> tuple[Cue, ...]:
    return tuple(
        Cue(code=str(values[name]).replace(" ", "-"), text=sentence(each.cue, values))
        for name, each in choices.items()
        if each.cue
    )
