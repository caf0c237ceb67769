"""Why a response was marked as it was, in the reader's language.

A mark is kept with its reasons as they read in English, for years; what was filled into a sentence is found
in it again, and said again with it.
"""

import re
from collections.abc import Callable, Iterator, Mapping

from trainer.domain.items import why
from trainer.domain.items.quantity import UNIT_SLIPS
from trainer.wording.filled_in import fillings
from trainer.wording.numerals import ENGLISH, localised

_LISTED = "; "
Translate = Callable[[str], str]


def why_words(reason: str, _: Translate, *, told: Mapping[str, str], language: str = ENGLISH) -> str:
    """One reason; `told` are the sentences of the scenario in the reader's language, by the English ones."""
    for template in why.ALL:
        ways = list(fillings(template, reason))
        if ways:
            filled = [{name: _filled(each, told, language) for name, each in way.items()} for way in ways]
            # what was filled in may hold a colon as the template does: the way of known sentences is meant
            said = max(zip(ways, filled, strict=True), key=lambda pair: _known_count(*pair))[1]
            return _(template) % said if said else _(template)
    return told.get(reason) or _(reason)


def _known_count(way: Mapping[str, str], filled: Mapping[str, str]) -> int:
    return sum(filled[name] != each for name, each in way.items())


def _filled(text: str, told: Mapping[str, str], language: str) -> str:
    """A number, a sentence of the scenario or several; as it is where it is none of them."""
    if text.replace(".", "", 1).isdecimal():
        return localised(text, language=language)
    whole = _sentences(text, told)
    return whole if whole != text else _LISTED.join(_sentences(each, told) for each in text.split(_LISTED))


def _sentences(text: str, told: Mapping[str, str]) -> str:
    """A sentence with its stop or without, or two that follow each other."""
    if text in told:
        return told[text]
    if f"{text}." in told:
        return told[f"{text}."].rstrip(".")
    for end in (found.end() for found in re.finditer(r"[.!?] ", text)):
        first, second = text[: end - 1], text[end:]
        if first in told and second in told:
            return f"{told[first]} {told[second]}"
    return text


def messages() -> Iterator[str]:
    """Everything that is said here, as it is handed to the translate function."""
    yield from why.ALL
    yield from (slip for slip, _ in UNIT_SLIPS)
