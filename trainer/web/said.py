"""What scenarios say in the reader's language, for as long as one page is made."""

from collections.abc import Mapping

from flask import g
from flask_babel import gettext


def hear(said: Mapping[str, str]) -> None:
    """From here on these sentences are known. Each is looked up whole, so that what comes of a scenario later
    (a mark, a belief, a label in a drawing) is found as well."""
    _known().update(said)


def heard(text: str) -> str:
    """A sentence of a scenario in the reader's language; as it was written where it is not known in that."""
    return _known().get(text, text)


def told() -> Mapping[str, str]:
    """All sentences of scenarios that are known, by the English ones."""
    return _known()


def is_told(text: str) -> bool:
    """Whether a scenario says this sentence in the reader's language."""
    return text in _known()


def said(text: str) -> str:
    """A sentence of a scenario, or a message of the pages, in the reader's language."""
    if text in _known():
        return _known()[text]
    message: str = gettext(text)
    return message


def _known() -> dict[str, str]:
    if not hasattr(g, "said"):
        g.said = {}
    known: dict[str, str] = g.said
    return known
