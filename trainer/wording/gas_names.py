"""A gas and a mixture of gases by name, in the reader's language."""

from collections.abc import Callable, Iterator

from trainer.wording.numerals import ENGLISH, localised

_GASES = ("argon", "helium", "nitrogen", "hydrogen")
_MIXTURE, _SHARE, _AND = "%(gas)s with %(shares)s", "%(percent)s %% %(gas)s", " and "


def gas_words(name: str, _: Callable[[str], str], *, language: str = ENGLISH) -> str:
    """A gas as the core names it: argon, or argon with 2 % nitrogen and 1 % hydrogen."""
    carrier, _with, added = name.partition(" with ")
    if not added:
        return _(name)
    shares = (each.split(" % ") for each in added.split(_AND))
    said = (
        _(_SHARE) % {"percent": localised(share, language=language), "gas": _(gas)} for share, gas in shares
    )
    return _(_MIXTURE) % {"gas": _(carrier), "shares": _(_AND).join(said)}


def messages() -> Iterator[str]:
    """Everything that is said here, as it is handed to the translate function."""
    yield from (*_GASES, _MIXTURE, _SHARE, _AND)
