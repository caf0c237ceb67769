"""Numbers as a person types them, in the writing of the page's language, and as they are kept."""

from collections.abc import Mapping

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
    return in_own_words(fault.template, fault.facts)


def in_own_words(template: str, facts: Mapping[str, str]) -> str:
    """What is said of something typed, with what is filled in as the reader would type it."""
    filled = {name: as_typed(text) for name, text in facts.items()}
    if "dimension" in filled:
        filled["dimension"] = gettext(units.called(facts["dimension"]))
    reason = facts.get("why")
    if reason:
        filled["why"] = gettext(reason)
    message: str = gettext(template) % filled if filled else gettext(template)
    return message


def _sign() -> str:
    return decimal_sign(get_locale().language)
