"""The amount of a stated fact, as the trade tells it in the reader's units."""

from trainer.domain.quantities import Dimension
from trainer.wording.numerals import ENGLISH
from trainer.wording.quantities import UnitSystem, quantity_words

_CALLED_BY_LITRES = "water_volume"  # a cylinder is, whatever the reader's units are
# A bore of 6.35 mm is sold as 6.3 mm, the size that ISO 3821 gives hoses.
_TWO_FIGURES_BELOW_M = 0.01


def told_amount(
    path: str, value: float, dimension: Dimension, *, system: UnitSystem, language: str = ENGLISH
) -> str:
    """The SI value at a path of the set-up in words."""
    if path.endswith(_CALLED_BY_LITRES):
        return quantity_words(value, dimension, language=language)
    is_small_bore = dimension is Dimension.LENGTH and value < _TWO_FIGURES_BELOW_M
    figures = 2 if is_small_bore else 3
    return quantity_words(value, dimension, system=system, figures=figures, language=language)
