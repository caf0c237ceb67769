"""Gases by the words that stand on the bottle: ISO 14175 symbol and composition, such as I3 and ArHe-30."""

import math
import re
from collections.abc import Mapping

from trainer.core.errors import CompositionNeeded, Limits, UnknownGas, UnknownName
from trainer.core.gas import Gas, gas
from trainer.core.gas_mix import accepted_shares, mixed_gas

_PURE = {"I1": "Ar", "I2": "He", "N1": "N2"}
_MIXTURES = ("I3", "R1", "R2", "N2", "N3", "N4", "N5")
_KNOWN_FORMS = ("ArHe-30", "ArH-5", "NH-5", "ArHeN-20/2")
_ADDITIONS = Limits(
    quantity="additions to the balance gas together",
    unit="%",
    low=0.0,
    high=100.0,
    why="a mixture is no more than whole, and the first gas named is what is left",
)


def purge_gas(symbol: str, *, composition: str | None = None) -> Gas:
    """The gas that an ISO 14175 symbol and a composition stand for, ready to purge with.

    Args:
        symbol [text]: "I1", "I2", "N1" pure; "I3", "R1", "R2", "N2" to "N5" mixed
        composition [text]: such as "ArHe-30"; needed for a mixture, its own name for a pure gas
    Returns:
        [record] the gas
    Raises:
        UnknownGas: for another symbol, or a part that the symbol does not hold
        UnknownName: for a composition that cannot be read
        OutOfRange: when the parts add up to over 100 % or one lies outside the symbol's limits
        CompositionNeeded: for a mixture's symbol without its composition
    Valid: limits of ISO 14175 from memory; show them as unconfirmed.

    Example:
        >>> from trainer.core.gas import sinks_in_air
        >>> [sinks_in_air(purge_gas("I3", composition=mix)) for mix in ("ArHe-30", "ArHe-31")]
        [True, False]

    Reference: ISO 14175:2008, symbols and designation (data/iso_14175.csv, from memory).
    """
    if symbol not in (*_PURE, *_MIXTURES):
        raise UnknownGas(symbol, known=sorted([*_PURE, *_MIXTURES]))
    if composition is None:
        if symbol in _MIXTURES:
            raise CompositionNeeded(symbol, accepted=accepted_shares(symbol))
        return gas(symbol)
    mixed = mixed_gas(symbol, composition=composition_of(composition))
    return gas(symbol) if symbol in _PURE else mixed


def gas_of_designation(designation: str) -> Gas:
    """The gas that a full ISO 14175 designation stands for.

    Args:
        designation [text]: "ISO 14175 - I3 - ArHe - 30", with or without the standard's number
    Returns:
        [record] the gas
    Raises:
        UnknownName: when it cannot be read
        UnknownGas: for a symbol, or a part of it, that is not calculated with
        OutOfRange: when the parts add up to over 100 % or one lies outside the symbol's limits
        CompositionNeeded: for a mixture's symbol without its composition
    Valid: as `purge_gas`.

    Example:
        >>> gas_of_designation("ISO 14175 - I3 - ArHe - 30").name
        '70 % argon + 30 % helium'

    Reference: ISO 14175:2008, clause on designation; form read in a copy of its text.
    """
    parts = [part.strip() for part in re.split(r"\s*[-\u2013]\s*", designation.strip())]
    if parts[0].replace(" ", "").startswith("ISO14175"):
        parts = parts[1:]
    if not parts or not re.fullmatch(r"[A-Z]\d", parts[0]):
        raise UnknownName("gas designation", designation, known=("ISO 14175 - I1 - Ar", "I3 - ArHe - 30"))
    return purge_gas(parts[0], composition="-".join(parts[1:]) or None)


def composition_of(designation: str) -> Mapping[str, float]:
    """Mole fractions from the last parts of an ISO 14175 designation.

    Args:
        designation [text]: base gas and additions, then the additions' nominal per cent: "ArHe-30", "NH-5"
    Returns:
        [record] mole fraction by "Ar", "He", "N2", "H2"
    Raises:
        UnknownName: when it cannot be read
        OutOfRange: when the additions make more than the whole
    Valid: the first gas is the balance; several per cent are parted by "/".

    Example:
        >>> composition_of("ArHe-30")
        {'Ar': 0.7, 'He': 0.3}

    Reference: ISO 14175:2008, clause on designation: "ISO 14175 - I3 - ArHe - 30".
    """
    found = re.fullmatch(r"((?:Ar|He|N2?|H2?)+)(?:\s*[-\u2013]\s*([\d./]+))?", designation.strip())
    names = [_full_name(token) for token in re.findall(r"Ar|He|N|H", found[1])] if found else []
    written = [text for text in (found[2] or "").split("/") if text] if found else []
    readable = all(re.fullmatch(r"\d+(\.\d+)?", text) for text in written)
    if not names or not readable or len(written) != len(names) - 1 or len(set(names)) != len(names):
        raise UnknownName("gas composition", designation, known=_KNOWN_FORMS)
    percents = [float(text) for text in written]
    additions = math.fsum(percents)
    _ADDITIONS.check(additions)
    return {
        name: percent / 100.0 for name, percent in zip(names, [100.0 - additions, *percents], strict=True)
    }


def _full_name(token: str) -> str:
    return f"{token}2" if token in ("N", "H") else token
