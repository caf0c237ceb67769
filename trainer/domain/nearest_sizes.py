"""Which names of sizes and schedules lie next to one that does not exist."""

import re
from collections.abc import Sequence
from fractions import Fraction

# What the weights stand for in the smaller sizes: ASME B36.10M, from memory; XXS is thicker than 160.
_WEIGHTS = {"STD": Fraction(40), "XS": Fraction(80), "XXS": Fraction(170)}
# Anything else would ask the parser of fractions for a number without end, such as 1e999999999.
_PART = re.compile(r"[0-9]{1,4}(?:\.[0-9]{1,4}|/[0-9]{1,3})?")


def nearest_names(wanted: str, *, known: Sequence[str]) -> tuple[str, ...]:
    """The known name next below and the one next above, by the number that each stands for.

    A schedule with the letter of the one wanted (10S, 10) comes before one without; there are none next to a
    name that is no number.
    """
    number = _number(wanted)
    if number is None:
        return ()
    numbered = [(found, each) for each in known if (found := _number(each)) is not None]

    def rank(entry: tuple[Fraction, str]) -> tuple[Fraction, bool]:
        return abs(entry[0] - number), _is_stainless(entry[1]) != _is_stainless(wanted)

    below = min((each for each in numbered if each[0] <= number), key=rank, default=None)
    above = min((each for each in numbered if each[0] > number), key=rank, default=None)
    return tuple(each[1] for each in (below, above) if each is not None)


def _number(name: str) -> Fraction | None:
    """The number of "10S", "1-1/2", "1 1/2", "DN 150" or "STD"."""
    text = name.strip().strip('"').upper()
    if text in _WEIGHTS:
        return _WEIGHTS[text]
    parts = text.removeprefix("DN").removesuffix("S").replace("-", " ").split()
    if not parts or any(not _PART.fullmatch(part) for part in parts):
        return None
    try:
        return sum((Fraction(part) for part in parts), start=Fraction(0))
    except ZeroDivisionError:
        return None


def _is_stainless(name: str) -> bool:
    return name.strip()[:1].isdigit() and name.strip().upper().endswith("S")
