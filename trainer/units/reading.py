"""Reads a quantity as typed: numbers in the writing of many hands, one unit or a few in a row."""

import math
import re
import unicodedata
from functools import lru_cache

from trainer.units import faults
from trainer.units.factors import FACTORS, TEMPERATURES, scaled
from trainer.units.faults import unit_fault
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
_GROUPED = re.compile(r"\d{1,3}(?:(?P<mark>[.,])\d{3})(?:(?P=mark)\d{3})*(?P<rest>[.,]\d+)?")


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
    """Digits with a decimal point; thousands are grouped only where nothing else can be meant."""
    marks = re.findall("[.,]", digits)
    if len(marks) > 1:
        digits = _ungrouped(digits, typed, dimension)
    elif marks == [","]:
        before, after = digits.split(",")
        if len(after) == 3 and len(before) in (1, 2, 3) and not before.startswith("0"):
            facts = {"point": f"{before}.{after}", "plain": before + after}
            raise unit_fault(faults.AMBIGUOUS, typed, dimension, **facts)
    return digits.replace(",", ".")


def _ungrouped(digits: str, typed: str, dimension: str) -> str:
    found = _GROUPED.fullmatch(digits)
    if found is None or (found["rest"] and found["rest"][0] == found["mark"]):
        raise unit_fault(faults.BAD_NUMBER, typed, dimension)
    return digits.replace(found["mark"], "")


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
