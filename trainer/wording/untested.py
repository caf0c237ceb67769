"""Why a purge lies outside what was simulated, in the reader's language and units."""

from collections.abc import Callable, Iterator

from trainer.core import purge_groups, spool_body
from trainer.wording.filled_in import fillings
from trainer.wording.numerals import ENGLISH, localised_text
from trainer.wording.quantities import UnitSystem
from trainer.wording.sentences import in_units_of

_REASONS = (
    purge_groups.UNTESTED_BORE,
    purge_groups.UNTESTED_LENGTH,
    purge_groups.UNTESTED_SLOPE,
    purge_groups.UNTESTED_FLOW,
    purge_groups.UNTESTED_JET,
    spool_body.UNTESTED_SPOOL,
    spool_body.UNTESTED_CROSSING,
)
_BETWEEN = "; "


def untested_words(
    reasons: str, _: Callable[[str], str], *, system: UnitSystem = UnitSystem.METRIC, language: str = ENGLISH
) -> str:
    """The reasons as a caution's facts hold them, one after another."""
    said = [localised_text(_in_words(each, _), language=language) for each in reasons.split(_BETWEEN)]
    return _BETWEEN.join(in_units_of(each, system=system, language=language) for each in said)


def _in_words(reason: str, _: Callable[[str], str]) -> str:
    for template in _REASONS:
        filled = next(fillings(template, reason), None)
        if filled is not None:
            return _(template) % filled
    return reason


def messages() -> Iterator[str]:
    """Everything that is said here, as it is handed to the translate function."""
    yield from _REASONS
