"""Signs before decimals and between thousands in numbers as people type them.

`0.5` and `0,5` are read alike everywhere. One sign before exactly three digits may group thousands instead:
to a reader of English `1,500` is two numbers, to one of Spanish `1.500`. Each language refuses its own such
text, and reads the other one as decimals. What is kept, sent on and shared is written with a point; there
`1,500` stands for what is refused, whoever typed it.
"""

import re

POINT, COMMA = ".", ","
_WITH_ONE_SIGN = re.compile(r"(?<![\d.,])\d*[.,]\d+(?![\d.,])")
_LIKE_THOUSANDS = re.compile(r"[1-9]\d{0,2}[.,]\d{3}")
_GROUPED = re.compile(r"\d{1,3}(?:(?P<mark>[.,])\d{3})(?:(?P=mark)\d{3})*(?P<rest>[.,]\d+)?")


class Ambiguous(ValueError):
    """Digits that are two numbers: with decimals, and without thousands grouped."""

    def __init__(self, digits: str) -> None:
        super().__init__(digits)
        self.point, self.plain = digits.replace(COMMA, POINT), digits.replace(COMMA, "")


def decimals_by_point(digits: str) -> str | None:
    """Digits with their decimals behind a point; thousands are grouped only where nothing else can be meant.

    None for signs that make no number; raises Ambiguous.
    """
    marks = re.findall("[.,]", digits)
    if len(marks) > 1:
        found = _GROUPED.fullmatch(digits)
        if found is None or (found["rest"] and found["rest"][0] == found["mark"]):
            return None
        digits = digits.replace(found["mark"], "")
    elif marks == [COMMA] and _LIKE_THOUSANDS.fullmatch(digits):
        raise Ambiguous(digits)
    return digits.replace(COMMA, POINT)


def kept_from_typed(typed: str, *, sign: str) -> str:
    """What was typed as it is kept, by whoever writes this sign before decimals."""
    return typed if sign == POINT else _WITH_ONE_SIGN.sub(lambda found: _kept(found[0]), typed)


def typed_from_kept(kept: str, *, sign: str) -> str:
    """The other way round: what is kept as it is typed with this sign before decimals."""
    return kept if sign == POINT else _WITH_ONE_SIGN.sub(lambda found: _typed(found[0], sign), kept)


def _kept(number: str) -> str:
    if POINT in number and _LIKE_THOUSANDS.fullmatch(number):
        return number.replace(POINT, COMMA)
    return number.replace(COMMA, POINT)


def _typed(number: str, sign: str) -> str:
    if COMMA in number and _LIKE_THOUSANDS.fullmatch(number):
        return number.replace(COMMA, POINT)
    return number.replace(POINT, sign)
