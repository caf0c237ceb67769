"""Why a response was marked as it was, in the reader's language.

A mark is kept with its reasons as they read in English, for years; what was filled into a sentence is found
in it again, and said again with it.
"""

import re
from collections.abc import Callable, Iterator, Mapping

from trainer.domain.items import why
from trainer.domain.items.quantity import UNIT_SLIPS
from trainer.wording.numerals import ENGLISH, localised

_PLACE = re.compile(r"%\((\w+)\)s")
_LISTED = "; "
Translate = Callable[[str], str]


def why_words(reason: str, _: Translate, *, told: Mapping[str, str], language: str = ENGLISH) -> str:
    """One reason; `told` are the sentences of the scenario in the reader's language, by the English ones."""
    for template, form in _FORMS:
        found = form.fullmatch(reason)
        if found is not None:
            filled = {name: _filled(each, told, language) for name, each in found.groupdict().items()}
            return _(template) % filled if filled else _(template)
    return told.get(reason) or _(reason)


def _form(template: str) -> re.Pattern[str]:
    parts = _PLACE.split(template)  # text and names by turns
    fixed, names = map(re.escape, parts[::2]), [*(f"(?P<{each}>.+?)" for each in parts[1::2]), ""]
    return re.compile("".join(text + name for text, name in zip(fixed, names, strict=True)), re.DOTALL)


_FORMS = tuple((each, _form(each)) for each in why.ALL)


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
