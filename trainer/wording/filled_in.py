"""Sentences with places: filled in, and found again in what was kept of them in English."""

import re
from collections.abc import Iterator, Mapping

_PLACE = re.compile(r"%\((\w+)\)s")


def filled_in(template: str, **values: str) -> str:
    """The template with its places filled in; a percent sign beside them stands for itself."""
    return _PLACE.sub(lambda found: values[found[1]], template)


def fillings(template: str, text: str) -> Iterator[Mapping[str, str]]:
    """Each way in which the places `%(name)s` of a template can have been filled in to give the text.

    There may be several, where what was filled in holds words of the template.
    """
    first, *rest = _PLACE.split(template)  # text and names by turns
    if text.startswith(first):
        yield from _rest(text[len(first) :], tuple(zip(rest[::2], rest[1::2], strict=True)))


def _rest(text: str, parts: tuple[tuple[str, str], ...]) -> Iterator[Mapping[str, str]]:
    """The same for what follows, by pairs of a name and the text after its place."""
    if not parts:
        if not text:
            yield {}
        return
    (name, after), *more = parts
    for at in _ends(text, after, is_last=not more):
        for others in _rest(text[at + len(after) :], tuple(more)):
            yield {name: text[:at], **others}


def _ends(text: str, after: str, *, is_last: bool) -> Iterator[int]:
    """Where a place that is not left empty can end, the nearest first."""
    if is_last:
        if text.endswith(after) and len(text) > len(after):
            yield len(text) - len(after)
        return
    at = text.find(after, 1)
    while at != -1:
        yield at
        at = text.find(after, at + 1)
