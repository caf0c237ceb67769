"""The code on a certificate: short enough to type from paper, too many to guess, and slips are noticed.

Base 32 in the alphabet of Douglas Crockford's published scheme (no I, L, O, U; I and L read as 1, O as 0;
hyphens and case free) with its check symbol, the number modulo 37. Codes whose check would be one of the
scheme's five signs (`*~$=U`) are not given out, so a code is letters and digits alone.
"""

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
SYMBOLS_COUNT = 11
NUMBER_BITS = 5 * SYMBOLS_COUNT
_CHECK_MODULUS = 37
_GROUP = 4
_READ_AS = str.maketrans({"I": "1", "L": "1", "O": "0", "-": None, " ": None})


def code_for(number: int) -> str:
    """The code of a random number, in three groups of four with hyphens.

    >>> code_for(1234567890123456)
    '132T-MY8N-EP0E'
    """
    if not 0 <= number < 32**SYMBOLS_COUNT:
        raise ValueError(f"a code stands for a number below 32^{SYMBOLS_COUNT}, not for {number}")
    # move down to the nearest number whose check symbol is a letter or a digit
    number -= max(0, number % _CHECK_MODULUS - (len(ALPHABET) - 1))
    symbols = "".join(ALPHABET[number >> 5 * place & 31] for place in reversed(range(SYMBOLS_COUNT)))
    symbols += ALPHABET[number % _CHECK_MODULUS]
    return "-".join(symbols[start : start + _GROUP] for start in range(0, len(symbols), _GROUP))


def read_code(typed: str) -> str | None:
    """The code in its one written form; None where it cannot be one (length, symbol, or check)."""
    symbols = typed.strip().upper().translate(_READ_AS)
    if len(symbols) != SYMBOLS_COUNT + 1 or any(each not in ALPHABET for each in symbols):
        return None
    number = 0
    for each in symbols[:-1]:
        number = number * 32 + ALPHABET.index(each)
    if ALPHABET.index(symbols[-1]) != number % _CHECK_MODULUS:
        return None
    return code_for(number)
