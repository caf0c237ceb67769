"""Own jobs in other languages than English: our sentences are said again, what was typed stays as it is."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from trainer.catalogues import LANGUAGES, words_of
from trainer.domain.family import Amount
from trainer.domain.scenario import Scenario
from trainer.domain.sentences import said_again
from trainer.domain.templates import NAME, Words
from trainer.scenario_files.human_texts import is_words
from trainer.scenario_files.own_jobs.usual_words import ALL, TYPED
from trainer.scenario_files.said import HAZARDS, catalogue_of
from trainer.scenario_files.tables import value_of
from trainer.wording.filled_in import filled_in, fillings
from trainer.wording.numerals import localised_text

OWN_JOBS = "own-jobs"


def texts_of_own_jobs() -> dict[str, None]:
    """What the catalogue of own jobs holds, each sentence once."""
    return dict.fromkeys(ALL)


def own_job_in_languages(scenario: Scenario, *, folder: Path) -> dict[str, dict[str, str]]:
    """Those sentences of an own job just drawn that are not its instructor's, by language."""
    found = {}
    for language in LANGUAGES:
        words = _words_for(language, folder)
        if words is not None:
            found[language] = _others(said_again(scenario, words))
    return found


def usual_in(language: str, texts: Iterable[str], *, folder: Path) -> dict[str, str]:
    """Those of some sentences that own jobs say in our words, in another language."""
    words = _words_for(language, folder) if language in LANGUAGES else None
    return _others({each: words(each) for each in texts}) if words else {}


def _others(said: Mapping[str, str]) -> dict[str, str]:
    """What stays as it is was typed, and is shown as anybody's words are."""
    return {english: each for english, each in said.items() if each != english}


def _words_for(language: str, folder: Path) -> Words | None:
    """How the texts of a job are said in a language; None where a catalogue is not complete."""
    own, common = (
        words_of(catalogue_of(each, language=language, folder=folder)) for each in (OWN_JOBS, HAZARDS)
    )
    if not own.by_english or not (own.is_complete and common.is_complete):
        return None
    known = {**common.by_english, **own.by_english}

    def words(text: str) -> str:
        said = known.get(text) or next(_filled_again(text, known), None)
        if said is None and is_words(text):
            return text
        return localised_text(said or text, language=language)

    return words


def _filled_again(text: str, known: Mapping[str, str]) -> Iterator[str]:
    """The text by each of our templates that it can have been made of."""
    for template in ALL:
        for values in fillings(template, text):
            if all(_is_ours(each, known) for name, each in values.items() if name not in TYPED):
                said = {name: known.get(each, each) for name, each in values.items()}
                yield filled_in(known.get(template, template), **said)


def _is_ours(value: str, known: Mapping[str, str]) -> bool:
    """Whether that stands in a place of ours: a sentence that was typed may only look like one of them."""
    is_figure = NAME.fullmatch(value) is not None or value.isdecimal()
    return is_figure or value in known or isinstance(value_of(value), Amount)
