"""Reads a quantity as typed: numbers in the writing of many hands, one unit or a few in a row."""

import math
import re
import unicodedata
from functools import lru_cache

from trainer.units import faults
from trainer.units.factors import FACTORS, TEMPERATURES, scaled
from trainer.units.faults import UnitFault, unit_fault
from trainer.units.marks import Ambiguous, decimals_by_point
from trainer.units.registry import factor_from_pint

_LONGEST = 60
_COMPOUND = ("length", "duration")

_PLAIN_SIGNS = {
    0x2044: "/", 0x2215: "/", 0x2212: "-", 0x22C5: "*", 0x00B7: "*", 0x03BC: "µ",
    0x2032: "'", 0x2019: "'", 0x201D: '"',
}  # fmt: skip
_DIGITS = r"(?:\d+(?:[.,]\d+)*|[.,]\d+)"
_NUMBER = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:(?:(?P<whole>\d+)[\s-]\s*)?(?P<above>\d+)\s*/\s*(?P<below>\d+)"
    rf"|(?P<plain>{_DIGITS})(?P<power>[eE][+-]?\d+(?![A-Za-z0-9]))?)"
)
_NEXT_PIECE = re.compile(r"([A-Za-zµ'\"]+)\s*(\d.*)")
_BARE = re.compile(rf"(?P<sign>[+-]?)(?P<digits>{_DIGITS})(?P<power>[eE][+-]?\d+)?")


def parse(text: str, dimension: str) -> float:
    """SI value of a quantity as typed (degrees for angles); raises UnitFault, which says what to write."""
    if len(text) > _LONGEST:
        raise unit_fault(faults.TOO_LONG, "", dimension, longest=str(_LONGEST))
    plain = _in_plain_signs(text)
    if not plain:
        raise unit_fault(faults.EMPTY, text, dimension)
    pieces = _pieces(plain, text.strip(), dimension)
    value = pieces[0] if len(pieces) == 1 else _total(pieces, text.strip(), dimension)
    if not math.isfinite(value):
        raise unit_fault(faults.TOO_LARGE, text.strip(), dimension)
    return value


def parse_bare(text: str) -> float | None:
    """A number without a unit as typed, in any of those writings; None for what is none, raises UnitFault."""
    found = _BARE.fullmatch(_in_plain_signs(text)) if len(text) <= _LONGEST else None
    if found is None:
        return None
    try:
        digits = decimals_by_point(found["digits"])
    except Ambiguous as two:
        facts = {"typed": text.strip(), "point": two.point, "plain": two.plain}
        raise UnitFault(faults.AMBIGUOUS, facts) from two
    return None if digits is None else float(found["sign"] + digits + (found["power"] or ""))


def _in_plain_signs(text: str) -> str:
    """Full-width forms, other scripts' digits, fractions and minus signs as their plain counterparts."""
    spaced = re.sub("(?=[½¼¾])", " ", text)  # else 1½ would turn into 11/2
    folded = unicodedata.normalize("NFKC", spaced).translate(_PLAIN_SIGNS)
    digits = (str(unicodedata.decimal(each)) if each.isdecimal() else each for each in folded)
    return " ".join("".join(digits).split())


def _pieces(plain: str, typed: str, dimension: str) -> list[float]:
    pieces: list[float] = []
    rest = plain
    while rest:
        found = _NUMBER.match(rest)
        if found is None:
            raise unit_fault(faults.NOT_A_NUMBER, typed, dimension)
        unit, rest = _unit_and_rest(rest[found.end() :].strip(), dimension)
        pieces.append(_in_si(_number(found, typed, dimension), unit, typed, dimension))
    return pieces


def _unit_and_rest(text: str, dimension: str) -> tuple[str, str]:
    following = _NEXT_PIECE.fullmatch(text) if dimension in _COMPOUND else None
    if following is None or _factor(text, dimension) is not None:
        return text, ""
    return following[1], following[2]


def _total(pieces: list[float], typed: str, dimension: str) -> float:
    if pieces[0] < 0 or any(late > early for early, late in zip(pieces, pieces[1:], strict=False)):
        raise unit_fault(faults.IN_PIECES, typed, dimension)
    return math.fsum(pieces)


def _in_si(number: float, unit: str, typed: str, dimension: str) -> float:
    if not unit:
        raise unit_fault(faults.NO_UNIT, typed, dimension)
    if dimension == "duration" and unit == "m":
        raise unit_fault(faults.MINUTES, typed, dimension)
    if dimension == "temperature" and unit in TEMPERATURES:
        factor, offset = TEMPERATURES[unit]
        return number * factor + offset
    known = None if dimension == "temperature" else _factor(unit, dimension)
    if known is None:
        raise unit_fault(faults.BAD_UNIT, typed, dimension, unit=unit)
    return scaled(number, known)


def _number(found: re.Match[str], typed: str, dimension: str) -> float:
    sign = -1.0 if found["sign"] == "-" else 1.0
    if found["plain"] is not None:
        return sign * float(_with_point(found["plain"], typed, dimension) + (found["power"] or ""))
    if int(found["below"]) == 0:
        raise unit_fault(faults.BAD_NUMBER, typed, dimension)
    return sign * (int(found["whole"] or 0) + int(found["above"]) / int(found["below"]))


def _with_point(digits: str, typed: str, dimension: str) -> str:
    try:
        plain = decimals_by_point(digits)
    except Ambiguous as two:
        raise unit_fault(faults.AMBIGUOUS, typed, dimension, point=two.point, plain=two.plain) from two
    if plain is None:
        raise unit_fault(faults.BAD_NUMBER, typed, dimension)
    return plain


@lru_cache(maxsize=1024)
def _factor(unit: str, dimension: str) -> float | None:
    known = FACTORS[dimension]
    if unit in known:
        return known[unit]
    compact = unit.replace(" ", "").casefold()
    alike = {factor for spelling, factor in known.items() if spelling.casefold() == compact}
    if len(alike) == 1 and unit != "mPa":  # a thousandth of a pascal is no MPa
        return alike.pop()
    return factor_from_pint(unit, dimension)
