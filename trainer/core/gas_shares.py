"""The composition of a gas as people write it: shares with names, or the designation of ISO 14175."""

import math
import re
from collections.abc import Mapping

from trainer.core.errors import Limits, UnknownName

KNOWN_FORMS = ("ArHe-30", "ArH-5", "NH-5", "ArHeN-20/2", "Ar + 5 % H2", "95 % Ar + 5 % H2")

_NAMES = {
    "ar": "Ar", "argon": "Ar", "he": "He", "helium": "He", "n": "N2", "n2": "N2", "nitrogen": "N2",
    "h": "H2", "h2": "H2", "hydrogen": "H2", "c": "CO2", "co2": "CO2", "carbon dioxide": "CO2", "o": "O2",
    "o2": "O2", "oxygen": "O2",
}  # fmt: skip
_ADDITIONS = Limits(
    quantity="additions to the balance gas together",
    unit="%",
    low=0.0,
    high=100.0,
    why="a mixture is no more than whole, and the first gas named is what is left",
)
_ALL = Limits(
    quantity="shares of the mixture together",
    unit="%",
    low=100.0 - 1e-6,
    high=100.0 + 1e-6,
    why="the shares of a mixture add up to 100 %; leave the number of the balance gas out",
)
_NUMBER = r"\d+(?:\.\d+)?"
_DESIGNATION = re.compile(rf"((?:Ar|He|N2?|H2?|CO2|C|O2?)+)(?:\s*[-\u2013]\s*({_NUMBER}(?:/{_NUMBER})*))?")
_TOKEN = re.compile(r"Ar|He|N|H|C|O")
_PERCENT = r"(?:\s*(?:vol\.?\s*)?%)?"
_SHARE = re.compile(
    rf"(?:(?P<before>{_NUMBER}){_PERCENT}\s*)?(?P<name>[a-z]+(?: [a-z]+)?2?)"
    rf"(?:\s+(?P<after>{_NUMBER}){_PERCENT})?"
)


def composition_of(text: str) -> Mapping[str, float]:
    """Mole fractions from a composition as people write it.

    Args:
        text [text]: the last parts of an ISO 14175 designation, "ArHe-30", or shares, "Ar + 5 % H2"
    Returns:
        [record] mole fraction by "Ar", "He", "N2", "H2", and "CO2" or "O2" where they are named
    Raises:
        UnknownName: when it cannot be read
        OutOfRange: when the shares make more than the whole, or do not add up to it
    Valid: in a designation the first gas is the balance and several per cent are parted by "/"; among shares
        the balance is the one gas without a number.

    Example:
        >>> composition_of("ArHe-30"), composition_of("Ar + 5 % H2")
        ({'Ar': 0.7, 'He': 0.3}, {'Ar': 0.95, 'H2': 0.05})

    Reference: ISO 14175:2008, clause on designation: "ISO 14175 - I3 - ArHe - 30".
    """
    written = text.strip()
    percents = _of_designation(written) or _of_shares(written)
    if not percents:
        raise UnknownName("gas composition", text, known=KNOWN_FORMS)
    return {name: percent / 100.0 for name, percent in _completed(percents).items()}


def _of_designation(text: str) -> dict[str, float | None]:
    """Per cent by component, None for the balance; empty when it is no designation."""
    found = _DESIGNATION.fullmatch(text)
    names = [_NAMES[token.lower()] for token in _TOKEN.findall(re.sub("CO2", "C", found[1]))] if found else []
    percents = [float(each) for each in (found[2] or "").split("/") if each] if found else []
    if not names or len(percents) != len(names) - 1 or len(set(names)) != len(names):
        return {}
    return dict(zip(names, [None, *percents], strict=True))


def _of_shares(text: str) -> dict[str, float | None]:
    """The same from shares; empty when one cannot be read, is named twice, or two have no number."""
    percents: dict[str, float | None] = {}
    for part in re.split(r"\s*(?:[+,;/]|\band\b)\s*", text.lower()):
        found = _SHARE.fullmatch(part.strip())
        name = _NAMES.get(found["name"]) if found else None
        if found is None or name is None or name in percents or (found["before"] and found["after"]):
            return {}
        number = found["before"] or found["after"]
        percents[name] = float(number) if number else None
    return percents if list(percents.values()).count(None) <= 1 else {}


def _completed(percents: Mapping[str, float | None]) -> dict[str, float]:
    """The balance gas is what the others leave."""
    added = math.fsum(percent for percent in percents.values() if percent is not None)
    if None not in percents.values():
        _ALL.check(added)
        return {name: percent for name, percent in percents.items() if percent is not None}
    _ADDITIONS.check(added)
    return {name: 100.0 - added if percent is None else percent for name, percent in percents.items()}
