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
from trainer.core.spool_ways import STEEP_DEG, SpoolLayout, patch_of, way_between
from trainer.core.terms import InletEnd

# Gas that spills over an edge runs along the bottom, as through the low vent of the simulated sections.
_SPILLS_AT_FRAC = 0.075
_LEVEL_DEG = 0.05


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
        is_crest [bool]: whether it is the highest place that the gas spills over, with what falls gently
            after it: there the gas runs along one side of the pipe

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

    The way is cut where it comes on to a crest and where it leaves it, and beyond that where it begins to
    fall steeply and where it ends to.

    Args:
        case [record]: the purge
        layout [record]: what the gas reaches
    Returns:
        [record] reaches; one only where no high point has to be crossed

    Example:
        >>> from trainer.core.spool_places import RISER_CASE
        >>> from trainer.core.spool_ways import layout_of
        >>> layout = layout_of(RISER_CASE.spool, gas_sinks=True)
        >>> len(reaches_of(RISER_CASE, layout=layout))
        1

    Reference: own definition.
    """
    return tuple(_Cutting(case, layout).reaches())


def case_of_reach(case: SpoolCase, *, reach: Reach) -> PurgeCase:
    """The straight section that stands for a reach.

    Args:
        case [record]: the purge of the spool
        reach [record]: the reach
    Returns:
        [record] case: over a crest gas runs as in a level section with inlet and vent low, into what lies
            beyond it falls from the top; its flows are those of the whole spool

    Example:
        >>> from trainer.core.spool_places import RISER_CASE
        >>> from trainer.core.spool_ways import layout_of
        >>> layout = layout_of(RISER_CASE.spool, gas_sinks=True)
        >>> (reach,) = reaches_of(RISER_CASE, layout=layout)
        >>> round(case_of_reach(RISER_CASE, reach=reach).section.length_m, 2)
        0.7

    Reference: own definition.
    """
    pieces = case.spool.pieces
    bore_m = pieces[reach.entry].bore_m
    last = max(reach.outlets, key=lambda each: each.outlet.seen_m)
    sinks = sinks_in_air(case.gas)
    inlet = Inlet(
        height_frac=0.0 if reach.is_crest == sinks else 1.0,
        end=InletEnd.DIFFUSER,
        face_area_m2=math.pi / 4.0 * bore_m**2,
    )
    through = Through(
        start=reach.entry,
        end=last.piece,
        inlet=case.inlet if reach.is_first else inlet,
        vent=VentHole(
            height_frac=_SPILLS_AT_FRAC if sinks else 1.0 - _SPILLS_AT_FRAC,
            diameter_m=_SPILLS_AT_FRAC * bore_m,
        ),
        segments=case.segments,
        is_level=reach.is_crest,
    )
    return straight_case(case, body=reach.pieces_of(pieces), through=through)


class _Cutting:
    """Cuts the body of a spool where gas comes on to a crest and where it leaves it."""

    def __init__(self, case: SpoolCase, layout: SpoolLayout) -> None:
        self._case, self._layout = case, layout
        self._pieces = case.spool.pieces
        self._inlet = case.spool.piece_at(case.spool.inlet_at)
        self._ways = [
            way_between(self._pieces, start=self._inlet, end=case.spool.piece_at(vent.at))
            for vent in case.spool.vents
        ]
        self._crest_of = {
            number: place for place, crossing in enumerate(layout.barriers) for number in crossing.crest
        }
        self._drops: set[int] = set()
        for way in self._ways:
            self._follow(way)
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
        for way, hole in zip(self._ways, vent_outlets(self._case), strict=True):
            for step in zip(way, way[1:], strict=False):
                crossing[step] = crossing.get(step, 0.0) + hole.share_frac
        return {step: share for step, share in crossing.items() if set(step) <= self._layout.way}

    def _follow(self, way: Sequence[int]) -> None:
        """Beyond a crest: what falls gently from it goes on as it, what falls steeply is a drop."""
        is_beyond = False
        for before, number in zip(way, way[1:], strict=False):
            is_beyond = is_beyond or before in self._crest_of
            if not is_beyond or number in self._crest_of:
                continue
            fall_deg = self._fall_deg(before, number)
            if fall_deg >= STEEP_DEG:
                self._drops.add(number)
            elif fall_deg > _LEVEL_DEG and before in self._crest_of:
                self._crest_of[number] = self._crest_of[before]

    def _fall_deg(self, before: int, number: int) -> float:
        """How steeply the gas falls, as it sees it, on its way from a piece to the next."""
        piece = self._pieces[number]
        onwards = 1.0 if piece.before == before else -1.0
        return -onwards * self._case.above_pool_m(piece.slope_deg)

    def _is_cut(self, step: tuple[int, int]) -> bool:
        crests = [self._crest_of.get(number) for number in step]
        return crests[0] != crests[1] or (step[0] in self._drops) != (step[1] in self._drops)

    def _reach_from(self, entry: int) -> Reach:
        cuts = {step for step in self._beyond if self._is_cut(step)}
        joined = [
            [other for other in others if (number, other) not in cuts and (other, number) not in cuts]
            for number, others in enumerate(neighbours_of(self._pieces))
        ]
        numbers = patch_of(joined, start=entry, within=self._layout.body)
        is_crest = entry in self._crest_of
        outlets = [*self._vents_in(numbers), *self._leading_on(numbers, cuts)]
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

    def _leading_on(self, numbers: frozenset[int], cuts: set[tuple[int, int]]) -> list[ReachOutlet]:
        return [
            ReachOutlet(
                outlet=Outlet(seen_m=self._leaves_at_m(*step), half_m=0.0, share_frac=self._beyond[step]),
                piece=step[0],
                enters=step[1],
            )
            for step in sorted(cuts)
            if step[0] in numbers
        ]

    def _leaves_at_m(self, last: int, following: int) -> float:
        """On to a crest from the top, out of a drop at its foot, on to a drop along the bottom."""
        piece, sinks = self._pieces[last], sinks_in_air(self._case.gas)
        if following in self._crest_of:
            return piece.highest_m if sinks else -piece.lowest_m
        if last in self._drops:
            return piece.lowest_m if sinks else -piece.highest_m
        bottom_m = self._case.above_pool_m(piece.middle_m) - piece.leaning_m / 2.0
        return bottom_m + _SPILLS_AT_FRAC * piece.bore_m
