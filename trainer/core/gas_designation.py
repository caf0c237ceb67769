"""Gases by the words that stand on the bottle: ISO 14175 symbol and composition, such as I3 and ArHe-30."""

import re

from trainer.core.errors import CompositionNeeded, UnknownGas, UnknownName
from trainer.core.gas import Gas, gas
from trainer.core.gas_mix import accepted_shares, mixed_gas
from trainer.core.gas_shares import composition_of

PURE_SYMBOLS = ("I1", "I2", "N1")
MIXTURE_SYMBOLS = ("I3", "R1", "R2", "N2", "N3", "N4", "N5")


def purge_gas(symbol: str, *, composition: str | None = None) -> Gas:
    """The gas that an ISO 14175 symbol and a composition stand for, ready to purge with.

    Args:
        symbol [text]: "I1", "I2", "N1" pure; "I3", "R1", "R2", "N2" to "N5" mixed
        composition [text]: as `gas_shares.composition_of` reads it; needed for a mixture
    Returns:
        [record] the gas
    Raises:
        UnknownGas: for another symbol, or a part that the symbol does not hold
        UnknownName: for a composition that cannot be read
        OutOfRange: when the parts do not add up to 100 % or one lies outside the symbol's limits
        CompositionNeeded: for a mixture's symbol without its composition
    Valid: limits of ISO 14175 from memory; show them as unconfirmed.

    Example:
        >>> from trainer.core.gas import sinks_in_air
        >>> [sinks_in_air(purge_gas("I3", composition=mix)) for mix in ("ArHe-30", "ArHe-31")]
        [True, False]

    Reference: ISO 14175:2008, symbols and designation (data/iso_14175.csv, from memory).
    """
    if symbol not in (*PURE_SYMBOLS, *MIXTURE_SYMBOLS):
        raise UnknownGas(symbol, known=sorted([*PURE_SYMBOLS, *MIXTURE_SYMBOLS]))
    if composition is None:
        if symbol in MIXTURE_SYMBOLS:
            raise CompositionNeeded(symbol, accepted=accepted_shares(symbol))
        return gas(symbol)
    mixed = mixed_gas(symbol, composition=composition_of(composition))
    return gas(symbol) if symbol in PURE_SYMBOLS else mixed


def gas_of_designation(designation: str) -> Gas:
    """The gas that a full ISO 14175 designation stands for.

    Args:
        designation [text]: "ISO 14175 - I3 - ArHe - 30", with or without the standard's number
    Returns:
        [record] the gas
    Raises:
        UnknownName: when it cannot be read
        UnknownGas: for a symbol, or a part of it, that is not calculated with
        OutOfRange: when the parts do not add up to 100 % or one lies outside the symbol's limits
        CompositionNeeded: for a mixture's symbol without its composition
    Valid: as `purge_gas`.

    Example:
        >>> gas_of_designation("ISO 14175 - I3 - ArHe - 30").name
        'argon with 30 % helium'

    Reference: ISO 14175:2008, clause on designation; form read in a copy of its text.
    """
    parts = [part.strip() for part in re.split(r"\s*[-\u2013]\s*", designation.strip())]
    if parts[0].replace(" ", "").startswith("ISO14175"):
        parts = parts[1:]
    if not parts or not re.fullmatch(r"[A-Z]\d", parts[0]):
        raise UnknownName("gas designation", designation, known=("ISO 14175 - I1 - Ar", "I3 - ArHe - 30"))
    return purge_gas(parts[0], composition="-".join(parts[1:]) or None)
