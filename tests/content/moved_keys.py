"""Does the core decide an item's key? What was drawn is left as it is, and one value of every set-up is moved."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Any

from trainer.core.errors import OutOfRange
from trainer.domain.core_results import NotKnown
from trainer.domain.drawn import Drawn, Rejected
from trainer.domain.errors import DomainError
from trainer.domain.families import DrawnScenario, Sources, draw_counted
from trainer.domain.family import ItemTemplate, ScenarioFamily
from trainer.domain.family_items import built_item
from trainer.domain.quantities import FieldKind
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import spec_at, value_at, with_values
from trainer.scenario_files import Content

# As many as it takes to meet every variant of a family, whatever is drawn anew when its file changes.
DRAWS = tuple((seed, (0.1, 0.45, 0.85, 0.65)[seed % 4]) for seed in range(24))
FACTORS = (0.3, 3.0)
_PLAIN_GASES = ("I1", "I2")  # ISO 14175: argon and helium
NO_KEY = "no key"  # where the set-up cannot be, or too little is left to ask


@dataclass(kw_only=True)
class Moved(Drawn):
    """A draw whose named set-ups all have some values moved."""

    moved: Mapping[str, Any] = field(default_factory=dict)

    def named(self, name: str) -> SetUp:
        return with_values(super().named(name), dict(self.moved))


def drawings(content: Content, family: ScenarioFamily) -> Iterator[DrawnScenario]:
    """Draws easy and hard."""
    sources = Sources(policy=content.policy, hazards=content.hazards)
    for seed, difficulty in DRAWS:
        yield draw_counted(family, seed=seed, difficulty=difficulty, sources=sources)


def is_moved(content: Content, family: ScenarioFamily, item_id: str, path: str) -> bool:
    """Whether a value of the set-up, made much less, much more or another, gives the item another key.

    Raises ValueError where no set-up of any of the draws has such a value.
    """
    template = next(each for each in family.items if each.id == item_id)
    met = False
    for found in drawings(content, family):
        value = _value(found.drawn, path)
        if value is None or not template.span.holds(found.drawn.difficulty):
            continue
        met = True
        moves = [{}, *_moves(path, value)]
        keys = [_key(template, found.drawn, moved, content) for moved in moves]
        if any(each not in (keys[0], NO_KEY) for each in keys):
            return True
    if not met:
        raise ValueError(f"{family.id}: no set-up of {item_id} has {path}")
    return False


def _key(template: ItemTemplate, drawn: Drawn, moved: Mapping[str, Any], content: Content) -> Any:
    """The key in words that do not rest on where options stand; choices tell the text of the right one."""
    again = Moved(
        family=drawn.family,
        difficulty=drawn.difficulty,
        values=drawn.values,
        policy=drawn.policy,
        moved=moved,
    )
    again.go_on_from(with_values(drawn.right, dict(moved)))
    try:
        built = built_item(template, drawn=again, source=Random(1), hazards=content.hazards)
        answer = built.answer(again)
    except Rejected:
        return (
            "nothing right any more" if template.choice is not None and not template.choice.least else NO_KEY
        )
    except (OutOfRange, NotKnown, DomainError):
        return NO_KEY
    if built.item.options:
        return next(each.text for each in built.item.options if each.id == answer.key)
    if answer.diagnosis is not None:
        return answer.key
    if answer.hazards:
        return sorted(each.text for each in built.item.objects if each.id in answer.key)
    return answer.key, answer.placement


def _moves(path: str, value: Any) -> list[dict[str, Any]]:
    """What is put in the place of a value, each time alone."""
    if path == "gas.symbol":
        return [{"gas.symbol": each, "gas.composition": None} for each in _PLAIN_GASES]
    return [{path: each} for each in _named(path, value) or _numbers(path, value)]


def _named(path: str, value: Any) -> list[Any]:
    spec = spec_at(path)
    if path == "pipe.nps":
        return ["3", "10"]
    if spec.kind is FieldKind.FLAG:
        return [not value]
    return [each for each in spec.choices or () if each != value]


def _numbers(path: str, value: float) -> list[float]:
    if path == "section.slope":
        return [-value, value + 5.0]
    if spec_at(path).dimension is None and 0.0 <= value <= 1.0:
        return [0.95 if value < 0.5 else 0.05, 0.5]
    return [value * each for each in FACTORS]


def _value(drawn: Drawn, path: str) -> Any:
    """The value of the right set-up, or of the first of the named ones that has any; None where none has."""
    for name in ("", *drawn.family.variants):
        try:
            value = value_at(drawn.named(name), path)
        except (AttributeError, IndexError, Rejected, NotKnown):
            continue
        if value is not None:
            return value
    return None
