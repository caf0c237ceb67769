"""The reaches of a spool whose gas has to cross high points: up to each, over it, and down from it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.core.gas import sinks_in_air
from trainer.core.purge_case import PurgeCase
from trainer.core.purge_parts import Inlet, VentHole
from trainer.core.spool_case import SpoolCase
from trainer.core.spool_high_points import neighbours_of
from trainer.core.spool_outlets import Outlet, vent_outlets
from trainer.core.spool_piece import Piece
from trainer.core.spool_straight import Through, straight_case
from trainer.core.spool_ways import SpoolLayout, patch_of, way_between
from trainer.core.terms import InletEnd

# Gas that spills over an edge runs along the bottom, as through the low vent of the simulated sections.
_SPILLS_AT_FRAC = 0.075


@dataclass(frozen=True, kw_only=True)
class ReachOutlet:
    """Where gas leaves a reach.

    Args:
        outlet [record]: the hole, with its share of what leaves the reach
        piece [-]: number of the piece that it lies on
        enters [-]: number of the piece beyond, with which the next reach begins; None for a vent

    Reference: own definition.
    """

    outlet: Outlet
    piece: int
    enters: int | None = None


@dataclass(frozen=True, kw_only=True)
class Reach:
    """Pieces of a spool between two places where gas changes from rising to spilling over or falling.

    Args:
        numbers [-]: numbers of its pieces
        entry [-]: number of the piece where the gas enters
        outlets [record]: where it leaves
        share_frac [-]: share of the whole flow that goes through it
        is_first [bool]: whether the inlet itself lies in it
        is_crest [bool]: whether it is the highest place that the gas spills over

    Reference: own definition.
    """

    numbers: tuple[int, ...]
    entry: int
    outlets: tuple[ReachOutlet, ...]
    share_frac: float
    is_first: bool
    is_crest: bool

    def pieces_of(self, pieces: Sequence[Piece]) -> tuple[Piece, ...]:
        """Its pieces.

        Args:
            pieces [record]: those of the spool
        Returns:
            [record] pieces

        Reference: own definition.
        """
        return tuple(pieces[number] for number in self.numbers)


def reaches_of(case: SpoolCase, *, layout: SpoolLayout) -> tuple[Reach, ...]:
    """The reaches of a spool, each after the one that feeds it.

    The way is cut where it comes on to a crest and where it leaves it.

    Args:
        case [record]: the purge
        layout [record]: what the gas reaches
    Returns:
        [record] reaches; one only where no high point has to be crossed

    Reference: own definition.
    """
    return tuple(_Cutting(case, layout).reaches())


def case_of_reach(case: SpoolCase, *, reach: Reach) -> PurgeCase:
    """The straight section that stands for a reach.

    Args:
        case [record]: the purge of the spool
        reach [record]: the reach
    Returns:
        [record] case: gas comes on to a crest at the bottom, and into what falls from it at the top; its
            flows are those of the whole spool

    Reference: own definition.
    """
    pieces = case.spool.pieces
    bore_m = pieces[reach.entry].bore_m
    last = max(reach.outlets, key=lambda each: each.outlet.seen_m)
    height_frac = 0.0 if reach.is_crest else 1.0
    inlet = Inlet(
        height_frac=height_frac if sinks_in_air(case.gas) else 1.0 - height_frac,
        end=InletEnd.DIFFUSER,
        face_area_m2=math.pi / 4.0 * bore_m**2,
    )
    through = Through(
        start=reach.entry,
        end=last.piece,
        inlet=case.inlet if reach.is_first else inlet,
        vent=VentHole(height_frac=0.5, diameter_m=bore_m / 2.0),
        segments=case.segments,
    )
    return straight_case(case, body=reach.pieces_of(pieces), through=through)


def spilling_outlet(case: SpoolCase, *, way: Sequence[int]) -> ReachOutlet:
    """Where gas spills over: a little above the highest bottom of the pipe along a way.

    Args:
        case [record]: the purge of the spool
        way [-]: numbers of the pieces of the way, in order
    Returns:
        [record] the only outlet of what lies before it

    Reference: own definition.
    """
    pieces = case.spool.pieces
    bottoms_m = [
        case.above_pool_m(pieces[number].middle_m) - pieces[number].leaning_m / 2.0 for number in way
    ]
    bore_m = pieces[way[bottoms_m.index(max(bottoms_m))]].bore_m
    outlet = Outlet(seen_m=max(bottoms_m) + _SPILLS_AT_FRAC * bore_m, half_m=0.0, share_frac=1.0)
    return ReachOutlet(outlet=outlet, piece=way[-1])


class _Cutting:
    """Cuts the body of a spool where gas comes on to a crest and where it leaves it."""

    def __init__(self, case: SpoolCase, layout: SpoolLayout) -> None:
        self._case, self._layout = case, layout
        self._pieces = case.spool.pieces
        self._crests = [crossing.crest for crossing in layout.barriers]
        self._inlet = case.spool.piece_at(case.spool.inlet_at)
        self._beyond = self._shares_beyond()

    def reaches(self) -> list[Reach]:
        made, waiting = [], [self._inlet]
        while waiting:
            reach = self._reach_from(waiting.pop(0))
            made.append(reach)
            waiting += [each.enters for each in reach.outlets if each.enters is not None]
        return made

    def _shares_beyond(self) -> dict[tuple[int, int], float]:
        """Share of the outflow that crosses from one piece of the way to the next."""
        crossing: dict[tuple[int, int], float] = {}
        for vent, hole in zip(self._case.spool.vents, vent_outlets(self._case), strict=True):
            way = way_between(self._pieces, start=self._inlet, end=self._case.spool.piece_at(vent.at))
            for step in zip(way, way[1:], strict=False):
                crossing[step] = crossing.get(step, 0.0) + hole.share_frac
        return {step: share for step, share in crossing.items() if set(step) <= self._layout.way}

    def _is_cut(self, step: tuple[int, int]) -> bool:
        return any((step[0] in crest) != (step[1] in crest) for crest in self._crests)

    def _reach_from(self, entry: int) -> Reach:
        cuts = {step for step in self._beyond if self._is_cut(step)}
        joined = [
            [other for other in others if (number, other) not in cuts and (other, number) not in cuts]
            for number, others in enumerate(neighbours_of(self._pieces))
        ]
        numbers = patch_of(joined, start=entry, within=self._layout.body)
        is_crest = any(entry in crest for crest in self._crests)
        outlets = [*self._vents_in(numbers), *self._leading_on(numbers, cuts, is_crest)]
        whole = sum(each.outlet.share_frac for each in outlets)
        return Reach(
            numbers=tuple(sorted(numbers)),
            entry=entry,
            outlets=tuple(
                replace(each, outlet=replace(each.outlet, share_frac=each.outlet.share_frac / whole))
                for each in outlets
            ),
            share_frac=whole,
            is_first=entry == self._inlet,
            is_crest=is_crest,
        )

    def _vents_in(self, numbers: frozenset[int]) -> list[ReachOutlet]:
        spool = self._case.spool
        placed = [
            ReachOutlet(outlet=hole, piece=spool.piece_at(vent.at))
            for vent, hole in zip(spool.vents, vent_outlets(self._case), strict=True)
        ]
        return [each for each in placed if each.piece in numbers and each.outlet.share_frac > 0.0]

    def _leading_on(
        self, numbers: frozenset[int], cuts: set[tuple[int, int]], is_crest: bool
    ) -> list[ReachOutlet]:
        spilling = spilling_outlet(self._case, way=sorted(numbers & self._layout.way)).outlet
        return [
            ReachOutlet(
                outlet=Outlet(
                    seen_m=spilling.seen_m if is_crest else self._top_m(step[0]),
                    half_m=0.0,
                    share_frac=self._beyond[step],
                ),
                piece=step[0],
                enters=step[1],
            )
            for step in sorted(cuts)
            if step[0] in numbers
        ]

    def _top_m(self, number: int) -> float:
        piece = self._pieces[number]
        return piece.highest_m if sinks_in_air(self._case.gas) else -piece.lowest_m
