"""Numbers as a person types them, in the writing of the page's language, and as they are kept."""

from flask_babel import get_locale, gettext

from trainer import units
from trainer.wording.numerals import decimal_sign


def kept(typed: str) -> str:
    """What was typed as it is kept and sent on: with a point before decimals."""
    return units.kept_from_typed(typed, sign=_sign())


def as_typed(kept_text: str) -> str:
    """What is kept as the reader of this page would type it."""
    return units.typed_from_kept(kept_text, sign=_sign())


def unit_fault_words(fault: units.UnitFault) -> str:
    """What is wrong with something typed, and examples, in the reader's own writing."""
    facts = {name: as_typed(text) for name, text in fault.facts.items()}
    dimension = facts.get("dimension")
    if dimension:
        facts["dimension"] = gettext(units.called(dimension))
    message: str = gettext(fault.template, **facts)
    return message


def _sign() -> str:
    return decimal_sign(get_locale().language)
