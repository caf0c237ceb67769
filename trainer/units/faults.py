"""What can be wrong with a quantity as typed, each with what to write instead."""

from collections.abc import Mapping

from trainer.units.factors import SHOWN


class UnitFault(ValueError):
    """What was typed cannot be read; `template % facts` is the message, the template what to translate."""

    def __init__(self, template: str, facts: Mapping[str, str]) -> None:
        super().__init__(template % facts)
        self.template = template
        self.facts = dict(facts)


NO_UNIT = "'%(typed)s' has no unit. Write %(example)s or %(other)s."
EMPTY = "Nothing was written. Write a number with its unit, such as %(example)s."
NOT_A_NUMBER = "'%(typed)s' does not start with a number. Write %(example)s or %(other)s."
AMBIGUOUS = (
    "'%(typed)s' can be read in two ways: the sign before its last three digits may stand before decimals or"
    " between thousands. Write %(point)s or %(plain)s."
)
BAD_NUMBER = (
    "'%(typed)s' holds a number that cannot be read. Write it like 1500, 1.5 or 1,5, as in %(example)s."
)
BAD_UNIT = (
    "'%(typed)s' cannot be read as %(dimension)s: the unit '%(unit)s' is not accepted."
    " Accepted: %(accepted)s; for example %(example)s."
)
MINUTES = "'%(typed)s' is in metres. Write min for minutes, as in %(example)s."
TOO_LARGE = "'%(typed)s' is too large to be a number. Write %(example)s or %(other)s."
TOO_LONG = "That is more than %(longest)s characters. Write a number with its unit, such as %(example)s."
IN_PIECES = (
    "'%(typed)s' does not add up: a larger unit comes first and each piece is positive, as in %(example)s."
)


def unit_fault(template: str, typed: str, dimension: str, **more: str) -> UnitFault:
    """The fault, filled with what was typed, what is accepted for the dimension, and examples."""
    accepted, one, other = SHOWN[dimension]
    facts = {"dimension": dimension, "accepted": accepted, "example": one, "other": other}
    from_outside = {name: _printable(text) for name, text in {"typed": typed, **more}.items()}
    return UnitFault(template, {**facts, **from_outside})


def _printable(text: str) -> str:
    return "".join(each if each.isprintable() else "\N{REPLACEMENT CHARACTER}" for each in text)


def called(dimension: str) -> str:
    """What a dimension is called where its name alone could mean something else."""
    return "electric current" if dimension == "current" else dimension


def messages() -> tuple[str, ...]:
    """Every template, and what dimensions are called, for those who translate them."""
    return (
        *map(called, SHOWN), NO_UNIT, EMPTY, NOT_A_NUMBER, AMBIGUOUS, BAD_NUMBER, BAD_UNIT, MINUTES,
        TOO_LARGE, TOO_LONG, IN_PIECES,
    )  # fmt: skip
