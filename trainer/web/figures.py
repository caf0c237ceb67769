"""Figures as the person at this page reads them: their units, rounded for reading, never for reckoning."""

import re

from flask_babel import gettext
from markupsafe import Markup, escape

from trainer.domain.purge_run import Caution
from trainer.domain.quantities import Dimension, Never
from trainer.domain.scenario import Fact, Scenario
from trainer.web.access import site
from trainer.web.preferences import language, reads_us_units
from trainer.web.said import hear, heard, is_told, said, told
from trainer.wording.both_systems import other_system
from trainer.wording.cautions import CautionWords, caution_words
from trainer.wording.facts import told_amount
from trainer.wording.gas_names import gas_words
from trainer.wording.marking import why_words
from trainer.wording.numerals import localised_amounts, localised_text, number_words
from trainer.wording.quantities import UnitSystem, air_words, oxygen_words, plain_number, quantity_words
from trainer.wording.sentences import in_units_of

_DRAWN = re.compile(r",?\s*\{[^{}]*\}")
_BETWEEN_NUMBER_AND_UNIT = re.compile(
    r"(?<=\d) (?=(?:%|ppm|°[CF]|[mc]?m[²³]?|L|Pa|kPa|bar|in|ft|cfh|psi|min|d|h|s|A|V|kg|J)(?![^\W\d_]))"
)
_GAP = re.compile(r"\{[^{}]*\}")


def wording_system() -> UnitSystem:
    """The person's unit system as the wording layer names it."""
    return UnitSystem.US if reads_us_units() else UnitSystem.METRIC


def shown(value: float | Never | None, dimension: Dimension) -> str:
    """An SI value in the person's units, its number and its unit on one line."""
    return _held_together(quantity_words(value, dimension, system=wording_system(), language=language()))


def number_shown(value: float, form: str = "g") -> str:
    """A number without a unit, in a form of `format`, as it is written in the person's language."""
    return number_words(value, form, language=language())


def plain(value: float) -> str:
    """A number without a unit, to three figures."""
    return plain_number(value, language=language())


def oxygen_shown(oxygen_frac: float) -> str:
    """Oxygen at the root as read on site, in ppm or per cent; never rounded down."""
    return oxygen_words(oxygen_frac, language=language())


def air_shown(oxygen_frac: float) -> str:
    """Oxygen to breathe, in per cent; never rounded up."""
    return air_words(oxygen_frac, language=language())


def gas_shown(name: str) -> str:
    """A gas or a mixture, as the core names it, in the person's language."""
    return gas_words(name, gettext, language=language())


def caution_shown(caution: Caution) -> CautionWords:
    """A caution in the person's language and units."""
    return caution_words(caution, said, system=wording_system(), language=language())


def shown_in_both(value: float | Never | None, dimension: Dimension) -> str:
    """The same, with the other system's in brackets where it is another number."""
    own, other = (
        shown(value, dimension),
        _held_together(
            quantity_words(value, dimension, system=other_system(wording_system()), language=language())
        ),
    )
    return own if own == other else gettext("%(own)s (%(other)s)", own=own, other=other)


def hear_scenario(scenario: Scenario) -> Scenario:
    """From here on `sentence` knows what the scenario says in the reader's language, where it does."""
    hear(scenario.said.get(language(), {}))
    return scenario


def sentence(text: str) -> str:
    """A sentence of a scenario in the person's language, with its amounts in their units, none torn apart."""
    return _held_together(_in_units(_heard(text), wording_system()))


def why_shown(reason: str) -> str:
    """Why something was marked as it was, in the person's language and units."""
    words = why_words(reason, gettext, told=told(), language=language())
    return _in_units(localised_amounts(words, language=language()), wording_system())


def as_written(text: str) -> str:
    """The same with its amounts in the units that they were written in."""
    return _in_units(_heard(text), UnitSystem.METRIC)


def _held_together(words: str) -> str:
    """No number at the end of a line with its unit at the head of the next."""
    return _BETWEEN_NUMBER_AND_UNIT.sub("\u00a0", words)


def _in_units(text: str, system: UnitSystem) -> str:
    return in_units_of(text, system=system, language=language())


def _heard(text: str) -> str:
    """A sentence of a scenario in the person's language, its decimals too: all where it was translated."""
    if is_told(text):
        return localised_text(heard(text), language=language())
    return localised_amounts(text, language=language())


def fact_words(fact: Fact) -> Markup:
    """What a stated fact says; its unit does not break from its number."""
    text = fact_text(fact)
    return escape(text) if fact.value is None or fact.dimension is None else unbroken(text)


def fact_text(fact: Fact) -> str:
    """The same for paper."""
    if fact.value is None or fact.dimension is None:
        # a word that was read off the set-up stands with the pages' own words, all else with the scenario's
        read_off = localised_amounts(said(fact.text), language=language())
        return _in_units(read_off if fact.path else _heard(fact.text), wording_system())
    return told_amount(fact.path, fact.value, fact.dimension, system=wording_system(), language=language())


def unbroken(words: str) -> Markup:
    """A figure that stays on one line."""
    return Markup('<span class="nowrap">{}</span>').format(words)


def percent(frac: float | None) -> str:
    """A score or share as a whole percentage, rounded down so that no cut looks reached that was not."""
    return "–" if frac is None else f"{int(frac * 100 + 1e-9)}\u00a0%"


def scenario_title(title: str) -> str:
    """The title of an attempt, which was kept in English, in the person's language where a family drew it."""
    return site().content.title(language(), title) or title


def question_words(text: str) -> str:
    """What an item asks when nothing has been drawn yet: a gap stands where something will be."""
    return _GAP.sub("…", sentence(text))


def family_title(title: str) -> str:
    """What a family is called when nothing has been drawn yet: its title without what is drawn into it."""
    titles = site().content.titles(language())
    return titles.get(title) or _DRAWN.sub("", title).strip(" ,;:")
