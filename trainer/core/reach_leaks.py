"""In which reach of a spool air leaks in, and how high in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from trainer.core.purge_parts import InLeak
from trainer.core.spool_case import Spool
from trainer.core.spool_piece import Piece
from trainer.core.spool_places import height_in_body_frac
from trainer.core.spool_reaches import Reach

_SAME_HEIGHT = 1e-9


class ReachLeaks:
    """Shares leaks, told by their height in the whole body, out over its reaches.

    Args:
        spool [record]: the spool
        reaches [record]: its reaches, each after the one that feeds it
        body [record]: all pieces that the gas reaches

    Reference: own definition.
    """

    def __init__(self, spool: Spool, *, reaches: Sequence[Reach], body: Sequence[Piece]) -> None:
        self._spool, self._reaches, self._body = spool, reaches, body
        self._low_m, self._high_m = _span_m(body)

    def within(self, reach: Reach, *, leaks: Sequence[InLeak]) -> tuple[InLeak, ...]:
        """The leaks into a reach, by their height in it.

        Args:
            reach [record]: the reach
            leaks [record]: all leaks, by their height in the body
        Returns:
            [record] leaks

        Reference: own definition.
        """
        low_m, high_m = _span_m(reach.pieces_of(self._spool.pieces))

        def frac(of_body_frac: float | None) -> float | None:
            if of_body_frac is None:
                return None
            return min(1.0, max(0.0, (self._height_m(of_body_frac) - low_m) / (high_m - low_m)))

        return tuple(
            replace(leak, height_frac=frac(leak.height_frac), leaves_at_frac=frac(leak.leaves_at_frac))
            for leak in leaks
            if self._reach_of(leak) is reach
        )

    def _reach_of(self, leak: InLeak) -> Reach:
        """That of the joint, that of a vent of the leak's height, else the first that spans its height."""
        pieces, spool = self._spool.pieces, self._spool
        if leak.height_frac is None:
            return self._with_piece(spool.piece_at(spool.joint_at) if spool.joint_at else -1)
        for vent in spool.vents:
            vent_frac = height_in_body_frac(spool, point=vent.at, body=self._body)
            if abs(vent_frac - leak.height_frac) < _SAME_HEIGHT:
                return self._with_piece(spool.piece_at(vent.at))
        height_m = self._height_m(leak.height_frac)
        for reach in self._reaches:
            low_m, high_m = _span_m(reach.pieces_of(pieces))
            if low_m - _SAME_HEIGHT <= height_m <= high_m + _SAME_HEIGHT:
                return reach
        return self._reaches[0]

    def _with_piece(self, number: int) -> Reach:
        return next((reach for reach in self._reaches if number in reach.numbers), self._reaches[0])

    def _height_m(self, of_body_frac: float) -> float:
        return self._low_m + of_body_frac * (self._high_m - self._low_m)


def _span_m(pieces: Sequence[Piece]) -> tuple[float, float]:
    return min(piece.lowest_m for piece in pieces), max(piece.highest_m for piece in pieces)
