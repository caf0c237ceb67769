"""A high point without a vent that the gas crosses: where air lingers, and the time that it alone needs."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cached_property

from trainer.core.gas_column import gas_column
from trainer.core.interval import Interval
from trainer.core.purge_parts import FlowSegment
from trainer.core.spool_body import SpoolBody
from trainer.core.spool_case import SpoolCase
from trainer.core.spool_outlets import Outlet, vent_shares_frac
from trainer.core.spool_piece import Piece
from trainer.core.spool_reaches import Reach, ReachOutlet, case_of_reach
from trainer.core.spool_ways import Crossing, way_between


class CrossedHighPoint:
    """A high point that the way from the inlet to a vent leads over.

    Args:
        case [record]: the purge of the spool
        crossing [record]: the high point and the way over it

    Reference: own definition.
    """

    def __init__(self, case: SpoolCase, crossing: Crossing) -> None:
        self._case, self._crossing = case, crossing
        self._pieces = case.spool.pieces
        self._numbers = crossing.crest if crossing.is_barrier else crossing.high.pieces

    @property
    def place(self) -> str:
        """Name of the part at its highest point.

        Returns:
            [text] name
        """
        return self._pieces[self._crossing.high.top].part

    @property
    def mouth(self) -> str:
        """Name of the part by which the gas comes to it.

        Returns:
            [text] name
        """
        inside = self._way.index(self._first)
        return self._pieces[self._way[max(0, inside - 1)]].part

    @property
    def top(self) -> int:
        """Number of the highest piece of the way over it; what stands higher may be dead and off the way.

        Returns:
            [-] number
        """
        over = [number for number in self._way if number in self._numbers]
        return max(over, key=lambda number: self._case.above_pool_m(self._pieces[number].middle_m))

    @property
    def volume_m3(self) -> float:
        """Volume of the pipe in which the gas runs below lingering air.

        Returns:
            [m3] volume
        """
        return sum(piece.volume_m3 for piece in self._body)

    @property
    def length_m(self) -> float:
        """Length of that pipe along the way.

        Returns:
            [m] length
        """
        return sum(self._pieces[number].length_m for number in self._way if number in self._numbers)

    @property
    def vents_beyond(self) -> tuple[int, ...]:
        """Numbers of the vents that the gas comes to over it.

        Returns:
            [-] numbers
        """
        return tuple(number for number, way in enumerate(self._ways) if self._numbers & set(way))

    def time_to(self, o2_frac: float) -> Interval | None:
        """Time that it alone needs, pure gas running in at its bottom and out at its bottom from the start.

        Args:
            o2_frac [-]: oxygen, mole fraction
        Returns:
            [s] the time between its ends; None for the source's own oxygen or less

        Reference: as `purge`, for a section with a low inlet and a low vent.
        """
        return self._alone.time_to(o2_frac)

    @cached_property
    def _alone(self) -> SpoolBody:
        shares = vent_shares_frac(self._case)
        share_frac = sum(shares[number] for number in self.vents_beyond)
        reach = Reach(
            numbers=tuple(sorted(self._numbers)),
            entry=self._first,
            outlets=(ReachOutlet(outlet=Outlet(seen_m=0.0, half_m=0.0, share_frac=1.0), piece=self._first),),
            share_frac=share_frac,
            is_first=False,
            is_crest=True,
        )
        flow_m3_s = self._case.segments[0].flow_m3_s * share_frac
        steady = replace(
            case_of_reach(self._case, reach=reach),
            segments=(FlowSegment(flow_m3_s=flow_m3_s, duration_s=math.inf),),
            leaks=(),
        )
        return SpoolBody(steady, layers=gas_column, is_crossed=True)

    @cached_property
    def _body(self) -> list[Piece]:
        return [self._pieces[number] for number in sorted(self._numbers)]

    @cached_property
    def _ways(self) -> list[tuple[int, ...]]:
        spool = self._case.spool
        inlet = spool.piece_at(spool.inlet_at)
        ends = [spool.piece_at(vent.at) for vent in spool.vents]
        return [way_between(self._pieces, start=inlet, end=end) for end in ends]

    @cached_property
    def _way(self) -> tuple[int, ...]:
        return self._ways[self.vents_beyond[0]]

    @property
    def _first(self) -> int:
        return next(number for number in self._way if number in self._numbers)
