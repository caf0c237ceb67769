"""Numbers put in and what comes out, on one line; as both are shown rounded, the one is about the other."""

import re

_AMOUNT = re.compile(r"\d[\d.,\u00a0]*(?: (?:%|ppm|[^\s\d()·+;,-]+))?")  # a number, its unit if it has one
_SYMBOL = r"(?<!\w)[^\W\d_](?:[₀-₉]|_\w+)?(?!\w)"  # one letter, with or without an index
_PART_OF_A_SUM = re.compile(rf"(?:ln(?=\()|exp(?=\()|pi\b|{_SYMBOL}|[·/+()√²³⁴π-]|\s)*")
_OPERATOR = re.compile(r"[·/+]| - |ln\(|exp\(")
_LIST = re.compile(r"[;=]|,\s")


def line_of_working(numbers: str, result: str) -> str:
    """`2 · 3 m ≈ 6 m` where the numbers are a sum; `50 L at 10 bar → 397 L` where they are what is given."""
    if not numbers or not result:
        return numbers or result
    return f"{numbers} ≈ {result}" if _is_sum(numbers) and _AMOUNT.match(result) else f"{numbers} → {result}"


def _is_sum(numbers: str) -> bool:
    """Whether nothing stands there but amounts, symbols and signs of arithmetic."""
    if _LIST.search(numbers) or not _OPERATOR.search(numbers):
        return False
    return _PART_OF_A_SUM.fullmatch(_AMOUNT.sub("", numbers)) is not None
