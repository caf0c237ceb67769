"""Catalogues hold every message of today; what is translated keeps placeholders and numbers."""

import re
from collections import Counter

import pytest
from babel.messages.catalog import Catalog

from trainer.catalogues import catalogue_bytes, is_translated
from trainer.cli.words import wanted_catalogues

# Catalogues that are still being translated; a finished one leaves the list, and in the end it is empty.
PENDING: set[str] = set()
_NAMED = re.compile(r"%\((\w+)\)([a-z])|\{([a-z_.0-9]+)\}|(%%)")
_NAMED_BY_A_STANDARD = re.compile(r"\b(?:QW-|[A-Z])\d+\.\d+|\b19\d\d\.\d+|:\d{4}, \d+\.\d+")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)*")


@pytest.fixture(scope="module")
def wanted():
    return list(wanted_catalogues())


def _forms(message):
    said = message.string if isinstance(message.string, tuple | list) else (message.string,)
    ids = message.id if isinstance(message.id, tuple | list) else (message.id,)
    return [(ids[min(place, len(ids) - 1)], each) for place, each in enumerate(said) if each]


def _messages(wanted):
    return [(path.stem, each) for path, catalogue in wanted for each in catalogue if each.id]


def test_every_catalogue_is_in_step_with_code_and_content(wanted):
    behind = [path.name for path, each in wanted if path.read_bytes() != catalogue_bytes(each)]
    assert behind == [], "run `trainer words`"


def test_what_a_message_was_before_does_not_pile_up_in_the_catalogue():
    before, today = Catalog(locale="es"), Catalog()
    before.add("Set the dams.", "Coloque los tapones.")
    today.add("Set both dams.")
    before.update(today)
    assert before["Set both dams."].fuzzy
    assert b"Set the dams." not in catalogue_bytes(before)


def test_only_catalogues_that_are_still_translated_lack_a_message(wanted):
    lacking = {name for name, each in _messages(wanted) if not is_translated(each)}
    assert lacking == PENDING


def test_placeholders_are_those_of_the_english(wanted):
    other = [
        (name, english, said)
        for name, message in _messages(wanted)
        for english, said in _forms(message)
        if Counter(_NAMED.findall(english)) != Counter(_NAMED.findall(said))
    ]
    assert other == []


def test_decimals_of_the_pages_stand_behind_a_comma(wanted):
    """As CLDR has it for Spanish; a clause or a standard keeps its point, and so does what shows both writings."""
    pointed = [
        said
        for name, message in _messages(wanted)
        for _, said in _forms(message)
        if name == "messages" and re.search(r"\d\.\d", _NAMED_BY_A_STANDARD.sub("", said))
    ]
    assert [each for each in pointed if "1500, 1.5 o 1,5" not in each] == []


def test_numbers_are_those_of_the_english(wanted):
    def numbers(text):
        return Counter(each.replace(",", ".") for each in _NUMBER.findall(text))

    other = [
        (name, english, said)
        for name, message in _messages(wanted)
        for english, said in _forms(message)
        if numbers(_NAMED.sub("", english)) != numbers(_NAMED.sub("", said))
    ]
    assert other == []
