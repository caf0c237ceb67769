"""The one place that writes a number for a reader: with the decimal sign of their language, as CLDR has it.

What machines read keeps its point: JSON, addresses, ids, what a drawing is drawn by. So do names that a
standard gives, such as a clause 6.2, and inches stay as a rule is marked, 1 3/8.
"""

import re
from functools import lru_cache

ENGLISH = "en"
_POINT = "."
_DECIMAL = re.compile(r"-?\d+\.\d+")
# Not after what makes a name of it (D18.2, QW-408.9, 7.3 of a standard with its year), not a clause of a code
# (1910.146), not one of three (a version).
_NUMBER = re.compile(r"(?<![\w.,-])(?<!:\d{4}, )(?!19\d\d\.)(-?\d+)\.(\d+)(?![\d.,]*[.,]\d)")
_UNIT = (
    r"(?:[mc]?m[²³]?|mm²|[mc]m\^[23]|L|L/min|m³/h|m\^3/h|mm/min|m/s|k?Pa|[mµ]?bar|kg/m³|kg/m\^3|lb/ft³|lb/ft\^3|°?[CF]|deg[CF]|K|%|ppm|ppb|min"
    r"|s|h|d|A|kA|V|in|ft|in²|ft²|ft³|in\^2|ft\^[23]|in/min|ft/min|mph|cfh|cfm|psi|inH2O|inH₂O"
    r"|times|veces)(?![\w/²³^])"
)
# The decimals of an amount, or of the first of two.
_AMOUNT = re.compile(rf"(?<![\w.,-])(-?\d+)\.(\d+)(?= (?:(?:a|y|o|to|and|or) -?\d+(?:[.,]\d+)? )?{_UNIT})")


@lru_cache
def decimal_sign(language: str) -> str:
    """What stands before decimals in a language."""
    if language == ENGLISH:  # the command line answers in English, and before babel could be imported
        return _POINT
    from babel.numbers import get_decimal_symbol  # noqa: PLC0415

    return get_decimal_symbol(language)


def number_words(value: float, form: str, *, language: str) -> str:
    """A number in a form of `format`, such as ".3g", as it is written in a language."""
    return localised(format(value, form), language=language)


def localised(number: str, *, language: str) -> str:
    """Digits with a point as they are written in a language."""
    return number.replace(_POINT, decimal_sign(language))


def localised_text(text: str, *, language: str) -> str:
    """A text of ours with all its decimals as they are written in a language; names of standards stay."""
    return _NUMBER.sub(rf"\g<1>{decimal_sign(language)}\g<2>", text)


def localised_amounts(text: str, *, language: str) -> str:
    """A text of anybody's with the decimals of its amounts so: a number without a unit may be a name."""
    if _DECIMAL.fullmatch(text):
        return localised(text, language=language)
    return _AMOUNT.sub(rf"\g<1>{decimal_sign(language)}\g<2>", text)
