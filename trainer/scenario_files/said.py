"""Scenarios in other languages than English: one catalogue a family, laid over what was drawn in English.

Nothing is drawn again for it: a sentence that was drawn knows its template, and the template stands in the
catalogue. So keys, seeds, versions and fingerprints are the same whoever reads a scenario in which language.
"""

import re
import tomllib
from collections.abc import Callable, Iterable, Mapping, Set
from functools import lru_cache
from pathlib import Path

from trainer.catalogues import LANGUAGES, Words, words_of
from trainer.domain.family import ScenarioFamily
from trainer.domain.people import UnitSystem
from trainer.domain.scenario import Scenario
from trainer.domain.sentences import said_again
from trainer.domain.templates import NAME
from trainer.scenario_files.inch_edition import WORKED, text_in_inches, told_amounts
from trainer.wording.numerals import localised_text

HAZARDS = "hazards"


def said_in_languages(
    scenario: Scenario, *, family: ScenarioFamily, edition: UnitSystem, folder: Path
) -> dict[str, dict[str, str]]:
    """The sentences of a scenario just drawn, by language: those only whose catalogues are complete."""
    found = {}
    for language in LANGUAGES:
        words = _words_for(language, family, edition, folder)
        if words is not None:
            found[language] = said_again(scenario, words)
    return found


def titles_in(language: str, families: Mapping[str, ScenarioFamily], *, folder: Path) -> dict[str, str]:
    """The English titles of the families with their counterparts, of those that are told in a language."""
    if language not in LANGUAGES:
        return {}
    found = {}
    for family in families.values():
        own = words_of(catalogue_of(family.id, language=language, folder=folder))
        if own.is_complete and family.title in own.by_english:
            found[family.title] = own.by_english[family.title]
    return found


def told_in(language: str, families: Iterable[str], *, folder: Path) -> dict[str, str]:
    """Every sentence of the hazards and of families by id that nothing is drawn into, in a language."""
    if language not in LANGUAGES:
        return {}
    found: dict[str, str] = {}
    for name in (HAZARDS, *families):
        own = words_of(catalogue_of(name, language=language, folder=folder))
        found |= {each: localised_text(told, language=language) for each, told in own.by_english.items()}
    return found


def title_in(
    language: str, title: str, families: Mapping[str, ScenarioFamily], *, folder: Path
) -> str | None:
    """The title of a scenario drawn of one of the families, in a language; None where it is of none."""
    if language not in LANGUAGES:
        return None
    for family in families.values():
        own = words_of(catalogue_of(family.id, language=language, folder=folder))
        template = family.drawn_title
        said, found = own.by_english.get(template), _as_drawn(template).fullmatch(title)
        # what is drawn in stands in the same order in every language, or it cannot be told apart
        if found is None or said is None or NAME.findall(said) != NAME.findall(template):
            continue
        if not own.by_english.keys() >= set(found.groups()):
            continue
        drawn = [*(own.by_english[each] for each in found.groups()), ""]
        told = "".join(text + word for text, word in zip(NAME.split(said)[::2], drawn, strict=True))
        return localised_text(told, language=language)
    return None


@lru_cache(maxsize=256)
def _as_drawn(template: str) -> re.Pattern[str]:
    return re.compile("(.+)".join(map(re.escape, NAME.sub("\0", template).split("\0"))))


def catalogue_of(name: str, *, language: str, folder: Path) -> Path:
    """The file that holds what a family, or the hazard catalogue, says in a language."""
    return folder / language / f"{name}.po"


def _words_for(
    language: str, family: ScenarioFamily, edition: UnitSystem, folder: Path
) -> Callable[[str], str] | None:
    own = words_of(catalogue_of(family.id, language=language, folder=folder))
    common = words_of(catalogue_of(HAZARDS, language=language, folder=folder))
    if not own.by_english or not (own.is_complete and common.is_complete):
        return None
    known = _both(common, own)
    if edition is UnitSystem.INCH_POUND and not family.fixed:
        known = _both_editions(common, own, folder / "families" / f"{family.id}.toml")
    return lambda text: localised_text(known.get(text, text), language=language)


@lru_cache(maxsize=256)  # a thousand sentences, asked for at every start of a scenario in inches
def _both_editions(common: Words, own: Words, family_file: Path) -> Mapping[str, str]:
    known = _both(common, own)
    told = told_amounts(tomllib.loads(family_file.read_text(encoding="utf-8")))
    return {**known, **_in_inches(known, "", told), **_in_inches(known, WORKED[0], told)}


def _in_inches(known: Mapping[str, str], key: str, told: Set[str]) -> dict[str, str]:
    """The same of the inch edition, as amounts are rounded under a key."""
    return {
        text_in_inches(each, key=key, told=told): text_in_inches(said, key=key, told=told)
        for each, said in known.items()
    }


def _both(common: Words, own: Words) -> Mapping[str, str]:
    return {**common.by_english, **own.by_english}
