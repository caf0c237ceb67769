"""A second solver of scenarios: it sees what is shown and what is taken as given, and guesses the rest.

What it cannot see it takes as a good part larger, then smaller, than it is. Where that moves a key, something
decides that was not told.
"""

from collections.abc import Iterator
from typing import Any

from trainer.core.errors import OutOfRange
from trainer.domain.core_results import NotKnown
from trainer.domain.drawn import Rejected
from trainer.domain.families import DrawnScenario, Sources, draw_counted, drawn_otherwise
from trainer.domain.family import ScenarioFamily
from trainer.domain.scenario import Answer, Scenario
from trainer.domain.set_up_paths import value_at, with_value
from trainer.domain.templates import names_in
from trainer.drawing.set_up_drawing import set_up_drawing
from trainer.scenario_files import Content
from trainer.set_up_files import write_set_up

GUESSES = (1.25, 0.8)
KELVIN_OFF = 8.0  # as wrong as somebody may be about the weather
# A key that moves by less is the same to anybody who reads a gauge.
SAME_RATIO = 1.02


def decides_untold(
    content: Content, family: ScenarioFamily, *, seed: int, difficulty: float
) -> dict[str, list[str]]:
    """Paths of the set-up that nothing tells, each with the items whose keys it moves."""
    sources = Sources(policy=content.policy, hazards=content.hazards)
    drawn = draw_counted(family, seed=seed, difficulty=difficulty, sources=sources)
    found = {}
    for path, value in untold(drawn.scenario, family):
        for guess in _guesses(path, value):
            moved = _answers(drawn, family, sources, {path: guess})
            items = sorted(key for key in moved if not _same(drawn.scenario.answers[key], moved[key]))
            if items:
                found[path] = items
    return found


def untold(scenario: Scenario, family: ScenarioFamily) -> Iterator[tuple[str, float]]:
    """Numbers of the set-up that neither drawing, facts, givens nor a text with what was drawn tell."""
    told = {each.path for each in (*scenario.facts, *scenario.given)} | set(_in_cues(family))
    spoken = _spoken(family)
    shown = set_up_drawing(scenario.set_up)
    for path in _leaves(write_set_up(scenario.set_up)):
        value = _value(scenario, path)
        if path in told or not isinstance(value, float) or value == 0.0 or _draws_of(family, path) & spoken:
            continue
        if all(_drawn_with(scenario, path, guess) == shown for guess in _guesses(path, value)):
            yield path, value


def _drawn_with(scenario: Scenario, path: str, value: float) -> str | None:
    """The drawing with a value moved; None where that is no set-up, which nobody would guess."""
    try:
        return set_up_drawing(with_value(scenario.set_up, path, value))
    except (OutOfRange, ValueError):
        return None


def _answers(
    drawn: DrawnScenario, family: ScenarioFamily, sources: Sources, moved: dict[str, Any]
) -> dict[str, Answer]:
    """The keys with a value moved; none where the guess makes a set-up that cannot be."""
    try:
        return dict(drawn_otherwise(drawn, family=family, sources=sources, moved=moved).answers)
    except (OutOfRange, NotKnown, Rejected):
        return {}


def _same(one: Answer, other: Answer) -> bool:
    if isinstance(one.key, float) and isinstance(other.key, float):
        return one.key == other.key or 1.0 / SAME_RATIO < other.key / one.key < SAME_RATIO
    return one.key == other.key


def _guesses(path: str, value: float) -> tuple[float, ...]:
    if path.endswith("temperature"):
        return value + KELVIN_OFF, value - KELVIN_OFF
    return tuple(value * each for each in GUESSES)


def _spoken(family: ScenarioFamily) -> set[str]:
    """Names of the draws that a text tells before anything is decided."""
    texts = [family.situation, family.subtitle]
    texts += [f"{each.label} {each.text}" for each in family.facts]
    texts += [choice.cue for each in family.draws for choice in each.choices]
    texts += [item.text for item in family.items]
    return {name.split(".")[0] for text in texts for name in names_in(text)}


def _draws_of(family: ScenarioFamily, path: str) -> set[str]:
    """The draws that a value of the set-up comes from."""
    template = family.set_up.get(path)
    return {name.split(".")[0] for name in names_in(template)} if isinstance(template, str) else set()


def _in_cues(family: ScenarioFamily) -> Iterator[str]:
    """What a choice sets to an amount that its cue names."""
    for choice in (choice for each in family.draws for choice in each.choices):
        yield from (path for path, value in choice.set_up.items() if str(value) in choice.cue)


def _leaves(document: Any, before: str = "") -> Iterator[str]:
    if isinstance(document, dict):
        for key, value in document.items():
            yield from _leaves(value, f"{before}{key}.")
    elif isinstance(document, list):
        for place, value in enumerate(document):
            yield from _leaves(value, f"{before}{place}.")
    else:
        yield before.removesuffix(".")


def _value(scenario: Scenario, path: str) -> Any:
    try:
        return value_at(scenario.set_up, path)
    except (AttributeError, IndexError, KeyError, ValueError):
        return None
