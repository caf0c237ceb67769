"""The body of a spool whose gas has to cross high points without a vent; asked as any other purge."""

from __future__ import annotations

from collections.abc import Callable

from trainer.core.chain_courses import ChainCourses
from trainer.core.column import Column, Floats
from trainer.core.purge_case import PurgeCase
from trainer.core.spool_body import SpoolBody


class ChainBody(SpoolBody):
    """The body of a spool as reaches in series; asked as any other purge.

    Args:
        straight [record]: the straight section of the same volume
        chain [record]: the courses that its reaches take in series
        layers [record]: gives the layers of the body, for its height

    Reference: as `purge_spool`.
    """

    def __init__(
        self, straight: PurgeCase, *, chain: ChainCourses, layers: Callable[[PurgeCase], Column]
    ) -> None:
        super().__init__(straight, layers=layers, is_crossed=True)
        self.courses = self._chain = chain

    def mouth_air_frac(self, piece: int, *, height_m: float, times_s: Floats) -> Floats:  # noqa: ARG002
        """Air fraction at the mouth of a dead leg: the most there is in its reach.

        Args:
            piece [-]: number of the piece at the mouth
            height_m [m]: its height, which does not matter here
            times_s [s]: times since the gas was turned on
        Returns:
            [-] air fraction for each time
        """
        return self._chain.reach_air_frac(piece, times_s=times_s)

    def root_s_m3(self, piece: int) -> float:
        """What a steady trickle of air at the mouth of a dead leg adds at the root.

        Args:
            piece [-]: number of the piece at the mouth
        Returns:
            [s/m3] air fraction for each m3/s of air
        """
        return self._chain.root_s_m3(piece)
