"""What a drawn scenario asks somebody to notice: effects beside the plain case, marks to know, units mixed.

Everything is counted in what was drawn, nothing is taken from the number of the difficulty.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from trainer.domain.answered_set_up import right_set_up
from trainer.domain.scenario import Item, Scenario
from trainer.domain.set_up import SetUp
from trainer.domain.set_up_paths import value_at

_MOST_COUNTED = 4  # of marks and of mixed units: who has to look up four looks up the fifth as well
_AMOUNT = r"(?<![\w.])\d[\d .,/]*"
_METRIC = re.compile(_AMOUNT + r"(?:mm|cm|m|km|L/min|m³|m3|L|bar|kPa|Pa|°C|kg|metres?|litres?)(?![\w³²])")
_INCH_POUND = re.compile(
    _AMOUNT + r"(?:in(?! (?:the|a|an|each|every|all|one|this|that|its|it|place|use|pipe|tube)\b)"
    r"|ft|foot|feet|inch(?:es)?|cfh|psi|lb|°F|cubic feet|pounds?)(?![\w³²])"
)
_OF_NEITHER = re.compile(_AMOUNT + r"(?:ppm|%|min|h|s|days?|°)(?!\w)")
_MARK = re.compile(r"\b(?=[\w/]*\d)(?=[\w/]*[A-Z])(?!\d+S\b)[A-Z\d][\w/]*(?:-\d+)?|marked (?:\w+ )?\d+")


@dataclass(frozen=True, kw_only=True)
class Demands:
    """What has to be seen, known and converted before one item can be answered by thinking."""

    effects: tuple[str, ...]
    marks: tuple[str, ...]
    mixed_units: int
    amounts: int  # told in words, whether they matter or not: who looks for one has to go through all
    cues: int


def demands_of(scenario: Scenario, *, item: Item) -> Demands:
    """The demands of one item: those of the scenario, and those of its own words."""
    told = (scenario.situation, *(text for each in scenario.facts for text in (each.label, each.text)))
    cues = tuple(each.text for each in scenario.cues)
    words = (*told, *cues, item.text, *_offered(item))
    return Demands(
        effects=effects_of(right_set_up(scenario)),
        marks=marks_in(words),
        mixed_units=units_mixed(words),
        amounts=amounts_in((*told, *cues)),
        cues=len(cues),
    )


def _offered(item: Item) -> tuple[str, ...]:
    texts = [each.text for each in item.options] + [each.text for each in item.steps]
    return (*texts, *(each.text for each in item.objects))


def effects_of(set_up: SetUp) -> tuple[str, ...]:
    """What acts in a set-up beside the plain case of the trade, by name.

    Plain is argon from a diffuser low down, a middling vent near the crown, level or upright pipe, dams alike
    on both sides, new foam, sound hose and tape, one metal that everybody knows, a shop's temperature.
    """
    found = [name for name, path, is_plain in _PLAIN if not _is_plain(value_at(set_up, path), is_plain)]
    section = set_up.section
    if section is not None and section.left_dam_m != section.right_dam_m:
        found.append("dams not alike")
    if any(each.age == "old" for each in set_up.dams):
        found.append("an old dam")
    if set_up.leaks:
        found.append("a leak")
    return tuple(found)


def marks_in(texts: Iterable[str]) -> tuple[str, ...]:
    """Designations that somebody has to know: of metals, gases, rules."""
    found = dict.fromkeys(mark for text in texts for mark in _MARK.findall(text))
    return tuple(found)[:_MOST_COUNTED]


def units_mixed(texts: Iterable[str]) -> int:
    """How many amounts stand in the unit system that fewer of them stand in."""
    words = "\n".join(texts)
    fewer = min(len(_METRIC.findall(words)), len(_INCH_POUND.findall(words)))
    return min(fewer, _MOST_COUNTED)


def amounts_in(texts: Iterable[str]) -> int:
    """How many amounts are told."""
    words = "\n".join(texts)
    return sum(len(each.findall(words)) for each in (_METRIC, _INCH_POUND, _OF_NEITHER))


def _is_plain(value: Any, is_plain: Callable[[Any], bool]) -> bool:
    return value is None or is_plain(value)


# Name of the effect, path in the set-up, and what of it is plain; what is not told is plain.
_PLAIN: tuple[tuple[str, str, Callable[[Any], bool]], ...] = (
    ("a gas other than argon", "gas.symbol", lambda it: it == "I1"),
    ("a mixture", "gas.composition", lambda it: it in ("Ar", "N", "He")),
    ("a meter for another gas", "meter.calibrated_for", lambda _: False),
    ("an inlet that stirs", "inlet.end", lambda it: it == "diffuser"),
    ("an inlet high up", "inlet.height", lambda it: it <= 0.5),
    ("a vent away from the crown", "vent.height", lambda it: it >= 0.75),
    ("a vent out of the ordinary", "vent.diameter", lambda it: 0.004 <= it <= 0.010),
    ("a slope", "section.slope", lambda it: it in (0.0, 90.0)),
    ("a pinched hose", "hose.open_fraction", lambda it: it >= 1.0),
    ("an open joint", "joint.taped", lambda it: it >= 0.95),
    ("a thin pool", "joint.pool_depth", lambda it: it >= 0.0025),
    ("several passes", "arc.passes", lambda it: it <= 1),
    ("another metal", "material", lambda it: it in ("austenitic stainless", "carbon steel")),
    ("cold or heat", "temperature", lambda it: 283.0 <= it <= 303.0),
    ("a fan that blows in", "surroundings.fan", lambda it: it == "draws out"),
    ("fresh air that reads low", "surroundings.fresh_oxygen", lambda it: it >= 0.2085),
    ("a vessel that loses much", "supply.daily_loss", lambda it: it <= 0.03),
    ("a vessel not full", "supply.fill", lambda it: it >= 0.8),
    ("readings that may be off", "analyser.uncertainty", lambda it: it <= 0.05),
)
