"""Figures as the person at this page reads them: their units, rounded for reading, never for reckoning."""

import re

from flask_babel import gettext
from markupsafe import Markup, escape

from trainer.domain.quantities import Dimension, Never
from trainer.domain.scenario import Fact, Scenario
from trainer.web.access import site
from trainer.web.preferences import language, reads_us_units
from trainer.web.said import hear, heard, said
from trainer.wording.both_systems import other_system
from trainer.wording.facts import told_amount
from trainer.wording.quantities import UnitSystem, quantity_words
from trainer.wording.sentences import in_units_of

_DRAWN = re.compile(r",?\s*\{[^{}]*\}")


def wording_system() -> UnitSystem:
    """The person's unit system as the wording layer names it."""
    return UnitSystem.US if reads_us_units() else UnitSystem.METRIC


def shown(value: float | Never | None, dimension: Dimension) -> str:
    """An SI value in the person's units."""
    return quantity_words(value, dimension, system=wording_system())


def shown_in_both(value: float | Never | None, dimension: Dimension) -> str:
    """The same, with the other system's in brackets where it is another number."""
    own, other = (
        shown(value, dimension),
        quantity_words(value, dimension, system=other_system(wording_system())),
    )
    return own if own == other else gettext("%(own)s (%(other)s)", own=own, other=other)


def hear_scenario(scenario: Scenario) -> Scenario:
    """From here on `sentence` knows what the scenario says in the reader's language, where it does."""
    hear(scenario.said.get(language(), {}))
    return scenario


def sentence(text: str) -> str:
    """A sentence of a scenario in the person's language, with its amounts in their units."""
    return in_units_of(heard(text), system=wording_system())


def as_written(text: str) -> str:
    """The same with its amounts in the units that they were written in."""
    return in_units_of(heard(text), system=UnitSystem.METRIC)


def fact_words(fact: Fact) -> Markup:
    """What a stated fact says; its unit does not break from its number."""
    words = fact_text(fact)
    return escape(words) if fact.value is None or fact.dimension is None else unbroken(words)


def fact_text(fact: Fact) -> str:
    """The same as plain text."""
    if fact.value is None or fact.dimension is None:
        # a word that was read off the set-up stands with the pages' own words, all else with the scenario's
        return in_units_of(said(fact.text) if fact.path else heard(fact.text), system=wording_system())
    return told_amount(fact.path, fact.value, fact.dimension, system=wording_system())


def unbroken(words: str) -> Markup:
    """A figure that stays on one line."""
    return Markup('<span class="nowrap">{}</span>').format(words)


def percent(frac: float | None) -> str:
    """A score or share as a whole percentage, rounded down so that no cut looks reached that was not."""
    return "–" if frac is None else f"{int(frac * 100 + 1e-9)}\u00a0%"


def family_title(title: str) -> str:
    """What a family is called when nothing has been drawn yet: its title without what is drawn into it."""
    titles = site().content.titles(language())
    return titles.get(title) or _DRAWN.sub("", title).strip(" ,;:")
