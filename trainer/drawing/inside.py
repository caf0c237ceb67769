"""What is known of the gas and the air inside, for a drawing that is made once the core was asked."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from trainer.core.terms import RootGrade


@dataclass(frozen=True, kw_only=True)
class Inside:
    """Parts of a spool where air stays and where it lingers under way; the gas of a section in level bands.

    `bands` hold the grade that the root would get from the oxygen there, from the bottom up.
    """

    dead_legs: Collection[str] = ()
    crossed: Collection[str] = ()
    bands: Sequence[RootGrade] = ()


NOTHING_KNOWN = Inside()
